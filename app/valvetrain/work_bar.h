#pragma once

#include <QTimer>
#include <QWidget>

namespace rodway {

/// Says that something is being worked out, and lets it be stopped. It is there only while the work
/// is: short work doesn't show.
class WorkBar : public QWidget {
    Q_OBJECT

  public:
    explicit WorkBar(const QString& what, QWidget* parent = nullptr);
    void begin();
    void end();

  signals:
    void stop_wanted();

  private:
    QTimer patience_;
};

} // namespace rodway
