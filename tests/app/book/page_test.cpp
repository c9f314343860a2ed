#include "app/book/page.h"

#include <gtest/gtest.h>

#include <QImage>
#include <cmath>

namespace rodway {
namespace {

constexpr int side = 400;

class PageTest : public ::testing::Test {
  protected:
    PageTest() { image_.fill(Qt::white); }
    /// Whether anything dark stands in a part of the page.
    [[nodiscard]] bool has_ink(const QRect& part) const {
        for (int y = part.top(); y <= part.bottom(); ++y) {
            for (int x = part.left(); x <= part.right(); ++x) {
                if (image_.pixelColor(x, y).lightness() < 100) {
                    return true;
                }
            }
        }
        return false;
    }
    QImage image_{side, side, QImage::Format_RGB32};
};

TEST_F(PageTest, ALongHeadingAndALongValueAreWrappedInTheirColumnsAndNothingIsCut) {
    const std::vector<Page::Column> columns{{"Deck higher at the rear than at the front, in", 100},
                                            {"", 100}};
    const std::vector<QString> row{"heavily scored on the thrust side, see photo", ""};
    QPainter painter(&image_);
    Page page(painter, QRectF(0, 0, side, side));
    const double head = page.row_height_of(columns, Page::titles_of(columns), 18.0, 8.5, true);
    const double height = page.row_height_of(columns, row, 18.0);
    const double line = page.paragraph_height("x", 8.5, 100);
    EXPECT_GE(head, 2.0 * line);
    EXPECT_GE(height, 2.0 * line);
    // All of it, if it were on one line, would be wider than the lines it got together.
    EXPECT_GE(std::floor(head / line) * 100.0, page.width_of(columns[0].title, 8.5) - 100.0);
    page.table(columns, {row}, 18.0);
    painter.end();
    EXPECT_NEAR(page.y(), head + height + 4.0, 0.01);
    const int foot = static_cast<int>(head);
    EXPECT_TRUE(has_ink(QRect(3, foot - static_cast<int>(line), 94, static_cast<int>(line) - 3)))
        << "the heading's last line";
    EXPECT_FALSE(has_ink(QRect(102, 2, 90, foot - 6))) << "the next column's heading";
}

TEST_F(PageTest, AShortRowIsAsHighAsAskedFor) {
    QPainter painter(&image_);
    Page page(painter, QRectF(0, 0, side, side));
    EXPECT_DOUBLE_EQ(page.row_height_of({{"A", 100}}, {"1.230"}, 24.0), 24.0);
}

TEST_F(PageTest, AWordWiderThanItsColumnIsSetSmaller) {
    QPainter painter(&image_);
    Page page(painter, QRectF(0, 0, side, side));
    page.table({{"", 60}, {"", 100}}, {{"Unabbreviatable", ""}}, 18.0);
    painter.end();
    EXPECT_TRUE(has_ink(QRect(3, 20, 54, 14)));
    EXPECT_FALSE(has_ink(QRect(62, 20, 90, 14)));
}

} // namespace
} // namespace rodway
