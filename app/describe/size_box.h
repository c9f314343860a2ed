#pragma once

#include <QWidget>
#include <functional>

#include "core/base/result.h"

class QLabel;
class QLineEdit;

namespace rodway {

/// A box in which one size is typed. Enter, or leaving it, keeps what was typed; what can't be kept
/// stays as typed, with the reason below. Under it stands how the size stands: measured, assumed,
/// needed.
class SizeBox : public QWidget {
    Q_OBJECT

  public:
    /// Keeps a text; an empty one takes the size away.
    using Keep = std::function<Result<Done>(const std::string& text)>;

    /// `name`: what it is of, whole ("Rod, overall (intake)").
    SizeBox(const QString& name, bool small, Keep keep, QWidget* parent = nullptr);

    /// What is kept, and how it stands. A box being typed in, or refused, is left alone.
    void show_kept(const QString& text, const QString& sign, const QString& stand);
    /// What `same` and a ditto mark stand for; empty: for nothing.
    void set_same(std::function<QString()> same) { same_ = std::move(same); }
    void refuse(const QString& why);
    [[nodiscard]] QLineEdit* edit() const { return edit_; }
    [[nodiscard]] QString trouble() const;

  signals:
    void focused();
    /// Enter was pressed and what stands here is kept.
    void done();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    bool keep_typed();

    QString name_;
    Keep keep_;
    std::function<QString()> same_;
    QLineEdit* edit_;
    QLabel* sign_;
    QLabel* stand_;
    QLabel* trouble_;
    QString kept_;
    bool small_;
};

} // namespace rodway
