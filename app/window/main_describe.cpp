#include <QFileInfo>

#include "app/describe/describe_page.h"
#include "app/known_engines/engine_file_dialog.h"
#include "app/known_engines/known_engines_page.h"
#include "app/valvetrain/panel_chooser.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"

// What the window does for the places where an engine is described and kept.

namespace rodway {

void MainWindow::connect_describe_page() {
    connect(describe_, &DescribePage::valvetrain_wanted, this, [this] { go_to(valvetrain_); });
    connect(describe_, &DescribePage::fit_wanted, this, [this] {
        valvetrain_->panels().show_panel("readings");
        go_to(valvetrain_);
    });
    connect(describe_, &DescribePage::lift_table_wanted, this, &MainWindow::import_lift_table);
    connect(known_engines_, &KnownEnginesPage::build_wanted, this, &MainWindow::new_build_from);
}

void MainWindow::ask_set_up() {
    EngineFileDialog dialog(tr("Import a set-up"), tr("Take it in"), this);
    if (dialog.exec() == QDialog::Accepted) {
        take_set_up(QFileInfo(dialog.file()), dialog.engine()->fields);
    }
}

} // namespace rodway
