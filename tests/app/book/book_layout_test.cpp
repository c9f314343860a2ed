#include "app/book/book_layout.h"

#include <gtest/gtest.h>

#include <QImage>
#include <random>

#include "app/book/book_text.h"

namespace rodway {
namespace {

/// Rows of a page's picture that have ink, within its text area.
std::vector<int> inked_rows(const BookLayout& layout, int page) {
    QImage image(layout.page_size().toSize(), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    layout.paint(page, painter);
    painter.end();
    const QRect area = layout.text_area().toAlignedRect();
    std::vector<int> rows;
    for (int y = area.top(); y < area.bottom(); ++y) {
        for (int x = area.left(); x < area.right(); ++x) {
            if (qGray(image.pixel(x, y)) < 140) {
                rows.push_back(y);
                break;
            }
        }
    }
    return rows;
}

BookTable table_of(int rows) {
    BookTable table{{{"Where", 1.0}, {"What", 2.0}}, {}, 17.0, 8.5};
    for (int row = 0; row < rows; ++row) table.rows.push_back({QString::number(row), "text"});
    return table;
}

TEST(BookLayout, NoHeadingIsLeftAloneAtAPagesFoot) {
    constexpr unsigned seed = 20261130;
    std::mt19937 random(seed);
    int headings = 0;
    for (int book = 0; book < 60; ++book) {
        BookBlocks blocks;
        for (int block = 0; block < 40; ++block) {
            blocks.push_back(BookHeading{"A heading", 1 + static_cast<int>(random() % 3)});
            if (random() % 4 == 0) blocks.push_back(BookText{"By whom.", BookText::Look::small});
            switch (random() % 3) {
                case 0:
                    blocks.push_back(table_of(1 + static_cast<int>(random() % 30)));
                    break;
                case 1:
                    blocks.push_back(BookText{QString("word ").repeated(1 + random() % 300)});
                    break;
                default:
                    blocks.push_back(BookDrawing{40.0 + static_cast<double>(random() % 400),
                                                 [](QPainter& painter, const QRectF& place) {
                                                     painter.fillRect(place, Qt::black);
                                                 }});
            }
        }
        const BookLayout layout(blocks, BookPaper{});
        for (const BookOutlineEntry& entry : layout.outline()) {
            ++headings;
            // Two lines of what it heads, at the least, stand below its own.
            EXPECT_LE(entry.y + 14.0 + 24.0, layout.text_area().bottom() + 1.0)
                << "seed " << seed << ", book " << book << ", page " << entry.page;
        }
    }
    EXPECT_EQ(headings, 60 * 40);
}

TEST(BookLayout, NothingIsPaintedBelowTheFootOrLost) {
    BookBlocks blocks;
    for (int paragraph = 0; paragraph < 30; ++paragraph) {
        blocks.push_back(BookText{QString("word ").repeated(200)});
        blocks.push_back(table_of(9));
    }
    const BookLayout layout(blocks, BookPaper{});
    ASSERT_GT(layout.page_count(), 3);
    for (int page = 0; page < layout.page_count(); ++page) {
        const auto rows = inked_rows(layout, page);
        ASSERT_FALSE(rows.empty()) << page;
        EXPECT_LT(rows.back(), layout.text_area().bottom() - 1.0) << page;
        if (page + 1 < layout.page_count()) {
            // Full but for what had to stay together.
            EXPECT_GT(rows.back(), layout.text_area().bottom() - 130.0) << page;
        }
    }
}

TEST(BookLayout, ARowHigherThanAPageGoesOnOnTheNext) {
    BookTable table{{{"Note", 1.0}}, {}, 17.0, 8.5};
    table.rows.push_back({QString("word ").repeated(6000)});
    const BookLayout layout({table}, BookPaper{});
    ASSERT_GT(layout.page_count(), 3);
    for (int page = 0; page < layout.page_count(); ++page) {
        EXPECT_LT(inked_rows(layout, page).back(), layout.text_area().bottom()) << page;
    }
    EXPECT_GT(inked_rows(layout, 1).back() - inked_rows(layout, 1).front(),
              layout.text_area().height() - 40.0);
}

TEST(BookLayout, TheContentsNameThePageOfEachHeading) {
    BookBlocks blocks{BookHeading{"Contents", 1}, BookContents{}};
    for (int chapter = 0; chapter < 5; ++chapter) {
        blocks.push_back(BookPageBreak{});
        blocks.push_back(BookHeading{QString("Chapter %1").arg(chapter), 1});
        blocks.push_back(BookText{QString("word ").repeated(chapter * 900 + 5)});
    }
    const BookLayout layout(blocks, BookPaper{});
    ASSERT_EQ(layout.outline().size(), 6U);
    for (std::size_t at = 1; at < layout.outline().size(); ++at) {
        EXPECT_EQ(layout.outline()[at].title, QString("Chapter %1").arg(at - 1));
        EXPECT_NEAR(layout.outline()[at].y, layout.text_area().top(), 1.0);
    }
    EXPECT_EQ(layout.outline()[1].page, 1);
    EXPECT_EQ(layout.outline()[2].page, 2);
    EXPECT_GT(layout.outline()[5].page, layout.outline()[4].page + 1);
}

TEST(BookText, NoNumberIsBrokenBehindItsLeadingPoint) {
    const QString text = "1I: .013 in; 1E: .014 in; 2I: .015 in; 2E: .016 in; 3I: .017 in";
    int lines = 0;
    for (int width = 60; width < 400; ++width) {
        const BrokenText broken(text, book_font(9.0), width);
        for (int line = 0; line < broken.lines(); ++line) {
            EXPECT_FALSE(broken.text_of(line).trimmed().endsWith(u'.')) << width;
            ++lines;
        }
    }
    EXPECT_GT(lines, 700);
}

TEST(BookLayout, PrintsNoControlCharactersAndNothingThatTurnsTheDirection) {
    EXPECT_EQ(printable(QString::fromUtf8("a\tb\r\nc\x01\x1b\xe2\x80\xae"
                                          "d\rE")),
              "a b\ncd\nE");
    EXPECT_EQ(printable(QString::fromUtf8("中 ш ع")), QString::fromUtf8("中 ш ع"));
}

} // namespace
} // namespace rodway
