#include "app/parts/parts_page.h"

#include <gmock/gmock.h>

#include <QCheckBox>
#include <QComboBox>
#include <QDate>
#include <QImage>
#include <QLabel>
#include <QPushButton>
#include <QTabBar>
#include <QTableWidget>

#include "app/parts/bolt_length_dialog.h"
#include "app/parts/build_parts.h"
#include "app/parts/buy_list_panel.h"
#include "app/parts/part_changes.h"
#include "app/parts/part_dialog.h"
#include "app/parts/part_photos.h"
#include "app/work/part_acts.h"
#include "core/engine/bolt_end_fields.h"
#include "core/units/typed_text.h"
#include "db/set_up_store.h"
#include "tests/app/window/place_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::string day(int from_today) {
    return QDate::currentDate().addDays(from_today).toString(Qt::ISODate).toStdString();
}

class PartsPageTest : public PlaceTest {
  protected:
    void SetUp() override {
        PlaceTest::SetUp();
        // So that the buy list is what a test puts there.
        for (const PartRecord& part : all<PartRecord>(2)) {
            ASSERT_TRUE(remove_part(session(), part).ok());
        }
        go_to("Parts");
    }
    BuildParts& page() { return window_->findChild<PartsPage*>()->of_build(); }
    BuyListPanel& buy_list() { return window_->findChild<PartsPage*>()->buy_list(); }
    QString cell(int row, int column) { return page().table().item(row, column)->text(); }
    QString state() { return cell(page().table().currentRow(), 0); }
    void press(const char* button) { window_->findChild<QPushButton*>(button)->click(); }
    void mark(const char* button, const QString& on = {}) {
        type(page().marks(), "day", on);
        press(button);
    }
    QString details() { return page().findChild<QLabel*>("part_details")->text(); }
    QString bolts() {
        auto* label = page().findChild<QLabel*>("bolts_in_holes");
        return label->isVisible() ? label->text() : QString();
    }
    PartRecord newest() {
        const auto parts = all<PartRecord>();
        EXPECT_FALSE(parts.empty());
        return parts.empty() ? PartRecord() : parts.back();
    }
    void keep(PartRecord part) {
        part.build_id = part.build_id == 0 ? 1 : part.build_id;
        ASSERT_TRUE(add_part(session(), part).ok());
    }
    void add_by_keys(const std::vector<std::pair<const char*, QString>>& boxes) {
        in_dialog<PartDialog>([this] { page().add(); },
                              [&](PartDialog& dialog) {
                                  for (const auto& [field, text] : boxes) {
                                      type(dialog, field, text);
                                  }
                                  QTest::keyClick(dialog.focusWidget(), Qt::Key_Return);
                                  EXPECT_FALSE(dialog.isVisible())
                                      << dialog.form().trouble().toStdString();
                              });
    }
    void read(const char* quantity, const char* position, const char* text) {
        ASSERT_TRUE(session()
                        .create(RecordKind::reading,
                                [&](std::int64_t id) {
                                    Reading reading;
                                    reading.id = id;
                                    reading.build_id = 1;
                                    reading.quantity = quantity;
                                    reading.position = position;
                                    reading.text = text;
                                    reading.unit = "in";
                                    reading.taken_by = "MH";
                                    reading.taken_at = "2026-11-16T10:05:00Z";
                                    return edits_to_create(reading);
                                },
                                {})
                        .ok());
    }
};

TEST_F(PartsPageTest, AnEmptyListSaysWhatBelongsThereAndHowToBegin) {
    auto* hint = page().findChild<QLabel*>("no_parts");
    EXPECT_TRUE(hint->isVisible());
    EXPECT_TRUE(hint->text().contains("Add part"));
    keep([] {
        PartRecord part;
        part.item = "Lifter";
        return part;
    }());
    EXPECT_FALSE(hint->isVisible());
}

