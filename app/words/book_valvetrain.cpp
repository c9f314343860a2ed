#include <QCoreApplication>
#include <algorithm>

#include "app/book/book_text.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/valvetrain/tube_pictures.h"
#include "app/words/book_words.h"
#include "app/words/cause_words.h"
#include "app/words/clearance_words.h"
#include "app/words/hold_words.h"
#include "app/words/lengths.h"
#include "core/units/angle.h"
#include "core/units/length.h"

// The room around every pushrod, why it is as it is, and what was tried.

namespace rodway::words {
namespace {

struct Train {
    Q_DECLARE_TR_FUNCTIONS(BookValvetrain)
};

constexpr double plan_height = 230.0;
constexpr double picture_height = 370.0;
constexpr double tube_height = 250.0;
constexpr std::size_t most_causes = 6;
constexpr std::size_t most_fields = 40; ///< of a set-up's differences that are named

using Facts = std::shared_ptr<const BookFacts>;

Palette paper_palette() {
    Palette palette = palette_for(Theme::light);
    palette.paper = Qt::white;
    return palette;
}

QString holds_for(const BookFacts& facts) {
    const Engine& engine = *facts.engine;
    QStringList parts;
    for (std::size_t bank = 0; bank < engine.flanges.size(); ++bank) {
        if (engine.flanges[bank]) {
            parts << Train::tr("intake gasket %1 %2")
                         .arg(printable(engine.layout.banks[bank].name),
                              size(engine.flanges[bank]->gasket_mm));
        }
    }
    const rodway::Train& first = engine.trains.front();
    parts << Train::tr("lash %1 intake and %2 exhaust")
                 .arg(size(engine.intake.lash_mm), size(engine.exhaust.lash_mm));
    parts << Train::tr("rod %1 thick, %2 long at %3")
                 .arg(size(first.rod.diameter_mm), size(first.rod.length_mm),
                      valve(first.position));
    parts << Train::tr("lifter %1 to its seat").arg(size(first.lifter.seat_height_mm));
    return parts.join(", ");
}

BookTable survey_table(const BookFacts& facts) {
    BookTable table{{{Train::tr("Valve"), 46},
                     {Train::tr("Heel, in"), 50, true},
                     {Train::tr("Full lift, in"), 56, true},
                     {Train::tr("Least, in"), 50, true},
                     {Train::tr("At crank"), 96},
                     {Train::tr("Nearest"), 222},
                     {Train::tr("By hand, in"), 60},
                     {Train::tr("Verdict"), 82}},
                    {},
                    14.5,
                    8.0};
    const Engine& engine = *facts.engine;
    const auto number = [](const std::optional<RodClearance>& at) {
        return at ? QString(inches(at->clearance_mm)).remove(" in") : QString();
    };
    for (const ValveClearance& line : facts.lines) {
        const Reading* last = facts.by_hand.count(line.position) > 0
                                  ? last_by_hand(facts.sheets->readings(), line.position)
                                  : nullptr;
        const QString hand = last != nullptr ? printable(last->text) : QString();
        const auto rule = ruling(line, facts.by_hand, {engine.rod_clearance_limit_mm});
        const QString said = rule ? verdict(*rule) : Train::tr("No answer");
        if (!line.found.minimum) {
            table.rows.push_back({valve(line.position), {}, {}, {}, {}, status(line), hand, said});
            continue;
        }
        table.rows.push_back({valve(line.position), number(line.found.on_heel),
                              number(line.found.at_full_lift), number(line.found.minimum),
                              when(line), place(*line.found.minimum, engine), hand, said});
    }
    return table;
}

void add_plan(const Facts& facts, BookBlocks& blocks) {
    blocks.push_back(BookDrawing{
        plan_height, [facts](QPainter& painter, const QRectF& at) {
            PlanStyle style{paper_palette(), book_font(9.0), false};
            paint_cylinder_plan(painter, at,
                                survey_plan(*facts->engine, facts->lines, facts->by_hand), style);
        }});
    blocks.push_back(paragraph(
        Train::tr("The engine from above, front at the left. At every valve its least clearance in "
                  "inches; the sign says how it stands, as the table's last column does."),
        BookText::Look::small));
}

/// Which of the rod's passages has the valve's least clearance; the port tube where none has.
std::size_t passage_of_least(const ValveClearance& line) {
    std::size_t passage = 0;
    for (const CertifiedMinimum& one : line.all) {
        if (one.kind != FeatureKind::port_tube && one.kind != FeatureKind::passage) {
            continue;
        }
        if (one.kind == line.found.kind && one.feature == line.found.feature) {
            return passage;
        }
        ++passage;
    }
    return 0;
}

/// What is seen with a light down the passage in which the rod comes closest, when it does.
void add_down_the_tube(const Facts& facts, const ValveClearance& line, BookBlocks& blocks) {
    const TubeContent content =
        tube_content(*facts->engine, facts->lines,
                     {line.position, passage_of_least(line), angle_of_minimum(*facts->engine, line),
                      std::nullopt});
    if (content.slices.empty()) {
        return;
    }
    blocks.push_back(BookHeading{Train::tr("Down the tube"), 3});
    blocks.push_back(
        BookDrawing{tube_height, [content](QPainter& painter, const QRectF& at) {
                        paint_tube(painter, at, content, {paper_palette(), book_font(8.0)});
                    }});
}

void add_curves(const BookSource& source, BookBlocks& blocks) {
    if (source.pictures->curves.isEmpty()) {
        return;
    }
    const Facts facts = source.facts;
    QStringList names;
    for (const ValvePosition& one : valves_with_curves(*facts)) names << valve(one);
    blocks.push_back(BookDrawing{book_curves_height(source.width),
                                 [pictures = source.pictures](QPainter& painter, const QRectF& at) {
                                     paint_book_curves(painter, at, pictures->curves);
                                 }});
    blocks.push_back(paragraph(
        Train::tr("Clearance of %1 through a full turn of the engine, and the valves' lift below "
                  "it.")
            .arg(names.join(", ")),
        BookText::Look::small));
}

void add_tightest(const BookSource& source, const ValveClearance& line, BookBlocks& blocks) {
    const Facts facts = source.facts;
    blocks.push_back(BookHeading{Train::tr("The tightest: %1").arg(valve(line.position)), 2});
    const RodClearance& minimum = *line.found.minimum;
    blocks.push_back(paragraph(Train::tr("%1, %2, %3: %4. %5")
                                   .arg(both_units(minimum.clearance_mm), doubt(line), when(line),
                                        printable(place(minimum, *facts->engine)),
                                        printable(verdict_reason(line, *facts->engine)))));
    if (source.pictures->tightest) {
        blocks.push_back(BookDrawing{
            picture_height, [pictures = source.pictures](QPainter& painter, const QRectF& at) {
                const QSizeF size =
                    QSizeF(pictures->tightest->size()).scaled(at.size(), Qt::KeepAspectRatio);
                painter.setRenderHint(QPainter::SmoothPixmapTransform);
                painter.setRenderHint(QPainter::LosslessImageRendering);
                painter.drawImage(QRectF(QPointF(at.left(), at.top()), size), *pictures->tightest);
            }});
    } else {
        blocks.push_back(paragraph(Train::tr("No 3D picture could be drawn on this machine.")));
    }
    add_curves(source, blocks);
    add_down_the_tube(facts, line, blocks);
}

QString rate(const std::optional<CauseRate>& rate, ParameterKind kind) {
    if (!rate) {
        return Train::tr("–");
    }
    const auto one = [&](const SideRate& side) {
        const double thou = is_angle(kind)
                                ? side.per_unit * radians(1.0) / Length::mm_per_inch * 1000.0
                                : side.per_unit;
        return QString(thou < 0.0 ? "-" : "+") + QString::number(std::abs(thou), 'f', 2);
    };
    return rate->when_more.per_unit == rate->when_less.per_unit
               ? one(rate->when_more)
               : Train::tr("%1; less of it: %2").arg(one(rate->when_more), one(rate->when_less));
}

void add_causes(const BookFacts& facts, BookBlocks& blocks) {
    if (!facts.causes || facts.causes->causes.empty()) {
        return;
    }
    blocks.push_back(BookHeading{Train::tr("Why it is tight there"), 2});
    blocks.push_back(paragraph(
        Train::tr("What changes this clearance most: thou of it for a thou (or a degree) of each "
                  "size, the lash set again afterwards. + gives room, - takes it.")));
    BookTable table{{{Train::tr("If this grows"), 0.5},
                     {Train::tr("Clearance changes by"), 0.28, true},
                     {Train::tr("for each"), 0.22}},
                    {},
                    15.0,
                    9.0};
    const EngineLayout& layout = facts.engine->layout;
    for (const Cause& cause : facts.causes->causes) {
        if (table.rows.size() == most_causes) break;
        table.rows.push_back(
            {printable(growing(cause.parameter, layout)),
             rate(cause.adjuster_reset ? cause.adjuster_reset : cause.rod_rechosen,
                  cause.parameter.kind),
             is_angle(cause.parameter.kind) ? Train::tr("degree") : Train::tr("thou")});
    }
    blocks.push_back(std::move(table));
}

/// Hand and figure that can't both be right.
QStringList disagreeing(const BookFacts& facts) {
    QStringList names;
    for (const ValveClearance& line : facts.lines) {
        if (disagree(line, facts.by_hand)) names << valve(line.position);
    }
    return names;
}

QString typed(const TypedValue& value) {
    return printable(value.unit.empty() ? value.text : value.text + ' ' + value.unit);
}

/// What one set-up has otherwise than the one before it.
BookTable differences(const SetUpFields& before, const SetUpFields& after) {
    BookTable table{
        {{Train::tr("Size"), 0.5}, {Train::tr("Before"), 0.25}, {Train::tr("Then"), 0.25}},
        {},
        14.0,
        8.0};
    SetUpFields all = before;
    all.insert(after.begin(), after.end());
    for (const auto& [path, ignored] : all) {
        const auto was = before.find(path);
        const auto is = after.find(path);
        const QString then = is == after.end() ? Train::tr("–") : typed(is->second);
        const QString once = was == before.end() ? Train::tr("–") : typed(was->second);
        if (then == once) {
            continue;
        }
        if (table.rows.size() == most_fields) {
            table.rows.push_back({Train::tr("… and more, in the shop's record"), {}, {}});
            break;
        }
        table.rows.push_back(
            {printable(path).replace(u'/', QStringLiteral(" / ")).replace(u'_', u' '), once, then});
    }
    return table;
}

QString came_to(const TriedSetUp& tried) {
    if (!tried.tightest) {
        return Train::tr("Its clearances were not worked out.");
    }
    QStringList below;
    for (const ValvePosition& one : tried.below_limit) below << valve(one);
    const QString least = Train::tr("Least clearance %1, at %2.")
                              .arg(both_units(*tried.least_mm), valve(*tried.tightest));
    return below.isEmpty() ? Train::tr("%1 No valve is under the limit.").arg(least)
                           : Train::tr("%1 Under the limit: %2.").arg(least, below.join(", "));
}

} // namespace

BookBlocks book_valvetrain(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    if (!facts.engine || facts.engine->trains.empty()) {
        return {};
    }
    BookBlocks blocks;
    blocks.push_back(paragraph(
        Train::tr(
            "Set-up “%1”: %2. Limit for a rod in its tube: %3 (%4). Doubt of each figure: %5.")
            .arg(printable(facts.set_up->name), holds_for(facts),
                 both_units(facts.engine->rod_clearance_limit_mm),
                 facts.set_up->fields.count("limits/rod_clearance") > 0
                     ? Train::tr("the shop's own, from the set-up")
                     : Train::tr("common practice"),
                 doubts(facts.lines))));
    add_plan(source.facts, blocks);
    blocks.push_back(survey_table(facts));
    if (const QStringList apart = disagreeing(facts); !apart.isEmpty()) {
        blocks.push_back(paragraph(
            Train::tr(
                "What was found by hand and the figure worked out disagree at %1. The worse of "
                "the two rules.")
                .arg(apart.join(", "))));
    }
    if (const ValveClearance* line = facts.tightest_line()) {
        add_tightest(source, *line, blocks);
        add_causes(facts, blocks);
    }
    return blocks;
}

BookBlocks book_variants(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks;
    if (!facts.decisions.empty()) {
        BookTable table{{{Train::tr("Question"), 0.26},
                         {Train::tr("Chosen"), 0.24},
                         {Train::tr("Because"), 0.28},
                         {Train::tr("By whom, when"), 0.22}},
                        {},
                        15.0,
                        8.5};
        for (const Decision& one : facts.decisions) {
            table.rows.push_back(
                {printable(one.question), printable(one.choice),
                 one.reason ? printable(*one.reason) : Train::tr("no reason was written down"),
                 Train::tr("%1, %2").arg(person(facts, one.decided_by), day_of(one.decided_at))});
        }
        blocks.push_back(BookHeading{Train::tr("Decisions"), 2});
        blocks.push_back(std::move(table));
    }
    if (facts.tried.size() > 1) {
        blocks.push_back(BookHeading{Train::tr("Set-ups of the valvetrain, in their order"), 2});
        for (std::size_t at = 0; at < facts.tried.size(); ++at) {
            const TriedSetUp& one = facts.tried[at];
            const bool last = at + 1 == facts.tried.size();
            blocks.push_back(BookHeading{
                last ? Train::tr("“%1”, as the engine is now").arg(printable(one.set_up.name))
                     : Train::tr("“%1”").arg(printable(one.set_up.name)),
                3});
            blocks.push_back(paragraph(came_to(one)));
            if (at > 0) {
                BookTable table = differences(facts.tried[at - 1].set_up.fields, one.set_up.fields);
                if (!table.rows.empty()) blocks.push_back(std::move(table));
            }
        }
    }
    return blocks;
}

} // namespace rodway::words
