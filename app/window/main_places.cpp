#include "app/account/account_page.h"
#include "app/bench/bench_place.h"
#include "app/build/build_page.h"
#include "app/parts/build_parts.h"
#include "app/parts/parts_page.h"
#include "app/sheets/sheets_page.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"

// Where the Bench leads.

namespace rodway {

void MainWindow::go_to_place(qint64 build_id, const BenchPlace& place) {
    take_build(build_id);
    switch (place.where) {
        case BenchPlace::Where::build:
            show_record(build_, place.record);
            break;
        case BenchPlace::Where::valvetrain:
            go_to(valvetrain_);
            break;
        case BenchPlace::Where::sheets:
            sheets_->open_kind(place.sheet_kind);
            show_record(sheets_, place.record);
            break;
        case BenchPlace::Where::parts:
            parts_->show_buy_list(false);
            go_to(parts_);
            if (place.record) {
                parts_->of_build().select(place.record->id);
            }
            break;
        case BenchPlace::Where::account:
            account_->show_tab(AccountPage::Tab::extras);
            show_record(account_, place.record);
            break;
    }
}

void MainWindow::show_record(PlacePage* page, const std::optional<RecordRef>& record) {
    go_to(page);
    if (record && page->shows(record->kind)) {
        page->go_to_record(*record);
    }
}

} // namespace rodway
