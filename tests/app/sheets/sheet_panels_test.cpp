#include <QComboBox>
#include <QDragEnterEvent>
#include <QImage>
#include <QLabel>
#include <QListWidget>
#include <QMimeData>
#include <QPushButton>
#include <QTabWidget>

#include "app/sheets/joint_view.h"
#include "app/sheets/remarks_panel.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/photo_store.h"
#include "render/cylinder_plan_view.h"
#include "tests/app/sheets/open_sheets.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// What stands around the table of a sheet.
class SheetPanels : public OpenSheets {
  protected:
    template <typename Widget>
    Widget& part(const char* name) {
        auto* found = page().findChild<Widget*>(name);
        if (found == nullptr) {
            throw std::runtime_error(name);
        }
        return *found;
    }
    void look_at(const char* tab) {
        auto& aside = part<QTabWidget>("aside");
        for (int at = 0; at < aside.count(); ++at) {
            if (aside.tabText(at).startsWith(tab)) {
                aside.setCurrentIndex(at);
                return;
            }
        }
        throw std::runtime_error(tab);
    }
    static QStringList lines_of(const QListWidget& list) {
        QStringList lines;
        for (int row = 0; row < list.count(); ++row) {
            lines << list.item(row)->text();
        }
        return lines;
    }
    void set_limit(const char* low, const char* high, const char* source, bool used) {
        look_at("Limits");
        part<QLineEdit>("limit_low").setText(low);
        part<QLineEdit>("limit_high").setText(high);
        part<QComboBox>("limit_parts").setCurrentIndex(used ? 1 : 0);
        type_into(part<QLineEdit>("limit_source"), source);
        QTest::keyClick(&part<QLineEdit>("limit_source"), Qt::Key_Return);
    }
    QString state() { return part<QLabel>("line_state").text(); }
    /// As a file manager does it.
    void drop(const QString& file) {
        auto* target = page().findChild<RemarksPanel*>();
        QMimeData dropped;
        dropped.setUrls({QUrl::fromLocalFile(file)});
        QDragEnterEvent enter(QPoint(10, 10), Qt::CopyAction, &dropped, Qt::LeftButton, {});
        QApplication::sendEvent(target, &enter);
        ASSERT_TRUE(enter.isAccepted());
        QDropEvent drop(QPointF(10, 10), Qt::CopyAction, &dropped, Qt::LeftButton, {});
        QApplication::sendEvent(target, &drop);
    }
    CylinderPlanView& plan() { return part<CylinderPlanView>("sheet_plan"); }
    const PlanValve& on_plan(int cylinder, ValveKind kind = ValveKind::intake) {
        for (const PlanValve& valve : plan().content().valves) {
            if (valve.position.cylinder == cylinder && valve.position.kind == kind) {
                return valve;
            }
        }
        throw std::runtime_error("not on the plan");
    }
};

TEST_F(SheetPanels, ALimitOfUsedPartsMakesAWornOneServiceableAndBothAreShownWithTheirSource) {
    page().open_kind("main_bearings");
    table().setCurrentCell(1, 3); // main clearance
    set_limit(".0020", ".0030", "the manual", false);
    set_limit(".0020", ".0045", "the manual, worn", true);
    table().setCurrentCell(1, 3);
    press(".0038\n");
    table().setCurrentCell(1, 3);
    EXPECT_TRUE(state().contains("Worn, but serviceable")) << state().toStdString();
    EXPECT_TRUE(state().contains("the manual, worn")) << state().toStdString();
    const QString ruling = part<QLabel>("ruling_limits").text();
    EXPECT_TRUE(ruling.contains("0.003\u00a0in (the manual)")) << ruling.toStdString();
    EXPECT_TRUE(ruling.contains("0.0045\u00a0in for used parts (the manual, worn)"))
        << ruling.toStdString();
    EXPECT_THAT(lines_of(part<QListWidget>("kept_limits")), SizeIs(2));
    const auto limits = load_records<LimitRecord>(window_->session()->shop(), 1);
    ASSERT_TRUE(limits.ok());
    ASSERT_THAT(*limits, SizeIs(2));
    EXPECT_FALSE((*limits)[0].serviceable);
    EXPECT_TRUE((*limits)[1].serviceable);
    EXPECT_EQ((*limits)[1].unit, "in");
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
}

