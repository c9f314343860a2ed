#include "app/book/sheet_paper.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QPdfWriter>
#include <algorithm>
#include <memory>

#include "app/book/page.h"
#include "app/words/sheet_words.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct Paper {
    Q_DECLARE_TR_FUNCTIONS(SheetPaper)
};

constexpr double position_width = 120.0;
constexpr double least_column_width = 84.0;
constexpr int spare_rows = 8; ///< for positions that only the bench knows

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
    void next() {
        device_.newPage();
        begin();
        page().paragraph(head_, 8.0);
    }

  private:
    void begin() { page_ = std::make_unique<Page>(painter_, area_); }

    QPdfWriter& device_;
    QPainter painter_;
    QRectF area_;
    QString head_;
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

/// Limits of the lines on this table, each said once.
QStringList limits_of(const SheetPaper& paper, const std::vector<const SheetLine*>& lines) {
    QStringList said;
    for (const SheetLine* line : lines) {
        for (const SheetBox& box : line->boxes) {
            if (!box.limit) {
                continue;
            }
            const QString text = Paper::tr("%1: %2").arg(title_of(paper, line->quantity.id),
                                                         words::limit(*box.limit, line->quantity));
            if (!said.contains(text)) {
                said << text;
            }
        }
    }
    return said;
}

std::vector<std::string> positions_of(const std::vector<const SheetLine*>& lines) {
    std::vector<std::string> positions;
    for (const SheetLine* line : lines) {
        for (const SheetBox& box : line->boxes) {
            if (std::find(positions.begin(), positions.end(), box.position) == positions.end()) {
                positions.push_back(box.position);
            }
        }
    }
    return positions;
}

void paint_table(Pages& pages, const SheetPaper& paper,
                 const std::vector<const SheetLine*>& lines) {
    const double row_height = paper.blank ? 24.0 : 18.0;
    const double column =
        (pages.page().area().width() - position_width) / static_cast<double>(lines.size());
    std::vector<Page::Column> columns{{Paper::tr("Where"), position_width}};
    for (const SheetLine* line : lines) {
        columns.push_back({heading(paper, *line), column});
    }
    std::vector<std::vector<QString>> rows;
    for (const std::string& position : positions_of(lines)) {
        std::vector<QString> row{words::sheet_position(position, lines.front()->quantity.place)};
        for (const SheetLine* line : lines) {
            const auto box =
                std::find_if(line->boxes.begin(), line->boxes.end(),
                             [&](const SheetBox& one) { return one.position == position; });
            row.push_back(box == line->boxes.end() ? QString() : box_text(paper, *line, *box));
        }
        rows.push_back(std::move(row));
    }
    if (paper.blank && rows.empty()) {
        rows.resize(spare_rows, std::vector<QString>(columns.size()));
    }
    for (std::size_t from = 0; from < rows.size();) {
        const auto fits = static_cast<std::size_t>(
            std::max(0.0, (pages.page().room() - row_height) / row_height));
        if (fits < std::min<std::size_t>(3, rows.size() - from)) {
            pages.next();
            continue;
        }
        const std::size_t to = std::min(rows.size(), from + fits);
        pages.page().table(columns,
                           {rows.begin() + static_cast<std::ptrdiff_t>(from),
                            rows.begin() + static_cast<std::ptrdiff_t>(to)},
                           row_height);
        from = to;
    }
    for (const QString& limit : limits_of(paper, lines)) {
        pages.page().paragraph(limit, 8.0);
    }
    pages.page().move_down(8.0);
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
    const double row_height = paper.blank ? 24.0 : 18.0;
    if (pages.page().room() < row_height * 4.0) {
        pages.next();
    }
    pages.page().table({{Paper::tr("What"), width * 0.5}, {Paper::tr("Value"), width * 0.5}}, rows,
                       row_height);
    for (const QString& limit : limits_of(paper, lines)) {
        pages.page().paragraph(limit, 8.0);
    }
    pages.page().move_down(8.0);
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
    const auto most = static_cast<std::size_t>((pages.page().area().width() - position_width) /
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
        for (std::size_t from = 0; from < lines.size(); from += most) {
            const std::size_t to = std::min(lines.size(), from + most);
            paint_table(pages, paper,
                        {lines.begin() + static_cast<std::ptrdiff_t>(from),
                         lines.begin() + static_cast<std::ptrdiff_t>(to)});
        }
    }
    for (const SheetFinding& one :
         paper.blank ? std::vector<SheetFinding>() : paper.sheet.findings) {
        if (pages.page().room() < 40.0) {
            pages.next();
        }
        const auto line =
            std::find_if(paper.sheet.lines.begin(), paper.sheet.lines.end(),
                         [&](const SheetLine& here) { return here.quantity.id == one.quantity; });
        if (line != paper.sheet.lines.end()) {
            pages.page().paragraph(words::finding(one, line->quantity, paper.own_titles), 9.0);
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
