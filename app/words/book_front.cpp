#include <QCoreApplication>
#include <QFileInfo>
#include <QImageReader>
#include <algorithm>

#include "app/book/book_photo.h"
#include "app/book/book_text.h"
#include "app/words/book_words.h"
#include "app/words/clearance_words.h"
#include "app/words/counted.h"
#include "app/words/hold_words.h"
#include "app/words/lengths.h"
#include "app/words/pull_words.h"
#include "app/words/sheet_words.h"

// What stands first and last in a book: whose it is, the engine in a few lines, signatures, seal.

namespace rodway::words {
namespace {

struct Front {
    Q_DECLARE_TR_FUNCTIONS(BookFront)
};

constexpr double cover_picture_height = 360.0;
constexpr double logo_height = 80.0;

/// "Name of the shop, address, …", a line each.
QString builder_lines(const BookFacts& facts) {
    QStringList lines;
    for (const char* name : {"name", "address", "phone", "email", "web"}) {
        const QString line = printable(facts.shop_detail(name));
        if (!line.isEmpty()) {
            lines << line;
        }
    }
    return lines.join('\n');
}

/// What a sheet says once of the whole engine: as written, else as worked out.
QString once(const BookFacts& facts, const char* kind, const char* quantity) {
    for (const AssessedSheet& sheet : facts.assessed) {
        if (sheet.kind != kind) {
            continue;
        }
        for (const SheetLine& line : sheet.lines) {
            if (line.quantity.id != quantity || line.boxes.empty()) {
                continue;
            }
            const SheetBox& box = line.boxes.front();
            if (box.taken) {
                return as_written(*box.taken, line.quantity);
            }
            return box.figure ? amount(*box.figure, line.quantity) : QString();
        }
    }
    return {};
}

/// The least and greatest figure of a row of a sheet: "9.8 to 10.1".
QString range_of(const BookFacts& facts, const char* kind, const char* quantity) {
    std::optional<Interval> whole;
    Quantity of;
    for (const AssessedSheet& sheet : facts.assessed) {
        for (const SheetLine& line : sheet.lines) {
            if (sheet.kind != kind || line.quantity.id != quantity) {
                continue;
            }
            of = line.quantity;
            for (const SheetBox& box : line.boxes) {
                const auto value = box.taken ? box.taken->range() : box.figure;
                if (value) {
                    whole = whole ? Interval{std::min(whole->low, value->low),
                                             std::max(whole->high, value->high)}
                                  : *value;
                }
            }
        }
    }
    return whole ? amount(*whole, of) : QString();
}

void add_peaks(const BookFacts& facts, FactTable& table) {
    for (auto pull = facts.pulls.rbegin(); pull != facts.pulls.rend(); ++pull) {
        if (pull->raw) {
            if (const auto figures = pull_figures(*pull->raw)) {
                table.add(Front::tr("Dyno, as read"),
                          Front::tr("%1 (%2)").arg(pull_peaks(*figures),
                                                   QString::fromStdString(pull->position)));
            }
            return;
        }
    }
}

void add_clearance(const BookFacts& facts, FactTable& table) {
    if (const ValveClearance* line = facts.tightest_line()) {
        table.add(Front::tr("Tightest pushrod"),
                  Front::tr("%1, %2; at %3, worked out from the set-up")
                      .arg(both_units(line->found.minimum->clearance_mm), doubt(*line),
                           valve(line->position)));
    }
}

QString settled_date(const std::optional<std::string>& iso) {
    return iso ? day(*iso) : QString();
}

} // namespace

BookBlocks book_cover(const BookSource& source, const QString& title) {
    const BookFacts& facts = *source.facts;
    const Build& build = facts.build();
    BookBlocks blocks;
    const QString logo = QString::fromStdString(facts.shop_detail("logo"));
    if (!logo.isEmpty() && QFileInfo::exists(logo)) {
        blocks.push_back(BookDrawing{logo_height, [logo](QPainter& painter, const QRectF& place) {
                                         paint_book_photo(painter, place, logo);
                                     }});
    }
    blocks.push_back(paragraph(builder_lines(facts), BookText::Look::centred));
    blocks.push_back(BookSpace{30.0});
    blocks.push_back(BookHeading{title, 1});
    blocks.push_back(paragraph(printable(build.engine), BookText::Look::lead));
    blocks.push_back(paragraph(
        Front::tr("%1, built for %2").arg(printable(build.name), printable(build.customer)),
        BookText::Look::lead));
    if (source.pictures->engine) {
        blocks.push_back(BookDrawing{
            cover_picture_height,
            [pictures = source.pictures](QPainter& painter, const QRectF& place) {
                const QSizeF size =
                    QSizeF(pictures->engine->size()).scaled(place.size(), Qt::KeepAspectRatio);
                painter.setRenderHint(QPainter::SmoothPixmapTransform);
                painter.setRenderHint(QPainter::LosslessImageRendering);
                painter.drawImage(
                    QRectF(QPointF(place.center().x() - size.width() / 2.0, place.top()), size),
                    *pictures->engine);
            }});
        blocks.push_back(paragraph(Front::tr("The valvetrain, drawn from the set-up “%1”.")
                                       .arg(printable(facts.set_up->name)),
                                   BookText::Look::small));
    }
    FactTable table;
    table.add(Front::tr("Written"), day(facts.day));
    table.add(Front::tr("Book"), facts.hand_offs.empty()
                                     ? Front::tr("the first of this engine")
                                     : Front::tr("number %1; the one before is of %2")
                                           .arg(static_cast<int>(facts.hand_offs.size()) + 1)
                                           .arg(day_of(facts.hand_offs.back().given_at)));
    table.add(Front::tr("Given to"), facts.words.given_to);
    blocks.push_back(table.take());
    const std::size_t missing = facts.missing().size();
    if (missing > 0) {
        blocks.push_back(
            paragraph(counted(static_cast<int>(missing),
                              Front::tr("One thing that a whole book would have is missing."),
                              Front::tr("%1 things that a whole book would have are missing.")) +
                          u' ' +
                          Front::tr("The chapter “%1” names what.")
                              .arg(book_section_title(BookSection::not_checked)),
                      BookText::Look::small));
    }
    return blocks;
}

BookBlocks book_glance(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    const Build& build = facts.build();
    FactTable table;
    table.add(Front::tr("Engine"), printable(build.engine));
    table.add(Front::tr("Job number"), build.job_number);
    table.add(Front::tr("For"), build.use);
    table.add(Front::tr("Fuel"), build.fuel);
    table.add(Front::tr("Engine speeds"), build.speed_range);
    table.add(Front::tr("Wanted power"), build.target_power);
    table.add(Front::tr("What was to be done"), build.scope);
    table.add(Front::tr("What was not"), build.exclusions);
    for (const CastingNumber& one : facts.castings) {
        table.add(Front::tr("Casting, %1").arg(printable(one.position)),
                  one.date_code ? Front::tr("%1, date code %2")
                                      .arg(printable(one.number), printable(*one.date_code))
                                : printable(one.number));
    }
    if (facts.engine) {
        table.add(Front::tr("Turns"), turning(facts.engine->layout.turning));
        table.add(Front::tr("Firing order"), printable(facts.engine->layout.firing_order_text));
    }
    table.add(Front::tr("Displacement"), once(facts, "compression", "displacement"));
    table.add(Front::tr("Compression ratio"), range_of(facts, "compression", "compression_ratio"));
    table.add(Front::tr("Camshaft"), once(facts, "cam_card", "cam_grind"));
    table.add(Front::tr("Weight"), once(facts, "hand_off", "engine_weight"));
    table.add(Front::tr("Seals and heat tabs"), once(facts, "hand_off", "seal_numbers"));
    add_clearance(facts, table);
    add_peaks(facts, table);
    table.add(Front::tr("Promised for"), settled_date(build.promised));
    for (const Promise& one : facts.promises) {
        table.add(Front::tr("Promised on %1").arg(day_of(one.told_at)),
                  one.reason
                      ? Front::tr("for %1: %2").arg(day(one.promised), printable(*one.reason))
                      : Front::tr("for %1").arg(day(one.promised)));
    }
    for (const Visit& one : facts.visits) {
        QStringList said{printable(one.reason)};
        if (one.found) said << Front::tr("found: %1").arg(printable(*one.found));
        if (one.done) said << Front::tr("done: %1").arg(printable(*one.done));
        table.add(Front::tr("Came back on %1").arg(day(one.visited)), said.join("; "));
    }
    return {table.take()};
}

BookBlocks book_signatures(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks{paragraph(
        Front::tr("This book says how the engine stood on %1. Builder and customer have gone "
                  "through it together: what was done, what was left out, what is to be watched.")
            .arg(day(facts.day)))};
    if (facts.words.note) {
        blocks.push_back(paragraph(printable(*facts.words.note)));
    }
    blocks.push_back(BookBlank{Front::tr("For the builder: name, date, signature")});
    blocks.push_back(BookBlank{
        Front::tr("The customer, %1: date, signature").arg(printable(facts.build().customer))});
    return blocks;
}

BookBlocks book_history(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    return {
        paragraph(Front::tr(
            "Everything written down about this build, and every change of it, is kept in a chain "
            "in which each link is a digest (SHA-256) of the one before and of what was done. Its "
            "newest link when this book was made:")),
        paragraph(QString::fromStdString(facts.history_head), BookText::Look::strong),
        paragraph(
            Front::tr("Whoever alters an old entry alters every later link. The shop can show "
                      "at any time that its record still has this link, and after which act. "
                      "Written by Rodway %1 on %2.")
                .arg(QCoreApplication::applicationVersion(), time_of(facts.now_utc)))};
}

BookBlocks book_changes(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    const auto before = facts.handed_before();
    if (!before) {
        return {};
    }
    BookTable table{
        {{Front::tr("What"), 0.34}, {Front::tr("Then"), 0.33}, {Front::tr("Now"), 0.33}},
        {},
        16.0,
        8.5};
    const auto said = [](const std::optional<std::string>& text) {
        return text ? printable(*text) : Front::tr("–");
    };
    for (const HandedChange& change : handed_changes(*before, facts.to_keep())) {
        QStringList name = printable(change.name).split(u' ');
        if (name.front() == QStringLiteral("reading") && name.size() > 1) {
            name[1] = printable(sheet_title(name[1].toStdString(), facts.sheets->own_titles()));
            name.removeFirst();
        }
        table.rows.push_back(
            {name.join(u' ').replace(u'_', u' '), said(change.before), said(change.now)});
    }
    if (table.rows.empty()) {
        return {};
    }
    return {
        paragraph(Front::tr("Beside the book of %1:").arg(day_of(facts.hand_offs.back().given_at))),
        std::move(table)};
}

} // namespace rodway::words
