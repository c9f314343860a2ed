#include "app/book/sheet_paper.h"

#include <QCoreApplication>

#include "app/book/book_pdf.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct Paper {
    Q_DECLARE_TR_FUNCTIONS(SheetPaper)
};

constexpr double margin_mm = 12.0;

} // namespace

Result<Done> write_sheet_paper(const SheetPaper& paper, const QString& path) {
    const QString title = printable(words::sheet_title(paper.sheet.kind, paper.own_titles));
    const QString name = printable(paper.build.name);
    const QString whose =
        Paper::tr("%1 for %2. %3")
            .arg(name, printable(paper.build.customer), printable(paper.build.engine));
    const BookPaper on{QPageSize::A4, margin_mm, whose, title, false};
    BookBlocks blocks{BookHeading{title, 1}, BookText{whose, BookText::Look::plain}};
    if (paper.blank) {
        blocks.push_back(BookText{Paper::tr("Date: __________   Initials: ____   Instruments: "
                                            "______________________________   Temperature: ______"),
                                  BookText::Look::plain});
    }
    for (BookBlock& block : sheet_blocks(paper, text_width(on))) {
        blocks.push_back(std::move(block));
    }
    const auto pdf = book_pdf(BookLayout(blocks, on), {Paper::tr("%1: %2").arg(title, name), {}});
    if (!pdf) {
        return pdf.error();
    }
    return write_output(path, **pdf);
}

} // namespace rodway
