#include <QApplication>
#include <QLabel>

#include "app/window/main_window.h"
#include "app/words/counted.h"
#include "app/words/error_text.h"
#include "app/work/build_folder.h"
#include "app/work/clock.h"
#include "app/work/output_file.h"

// A build out of this shop and into another.

namespace rodway {
namespace {

/// Shows that the window is at work as long as it lives.
class Busy {
  public:
    Busy() { QApplication::setOverrideCursor(Qt::WaitCursor); }
    Busy(const Busy&) = delete;
    Busy& operator=(const Busy&) = delete;
    ~Busy() { QApplication::restoreOverrideCursor(); }
};

} // namespace

void MainWindow::export_build_folder(const QString& folder) {
    const auto out = [&] {
        const Busy busy;
        return export_build(session_->shop(), build_id_, folder);
    }();
    if (!out) {
        complain(words::error_in_file(folder, out.error()));
        return;
    }
    const QString what = tr("Wrote %1: %2 records, %3 acts, %4 photos.")
                             .arg(out->folder, QString::number(out->records),
                                  QString::number(out->acts), QString::number(out->photos));
    if (out->photos_missing.empty()) {
        say(what);
    } else {
        complain(what + '\n' +
                 words::counted(static_cast<int>(out->photos_missing.size()),
                                tr("1 photo had no sound file in the shop and is not in it."),
                                tr("%1 photos had no sound file in the shop and are not in it.")));
    }
}

void MainWindow::import_build_folder(const QString& folder) {
    const auto put = [&] {
        const Busy busy;
        return import_build(session_->shop(), folder, session_->who().toStdString(),
                            session_->now());
    }();
    if (!put) {
        complain(tr("%1\nNothing was taken in.").arg(words::error_in_file(folder, put.error())));
        return;
    }
    session_->look_for_changes();
    open_build(put->build_id);
    say(tr("The build is taken in with its history, as number %1.").arg(put->build_id));
    if (!put->photos_missing.empty()) {
        complain(words::counted(static_cast<int>(put->photos_missing.size()),
                                tr("1 photo was lost before it was exported."),
                                tr("%1 photos were lost before it was exported.")));
    }
}

void MainWindow::export_readings(const QString& file) {
    const auto bytes = readings_csv_of(session_->shop(), build_id_);
    if (!bytes) {
        complain(words::error_text(bytes.error()));
        return;
    }
    if (const auto written = write_output(file, *bytes); !written) {
        complain(words::error_in_file(file, written.error()));
        return;
    }
    say(tr("Wrote %1.").arg(file));
}

} // namespace rodway
