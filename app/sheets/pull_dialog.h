#pragma once

#include <QDialog>
#include <optional>

#include "app/work/build_sheets.h"
#include "app/work/pull_import.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

/// Takes a dyno pull from a file. What the file doesn't say is asked for; what was read is shown
/// before it is kept.
class PullDialog : public QDialog {
    Q_OBJECT

  public:
    /// `sheets` must outlive the dialog.
    explicit PullDialog(const BuildSheets& sheets, QWidget* parent = nullptr);

    /// What was read; nothing until a file is good.
    [[nodiscard]] const std::optional<PullToKeep>& pull() const { return pull_; }
    /// As if it had been typed into the file's box.
    void choose(const QString& file);

  private:
    void read();

    const BuildSheets& sheets_;
    std::optional<PullToKeep> pull_;
    QLineEdit* file_;
    QComboBox* barometer_;
    QLineEdit* altitude_;
    QComboBox* separator_;
    QComboBox* decimal_;
    QLabel* answer_;
    QPushButton* good_;
};

} // namespace rodway
