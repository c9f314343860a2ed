#include <QCoreApplication>
#include <algorithm>

#include "app/book/pull_plot.h"
#include "app/book/sheet_blocks.h"
#include "app/words/book_words.h"
#include "app/words/pull_words.h"
#include "app/words/sheet_words.h"
#include "core/dyno/power_correction.h"
#include "core/sheets/position.h"

// Dyno pulls: what was read, its weather, and what each standard makes of it.

namespace rodway::words {
namespace {

struct Dyno {
    Q_DECLARE_TR_FUNCTIONS(BookDyno)
};

constexpr double plot_height = 250.0;

const AssessedSheet* dyno_sheet(const BookFacts& facts) {
    const auto found =
        std::find_if(facts.assessed.begin(), facts.assessed.end(),
                     [](const AssessedSheet& sheet) { return sheet.kind == "dyno_pull"; });
    return found == facts.assessed.end() ? nullptr : &*found;
}

QString text_of(const SheetBox& box, const Quantity& quantity) {
    if (box.taken) {
        return printable(box.taken->reading.text);
    }
    return box.figure ? QStringLiteral("(%1)").arg(amount(*box.figure, quantity)) : QString();
}

QString with_unit(const Quantity& quantity) {
    const QString title = printable(sheet_title(quantity.id));
    return quantity.unit.empty()
               ? title
               : Dyno::tr("%1, %2").arg(title, QString::fromStdString(quantity.unit));
}

/// Of a position its pull ("3").
std::string pull_of(const SheetBox& box, Place place) {
    const auto position = parse_sheet_position(box.position, place);
    return position ? position->part(PlacePart::pull).value_or("") : std::string();
}

/// Pulls of which anything is written, in the order first written.
std::vector<std::string> pull_numbers(const AssessedSheet& sheet) {
    std::vector<std::string> numbers;
    for (const SheetLine& line : sheet.lines) {
        for (const SheetBox& box : line.boxes) {
            const std::string number = pull_of(box, line.quantity.place);
            if (box.taken && !number.empty() &&
                std::find(numbers.begin(), numbers.end(), number) == numbers.end()) {
                numbers.push_back(number);
            }
        }
    }
    std::stable_sort(numbers.begin(), numbers.end(), [](const auto& a, const auto& b) {
        return a.size() != b.size() ? a.size() < b.size() : a < b;
    });
    return numbers;
}

/// What is said once of a pull: its weather, factors, what was changed before it.
BookTable once_of(const AssessedSheet& sheet, const std::string& pull) {
    FactTable table;
    for (const SheetLine& line : sheet.lines) {
        if (line.quantity.place != Place::pull) continue;
        for (const SheetBox& box : line.boxes) {
            if (pull_of(box, line.quantity.place) != pull) continue;
            QString text = text_of(box, line.quantity);
            if (line.quantity.id == "pull_correction" && box.taken) {
                text = standard_title(box.taken->reading.text);
            }
            table.add(with_unit(line.quantity), text);
        }
    }
    return table.take();
}

/// Rows by speed, every quantity that was read or worked out there across.
BookTable rows_of_pull(const AssessedSheet& sheet, const std::string& pull) {
    BookTable table{{{Dyno::tr("rpm"), 0.6, true}}, {}, 14.0, 8.0};
    std::vector<double> speeds;
    std::vector<const SheetLine*> lines;
    std::map<std::pair<const SheetLine*, double>, QString> cells;
    for (const SheetLine& line : sheet.lines) {
        if (line.quantity.place != Place::pull_speed) continue;
        for (const SheetBox& box : line.boxes) {
            const auto position = parse_sheet_position(box.position, line.quantity.place);
            const QString text = text_of(box, line.quantity);
            if (!position || pull_of(box, line.quantity.place) != pull || text.isEmpty()) continue;
            const double rpm = QString::fromStdString(position->part(PlacePart::speed).value_or(""))
                                   .section(u' ', 0, 0)
                                   .toDouble();
            if (std::find(speeds.begin(), speeds.end(), rpm) == speeds.end()) speeds.push_back(rpm);
            if (lines.empty() || lines.back() != &line) lines.push_back(&line);
            cells[{&line, rpm}] = text;
        }
    }
    std::sort(speeds.begin(), speeds.end());
    for (const SheetLine* line : lines)
        table.columns.push_back({with_unit(line->quantity), 1.0, true});
    for (const double rpm : speeds) {
        std::vector<QString> row{QString::number(rpm)};
        for (const SheetLine* line : lines) row.push_back(cells[{line, rpm}]);
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// The same of single cylinders, each on a line.
BookTable of_cylinders(const AssessedSheet& sheet, const std::string& pull) {
    FactTable table;
    for (const SheetLine& line : sheet.lines) {
        if (line.quantity.place != Place::pull_cylinder) continue;
        for (const SheetBox& box : line.boxes) {
            if (pull_of(box, line.quantity.place) == pull) {
                table.add(Dyno::tr("%1, %2").arg(
                              with_unit(line.quantity),
                              printable(sheet_position(box.position, line.quantity.place))),
                          text_of(box, line.quantity));
            }
        }
    }
    return table.take();
}

/// What the standards make of one pull, beside what was read.
BookTable by_standards(const SheetPull& pull, const PullFigures& raw) {
    BookTable table{{{Dyno::tr("By"), 0.3},
                     {Dyno::tr("Times"), 0.14, true},
                     {Dyno::tr("Greatest torque and power"), 0.56}},
                    {},
                    15.0,
                    8.5};
    table.rows.push_back({Dyno::tr("as read"), QString(), pull_peaks(raw)});
    for (const PowerStandard standard : {PowerStandard::sae_j607, PowerStandard::sae_j1349,
                                         PowerStandard::iso_1585, PowerStandard::din_70020}) {
        const auto correction =
            pull.air
                ? power_correction(standard, pull.air->airs.front())
                : Result<PowerCorrection>(Error{ErrorCode::missing_field, "air", {}, {}, {}, {}});
        if (!correction) continue;
        QString peaks = pull_peaks(raw, correction->factor);
        if (correction->outside_limits()) {
            peaks += u'\n' + Dyno::tr(
                                 "Outside what the standard allows a correction for: not to be "
                                 "compared.");
        } else if (correction->unusual) {
            peaks += u'\n' + Dyno::tr("An unusual factor: the weather may be wrong.");
        }
        table.rows.push_back(
            {standard_title(standard), QString::number(correction->factor, 'f', 3), peaks});
    }
    return table;
}

/// The standard of which the sheet says that this pull is corrected by it.
std::optional<double> stated_factor(const AssessedSheet& sheet, const std::string& pull) {
    for (const SheetLine& line : sheet.lines) {
        if (line.quantity.id != "pull_correction_factor") continue;
        for (const SheetBox& box : line.boxes) {
            if (pull_of(box, line.quantity.place) != pull) continue;
            if (box.taken && box.taken->range()) return box.taken->range()->middle();
            if (box.figure) return box.figure->middle();
        }
    }
    return std::nullopt;
}

void add_pull(const BookFacts& facts, const AssessedSheet& sheet, const std::string& number,
              BookBlocks& blocks) {
    blocks.push_back(BookHeading{Dyno::tr("Pull %1").arg(printable(number)), 2});
    const auto pull =
        std::find_if(facts.pulls.begin(), facts.pulls.end(),
                     [&](const SheetPull& one) { return one.position == "pull " + number; });
    if (pull != facts.pulls.end() && pull->raw) {
        if (const auto raw = pull_figures(*pull->raw)) {
            std::vector<PullCurve> curves{{Dyno::tr("as read"), *raw, 1.0, false}};
            if (const auto factor = stated_factor(sheet, number)) {
                curves.push_back(
                    {Dyno::tr("times %1").arg(*factor, 0, 'f', 3), *raw, *factor, true});
            }
            blocks.push_back(
                BookDrawing{plot_height, [curves](QPainter& painter, const QRectF& at) {
                                paint_pull_plot(painter, at, curves);
                            }});
            blocks.push_back(by_standards(*pull, *raw));
        }
        if (!pull->air) {
            QStringList needs;
            for (const std::string& one : pull->air_needs) needs << printable(sheet_title(one));
            blocks.push_back(
                paragraph(Dyno::tr("Its weather isn't whole, so no standard can be applied: %1.")
                              .arg(needs.join(", "))));
        }
    }
    for (BookTable table :
         {once_of(sheet, number), rows_of_pull(sheet, number), of_cylinders(sheet, number)}) {
        if (!table.rows.empty()) blocks.push_back(std::move(table));
    }
}

} // namespace

BookBlocks book_dyno(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    const AssessedSheet* sheet = dyno_sheet(facts);
    BookBlocks blocks;
    if (sheet == nullptr) {
        return blocks;
    }
    for (const std::string& number : pull_numbers(*sheet)) {
        add_pull(facts, *sheet, number, blocks);
    }
    if (blocks.empty()) {
        return blocks;
    }
    FactTable all;
    for (const SheetLine& line : sheet->lines) {
        if (line.quantity.place == Place::engine && !line.boxes.empty()) {
            all.add(with_unit(line.quantity), text_of(line.boxes.front(), line.quantity));
        }
    }
    if (!all.empty()) {
        blocks.push_back(BookHeading{Dyno::tr("All pulls together"), 2});
        blocks.push_back(all.take());
    }
    for (const SheetFinding& one : sheet->findings) {
        const auto line =
            std::find_if(sheet->lines.begin(), sheet->lines.end(),
                         [&](const SheetLine& here) { return here.quantity.id == one.quantity; });
        if (line != sheet->lines.end()) {
            blocks.push_back(
                BookText{printable(finding(one, line->quantity)), BookText::Look::small});
        }
    }
    return blocks;
}

} // namespace rodway::words
