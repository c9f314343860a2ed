#include "app/book/sheet_blocks.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <algorithm>
#include <map>

#include "app/book/book_text.h"
#include "app/sheets/joint_drawings.h"
#include "app/words/box_words.h"
#include "core/sheets/position.h"
#include "core/sheets/sheet_rows.h"

namespace rodway {
namespace {

struct Paper {
    Q_DECLARE_TR_FUNCTIONS(SheetPaper)
};

constexpr double least_position_width = 60.0;
constexpr double most_position_width = 190.0;
constexpr std::size_t most_across = 8; ///< cylinders or valves in one table
constexpr double least_column_width = 84.0;
constexpr double text_points = 8.5;
constexpr double row_to_read = 17.0;
constexpr double row_to_write = 24.0;
constexpr std::size_t spare_rows = 8; ///< for positions that only the bench knows
constexpr std::size_t least_spare_rows = 3;

using Lines = std::vector<const SheetLine*>;

QString title_of(const SheetPaper& paper, const std::string& id) {
    return printable(words::sheet_title(id, paper.own_titles));
}

double row_height(const SheetPaper& paper) {
    return paper.blank ? row_to_write : row_to_read;
}

QString heading(const SheetPaper& paper, const SheetLine& line) {
    QString text = title_of(paper, line.quantity.id);
    if (!line.quantity.unit.empty()) {
        text += Paper::tr(", %1").arg(QString::fromStdString(line.quantity.unit));
    }
    return text;
}

bool is_known(const SheetBox& box) {
    return box.taken || box.figure;
}

bool is_shown(const SheetPaper& paper, const SheetBox& box) {
    return !paper.written_only || is_known(box);
}

QString box_text(const SheetPaper& paper, const SheetLine& line, const SheetBox& box) {
    if (paper.blank) {
        return {};
    }
    QString text;
    if (box.taken) {
        text = printable(box.taken->reading.text);
    } else if (box.figure) {
        text = QStringLiteral("(%1)").arg(words::amount(*box.figure, line.quantity));
    }
    const bool marked = box.verdict == SheetVerdict::failed ||
                        box.verdict == SheetVerdict::too_close ||
                        box.verdict == SheetVerdict::serviceable;
    return marked ? Paper::tr("%1 %2").arg(text, words::sheet_verdict(box.verdict).toLower())
                  : text;
}

/// Where a limit holds that doesn't hold everywhere. What is usual holds for a whole row.
QString where_of(const SheetLimit& limit, Place place) {
    const auto position = parse_sheet_position(limit.position, place);
    if (limit.position.empty() || !position) {
        return {};
    }
    return limit.usual == UsualSource::none ? words::sheet_position(limit.position, place)
                                            : words::row_title(row_name(*position)).toLower();
}

/// Limits of the lines on this table, each said once.
QStringList limits_of(const SheetPaper& paper, const Lines& lines) {
    QStringList said;
    for (const SheetLine* line : lines) {
        for (const SheetBox& box : line->boxes) {
            if (!box.limit || !is_shown(paper, box)) {
                continue;
            }
            QString title = title_of(paper, line->quantity.id);
            if (const QString where = where_of(*box.limit, line->quantity.place);
                !where.isEmpty()) {
                title = Paper::tr("%1, %2").arg(title, where);
            }
            const QString text =
                Paper::tr("%1: %2").arg(title, words::limit(*box.limit, line->quantity));
            if (!said.contains(text)) {
                said << printable(text);
            }
        }
    }
    return said;
}

std::vector<std::string> positions_of(const SheetPaper& paper, const Lines& lines) {
    std::vector<std::string> positions;
    if (paper.blank && paper.readings != nullptr) {
        positions = expected_bolts(joint_drawings(*paper.readings, paper.places),
                                   lines.front()->quantity.place);
    }
    for (const SheetLine* line : lines) {
        for (const SheetBox& box : line->boxes) {
            if (is_shown(paper, box) &&
                std::find(positions.begin(), positions.end(), box.position) == positions.end()) {
                positions.push_back(box.position);
            }
        }
    }
    return positions;
}

/// Least, most, spread and mean of every row on this table.
QStringList statistics_of(const SheetPaper& paper, const Lines& lines) {
    QStringList said;
    for (const SheetLine* line : paper.blank ? Lines() : lines) {
        if (!is_numeric(line->quantity.form)) {
            continue;
        }
        for (const SheetRow& row : rows_of(*line)) {
            said << Paper::tr("%1, %2: %3")
                        .arg(title_of(paper, line->quantity.id),
                             words::row_title(row.name).toLower(),
                             words::row_text(row, line->quantity));
        }
    }
    return said;
}

/// What stands below a table in small print.
void add_small_print(const SheetPaper& paper, const Lines& lines, BookBlocks& blocks) {
    for (const QString& said : limits_of(paper, lines) + statistics_of(paper, lines)) {
        blocks.push_back(BookText{said, BookText::Look::small});
    }
    blocks.push_back(BookSpace{});
}

bool only_the_bench_knows(const SheetPaper& paper, Place place) {
    return paper.places == nullptr ||
           usual_positions(place, *paper.places, EntryOrder::by_number).empty();
}

const SheetBox* box_at(const SheetLine& line, const std::string& position) {
    const auto found = std::find_if(line.boxes.begin(), line.boxes.end(),
                                    [&](const SheetBox& box) { return box.position == position; });
    return found == line.boxes.end() ? nullptr : &*found;
}

/// Positions down, quantities across.
void add_table(const SheetPaper& paper, const Lines& lines, double width, BookBlocks& blocks) {
    BookTable table{{}, {}, row_height(paper), text_points};
    double where = least_position_width;
    const QFontMetricsF metrics(book_font(text_points));
    for (const std::string& position : positions_of(paper, lines)) {
        std::vector<QString> row{
            printable(words::sheet_position(position, lines.front()->quantity.place))};
        where =
            std::clamp(metrics.horizontalAdvance(row.front()) + 8.0, where, most_position_width);
        for (const SheetLine* line : lines) {
            const SheetBox* box = box_at(*line, position);
            row.push_back(box == nullptr ? QString() : box_text(paper, *line, *box));
        }
        table.rows.push_back(std::move(row));
    }
    table.columns.push_back({Paper::tr("Where"), where});
    for (const SheetLine* line : lines) {
        table.columns.push_back(
            {heading(paper, *line), (width - where) / static_cast<double>(lines.size())});
    }
    if (paper.blank && only_the_bench_knows(paper, lines.front()->quantity.place)) {
        table.rows.resize(std::max(table.rows.size() + least_spare_rows, spare_rows),
                          std::vector<QString>(table.columns.size()));
    }
    blocks.push_back(std::move(table));
    add_small_print(paper, lines, blocks);
}

/// Positions parted into what goes across and what goes down.
struct Across {
    std::vector<std::string> across;
    std::vector<std::string> down;
    std::map<std::pair<std::string, std::string>, std::string> position_of;
};

/// As a bore is measured at several heights, in several directions; nothing if the lines aren't
/// read so.
std::optional<Across> parted(const SheetPaper& paper, const Lines& lines) {
    Across found;
    const auto add = [](std::vector<std::string>& names, const std::string& name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            names.push_back(name);
        }
    };
    for (const std::string& position : positions_of(paper, lines)) {
        const auto parts = parted_position(position, lines.front()->quantity.place);
        if (!parts || parts->rest.empty()) {
            return std::nullopt;
        }
        add(found.across, parts->along);
        add(found.down, parts->rest);
        found.position_of[{parts->along, parts->rest}] = position;
    }
    if (found.across.size() < 2 || found.down.size() < 2) {
        return std::nullopt;
    }
    return found;
}

BookTable across_table(const SheetPaper& paper, const SheetLine& line, const Across& parts,
                       std::size_t from, std::size_t to, double width) {
    BookTable table{{}, {}, row_height(paper), text_points};
    table.columns.push_back({heading(paper, line), most_position_width});
    for (std::size_t at = from; at < to; ++at) {
        table.columns.push_back({QString::fromStdString(parts.across[at]),
                                 (width - most_position_width) / static_cast<double>(to - from)});
    }
    for (const std::string& rest : parts.down) {
        std::vector<QString> row{words::row_title(rest)};
        for (std::size_t at = from; at < to; ++at) {
            const auto position = parts.position_of.find({parts.across[at], rest});
            const SheetBox* box =
                position == parts.position_of.end() ? nullptr : box_at(line, position->second);
            row.push_back(box == nullptr ? QString() : box_text(paper, line, *box));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// Valves or cylinders across, what else there is to a position down. False if these lines aren't
/// read so.
bool add_across(const SheetPaper& paper, const Lines& lines, double width, BookBlocks& blocks) {
    const auto parts = parted(paper, lines);
    if (!parts) {
        return false;
    }
    const std::size_t tables = (parts->across.size() + most_across - 1) / most_across;
    const std::size_t each = (parts->across.size() + tables - 1) / tables;
    for (const SheetLine* line : lines) {
        for (std::size_t from = 0; from < parts->across.size(); from += each) {
            blocks.push_back(across_table(paper, *line, *parts, from,
                                          std::min(parts->across.size(), from + each), width));
        }
    }
    add_small_print(paper, lines, blocks);
    return true;
}

/// Quantities that are read once, down the page.
void add_once(const SheetPaper& paper, const Lines& lines, BookBlocks& blocks) {
    BookTable table{
        {{Paper::tr("What"), 0.5}, {Paper::tr("Value"), 0.5}}, {}, row_height(paper), text_points};
    for (const SheetLine* line : lines) {
        const bool any = !line->boxes.empty();
        table.rows.push_back(
            {heading(paper, *line), any ? box_text(paper, *line, line->boxes.front()) : QString()});
    }
    blocks.push_back(std::move(table));
    for (const QString& limit : limits_of(paper, lines)) {
        blocks.push_back(BookText{limit, BookText::Look::small});
    }
    blocks.push_back(BookSpace{});
}

void add_findings(const SheetPaper& paper, BookBlocks& blocks) {
    for (const SheetFinding& one : paper.sheet.findings) {
        const auto line =
            std::find_if(paper.sheet.lines.begin(), paper.sheet.lines.end(),
                         [&](const SheetLine& here) { return here.quantity.id == one.quantity; });
        if (line != paper.sheet.lines.end()) {
            blocks.push_back(
                BookText{printable(words::finding(one, line->quantity, paper.own_titles)),
                         BookText::Look::small});
        }
    }
}

/// Lines of one place that are to be shown.
Lines lines_at(const SheetPaper& paper, Place place) {
    Lines lines;
    for (const SheetLine& line : paper.sheet.lines) {
        const bool wanted = !paper.blank || line.quantity.origin == Origin::read;
        const bool known =
            !paper.written_only || std::any_of(line.boxes.begin(), line.boxes.end(), is_known);
        if (line.quantity.place == place && wanted && known) {
            lines.push_back(&line);
        }
    }
    return lines;
}

} // namespace

BookBlocks joint_blocks(const SheetPaper& paper) {
    BookBlocks blocks;
    if (paper.readings == nullptr) {
        return blocks;
    }
    for (KnownJoint& joint : joint_drawings(*paper.readings, paper.places)) {
        if (paper.blank) {
            for (JointBolt& bolt : joint.drawing.bolts) {
                std::fill(bolt.passes.begin(), bolt.passes.end(), BoltMark::waiting);
            }
        }
        blocks.push_back(
            BookDrawing{150.0, [drawing = joint.drawing](QPainter& painter, const QRectF& place) {
                            Palette colours = palette_for(Theme::light);
                            colours.paper = Qt::white;
                            QFont font(QStringLiteral("DejaVu Sans"));
                            font.setPixelSize(11);
                            paint_joint(painter, place, drawing, colours, font);
                        }});
    }
    return blocks;
}

BookBlocks sheet_blocks(const SheetPaper& paper, double width) {
    BookBlocks blocks;
    std::vector<Place> places;
    for (const SheetLine& line : paper.sheet.lines) {
        if (std::find(places.begin(), places.end(), line.quantity.place) == places.end()) {
            places.push_back(line.quantity.place);
        }
    }
    const auto most = static_cast<std::size_t>((width - most_position_width) / least_column_width);
    for (const Place place : places) {
        const Lines lines = lines_at(paper, place);
        if (place == Place::engine && !lines.empty()) {
            add_once(paper, lines, blocks);
            continue;
        }
        if (lines.empty() || add_across(paper, lines, width, blocks)) {
            continue;
        }
        const std::size_t tables = (lines.size() + most - 1) / most;
        const std::size_t each = (lines.size() + tables - 1) / tables;
        for (std::size_t from = 0; from < lines.size(); from += each) {
            const auto begin = lines.begin() + static_cast<std::ptrdiff_t>(from);
            const auto end =
                lines.begin() + static_cast<std::ptrdiff_t>(std::min(lines.size(), from + each));
            add_table(paper, Lines(begin, end), width, blocks);
        }
    }
    if (paper.sheet.kind == "fasteners") {
        for (BookBlock& block : joint_blocks(paper)) {
            blocks.push_back(std::move(block));
        }
    }
    if (!paper.blank) {
        add_findings(paper, blocks);
    }
    return blocks;
}

} // namespace rodway
