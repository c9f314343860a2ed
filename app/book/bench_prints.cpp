#include "app/book/bench_prints.h"

#include <QCoreApplication>
#include <QLocale>

#include "app/book/book_pdf.h"
#include "app/book/book_text.h"
#include "app/book/sheet_blocks.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/words/barring_words.h"
#include "app/words/book_words.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/part_state_words.h"
#include "app/work/output_file.h"
#include "core/barring/full_lift_order.h"

namespace rodway {
namespace {

struct Prints {
    Q_DECLARE_TR_FUNCTIONS(BenchPrints)
};

constexpr double plan_height = 420.0;
constexpr double row_to_write_on = 22.0;

QString unblocked_text(const BuyLine& line) {
    QStringList said;
    for (const Unblocked& one : line.unblocks) {
        said << Prints::tr("%1: %2").arg(printable(one.stage), printable(one.title));
    }
    return said.join("; ");
}

} // namespace

BookBlocks plan_paper(const BookFacts& facts) {
    if (!facts.engine) {
        return {
            words::paragraph(Prints::tr("The build has no set-up that makes an engine, so its "
                                        "plan can't be drawn. Import or type one first."))};
    }
    BookBlocks blocks{
        words::paragraph(Prints::tr("Turns %1. Firing order %2.")
                             .arg(words::turning(facts.engine->layout.turning),
                                  printable(facts.engine->layout.firing_order_text)))};
    blocks.push_back(
        BookDrawing{plan_height, [engine = facts.engine](QPainter& painter, const QRectF& place) {
                        PlanStyle style{palette_for(Theme::light), book_font(10.5), false};
                        style.palette.paper = Qt::white;
                        paint_cylinder_plan(painter, place, survey_plan(*engine, {}, {}), style);
                    }});
    const auto stops = full_lift_order(*facts.engine, CrankAngle::deg(0.0));
    if (!stops) {
        return blocks;
    }
    BookTable table{{{Prints::tr("Turn by, °"), 0.14, true},
                     {Prints::tr("At full lift"), 0.16},
                     {Prints::tr("Done"), 0.12},
                     {Prints::tr("Note"), 0.58}},
                    {},
                    row_to_write_on,
                    9.5};
    for (const FullLiftStop& stop : *stops) {
        table.rows.push_back({QString::number(stop.turn_deg, 'f', 1), words::valves(stop.valves),
                              QString(), QString()});
    }
    blocks.push_back(words::paragraph(
        Prints::tr("Barring over the way it runs, from cylinder 1 at top dead centre, firing:")));
    blocks.push_back(std::move(table));
    blocks.push_back(words::paragraph(words::caution("barring_over"), BookText::Look::small));
    return blocks;
}

BookBlocks torque_order_paper(const BookFacts& facts) {
    BookBlocks blocks;
    for (const AssessedSheet& sheet : facts.assessed) {
        if (sheet.kind != "fasteners") continue;
        for (BookBlock& block :
             joint_blocks({facts.build(), sheet, facts.sheets->own_titles(), true,
                           &facts.sheets->taken(), facts.sheets->places(), false})) {
            blocks.push_back(std::move(block));
        }
    }
    if (blocks.empty()) {
        return {words::paragraph(Prints::tr(
            "No joint is known yet. On the sheet “Fasteners” say how many bolts one has, "
            "in which order they are tightened, and in which steps."))};
    }
    return blocks;
}

BookBlocks buy_list_paper(const std::vector<BuyLine>& lines, const std::string& today) {
    if (lines.empty()) {
        return {words::paragraph(Prints::tr("No build waits for a part."))};
    }
    BookTable table{{{Prints::tr("Supplier"), 0.15},
                     {Prints::tr("Part"), 0.23},
                     {Prints::tr("For"), 0.13},
                     {Prints::tr("How it stands"), 0.16},
                     {Prints::tr("Sets free"), 0.33}},
                    {},
                    18.0,
                    8.5};
    for (const BuyLine& line : lines) {
        const PartRecord& part = line.part;
        table.rows.push_back({printable(part.supplier.value_or("")),
                              printable(words::part_title(part)), printable(line.build),
                              words::part_standing(part, today), unblocked_text(line)});
    }
    return {std::move(table)};
}

QPageSize::PageSizeId paper_used_here() {
    return QLocale().measurementSystem() == QLocale::ImperialUSSystem ? QPageSize::Letter
                                                                      : QPageSize::A4;
}

Result<Done> write_bench_paper(BookBlocks blocks, const QString& title,
                               const std::optional<Build>& build, QPageSize::PageSizeId size,
                               const QString& path) {
    BookPaper paper{size, 12.0, {}, title, false};
    if (build) {
        paper.head =
            Prints::tr("%1 for %2. %3")
                .arg(printable(build->name), printable(build->customer), printable(build->engine));
    }
    blocks.insert(blocks.begin(), BookHeading{title, 1});
    const auto pdf = book_pdf(BookLayout(blocks, paper), {title, {}});
    if (!pdf) {
        return pdf.error();
    }
    return write_output(path, **pdf);
}

} // namespace rodway
