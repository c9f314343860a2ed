#pragma once

#include <QDialog>
#include <optional>

#include "core/build/records.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

/// Takes an engine from a file, a known engine's or a set-up's. What was read is shown before
/// anything is kept.
class EngineFileDialog : public QDialog {
    Q_OBJECT

  public:
    /// `take`: what the button that takes it says.
    EngineFileDialog(const QString& title, const QString& take, QWidget* parent = nullptr);

    /// What was read; there once the dialog is accepted.
    [[nodiscard]] const std::optional<KnownEngine>& engine() const { return engine_; }
    [[nodiscard]] QString file() const;

  private:
    void read();

    QLineEdit* file_;
    QLabel* answer_;
    QPushButton* good_;
    std::optional<KnownEngine> engine_;
};

/// An engine in a few lines: layout, trains, how well its sizes are known, its least clearance.
[[nodiscard]] QString engine_in_words(const SetUpFields& fields);

} // namespace rodway
