#pragma once

#include <QDialog>
#include <set>
#include <string>
#include <vector>

#include "core/build/plan_changes.h"

class QPushButton;
class QTreeWidget;

namespace rodway {

/// In what a build differs from its plan, each change with a tick: what is ticked is taken over.
class PlanChangesDialog : public QDialog {
    Q_OBJECT

  public:
    PlanChangesDialog(const QString& build, const std::vector<PlanChange>& changes,
                      QWidget* parent = nullptr);
    /// Ids of the ticked changes.
    [[nodiscard]] std::set<std::string> chosen() const;

  private:
    void tick_all(bool ticked);
    void enable();

    QTreeWidget* list_;
    QPushButton* take_;
};

} // namespace rodway
