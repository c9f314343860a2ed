#include "app/book/sheet_paper.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QPdfWriter>
#include <algorithm>
#include <map>
#include <memory>

#include "app/book/page.h"
#include "app/sheets/joint_drawings.h"
#include "app/words/box_words.h"
#include "app/words/sheet_words.h"
#include "app/work/output_file.h"
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
constexpr double small_points = 8.0;
constexpr std::size_t spare_rows = 8; ///< for positions that only the bench knows
constexpr std::size_t least_spare_rows = 3;

QString title_of(const SheetPaper& paper, const std::string& id) {
    return words::sheet_title(id, paper.own_titles);
}

/// Pages one after the other, each begun when the one before is full.
class Pages {
  public:
    Pages(QPdfWriter& device, const SheetPaper& paper) : device_(device), painter_(&device) {
        const double scale = device.logicalDpiX() / 96.0;
        painter_.scale(scale, scale);
        area_ = QRectF(0, 0, device.width() / scale, device.height() / scale);
        head_ =
            Paper::tr("%1: %2 for %3. %4")
                .arg(title_of(paper, paper.sheet.kind), QString::fromStdString(paper.build.name),
                     QString::fromStdString(paper.build.customer),
                     QString::fromStdString(paper.build.engine));
        begin();
        page().heading(title_of(paper, paper.sheet.kind), 14.0);
        page().paragraph(Paper::tr("%1 for %2. %3")
                             .arg(QString::fromStdString(paper.build.name),
                                  QString::fromStdString(paper.build.customer),
                                  QString::fromStdString(paper.build.engine)),
                         10.0);
    }

    Page& page() { return *page_; }
    /// A line below a table, on the next page if there is no room.
    void small_print(const QString& text) {
        if (page_->paragraph_height(text, small_points, area_.width()) + 2.0 > page_->room()) {
            next();
        }
        page_->paragraph(text, small_points);
    }
    void next() {
        device_.newPage();
        begin();
        page().paragraph(Paper::tr("%1 Page %2").arg(head_).arg(++number_), 8.0);
    }

  private:
    void begin() { page_ = std::make_unique<Page>(painter_, area_); }

    QPdfWriter& device_;
    QPainter painter_;
    QRectF area_;
    QString head_;
    int number_ = 1;
    std::unique_ptr<Page> page_;
};

QString heading(const SheetPaper& paper, const SheetLine& line) {
    QString text = title_of(paper, line.quantity.id);
    if (!line.quantity.unit.empty()) {
        text += Paper::tr(", %1").arg(QString::fromStdString(line.quantity.unit));
    }
    return text;
}