TEST_F(SheetPanels, ALimitMayHoldAtOnePositionInAnotherUnitAndForEveryBuild) {
    page().open_kind("springs");
    table().setCurrentCell(2, 2); // installed height at 2I
    part<QComboBox>("limit_where").setCurrentIndex(1);
    part<QComboBox>("limit_unit").setCurrentText("mm");
    part<QComboBox>("limit_builds").setCurrentIndex(1);
    set_limit("45", "46", "the maker", false);
    const auto limits = load_records<LimitRecord>(window_->session()->shop(), shop_wide);
    ASSERT_TRUE(limits.ok());
    ASSERT_THAT(*limits, SizeIs(1));
    EXPECT_EQ((*limits)[0].position, "2I");
    EXPECT_EQ((*limits)[0].unit, "mm");
    table().setCurrentCell(2, 2);
    press("1.700\n1.700\n"); // 43.2 mm
    table().setCurrentCell(2, 2);
    EXPECT_TRUE(state().contains("Outside the limit")) << state().toStdString();
    table().setCurrentCell(3, 2); // 2E has none
    EXPECT_TRUE(state().contains("No limit set")) << state().toStdString();
}

TEST_F(SheetPanels, ALimitThatMakesNoSenseIsRefusedAndStaysAsTyped) {
    page().open_kind("main_bearings");
    table().setCurrentCell(1, 3);
    set_limit(".0040", ".0020", "me", false);
    EXPECT_FALSE(window_->complaint().isEmpty());
    EXPECT_EQ(part<QLineEdit>("limit_low").text(), ".0040");
    set_limit(".0020", ".0040", "", false);
    EXPECT_TRUE(window_->complaint().contains("where the limit comes from"));
    EXPECT_THAT(*load_records<LimitRecord>(window_->session()->shop(), 1), IsEmpty());
}

TEST_F(SheetPanels, ALimitIsTakenAwayAndBroughtBack) {
    page().open_kind("main_bearings");
    table().setCurrentCell(1, 3);
    set_limit(".0020", ".0030", "the manual", false);
    auto& kept = part<QListWidget>("kept_limits");
    ASSERT_EQ(kept.count(), 1);
    kept.setCurrentRow(0);
    for (auto* button : page().findChildren<QPushButton*>()) {
        if (button->text() == "Take the chosen one away") {
            button->click();
        }
    }
    EXPECT_THAT(*load_records<LimitRecord>(window_->session()->shop(), 1), IsEmpty());
    EXPECT_EQ(kept.count(), 0);
    ASSERT_TRUE(window_->session()->undo().ok());
    EXPECT_THAT(*load_records<LimitRecord>(window_->session()->shop(), 1), SizeIs(1));
}

TEST_F(SheetPanels, ThePlanShowsEveryValvesValueAndStateAndFollowsTheBoxInHand) {
    page().open_kind("springs");
    table().setCurrentCell(4, 2);
    ASSERT_TRUE(plan().isVisible());
    EXPECT_EQ(plan().selected(), (ValvePosition{3, ValveKind::intake, 1}));
    set_limit("1.800", "1.820", "the maker", false);
    set_limit("1.800", "1.860", "the maker", true);
    table().setCurrentCell(0, 2);
    press("1.810\n1.850\n1.900\n");
    EXPECT_EQ(on_plan(1).value, "1.810");
    EXPECT_EQ(on_plan(1).state, CheckState::passed);
    EXPECT_EQ(on_plan(1, ValveKind::exhaust).state, CheckState::serviceable);
    EXPECT_EQ(on_plan(2).value, "1.900");
    EXPECT_EQ(on_plan(2).state, CheckState::failed);
    EXPECT_EQ(on_plan(2, ValveKind::exhaust).state, CheckState::not_yet);
    EXPECT_EQ(plan().selected(), (ValvePosition{2, ValveKind::exhaust, 1})); // the next to fill
    EXPECT_TRUE(plan().accessibleDescription().contains("2E: not measured yet"));
    plan().set_selected(ValvePosition{2, ValveKind::intake, 1});
    EXPECT_TRUE(plan().accessibleDescription().contains("2I: 1.900, Outside the limit"))
        << plan().accessibleDescription().toStdString();
}

