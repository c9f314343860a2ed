#include <QFileDialog>
#include <QPrintDialog>
#include <QPrinter>

#include "app/book/bench_prints.h"
#include "app/book/bench_sheet.h"
#include "app/book/clearance_document.h"
#include "app/book/sheet_paper.h"
#include "app/sheets/sheets_page.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"
#include "app/words/error_text.h"
#include "app/work/build_in_hand.h"
#include "app/work/shop_day.h"

// Papers and pictures out of the window.

namespace rodway {

void MainWindow::save_document(const QString& file) {
    const auto build = build_or_complain();
    if (!build) {
        return;
    }
    auto gathered = gather_document(session_->shop(), *build);
    if (!gathered) {
        complain(words::error_text(gathered.error()));
        return;
    }
    ClearanceDocument document = std::move(gathered).value();
    document.date = QString::fromStdString(shop_day(session_->now()).day);
    const auto renderer = Renderer::create();
    const auto written =
        write_clearance_document(document, renderer ? renderer->get() : nullptr, file);
    if (!written) {
        complain(words::error_in_file(file, written.error()));
        return;
    }
    say(tr("Wrote %1.").arg(file));
}

void MainWindow::ask_sheet_file(bool blank) {
    const QString file = QFileDialog::getSaveFileName(
        this, blank ? tr("Write the blank sheet") : tr("Write the sheet as it stands"),
        tr("%1.pdf").arg(QString::fromStdString(sheets_->kind())));
    if (!file.isEmpty()) {
        save_sheet(file, blank);
    }
}

void MainWindow::save_sheet(const QString& file, bool blank) {
    const auto build = build_or_complain();
    if (!build) {
        return;
    }
    const auto sheets = BuildSheets::load(session_->shop(), build->id);
    const SheetKind* kind = sheets ? sheets->kind(sheets_->kind()) : nullptr;
    if (kind == nullptr) {
        complain(sheets ? tr("Choose a sheet first.") : words::error_text(sheets.error()));
        return;
    }
    const AssessedSheet sheet = sheets->assess(*kind, sheets_->order());
    const auto written = write_sheet_paper(
        {*build, sheet, sheets->own_titles(), blank, &sheets->taken(), sheets->places()}, file);
    if (!written) {
        complain(words::error_in_file(file, written.error()));
        return;
    }
    say(tr("Wrote %1.").arg(file));
}

void MainWindow::ask_bench_paper(BookBlocks (*make)(const BookFacts&), const QString& title,
                                 const QString& name) {
    const QString file = QFileDialog::getSaveFileName(this, title, name, tr("PDF (*.pdf)"));
    if (!file.isEmpty()) {
        save_bench_paper(file, make, title);
    }
}

void MainWindow::save_bench_paper(const QString& file, BookBlocks (*make)(const BookFacts&),
                                  const QString& title) {
    const auto build = build_or_complain();
    if (!build) {
        return;
    }
    const auto facts = gather_book(session_->shop(), build->id, Moment::present());
    if (!facts) {
        complain(words::error_text(facts.error()));
        return;
    }
    const auto written = write_bench_paper(make(*facts), title, *build, paper_used_here(), file);
    if (!written) {
        complain(words::error_in_file(file, written.error()));
        return;
    }
    say(tr("Wrote %1.").arg(file));
}

void MainWindow::ask_buy_list() {
    const QString file =
        QFileDialog::getSaveFileName(this, tr("To buy"), tr("to-buy.pdf"), tr("PDF (*.pdf)"));
    if (!file.isEmpty()) {
        save_buy_list(file);
    }
}

void MainWindow::save_buy_list(const QString& file) {
    if (!session_) {
        return;
    }
    const std::string today = shop_day(session_->now()).day;
    const auto lines = load_buy_list(session_->shop(), today);
    if (!lines) {
        complain(words::error_text(lines.error()));
        return;
    }
    const auto written = write_bench_paper(buy_list_paper(*lines, today), tr("To buy"),
                                           std::nullopt, paper_used_here(), file);
    if (!written) {
        complain(words::error_in_file(file, written.error()));
        return;
    }
    say(tr("Wrote %1.").arg(file));
}

void MainWindow::print_bench_sheet() {
    const auto build = build_or_complain();
    if (!build) {
        return;
    }
    const auto hand = build_in_hand(session_->shop(), *build);
    if (!hand) {
        complain(words::error_text(hand.error()));
        return;
    }
    QPrinter printer(QPrinter::HighResolution);
    printer.setDocName(tr("Bench sheet"));
    QPrintDialog dialog(&printer, this);
    if (dialog.exec() == QDialog::Accepted) {
        paint_bench_sheet(printer, hand->build, hand->engine);
        say(tr("The bench sheet is printed."));
    }
}

} // namespace rodway
