#include "app/book/clearance_document.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QDate>
#include <QPdfWriter>

#include "app/book/page.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/work/output_file.h"
#include "core/sheets/rod_clearance_reading.h"
#include "db/reading_store.h"

namespace rodway {
namespace {

struct DocumentWords {
    Q_DECLARE_TR_FUNCTIONS(DocumentWords)
};

constexpr double row_height = 15.5;
constexpr int most_tick_lines = 8;

/// The sizes for which the figures hold.
QString holds_for(const Engine& engine) {
    QStringList parts;
    for (std::size_t bank = 0; bank < engine.flanges.size(); ++bank) {
        if (engine.flanges[bank]) {
            parts << DocumentWords::tr("intake gasket %1 %2")
                         .arg(QString::fromStdString(engine.layout.banks[bank].name),
                              words::size(engine.flanges[bank]->gasket_mm));
        }
    }
    const Train& first = engine.trains.front();
    parts << DocumentWords::tr("lash %1 and %2")
                 .arg(words::size(engine.intake.lash_mm), words::size(engine.exhaust.lash_mm));
    parts << DocumentWords::tr("rod %1 thick, %2 long at %3")
                 .arg(words::size(first.rod.diameter_mm), words::size(first.rod.length_mm),
                      words::valve(first.position));
    parts
        << DocumentWords::tr("lifter %1 to its seat").arg(words::size(first.lifter.seat_height_mm));
    return parts.join(", ");
}

/// What a reader must know beside the table: valves not checked, and where hand and figure
/// disagree.
QStringList remarks(const ClearanceDocument& document, const ByHand& by_hand) {
    QStringList missing;
    for (const ValvePosition& valve : document.hand.engine.valves_without_train()) {
        missing << words::valve(valve);
    }
    QStringList apart;
    for (const ValveClearance& line : document.lines) {
        if (disagree(line, by_hand)) {
            apart << words::valve(line.position);
        }
    }
    QStringList remarks;
    if (!missing.isEmpty()) {
        remarks
            << DocumentWords::tr("Not in the set-up, so not checked: %1.").arg(missing.join(", "));
    }
    if (!apart.isEmpty()) {
        remarks << DocumentWords::tr(
                       "What was found by hand and the computed figure disagree at %1: measure "
                       "again or mend "
                       "the set-up. The worse of the two rules.")
                       .arg(apart.join(", "));
    }
    return remarks;
}

void paint_who(Page& page, const ClearanceDocument& document) {
    const Build& build = document.hand.build;
    const Engine& engine = document.hand.engine;
    page.heading(DocumentWords::tr("Pushrod clearance"), 16.0);
    page.paragraph(
        DocumentWords::tr("%1 for %2")
            .arg(QString::fromStdString(build.name), QString::fromStdString(build.customer)),
        11.0);
    page.paragraph(DocumentWords::tr("Engine: %1. Turns %2, firing order %3. Set-up: %4.")
                       .arg(QString::fromStdString(build.engine),
                            words::turning(engine.layout.turning),
                            QString::fromStdString(engine.layout.firing_order_text),
                            QString::fromStdString(document.hand.set_up.name)));
    page.paragraph(
        DocumentWords::tr(
            "Clearances in inches. Limit for a rod in its tube: %1 (%2). Doubt of each figure: %3. "
            "Written %4 by Rodway %5.")
            .arg(words::inches(engine.rod_clearance_limit_mm),
                 document.hand.set_up.fields.count("limits/rod_clearance") > 0
                     ? DocumentWords::tr("the shop's own, from the set-up")
                     : DocumentWords::tr("common practice"),
                 words::doubts(document.lines), document.date,
                 QCoreApplication::applicationVersion()));
    page.paragraph(DocumentWords::tr("Holds for: %1.").arg(holds_for(engine)));
    page.move_down(4.0);
}

void paint_survey(Page& page, const ClearanceDocument& document) {
    const std::vector<Page::Column> columns{
        {DocumentWords::tr("Valve"), 40},           {DocumentWords::tr("Heel"), 46, true},
        {DocumentWords::tr("Full lift"), 58, true}, {DocumentWords::tr("Least"), 46, true},
        {DocumentWords::tr("At crank"), 118},       {DocumentWords::tr("Nearest in the tube"), 222},
        {DocumentWords::tr("By hand"), 64},         {DocumentWords::tr("Verdict"), 109}};
    const auto number = [](const std::optional<RodClearance>& at) {
        return at ? QString(words::inches(at->clearance_mm)).remove(" in") : QString();
    };
    std::vector<std::vector<QString>> rows;
    const ByHand by_hand = found_by_hand(document.readings, document.hand.set_up.id);
    const RodClearanceLimits limits{document.hand.engine.rod_clearance_limit_mm};
    for (const ValveClearance& line : document.lines) {
        const QString valve = words::valve(line.position);
        const Reading* last = by_hand.count(line.position) > 0
                                  ? last_by_hand(document.readings, line.position)
                                  : nullptr;
        const QString hand = last ? QString::fromStdString(last->text) : QString();
        if (!line.found.minimum) {
            rows.push_back(
                {valve, {}, {}, {}, {}, words::status(line), hand, DocumentWords::tr("No answer")});
            continue;
        }
        rows.push_back({valve, number(line.found.on_heel), number(line.found.at_full_lift),
                        number(line.found.minimum), words::when(line),
                        words::place(*line.found.minimum, document.hand.engine), hand,
                        words::verdict(*ruling(line, by_hand, limits))});
    }
    page.table(columns, rows, row_height, 8.0);
    for (const QString& remark : remarks(document, by_hand)) {
        page.paragraph(remark, 8.5);
    }
}

void paint_pictures(Page& page, const ClearanceDocument& document, Renderer* renderer,
                    double height) {
    QPainter& painter = page.painter();
    Palette palette = palette_for(Theme::light);
    palette.paper = Qt::white;
    const double left = page.area().left();
    const double picture_width = page.area().width() * 0.56;
    const QRectF place(left, page.y(), picture_width, height);
    const QRectF plan(left + picture_width + 8.0, page.y(),
                      page.area().width() - picture_width - 8.0, height);
    bool drawn = false;
    if (renderer) {
        // Three picture points to a unit: 288 to the inch.
        const PictureSize size{static_cast<int>(place.width() * 3.0),
                               static_cast<int>(place.height() * 3.0)};
        PictureRequest request =
            survey_picture(document.hand.engine, tightest(document.lines), size, palette);
        request.font.setPixelSize(32);
        if (const auto picture = offscreen_picture(*renderer, request)) {
            painter.setRenderHint(QPainter::LosslessImageRendering);
            painter.drawImage(place, *picture);
            painter.setPen(QPen(QColor(150, 150, 150), 0.5));
            painter.drawRect(place);
            drawn = true;
        }
    }
    if (!drawn) {
        painter.setPen(Qt::black);
        painter.drawText(place, Qt::AlignCenter | Qt::TextWordWrap,
                         DocumentWords::tr("No 3D picture could be drawn on this machine."));
    }
    PlanStyle style{palette, painter.font(), false};
    style.font.setPixelSize(11);
    paint_cylinder_plan(painter, plan,
                        survey_plan(document.hand.engine, document.lines,
                                    found_by_hand(document.readings, document.hand.set_up.id)),
                        style);
    page.move_down(height + 8.0);
}

void paint_ticks(Page& page, const ClearanceDocument& document) {
    page.heading(DocumentWords::tr("Done so far"));
    QStringList lines;
    for (const StageWithSteps& stage : document.stages) {
        QStringList ticks;
        for (const Step& step : stage.steps) {
            if (step.ticked_at) {
                ticks << DocumentWords::tr("%1 (%2, %3)")
                             .arg(QString::fromStdString(step.title),
                                  QString::fromStdString(step.ticked_by.value_or("")),
                                  QString::fromStdString(step.ticked_at->substr(0, 10)));
            }
        }
        if (!ticks.isEmpty()) {
            lines << DocumentWords::tr("%1: %2").arg(QString::fromStdString(stage.stage.title),
                                                     ticks.join("; "));
        }
    }
    if (lines.isEmpty()) {
        lines << DocumentWords::tr("Nothing is ticked yet.");
    }
    for (int at = 0; at < lines.size(); ++at) {
        if (at == most_tick_lines) {
            page.paragraph(DocumentWords::tr("… and more, in the shop's record."), 8.0);
            break;
        }
        page.paragraph(lines[at], 8.0);
    }
}

} // namespace

Result<ClearanceDocument> gather_document(ShopFile& shop, const Build& build) {
    auto hand = build_in_hand(shop, build);
    if (!hand) {
        return hand.error();
    }
    auto lines = survey(hand->engine);
    if (!lines) {
        return lines.error();
    }
    auto stages = stages_with_steps(shop, build.id);
    if (!stages) {
        return stages.error();
    }
    auto found = readings(shop, build.id);
    if (!found) {
        return found.error();
    }
    return ClearanceDocument{*hand, *lines, *stages, *found,
                             QDate::currentDate().toString(Qt::ISODate)};
}

Result<Done> write_clearance_document(const ClearanceDocument& document, Renderer* renderer,
                                      const QString& path) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setPageSize(QPageSize(QPageSize::A4));
        writer.setPageMargins(QMarginsF(12, 12, 12, 12), QPageLayout::Millimeter);
        writer.setResolution(384);
        writer.setTitle(DocumentWords::tr("Pushrod clearance: %1")
                            .arg(QString::fromStdString(document.hand.build.name)));
        writer.setCreator("Rodway");
        QPainter painter(&writer);
        painter.scale(4.0, 4.0);
        Page page(painter, QRectF(0, 0, writer.width() / 4.0, writer.height() / 4.0));
        paint_who(page, document);
        paint_survey(page, document);
        const double cautions =
            page.paragraph_height(words::clearance_caution(), 8.0, page.area().width()) +
            page.paragraph_height(words::caution("barring_over"), 8.0, page.area().width());
        // Pictures take what ticks and cautions leave; below a third of a page they would tell
        // nothing.
        double ticks = 30.0;
        for (const StageWithSteps& stage : document.stages) {
            ticks += stage.steps.empty() ? 0.0 : 34.0;
        }
        const double height = std::clamp(page.room() - cautions - ticks - 90.0, 150.0, 440.0);
        paint_pictures(page, document, renderer, height);
        paint_ticks(page, document);
        page.heading(DocumentWords::tr("Cautions"));
        page.paragraph(words::clearance_caution(), 8.0);
        page.paragraph(words::caution("barring_over"), 8.0);
        page.move_down(10.0);
        page.paragraph(
            DocumentWords::tr("Checked by: ______________________     Date: ______________"), 9.0);
    }
    return write_output(path, bytes);
}

} // namespace rodway