TEST_F(SheetPanels, AClickOnThePlanGoesToThatBoxAndTypingGoesOnThere) {
    page().open_kind("springs");
    table().setCurrentCell(0, 2);
    const auto spot = plan().centre_of({6, ValveKind::exhaust, 1});
    ASSERT_TRUE(spot);
    QTest::mouseClick(&plan(), Qt::LeftButton, {}, spot->toPoint());
    EXPECT_TRUE(table().hasFocus());
    EXPECT_EQ(table().currentColumn(), 2);
    press("1.815\n");
    EXPECT_THAT(kept("spring_installed_height"), ElementsAre("6E 1.815"));
}

TEST_F(SheetPanels, ThePlanIsWalkedInTheChosenOrder) {
    page().open_kind("springs");
    auto* order = page().findChild<QComboBox*>();
    order->setCurrentIndex(2);
    emit order->activated(2); // firing order 1-8-4-3-6-5-7-2
    table().setCurrentCell(0, 2);
    plan().setFocus();
    std::vector<int> walked;
    for (int step = 0; step < 4; ++step) {
        QTest::keyClick(&plan(), Qt::Key_Tab);
        walked.push_back(plan().selected()->cylinder);
        EXPECT_EQ(table().spot()->box->position, position_name(*plan().selected()));
    }
    EXPECT_THAT(walked, ElementsAre(1, 8, 8, 4));
    QTest::keyClick(&plan(), Qt::Key_Return);
    EXPECT_TRUE(table().hasFocus());
}

TEST_F(SheetPanels, OfARingsSheetThePlanHasTheRingInHandAtEveryCylinder) {
    page().open_kind("rings");
    table().setCurrentCell(1, 1); // 1 second
    press(".021\n");
    table().setCurrentCell(0, 1); // 1 top
    ASSERT_THAT(plan().content().valves, SizeIs(8));
    EXPECT_TRUE(on_plan(1).value.isEmpty());
    table().setCurrentCell(3, 1); // 2 second
    EXPECT_EQ(on_plan(1).value, ".021");
    EXPECT_EQ(plan().selected()->cylinder, 2);
    const auto spot = plan().centre_of({5, ValveKind::intake, 1});
    QTest::mouseClick(&plan(), Qt::LeftButton, {}, spot->toPoint());
    EXPECT_EQ(table().spot()->box->position, "5 second");
}

TEST_F(SheetPanels, WithoutPositionsOrWithoutASetUpThereIsNoPlanAndTheSheetWorks) {
    page().open_kind("springs");
    open_place("Once");
    EXPECT_FALSE(plan().isVisible());
    page().open_kind("main_bearings");
    EXPECT_FALSE(plan().isVisible());
    const auto made = window_->session()->create(
        RecordKind::build,
        [](std::int64_t id) {
            return edits_to_create(Build{id, "No set-up", "Somebody", "An engine", {}, {}, {}});
        },
        "build");
    ASSERT_TRUE(made.ok());
    window_->open_build(*made);
    window_->go_to_sheets();
    page().open_kind("springs");
    EXPECT_FALSE(plan().isVisible());
    type_into(part<QLineEdit>("another_position"), "3I\n");
    EXPECT_FALSE(plan().isVisible());
    ASSERT_EQ(table().rowCount(), 1);
    table().setCurrentCell(0, 2);
    press("1.800\n");
    const auto all = readings(window_->session()->shop(), *made);
    ASSERT_TRUE(all.ok());
    ASSERT_THAT(*all, SizeIs(1));
    EXPECT_EQ((*all)[0].text, "1.800");
    EXPECT_TRUE(window_->complaint().isEmpty());
}

TEST_F(SheetPanels, RowsTellLeastMostSpreadAndMeanAndTheOddOneIsMarkedInItsBox) {
    page().open_kind("springs");
    table().setCurrentCell(0, 2);
    for (const char* text : {"1.812", "", "1.810", "", "1.811", "", "1.812", "", "1.870"}) {
        if (*text != '\0') {
            press(QString(text) + '\n');
        } else {
            table().setCurrentCell(table().currentRow() + 1, 2);
        }
    }
    look_at("Rows");
    const QStringList rows = lines_of(part<QListWidget>("rows"));
    ASSERT_FALSE(rows.isEmpty());
    EXPECT_TRUE(rows[0].startsWith("Installed height, intake")) << rows[0].toStdString();
    // (1.812 + 1.810 + 1.811 + 1.812 + 1.870) / 5 = 1.823
    for (const char* says : {"5 read", "least 1.810\u00a0in (2I)", "most 1.870\u00a0in (5I)",
                             "spread 0.060\u00a0in", "mean 1.8230\u00a0in", "Stands apart: 5I"}) {
        EXPECT_TRUE(rows[0].contains(says)) << says << " in " << rows[0].toStdString();
    }
    EXPECT_TRUE(table().item(8, 2)->toolTip().contains("Stands apart"));
    EXPECT_FALSE(table().item(6, 2)->toolTip().contains("Stands apart"));
}