TEST_F(PartsPageTest, APartLivesFromTheNeedToTheEngineByKeysAlone) {
    add_by_keys({{"item", "Head bolt"},
                 {"position", "left bolt 3"},
                 {"count", "10"},
                 {"supplier", "Bolts by post"},
                 {"order_number", "A-17"},
                 {"cost", "$1,250.5"},
                 {"weight", "98.5"},
                 {"thread", "7/16-14"},
                 {"length", "4-1/4"},
                 {"drive", "twelve point"},
                 {"lubricant", "engine oil"},
                 {"tightening", "45/65/65+90"},
                 {"marking", "H2"},
                 {"size", "long"},
                 {"note", "from the maker"}});
    const PartRecord part = newest();
    EXPECT_EQ(part.item, "Head bolt");
    EXPECT_EQ(part.count, 10);
    EXPECT_EQ(part.cost, "1250.50");
    EXPECT_EQ(part.weight, "98.5 g");
    EXPECT_EQ(part.length, "4-1/4 in");
    EXPECT_EQ(part.tightening, "45/65/65+90");
    EXPECT_EQ(part.drive, "twelve point");
    EXPECT_EQ(part.needed, day(0));
    EXPECT_EQ(state(), "Needed");
    // Each step changes the state; the day is today's unless another is typed.
    mark("mark_ordered", QString::fromStdString(day(-9)));
    EXPECT_EQ(newest().ordered, day(-9));
    EXPECT_EQ(state(), "Ordered");
    mark("mark_promised", QString::fromStdString(day(4)));
    EXPECT_EQ(state(), "Promised");
    EXPECT_TRUE(cell(0, 4).contains("in 4 days")) << cell(0, 4).toStdString();
    mark("mark_received", QString::fromStdString(day(-1)));
    EXPECT_EQ(state(), "Received");
    EXPECT_TRUE(cell(0, 4).contains("not measured"));
    mark("mark_measured");
    EXPECT_EQ(newest().measured, day(0));
    EXPECT_EQ(state(), "Measured");
    mark("mark_fitted");
    EXPECT_EQ(state(), "Fitted");
    mark("mark_returned");
    EXPECT_EQ(state(), "Given back");
    // One act each: undo walks the same way back.
    for (const char* before : {"Fitted", "Measured", "Received", "Promised", "Ordered", "Needed"}) {
        undo();
        EXPECT_EQ(state(), before);
    }
    undo();
    EXPECT_TRUE(all<PartRecord>().empty());
    redo();
    EXPECT_EQ(newest().order_number, "A-17");
    EXPECT_TRUE(window_->complaint().isEmpty());
}

TEST_F(PartsPageTest, TheLastMarkComesOffAndADayThatIsWrongStaysAsTyped) {
    PartRecord part;
    part.item = "Cam";
    part.ordered = day(-5);
    keep(part);
    mark("mark_received", QString::fromStdString(day(-6)));
    EXPECT_THAT(page().marks().trouble().toStdString(), HasSubstr("comes before"));
    EXPECT_EQ(page().marks().text("day"), day(-6));
    mark("mark_received", QString::fromStdString(day(1)));
    EXPECT_THAT(page().marks().trouble().toStdString(), HasSubstr("still to come"));
    mark("mark_received", "next week");
    EXPECT_THAT(page().marks().trouble().toStdString(), HasSubstr("2026-03-01"));
    EXPECT_EQ(page().marks().text("day"), "next week");
    mark("mark_promised");
    EXPECT_FALSE(page().marks().trouble().isEmpty()); // nobody promises today by leaving it empty
    EXPECT_FALSE(newest().received.has_value());
    mark("mark_received");
    EXPECT_EQ(newest().received, day(0));
    EXPECT_TRUE(page().marks().trouble().isEmpty());
    page().take_last_mark_off();
    EXPECT_FALSE(newest().received.has_value());
    EXPECT_EQ(state(), "Ordered");
}

