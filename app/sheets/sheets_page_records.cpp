#include <QTabBar>
#include <algorithm>

#include "app/sheets/sheet_table.h"
#include "app/sheets/sheets_page.h"
#include "db/one_record.h"

// The sheets as the place where readings, limits and sheets are found.

namespace rodway {

bool SheetsPage::shows(RecordKind kind) const {
    return kind == RecordKind::reading || kind == RecordKind::limit || kind == RecordKind::sheet;
}

void SheetsPage::go_to_record(const RecordRef& record) {
    if (session_ == nullptr || !sheets_) return;
    const auto fields = fields_now(session_->shop(), record);
    if (!fields) return;
    const auto text = [&fields](const char* name) {
        const auto found = fields->find(name);
        return found == fields->end() ? std::string() : found->second;
    };
    if (record.kind == RecordKind::sheet) {
        if (sheets_->kind(text("kind")) != nullptr) open_kind(text("kind"));
        return;
    }
    const std::string wanted = text("quantity");
    for (const SheetKind& kind : sheets_->kinds()) {
        for (const Quantity& quantity : kind.quantities) {
            if (quantity.id != wanted) continue;
            open_kind(kind.id);
            const auto place = std::find(places_.begin(), places_.end(), quantity.place);
            tabs_->setCurrentIndex(static_cast<int>(place - places_.begin()));
            go_to_box(wanted, text("position"));
            return;
        }
    }
}

void SheetsPage::go_to_box(const std::string& quantity, const std::string& position) {
    for (int row = 0; row < table_->rowCount(); ++row) {
        for (int column = 0; column < table_->columnCount(); ++column) {
            const QSignalBlocker quiet(table_);
            table_->setCurrentCell(row, column);
            const auto spot = table_->spot();
            if (!spot || spot->quantity.id != quantity || !spot->box ||
                (!position.empty() && spot->box->position != position)) {
                continue;
            }
            table_->setFocus();
            show_spot();
            return;
        }
    }
    table_->go_to_start();
}

} // namespace rodway