TEST_F(SheetPanels, WhatWasTypedIsToldInTheOtherUnitToo) {
    page().open_kind("springs");
    table().setCurrentCell(0, 2);
    press("1.8105\n45,95 mm\n");
    table().setCurrentCell(0, 2);
    // 1.8105 x 25.4 = 45.9867; a step of .0001 in needs three decimals of a millimetre.
    EXPECT_TRUE(state().contains("1.8105\u00a0in = 45.987\u00a0mm")) << state().toStdString();
    table().setCurrentCell(1, 2);
    // 45.95 / 25.4 = 1.80906; a step of .01 mm needs four decimals of an inch.
    EXPECT_TRUE(state().contains("1.8091\u00a0in = 45.95\u00a0mm")) << state().toStdString();
}

TEST_F(SheetPanels, WhatOtherBuildsHadStandsBesideTheBoxInHand) {
    ShopSession& session = *window_->session();
    const Build first = *load_build(session.shop(), 1);
    const auto other = session.create(
        RecordKind::build,
        [&](std::int64_t id) {
            Build build{id, "Twin of the first", "Somebody else", first.engine, {}, {}, {}};
            return edits_to_create(build);
        },
        "build");
    ASSERT_TRUE(other.ok());
    for (const auto& [position, text] : {std::pair{"3I", "1.8077"}, {"4I", "1.8066"}}) {
        ASSERT_TRUE(session
                        .create(
                            RecordKind::reading,
                            [&](std::int64_t id) {
                                Reading reading;
                                reading.id = id;
                                reading.build_id = *other;
                                reading.quantity = "spring_installed_height";
                                reading.position = position;
                                reading.text = text;
                                reading.unit = "in";
                                reading.taken_by = "MH";
                                reading.taken_at = "2026-10-02T08:00:00Z";
                                return edits_to_create(reading);
                            },
                            "reading")
                        .ok());
    }
    page().open_kind("springs");
    table().setCurrentCell(4, 2); // 3I
    look_at("Before");
    const QStringList before = lines_of(part<QListWidget>("before"));
    ASSERT_THAT(before, SizeIs(1));
    for (const char* says :
         {"Twin of the first", "2 October 2026", "same engine", "3I: 1.8077 in", "4I 1.8066"}) {
        EXPECT_TRUE(before[0].contains(says)) << says << " in " << before[0].toStdString();
    }
    table().setCurrentCell(4, 3); // shims: nobody measured those
    EXPECT_TRUE(lines_of(part<QListWidget>("before"))[0].startsWith("No other build"));
}

TEST_F(SheetPanels, NotesAndPhotosBelongToTheSheetOrToAPositionOfIt) {
    page().open_kind("springs");
    table().setCurrentCell(4, 2);
    look_at("Notes");
    type_into(part<QLineEdit>("sheet_note"), "all from one batch\n");
    part<QComboBox>("remark_where").setCurrentIndex(1);
    type_into(part<QLineEdit>("sheet_note"), "seat is loose\n");
    ShopFile& shop = window_->session()->shop();
    const auto sheets = load_records<Sheet>(shop, 1);
    const auto notes = load_records<Note>(shop, 1);
    ASSERT_TRUE(sheets.ok() && notes.ok());
    ASSERT_THAT(*sheets, SizeIs(1)); // one record of the sheet for both
    EXPECT_EQ((*sheets)[0].kind, "springs");
    ASSERT_THAT(*notes, SizeIs(2));
    EXPECT_EQ((*notes)[0].sheet_id, (*sheets)[0].id);
    EXPECT_FALSE((*notes)[0].position);
    EXPECT_EQ((*notes)[1].position, "3I");
    const QStringList shown = lines_of(part<QListWidget>("sheet_notes"));
    ASSERT_THAT(shown, SizeIs(2));
    EXPECT_TRUE(shown[1].startsWith("3I: seat is loose"));

    QImage picture(40, 30, QImage::Format_RGB32);
    picture.fill(Qt::darkGreen);
    const QString file = folder_.filePath("seat.png");
    ASSERT_TRUE(picture.save(file));
    drop(file);
    const auto pictures = photos(shop, 1);
    ASSERT_TRUE(pictures.ok());
    ASSERT_THAT(*pictures, SizeIs(1));
    EXPECT_EQ((*pictures)[0].sheet_id, (*sheets)[0].id);
    EXPECT_EQ((*pictures)[0].position, "3I");
    ASSERT_EQ(part<QListWidget>("sheet_photos").count(), 1);
    EXPECT_FALSE(part<QListWidget>("sheet_photos").item(0)->icon().isNull());
    // Another sheet has its own.
    page().open_kind("rings");
    EXPECT_EQ(part<QListWidget>("sheet_photos").count(), 0);
    EXPECT_TRUE(lines_of(part<QListWidget>("sheet_notes"))[0].startsWith("No notes"));
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
}

