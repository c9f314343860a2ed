#include "app/account/account_page.h"
#include "app/bench/bench_place.h"
#include "app/build/build_page.h"
#include "app/handoff/book_page.h"
#include "app/parts/build_parts.h"
#include "app/parts/parts_page.h"
#include "app/sheets/sheets_page.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"
#include "core/sheets/sheet_kinds.h"

// Where the Bench leads.

namespace rodway {
namespace {

/// The sheet on which something missing would stand.
std::string sheet_of_missing(const MissingFact& fact) {
    if (fact.kind == MissingKind::sheet_incomplete) {
        return fact.subject;
    }
    const std::string quantity = fact.kind == MissingKind::seals     ? "seal_numbers"
                                 : fact.kind == MissingKind::no_pull ? "pull_torque"
                                                                     : fact.subject;
    const SheetKind* kind = sheet_of_quantity(quantity);
    return kind == nullptr ? std::string() : kind->id;
}

} // namespace

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

void MainWindow::go_to_missing(const MissingFact& fact) {
    switch (fact.kind) {
        case MissingKind::shop_name:
            return go_to_shop();
        case MissingKind::customer:
        case MissingKind::stage_unsigned:
        case MissingKind::sign_off_overtaken:
        case MissingKind::photo_without_words:
        case MissingKind::photo_gone:
            return show_record(build_, fact.record);
        case MissingKind::rod_touches:
        case MissingKind::rod_fails:
        case MissingKind::rod_undecided:
        case MissingKind::engine:
            return go_to(valvetrain_);
        case MissingKind::settings:
        case MissingKind::seals:
        case MissingKind::no_pull:
        case MissingKind::sheet_incomplete:
            sheets_->open_kind(sheet_of_missing(fact));
            return go_to(sheets_);
        case MissingKind::part_without_size:
            parts_->show_buy_list(false);
            go_to(parts_);
            return parts_->of_build().select(fact.record->id);
        case MissingKind::question_open:
            account_->show_tab(AccountPage::Tab::extras);
            return show_record(account_, fact.record);
        case MissingKind::service_dates:
        case MissingKind::no_photo:
            return go_to(book_);
    }
}

void MainWindow::show_record(PlacePage* page, const std::optional<RecordRef>& record) {
    go_to(page);
    if (record && page->shows(record->kind)) {
        page->go_to_record(*record);
    }
}

} // namespace rodway
