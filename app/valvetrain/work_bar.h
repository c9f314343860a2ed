#pragma once

#include <QTimer>
#include <QWidget>
#include <functional>

class QProgressBar;

namespace rodway {

/// Says that something is being worked out, and lets it be stopped. It is there only while the work
/// is: short work doesn't show.
class WorkBar : public QWidget {
    Q_OBJECT

  public:
    explicit WorkBar(const QString& what, QWidget* parent = nullptr);
    /// `part`, if given, says how much is done, 0 to 1; asked while the bar is seen.
    void begin(std::function<double()> part = {});
    void end();

  signals:
    void stop_wanted();

  private:
    void show_part();

    QProgressBar* bar_;
    QTimer patience_;
    QTimer look_;
    std::function<double()> part_;
};

} // namespace rodway
