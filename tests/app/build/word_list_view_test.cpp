#include "app/build/word_list_view.h"

#include <gtest/gtest.h>

#include <QFontMetrics>
#include <QTest>

namespace rodway {
namespace {

constexpr int spacing_px = 2;

// Whatever width the list has, and had when its rows were written: no line is lost, and none is
// left empty.
TEST(WordListView, EveryRowIsAsHighAsItsWordsAtAnyWidth) {
    WordListView list("list", "List");
    list.resize(600, 400);
    list.show();
    QPixmap sign(20, 20);
    sign.fill(Qt::black);
    list.set_rows({{1, "Pushrod clearance\n7 of 7 steps; overtaken: open again", QIcon(sign)},
                   {2,
                    "Temporary part: Intake bolts off the shelf, to be replaced\nThe customer "
                    "wasn't told.\nOpened by MH on 8 December 2026",
                    QIcon(sign)},
                   {3, "Oil", QIcon(sign)}});
    for (int width = 180; width < 460; width += 7) {
        list.resize(width, 400);
        QTest::qWait(1);
        const int room = list.viewport()->width() - 2 * spacing_px;
        for (int row = 0; row < list.count(); ++row) {
            const QRect place = list.visualItemRect(list.item(row));
            // The sign takes its share; the rest can't need fewer lines than all of the width does.
            const QRect least = QFontMetrics(list.font())
                                    .boundingRect(QRect(0, 0, room - 20, 10000), Qt::TextWordWrap,
                                                  list.item(row)->text());
            EXPECT_GE(place.height(), least.height()) << width << ' ' << row;
            if (row + 1 < list.count()) {
                const QRect next = list.visualItemRect(list.item(row + 1));
                EXPECT_EQ(next.top() - place.bottom() - 1, 2 * spacing_px) << width << ' ' << row;
            }
        }
    }
}

} // namespace
} // namespace rodway