TEST_F(PartsPageTest, ALatePartSaysSoAndTheBuyListSaysWhatItHoldsUp) {
    const auto steps = all<Step>();
    ASSERT_FALSE(steps.empty());
    PartRecord late;
    late.item = "Intake gasket";
    late.supplier = "Gaskets and seals";
    late.promised = day(-3);
    for (const Step& step : steps) {
        if (!step.ticked_at) {
            late.step_id = step.id;
        }
    }
    keep(late);
    PartRecord other;
    other.build_id = 2;
    other.item = "Rings";
    other.supplier = "Another shop";
    other.promised = day(9);
    keep(other);
    PartRecord sooner = late;
    sooner.item = "Rope seal";
    sooner.step_id.reset();
    sooner.promised = day(2);
    keep(sooner);
    EXPECT_EQ(cell(0, 0), "Late");
    EXPECT_TRUE(cell(0, 4).contains("3 days ago"));
    EXPECT_FALSE(page().table().item(0, 0)->icon().isNull());
    window_->findChild<PartsPage*>()->show_buy_list(true);
    QTableWidget& table = buy_list().table();
    ASSERT_EQ(table.rowCount(), 3);
    // By supplier, of each the late ones first.
    EXPECT_EQ(table.item(0, 1)->text(), "Rings");
    EXPECT_EQ(table.item(0, 2)->text(), "Merrow six");
    EXPECT_EQ(table.item(1, 1)->text(), "Intake gasket");
    EXPECT_TRUE(table.item(1, 3)->text().startsWith("Late"));
    EXPECT_EQ(table.item(2, 1)->text(), "Rope seal");
    EXPECT_TRUE(table.item(1, 4)->text().startsWith("sets free: step"))
        << table.item(1, 4)->text().toStdString();
    EXPECT_TRUE(table.item(2, 4)->text().startsWith("nothing waits"));
    const QString sums = buy_list().findChild<QLabel*>("buy_sums")->text();
    EXPECT_TRUE(sums.contains("3 parts to come, 1 late")) << sums.toStdString();
    EXPECT_TRUE(sums.contains("Gaskets and seals: 2"));
}

TEST_F(PartsPageTest, AParcelIsMarkedAsOneActAcrossBuilds) {
    for (const std::int64_t build : {1, 2, 3}) {
        PartRecord part;
        part.build_id = build;
        part.item = "Gasket set";
        part.supplier = "One parcel";
        keep(part);
    }
    window_->findChild<PartsPage*>()->show_buy_list(true);
    buy_list().table().selectAll();
    type(buy_list().marks(), "day", QString::fromStdString(day(-2)));
    press("buy_received");
    for (const std::int64_t build : {1, 2, 3}) {
        EXPECT_EQ(all<PartRecord>(build).front().received, day(-2));
    }
    EXPECT_EQ(buy_list().table().rowCount(), 0);
    undo();
    EXPECT_EQ(buy_list().table().rowCount(), 3);
    EXPECT_FALSE(all<PartRecord>(2).front().received.has_value());
    buy_list().table().selectAll();
    type(buy_list().marks(), "day", "someday");
    press("buy_ordered");
    EXPECT_EQ(buy_list().marks().text("day"), "someday");
    EXPECT_THAT(buy_list().marks().trouble().toStdString(), HasSubstr("2026-03-01"));
    EXPECT_FALSE(all<PartRecord>(1).front().ordered.has_value());
}

TEST_F(PartsPageTest, ATemporaryBoltAsksForItsReplacementUntilThatIsFitted) {
    in_dialog<PartDialog>([this] { page().add(); },
                          [](PartDialog& dialog) {
                              type(dialog, "item", "Hardware-shop bolt");
                              type(dialog, "thread", "3/8-16 x 1-1/2");
                              dialog.findChild<QCheckBox*>("temporary")->setChecked(true);
                              dialog.accept();
                          });
    const PartRecord bolt = newest();
    EXPECT_EQ(bolt.thread, "3/8-16");
    EXPECT_EQ(bolt.length, "1.5 in");
    ASSERT_EQ(all<OpenItem>().size(), 1u);
    EXPECT_EQ(all<OpenItem>()[0].kind, OpenItemKind::temporary_part);
    EXPECT_EQ(all<OpenItem>()[0].part_id, bolt.id);
    // Part and item are one act.
    undo();
    EXPECT_TRUE(all<OpenItem>().empty());
    EXPECT_TRUE(all<PartRecord>().empty());
    redo();
    mark("mark_fitted");
    EXPECT_EQ(state(), "Temporary");

    in_dialog<PartDialog>([this] { page().replace(); },
                          [](PartDialog& dialog) {
                              EXPECT_EQ(dialog.form().text("item"), "Hardware-shop bolt");
                              EXPECT_FALSE(dialog.form().flag("temporary"));
                              type(dialog, "item", "Stud and nut");
                              dialog.accept();
                          });
    ASSERT_EQ(all<PartRecord>().size(), 2u);
    EXPECT_EQ(newest().replaces_id, bolt.id);
    EXPECT_EQ(newest().thread, "3/8-16");
    EXPECT_FALSE(newest().fitted.has_value());
    EXPECT_FALSE(all<OpenItem>()[0].closed_at.has_value()); // it isn't in the engine yet
    page().select(newest().id);
    EXPECT_TRUE(details().contains("Takes the place of “Hardware-shop bolt"));
    mark("mark_fitted");
    EXPECT_TRUE(all<OpenItem>()[0].closed_at.has_value());
    EXPECT_THAT(all<OpenItem>()[0].outcome.value_or(""), HasSubstr("Stud and nut"));
    undo();
    EXPECT_FALSE(all<OpenItem>()[0].closed_at.has_value());
    redo();
    // Taken off by hand, the item asks again.
    page().take_last_mark_off();
    EXPECT_FALSE(all<OpenItem>()[0].closed_at.has_value());
    // The old one is still there.
    EXPECT_EQ(all<PartRecord>()[0].item, "Hardware-shop bolt");
}