TEST_F(SheetPanels, AFileThatIsNoPictureIsRefused) {
    page().open_kind("springs");
    const QString file = folder_.filePath("letter.txt");
    QFile letter(file);
    ASSERT_TRUE(letter.open(QIODevice::WriteOnly));
    letter.write("Dear customer");
    letter.close();
    drop(file);
    EXPECT_FALSE(window_->complaint().isEmpty());
    EXPECT_THAT(*photos(window_->session()->shop(), 1), IsEmpty());
}

TEST_F(SheetPanels, AJointIsDrawnWithItsOrderAndAMissedBoltShowsAndIsGoneTo) {
    page().open_kind("fasteners");
    open_place("Each joint");
    type_into(part<QLineEdit>("another_position"), "head left\n");
    const auto column = [&](const QString& title) {
        for (int at = 1; at < table().columnCount(); ++at) {
            if (table().horizontalHeaderItem(at)->text().startsWith(title)) {
                return at;
            }
        }
        throw std::runtime_error(title.toStdString());
    };
    const auto write = [&](int row, int at, const char* text) {
        table().setCurrentCell(row, at);
        press(QString(text) + '\n');
    };
    write(0, column("Bolts of the joint"), "4");
    write(0, column("Steps"), "40 lb-ft, 60 lb-ft");
    write(0, column("Order"), "3-2-4-1");
    auto& joint = part<JointView>("joint");
    ASSERT_TRUE(joint.isVisible());
    ASSERT_THAT(joint.drawing().bolts, SizeIs(4));
    EXPECT_EQ(joint.drawing().bolts[2].order, "1");
    EXPECT_EQ(joint.drawing().bolts[0].order, "4");
    EXPECT_THAT(joint.drawing().bolts[0].passes, ElementsAre(BoltMark::waiting, BoltMark::waiting));

    // Every bolt of every pass has its row already, in the order of tightening.
    open_place("Each bolt, pass by pass");
    ASSERT_EQ(table().rowCount(), 8);
    EXPECT_EQ(table().verticalHeaderItem(0)->text(), "head left bolt 3 pass 1");
    EXPECT_EQ(table().verticalHeaderItem(1)->text(), "head left bolt 2 pass 1");
    write(0, 1, "40");
    write(2, 1, "40"); // bolt 2 is left out
    EXPECT_EQ(joint.drawing().bolts[1].passes[0], BoltMark::missed);
    EXPECT_EQ(joint.drawing().bolts[2].passes[0], BoltMark::done);
    EXPECT_EQ(joint.drawing().bolts[0].passes[0], BoltMark::waiting);
    EXPECT_TRUE(joint.accessibleDescription().contains("bolt 2, pass 1: missed"));
    write(2, 1, "41");
    EXPECT_EQ(joint.drawing().bolts[3].passes[0], BoltMark::doubled);

    const JointLayout layout =
        lay_out_joint(QRectF(joint.rect()).adjusted(3, 3, -3, -3), joint.drawing(), joint.font());
    QTest::mouseClick(&joint, Qt::LeftButton, {}, layout.bolts[1].center().toPoint());
    EXPECT_EQ(table().spot()->box->position, "head left bolt 2 pass 1");
    press("40\n");
    EXPECT_EQ(joint.drawing().bolts[1].passes[0], BoltMark::done);
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
}

} // namespace
} // namespace rodway
