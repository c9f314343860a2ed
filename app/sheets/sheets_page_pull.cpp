#include "app/sheets/pull_dialog.h"
#include "app/sheets/sheets_page.h"
#include "app/words/error_text.h"

// A dyno pull from a file, onto its sheet.

namespace rodway {

void SheetsPage::import_pull() {
    if (session_ == nullptr || !sheets_) {
        return;
    }
    // Of its own: another window's edits may make the page's sheets anew while the dialog stands.
    const auto sheets = BuildSheets::load(session_->shop(), build_id_);
    if (!sheets) {
        emit failed(words::error_text(sheets.error()));
        return;
    }
    PullDialog dialog(*sheets, this);
    if (dialog.exec() != QDialog::Accepted || !dialog.pull()) {
        return;
    }
    const PullToKeep pull = *dialog.pull();
    const auto kept = keep_pull(*session_, build_id_, *sheets, pull);
    if (!kept && !is_waiting(kept.error())) {
        emit failed(words::error_text(kept.error()));
        return;
    }
    if (kept) {
        emit said(tr("Kept as pull %1: %2 readings. Undo takes all of them back.")
                      .arg(pull.number)
                      .arg(pull.readings.size()));
    }
}

} // namespace rodway
