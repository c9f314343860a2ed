#pragma once

#include <QDialog>
#include <vector>

#include "core/build/edit.h"
#include "core/build/records.h"

class QLineEdit;
class QListWidget;

namespace rodway {

/// Which builds are a customer's. Only those are reached when he is erased.
class CustomerBuildsDialog : public QDialog {
    Q_OBJECT

  public:
    CustomerBuildsDialog(const Customer& customer, std::vector<Build> builds,
                         QWidget* parent = nullptr);

    /// What was ticked and unticked; a build without a customer's name takes this one's.
    [[nodiscard]] std::vector<Edit> edits() const;

  private:
    void show_filtered(const QString& words);

    Customer customer_;
    std::vector<Build> builds_;
    QLineEdit* filter_;
    QListWidget* list_;
};

} // namespace rodway