TEST_F(PartsPageTest, APartThatStaysAfterAllClosesItsItem) {
    PartRecord part;
    part.item = "Loan damper";
    part.temporary = true;
    keep(part);
    ASSERT_EQ(all<OpenItem>().size(), 1u);
    in_dialog<PartDialog>([this] { page().change(); },
                          [](PartDialog& dialog) {
                              dialog.findChild<QCheckBox*>("temporary")->setChecked(false);
                              dialog.accept();
                          });
    EXPECT_TRUE(all<OpenItem>()[0].closed_at.has_value());
    // Removed with what asks for its replacement, and brought back with it.
    page().remove();
    EXPECT_TRUE(all<PartRecord>().empty());
    EXPECT_TRUE(all<OpenItem>().empty());
    undo();
    EXPECT_EQ(all<PartRecord>().size(), 1u);
    EXPECT_EQ(all<OpenItem>().size(), 1u);
}

TEST_F(PartsPageTest, AFailedPartIsKeptUntilItsDay) {
    PartRecord part;
    part.item = "Piston 5";
    part.fitted = day(-20);
    keep(part);
    press("mark_failed");
    EXPECT_FALSE(newest().failed.has_value()); // how it failed must be said
    auto* failure = page().findChild<QWidget*>("failed")->parentWidget();
    type(*failure, "failed", "ring land cracked");
    type(*failure, "kept_until", "2027-13-01");
    press("mark_failed");
    EXPECT_FALSE(newest().failed.has_value());
    EXPECT_EQ(failure->findChild<QLineEdit*>("failed")->text(), "ring land cracked");
    type(*failure, "kept_until", "2027-06-01");
    press("mark_failed");
    EXPECT_EQ(newest().failed, "ring land cracked");
    EXPECT_EQ(newest().kept_until, "2027-06-01");
    EXPECT_EQ(state(), "Failed");
    auto* shown = page().findChild<QComboBox*>("parts_shown");
    shown->setCurrentIndex(1); // still to come
    EXPECT_EQ(page().table().rowCount(), 0);
    shown->setCurrentIndex(5); // failed and kept
    EXPECT_EQ(page().table().rowCount(), 1);
}

TEST_F(PartsPageTest, ThePhotoOfACustomersPartStaysWithItAndKeepsItFromRemoval) {
    in_dialog<PartDialog>([this] { page().add(); },
                          [](PartDialog& dialog) {
                              type(dialog, "item", "Crankshaft");
                              dialog.form().set_data("owner",
                                                     static_cast<int>(PartOwner::customer));
                              type(dialog, "condition", "used, two journals scored");
                              type(dialog, "received", QString::fromStdString(day(-1)));
                              dialog.accept();
                          });
    EXPECT_EQ(newest().owner, PartOwner::customer);
    EXPECT_TRUE(details().contains("two journals scored"));
    const QString picture = folder_.filePath("crank.png");
    QImage image(20, 20, QImage::Format_RGB32);
    image.fill(Qt::red);
    ASSERT_TRUE(image.save(picture));
    page().photos().add({picture, folder_.filePath("shop.rodway")});
    EXPECT_FALSE(window_->complaint().isEmpty()); // the shop file is no picture
    ASSERT_EQ(all<Photo>().size(), 1u);
    EXPECT_EQ(all<Photo>()[0].part_id, newest().id);
    page().remove();
    EXPECT_EQ(all<PartRecord>().size(), 1u);
    EXPECT_TRUE(window_->complaint().contains("photo")) << window_->complaint().toStdString();
    undo(); // the photo
    page().remove();
    EXPECT_TRUE(all<PartRecord>().empty());
}

