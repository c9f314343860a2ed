#include <QListWidget>
#include <map>
#include <set>

#include "app/words/sheet_words.h"
#include "core/sheets/sheet_kinds.h"
#include "tests/app/sheets/open_sheets.h"

namespace rodway {
namespace {

/// Something that may stand in a box of this quantity, different from row to row.
QString plausible(const Quantity& quantity, int row) {
    const int last = row % 7;
    const QString choice = QString::fromStdString(quantity.choices).section(' ', 0, 0);
    switch (quantity.form) {
        case Form::length:
            return QStringLiteral("1.23%1 %2").arg(last).arg(QString::fromStdString(quantity.unit));
        case Form::clearance:
            return QStringLiteral(".01%1").arg(last);
        case Form::lash:
            return QStringLiteral(".02%1 %2").arg(last).arg(choice).trimmed();
        case Form::deck:
            return QStringLiteral("in .01%1").arg(last);
        case Form::dome:
            return QStringLiteral("dish %1 cc").arg(5 + last);
        case Form::crank_angle:
            return QStringLiteral("%1 btdc").arg(10 + last);
        case Form::advance:
            return QStringLiteral("%1 advanced").arg(1 + last);
        case Form::ratio:
            return QStringLiteral("1.6%1").arg(last);
        case Form::words:
            return QStringLiteral("looked at %1").arg(last);
        case Form::day:
            return QStringLiteral("2026-11-1%1").arg(last);
        case Form::yes_no:
            return QStringLiteral("yes");
        case Form::choice:
            return choice;
        default:
            return QString::number(40 + last);
    }
}

/// One of the demo shop's engines at the sheets: V8, inline six, flat four.
class SheetWalk : public OpenSheets, public ::testing::WithParamInterface<int> {
  protected:
    void SetUp() override {
        OpenSheets::SetUp();
        window_->open_build(GetParam());
        window_->go_to_sheets();
    }
    /// Which rows of a sheet are typed into: all of them with RODWAY_EVERY_BOX set, else the first
    /// and the last, for there are some two thousand boxes an engine.
    [[nodiscard]] std::vector<int> rows_to_fill() {
        static const bool every_box = qEnvironmentVariableIsSet("RODWAY_EVERY_BOX");
        std::vector<int> rows;
        for (int row = 0; row < table().rowCount(); ++row) {
            if (every_box || row == 0 || row + 1 == table().rowCount()) {
                rows.push_back(row);
            }
        }
        return rows;
    }
    void fill_column(int column) {
        for (const int row : rows_to_fill()) {
            table().setCurrentCell(row, column);
            const auto spot = table().spot();
            ASSERT_TRUE(spot && spot->box);
            if (spot->box->taken) {
                continue; // the demo's own
            }
            const QString text = plausible(spot->quantity, row);
            press(text + '\n');
            const std::string where = spot->quantity.id + " at " + spot->box->position;
            ASSERT_TRUE(window_->complaint().isEmpty())
                << where << ", " << text.toStdString() << ": "
                << window_->complaint().toStdString();
            EXPECT_EQ(text_at(row, column), text) << where;
            typed_[{spot->quantity.id, spot->box->position}] = text.toStdString();
        }
    }
    void fill_place(const QString& heading) {
        if (table().rowCount() == 0) {
            for (const PlaceShape& shape : place_shapes()) {
                if (words::place_heading(shape.place) == heading) {
                    type_into(*page().findChild<QLineEdit*>("another_position"),
                              QString::fromUtf8(shape.example.data(),
                                                static_cast<int>(shape.example.size())) +
                                  '\n');
                }
            }
        }
        ASSERT_GT(table().rowCount(), 0) << page().kind() << ", " << heading.toStdString();
        for (int column = 1; column < table().columnCount(); ++column) {
            fill_column(column);
            if (HasFatalFailure()) {
                return;
            }
        }
    }

    std::map<std::pair<std::string, std::string>, std::string> typed_;
};

TEST_P(SheetWalk, EveryKindOfSheetTakesWhatIsTypedIntoItsBoxes) {
    auto* kinds = page().findChild<QListWidget*>("sheet_kinds");
    ASSERT_EQ(kinds->count(), static_cast<int>(sheet_kinds().size()));
    for (int row = 0; row < kinds->count(); ++row) {
        kinds->setCurrentRow(row);
        for (int tab = 0; tab < places().count(); ++tab) {
            places().setCurrentIndex(tab);
            fill_place(places().tabText(tab));
            if (HasFatalFailure()) {
                return;
            }
        }
        EXPECT_FALSE(page().grab().isNull());
    }
    // Every kind has been written to, and what stands in the file is what was typed.
    std::map<std::pair<std::string, std::string>, std::string> stored;
    std::set<std::string> written_kinds;
    const auto all = readings(window_->session()->shop(), GetParam());
    ASSERT_TRUE(all.ok());
    for (const Reading& reading : *all) {
        stored[{reading.quantity, reading.position}] = reading.text;
        written_kinds.insert(sheet_of_quantity(reading.quantity)->id);
    }
    EXPECT_EQ(written_kinds.size(), sheet_kinds().size());
    EXPECT_GT(typed_.size(), 400U);
    for (const auto& [where, text] : typed_) {
        EXPECT_EQ(stored[where], text) << where.first << " at " << where.second;
    }
}

INSTANTIATE_TEST_SUITE_P(DemoEngines, SheetWalk, ::testing::Values(1, 2, 3));

} // namespace
} // namespace rodway