QString box_text(const SheetPaper& paper, const SheetLine& line, const SheetBox& box) {
    if (paper.blank) {
        return {};
    }
    QString text;
    if (box.taken) {
        text = QString::fromStdString(box.taken->reading.text);
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
QStringList limits_of(const SheetPaper& paper, const std::vector<const SheetLine*>& lines) {
    QStringList said;
    for (const SheetLine* line : lines) {
        for (const SheetBox& box : line->boxes) {
            if (!box.limit) {
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
                said << text;
            }
        }
    }
    return said;
}

std::vector<std::string> positions_of(const SheetPaper& paper,
                                      const std::vector<const SheetLine*>& lines) {
    std::vector<std::string> positions;
    if (paper.blank && paper.readings != nullptr) {
        positions = expected_bolts(joint_drawings(*paper.readings, paper.places),
                                   lines.front()->quantity.place);
    }
    for (const SheetLine* line : lines) {
        for (const SheetBox& box : line->boxes) {
            if (std::find(positions.begin(), positions.end(), box.position) == positions.end()) {
                positions.push_back(box.position);
            }
        }
    }
    return positions;
}

/// Least, most, spread and mean of every row on this table.
QStringList statistics_of(const SheetPaper& paper, const std::vector<const SheetLine*>& lines) {
    QStringList said;
    for (const SheetLine* line : paper.blank ? std::vector<const SheetLine*>() : lines) {
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

/// As many pages as the rows need, each table with its header, and never a header alone.
void paint_rows(Pages& pages, const std::vector<Page::Column>& columns,
                const std::vector<std::vector<QString>>& rows, double row_height) {
    constexpr std::size_t least_together = 3;
    const auto height_of = [&](const std::vector<QString>& texts, bool titles = false) {
        return pages.page().row_height_of(columns, texts, row_height, text_points, titles);
    };
    const double head = height_of(Page::titles_of(columns), true);
    bool fresh_page = false;
    for (std::size_t from = 0; from < rows.size();) {
        double room = pages.page().room() - head - 6.0;
        std::size_t to = from;
        while (to < rows.size() && height_of(rows[to]) <= room) {
            room -= height_of(rows[to++]);
        }
        if (to - from < std::min(least_together, rows.size() - from) && !fresh_page) {
            pages.next();
            fresh_page = true;
            continue;
        }
        // No one or two rows left over for a page of their own, if there are enough before them.
        const std::size_t left_over = rows.size() - to;
        if (left_over > 0 && left_over < least_together && to - from > 2 * least_together) {
            to -= least_together - left_over;
        }
        to = std::max(to, from + 1);
        pages.page().table(columns,
                           {rows.begin() + static_cast<std::ptrdiff_t>(from),
                            rows.begin() + static_cast<std::ptrdiff_t>(to)},
                           row_height, text_points);
        from = to;
        fresh_page = false;
    }
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

void paint_table(Pages& pages, const SheetPaper& paper,
                 const std::vector<const SheetLine*>& lines) {
    const double row_height = paper.blank ? 24.0 : 18.0;
    std::vector<std::vector<QString>> rows;
    double where = least_position_width;
    for (const std::string& position : positions_of(paper, lines)) {
        std::vector<QString> row{words::sheet_position(position, lines.front()->quantity.place)};
        where =
            std::clamp(pages.page().width_of(row.front(), text_points), where, most_position_width);
        for (const SheetLine* line : lines) {
            const SheetBox* box = box_at(*line, position);
            row.push_back(box == nullptr ? QString() : box_text(paper, *line, *box));
        }
        rows.push_back(std::move(row));
    }
    const double column = (pages.page().area().width() - where) / static_cast<double>(lines.size());
    std::vector<Page::Column> columns{{Paper::tr("Where"), where}};
    for (const SheetLine* line : lines) {
        columns.push_back({heading(paper, *line), column});
    }
    if (paper.blank && only_the_bench_knows(paper, lines.front()->quantity.place)) {
        rows.resize(std::max(rows.size() + least_spare_rows, spare_rows),
                    std::vector<QString>(columns.size()));
    }
    paint_rows(pages, columns, rows, row_height);
    for (const QString& said : limits_of(paper, lines) + statistics_of(paper, lines)) {
        pages.small_print(said);
    }
    pages.page().move_down(8.0);
}

/// Valves or cylinders across, what else there is to a position down: as a bore is measured at
/// several heights, in several directions. False if these lines aren't read so.
bool paint_across(Pages& pages, const SheetPaper& paper,
                  const std::vector<const SheetLine*>& lines) {
    std::vector<std::string> across;
    std::vector<std::string> down;
    std::map<std::pair<std::string, std::string>, std::string> position_of;
    const auto add = [](std::vector<std::string>& names, const std::string& name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            names.push_back(name);
        }
    };
    for (const std::string& position : positions_of(paper, lines)) {
        const auto parted = parted_position(position, lines.front()->quantity.place);
        if (!parted || parted->rest.empty()) {
            return false;
        }
        add(across, parted->along);
        add(down, parted->rest);
        position_of[{parted->along, parted->rest}] = position;
    }
    if (across.size() < 2 || down.size() < 2) {
        return false;
    }
    const std::size_t tables = (across.size() + most_across - 1) / most_across;
    const std::size_t each = (across.size() + tables - 1) / tables;
    for (const SheetLine* line : lines) {
        for (std::size_t from = 0; from < across.size(); from += each) {
            const std::size_t to = std::min(across.size(), from + each);
            const double width = (pages.page().area().width() - most_position_width) /
                                 static_cast<double>(to - from);
            std::vector<Page::Column> columns{{heading(paper, *line), most_position_width}};
            for (std::size_t at = from; at < to; ++at) {
                columns.push_back({QString::fromStdString(across[at]), width});
            }
            std::vector<std::vector<QString>> rows;
            for (const std::string& rest : down) {
                std::vector<QString> row{words::row_title(rest)};
                for (std::size_t at = from; at < to; ++at) {
                    const auto position = position_of.find({across[at], rest});
                    const SheetBox* box =
                        position == position_of.end() ? nullptr : box_at(*line, position->second);
                    row.push_back(box == nullptr ? QString() : box_text(paper, *line, *box));
                }
                rows.push_back(std::move(row));
            }
            paint_rows(pages, columns, rows, paper.blank ? 24.0 : 18.0);
        }
    }
    for (const QString& said : limits_of(paper, lines) + statistics_of(paper, lines)) {
        pages.small_print(said);
    }
    pages.page().move_down(8.0);
    return true;
}

/// Quantities that are read once, down the page.
void paint_once(Pages& pages, const SheetPaper& paper, const std::vector<const SheetLine*>& lines) {
    std::vector<std::vector<QString>> rows;
    for (const SheetLine* line : lines) {
        const bool any = !line->boxes.empty();
        rows.push_back(
            {heading(paper, *line), any ? box_text(paper, *line, line->boxes.front()) : QString()});
    }
    const double width = pages.page().area().width();
    paint_rows(pages, {{Paper::tr("What"), width * 0.5}, {Paper::tr("Value"), width * 0.5}}, rows,
               paper.blank ? 24.0 : 18.0);
    for (const QString& limit : limits_of(paper, lines)) {
        pages.small_print(limit);
    }
    pages.page().move_down(8.0);
}

/// Every joint with its bolts, in which order they are tightened, and what is ticked.
void paint_joints(Pages& pages, const SheetPaper& paper) {
    if (paper.readings == nullptr) {
        return;
    }
    constexpr double height = 150.0;
    for (KnownJoint& joint : joint_drawings(*paper.readings, paper.places)) {
        if (paper.blank) {
            for (JointBolt& bolt : joint.drawing.bolts) {
                std::fill(bolt.passes.begin(), bolt.passes.end(), BoltMark::waiting);
            }
        }
        if (pages.page().room() < height) {
            pages.next();
        }
        const QRectF& area = pages.page().area();
        Palette colours = palette_for(Theme::light);
        colours.paper = Qt::white;
        QFont font(QStringLiteral("DejaVu Sans"));
        font.setPixelSize(11);
        paint_joint(pages.page().painter(),
                    QRectF(area.left(), pages.page().y(), area.width(), height), joint.drawing,
                    colours, font);
        pages.page().move_down(height + 6.0);
    }
}

void paint(QPdfWriter& device, const SheetPaper& paper) {
    Pages pages(device, paper);
    if (paper.blank) {
        pages.page().paragraph(Paper::tr("Date: __________   Initials: ____   Instruments: "
                                         "______________________________   Temperature: ______"),
                               9.0);
    }
    std::vector<Place> places;
    for (const SheetLine& line : paper.sheet.lines) {
        if (std::find(places.begin(), places.end(), line.quantity.place) == places.end()) {
            places.push_back(line.quantity.place);
        }
    }
    const auto most = static_cast<std::size_t>((pages.page().area().width() - most_position_width) /
                                               least_column_width);
    for (const Place place : places) {
        std::vector<const SheetLine*> lines;
        for (const SheetLine& line : paper.sheet.lines) {
            const bool wanted = !paper.blank || line.quantity.origin == Origin::read;
            if (line.quantity.place == place && wanted) {
                lines.push_back(&line);
            }
        }
        if (place == Place::engine && !lines.empty()) {
            paint_once(pages, paper, lines);
            continue;
        }
        if (lines.empty() || paint_across(pages, paper, lines)) {
            continue;
        }
        const std::size_t tables = (lines.size() + most - 1) / most;
        const std::size_t each = (lines.size() + tables - 1) / tables;
        for (std::size_t from = 0; from < lines.size(); from += each) {
            const std::size_t to = std::min(lines.size(), from + each);
            paint_table(pages, paper,
                        {lines.begin() + static_cast<std::ptrdiff_t>(from),
                         lines.begin() + static_cast<std::ptrdiff_t>(to)});
        }
    }
    if (paper.sheet.kind == "fasteners") {
        paint_joints(pages, paper);
    }
    for (const SheetFinding& one :
         paper.blank ? std::vector<SheetFinding>() : paper.sheet.findings) {
        const auto line =
            std::find_if(paper.sheet.lines.begin(), paper.sheet.lines.end(),
                         [&](const SheetLine& here) { return here.quantity.id == one.quantity; });
        if (line != paper.sheet.lines.end()) {
            pages.small_print(words::finding(one, line->quantity, paper.own_titles));
        }
    }
}

} // namespace

Result<Done> write_sheet_paper(const SheetPaper& paper, const QString& path) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setPageSize(QPageSize(QPageSize::A4));
        writer.setPageMargins(QMarginsF(12, 12, 12, 12), QPageLayout::Millimeter);
        writer.setResolution(384);
        writer.setTitle(Paper::tr("%1: %2").arg(title_of(paper, paper.sheet.kind),
                                                QString::fromStdString(paper.build.name)));
        writer.setCreator("Rodway");
        paint(writer, paper);
    }
    return write_output(path, bytes);
}

} // namespace rodway