TEST_F(PartsPageTest, ABoltThatBottomsIsPointedOut) {
    read("intake_bolt_grip", "left bolt 1", ".500");
    read("intake_hole_bottom", "left bolt 1", ".900");
    read("intake_thread_depth", "left bolt 1", ".800");
    PartRecord bolt;
    bolt.item = "Intake bolt";
    bolt.role = "intake_bolt";
    bolt.thread = "3/8-16";
    bolt.length = "1.500 in";
    keep(bolt);
    EXPECT_THAT(bolts().toStdString(), HasSubstr("left bolt 1: it bottoms 0.100 in"));
    in_dialog<PartDialog>([this] { page().change(); },
                          [](PartDialog& dialog) {
                              type(dialog, "length", "1.250");
                              dialog.accept();
                          });
    EXPECT_THAT(bolts().toStdString(), HasSubstr("1 hole: at least 0.14"));
    EXPECT_FALSE(bolts().contains("bottoms"));
    in_dialog<PartDialog>([this] { page().change(); },
                          [](PartDialog& dialog) {
                              type(dialog, "length", ".800");
                              dialog.accept();
                          });
    EXPECT_THAT(bolts().toStdString(), HasSubstr("0.300 in of thread holds it, less than"));
}

TEST_F(PartsPageTest, ABoltsLengthGoesIntoANewSetUp) {
    auto set_up = newest_set_up(session().shop(), 1);
    ASSERT_TRUE(set_up.ok() && *set_up);
    SetUpFields fields = (*set_up)->fields;
    std::string bank;
    for (const auto& [path, value] : fields) {
        if (path.starts_with("banks/")) {
            bank = path.substr(6, path.find('/', 6) - 6);
        }
    }
    const std::string path = "obstacles/bolt 4/";
    for (const auto& [leaf, text, unit] :
         std::vector<std::tuple<std::string, std::string, std::string>>{
             {"bank", bank, ""},
             {"casting", "head", ""},
             {"kind", "bolt_end", ""},
             {"point/x", "40", "in"},
             {"point/y", "1", "in"},
             {"point/z", "2", "in"},
             {"axis/x", "0", ""},
             {"axis/y", "0", ""},
             {"axis/z", "-1", ""},
             {"diameter", "3/8", "in"},
             {"length", "1.250", "in"}}) {
        fields[path + leaf] = {text, unit};
    }
    ASSERT_TRUE(session()
                    .create(RecordKind::set_up,
                            [&](std::int64_t id) {
                                return edits_to_create(SetUpRecord{id, 1, "With a bolt", fields});
                            },
                            {})
                    .ok());
    PartRecord bolt;
    bolt.item = "Intake bolt";
    bolt.role = "intake_bolt";
    bolt.length = "1.500 in";
    keep(bolt);
    QPushButton* take = nullptr;
    for (QPushButton* button : page().findChildren<QPushButton*>()) {
        if (button->text().contains("set-&up")) {
            take = button;
        }
    }
    ASSERT_NE(take, nullptr);
    ASSERT_TRUE(take->isVisible());
    const std::size_t before = load_set_ups(session().shop(), 1)->size();
    in_dialog<BoltLengthDialog>([&] { take->click(); },
                                [](BoltLengthDialog& dialog) {
                                    EXPECT_EQ(dialog.form().text("was"), "1.250 in");
                                    type(dialog, "was", "short");
                                    dialog.accept();
                                    EXPECT_TRUE(dialog.isVisible());
                                    EXPECT_EQ(dialog.form().text("was"), "short");
                                    type(dialog, "was", "1.000");
                                    dialog.accept();
                                });
    const auto set_ups = load_set_ups(session().shop(), 1);
    ASSERT_EQ(set_ups->size(), before + 1);
    // Half an inch longer, along an axis that points down.
    EXPECT_EQ(set_ups->back().fields.at(path + "point/z").text, "1.5");
    EXPECT_EQ(set_ups->back().fields.at(path + "length").text, "1.75");
    EXPECT_EQ((*set_ups)[before - 1].fields.at(path + "point/z").text, "2");
    undo();
    EXPECT_EQ(load_set_ups(session().shop(), 1)->size(), before);
}

TEST_F(PartsPageTest, HostileTextInAnyBoxIsKeptAsWrittenOrRefusedWithAWord) {
    const std::vector<const char*> strict{
        "count",    "cost",   "weight", "needed", "ordered",    "promised", "received",
        "measured", "fitted", "thread", "length", "tightening", "returned", "kept_until"};
    const std::vector<const char*> free{"item",      "position",  "size",         "marking",
                                        "note",      "supplier",  "order_number", "drive",
                                        "lubricant", "condition", "failed"};
    int refused = 0;
    in_dialog<PartDialog>(
        [this] { page().add(); },
        [&](PartDialog& dialog) {
            for (const auto& [fields, is_strict] :
                 {std::pair(strict, true), std::pair(free, false)}) {
                for (const char* field : fields) {
                    for (const QString& text : awkward_texts()) {
                        dialog.form().set_text("item", "Bolt");
                        const QString was = QString::fromStdString(dialog.form().text(field));
                        dialog.form().set_text(field, text);
                        const auto part = dialog.part();
                        if (is_strict) {
                            EXPECT_FALSE(part.ok()) << field << ": " << text.toStdString();
                        }
                        if (!part) {
                            ++refused;
                            EXPECT_EQ(part.error().field, field);
                            dialog.accept();
                            EXPECT_TRUE(dialog.isVisible());
                            EXPECT_FALSE(dialog.form().trouble().isEmpty());
                            EXPECT_LT(dialog.form().trouble().size(), 400);
                            EXPECT_EQ(dialog.form().text(field), text.toStdString());
                        } else {
                            EXPECT_FALSE(text.contains('\n')) << field;
                            EXPECT_LE(text.size(), 300) << field;
                        }
                        dialog.form().set_text(field, was);
                    }
                }
            }
        });
    EXPECT_GT(refused, 200);
    EXPECT_TRUE(all<PartRecord>().empty());
    // What is mere words is kept to the letter, and shown as words.
    add_by_keys({{"item", "<b>'; DROP TABLE parts; --</b> %1"}});
    EXPECT_EQ(newest().item, "<b>'; DROP TABLE parts; --</b> %1");
    EXPECT_EQ(cell(0, 1), "<b>'; DROP TABLE parts; --</b> %1");
}

TEST_F(PartsPageTest, EveryControlIsReachedByKeysAndHasAName) {
    PartRecord part;
    part.item = "Cam";
    keep(part);
    auto* place = window_->findChild<PartsPage*>();
    for (const bool list : {false, true}) {
        place->show_buy_list(list);
        int controls = 0;
        for (QWidget* widget : place->findChildren<QWidget*>()) {
            const bool control = qobject_cast<QLineEdit*>(widget) != nullptr ||
                                 qobject_cast<QAbstractButton*>(widget) != nullptr ||
                                 qobject_cast<QComboBox*>(widget) != nullptr ||
                                 qobject_cast<QTableWidget*>(widget) != nullptr ||
                                 qobject_cast<QTabBar*>(widget) != nullptr;
            // Qt's own insides, a table's corner and a scroll bar, aside.
            if (!control || !widget->isVisible() || widget->objectName().startsWith("qt_") ||
                qobject_cast<QTableWidget*>(widget->parentWidget()) != nullptr) {
                continue;
            }
            ++controls;
            const auto* button = qobject_cast<QAbstractButton*>(widget);
            EXPECT_FALSE(widget->accessibleName().isEmpty() &&
                         (button == nullptr || button->text().isEmpty()))
                << widget->metaObject()->className() << widget->objectName().toStdString();
            EXPECT_TRUE(widget->focusPolicy() & Qt::TabFocus) << widget->objectName().toStdString();
        }
        EXPECT_GT(controls, 4);
    }
}

} // namespace
} // namespace rodway
