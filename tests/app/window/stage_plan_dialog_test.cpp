#include "app/build/stage_plan_dialog.h"

#include <gtest/gtest.h>

#include <QAbstractItemView>
#include <QComboBox>
#include <QCompleter>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>
#include <QTreeWidget>

#include "app/build/new_build_dialog.h"
#include "app/build/plan_changes_dialog.h"
#include "app/first_run/new_build.h"
#include "db/build_records.h"

namespace rodway {
namespace {

class StagePlanDialogTest : public ::testing::Test {
  protected:
    void SetUp() override {
        auto shop = ShopFile::create(folder_.filePath("shop.rodway").toStdString());
        ASSERT_TRUE(shop.ok());
        session_ = std::make_unique<ShopSession>(std::move(shop).value(), "KL");
        dialog_ = std::make_unique<StagePlanDialog>(*session_);
        dialog_->show();
        dialog_->open("head_work");
    }
    template <typename Widget>
    Widget* child(const char* name) {
        auto* found = dialog_->findChild<Widget*>(name);
        EXPECT_NE(found, nullptr) << name;
        return found;
    }
    QTreeWidget* tree() { return child<QTreeWidget>("plan_items"); }
    void select(int stage, int item) {
        QTreeWidgetItem* top = tree()->topLevelItem(stage);
        tree()->setCurrentItem(item < 0 ? top : top->child(item));
    }
    void retype(QWidget* box, const QString& text) {
        box->setFocus();
        QTest::keyClick(box, Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(box, text);
    }
    QPushButton* keep() { return child<QPushButton>("keep"); }
    std::vector<ShopPlan> own() { return *load_records<ShopPlan>(session_->shop(), shop_wide); }

    QTemporaryDir folder_;
    std::unique_ptr<ShopSession> session_;
    std::unique_ptr<StagePlanDialog> dialog_;
};

TEST_F(StagePlanDialogTest, TheWholePlanIsShownAndNothingIsChangedByLooking) {
    const StagePlan& plan = built_in_plans()[3];
    ASSERT_EQ(tree()->topLevelItemCount(), static_cast<int>(plan.stages.size()));
    for (int stage = 0; stage < tree()->topLevelItemCount(); ++stage) {
        const PlannedStage& planned = plan.stages[static_cast<std::size_t>(stage)];
        ASSERT_EQ(tree()->topLevelItem(stage)->childCount(),
                  static_cast<int>(planned.steps.size() + planned.gates.size()));
        for (int item = -1; item < tree()->topLevelItem(stage)->childCount(); ++item) {
            select(stage, item);
        }
    }
    EXPECT_EQ(dialog_->draft(), plan);
    EXPECT_FALSE(keep()->isEnabled());
    for (QComboBox* box : dialog_->findChildren<QComboBox*>()) {
        EXPECT_GT(box->count(), 1);
    }
}

TEST_F(StagePlanDialogTest, AStepIsAddedNamedMovedAndKeptByTheKeyboardAlone) {
    select(1, 0);
    for (QPushButton* found : dialog_->findChildren<QPushButton*>()) {
        if (found->text() == "New s&tep") {
            found->setFocus();
            QTest::keyClick(found, Qt::Key_Space);
        }
    }
    QTest::keyClicks(child<QLineEdit>("item_title"), "Crates kept");
    QTest::keyClick(child<QLineEdit>("item_title"), Qt::Key_Return);
    ASSERT_TRUE(dialog_->isVisible());
    QTest::keyClicks(child<QPlainTextEdit>("item_detail"), "They go back with the heads.");
    auto* parts = child<QLineEdit>("item_parts");
    retype(parts, "head, head_bo");
    QAbstractItemView* offered = dialog_->findChild<QCompleter*>()->popup();
    ASSERT_TRUE(offered->isVisible());
    QTest::keyClick(offered, Qt::Key_Down);
    QTest::keyClick(offered, Qt::Key_Return);
    EXPECT_EQ(parts->text(), "head, head_bolt");
    tree()->setFocus();
    QTest::keyClick(tree(), Qt::Key_Down, Qt::AltModifier);
    EXPECT_EQ(tree()->currentItem()->text(0), "Crates kept");
    ASSERT_TRUE(keep()->isEnabled());
    EXPECT_FALSE(child<QComboBox>("plans")->isEnabled());
    keep()->setFocus();
    QTest::keyClick(keep(), Qt::Key_Space);
    ASSERT_EQ(own().size(), 1U);
    const StagePlan kept = *find_plan(session_->shop(), "head_work");
    const PlannedStep& step = kept.stages[1].steps[2];
    EXPECT_EQ(step.title, "Crates kept");
    EXPECT_EQ(step.id, "new_step");
    EXPECT_EQ(step.detail, "They go back with the heads.");
    EXPECT_EQ(step.roles, (std::vector<std::string>{"head", "head_bolt"}));
    EXPECT_EQ(kept.stages[1].steps[1].id, built_in_plans()[3].stages[1].steps[1].id);
    EXPECT_EQ(kept.stages[1].steps.size(), built_in_plans()[3].stages[1].steps.size() + 1);
    EXPECT_FALSE(keep()->isEnabled());
    EXPECT_TRUE(child<QComboBox>("plans")->isEnabled());
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_TRUE(own().empty());
}

TEST_F(StagePlanDialogTest, ATextThatCantBeReadIsKeptAsTypedAndSaysWhatWouldBeAccepted) {
    const int gate = tree()->topLevelItem(2)->childCount() - 1;
    select(2, gate);
    auto* needs = child<QLineEdit>("item_needs");
    EXPECT_EQ(needs->text(), "steps; approvals");
    retype(needs, "steps; sheet rod_clearence");
    EXPECT_TRUE(child<QLabel>("trouble")->text().contains("rod_clearance"));
    EXPECT_FALSE(keep()->isEnabled());
    select(0, 0);
    EXPECT_TRUE(child<QLabel>("trouble")->text().startsWith("“Before metal is cut"));
    select(2, gate);
    EXPECT_EQ(needs->text(), "steps; sheet rod_clearence");
    retype(needs, "steps; sheet rod_clearance");
    EXPECT_TRUE(child<QLabel>("trouble")->text().isEmpty());
    EXPECT_TRUE(keep()->isEnabled());
    EXPECT_EQ(dialog_->draft().stages[2].gates[0].needs[1].sheets,
              std::vector<std::string>{"rod_clearance"});
}

TEST_F(StagePlanDialogTest, OneGoesBackToTheBuiltInPlan) {
    QPushButton* back = nullptr;
    for (QPushButton* found : dialog_->findChildren<QPushButton*>()) {
        if (found->text().startsWith("&Back")) back = found;
    }
    ASSERT_NE(back, nullptr);
    EXPECT_FALSE(back->isEnabled());
    select(0, 0);
    retype(child<QLineEdit>("item_title"), "Rung up");
    ASSERT_TRUE(dialog_->keep());
    ASSERT_TRUE(back->isEnabled());
    retype(child<QLineEdit>("item_title"), "Rung up again");
    EXPECT_FALSE(back->isEnabled());
    retype(child<QLineEdit>("item_title"), "Rung up");
    back->click();
    EXPECT_TRUE(own().empty());
    EXPECT_EQ(dialog_->draft(), built_in_plans()[3]);
    EXPECT_FALSE(back->isEnabled());
}

TEST_F(StagePlanDialogTest, AnEmptyTitleIsRefusedWhenItIsToBeKept) {
    select(0, 0);
    auto* title = child<QLineEdit>("item_title");
    title->setFocus();
    QTest::keyClick(title, Qt::Key_A, Qt::ControlModifier);
    QTest::keyClick(title, Qt::Key_Delete);
    EXPECT_FALSE(dialog_->keep());
    EXPECT_TRUE(child<QLabel>("trouble")->text().contains("stages/1/steps/1/title"));
    EXPECT_TRUE(own().empty());
    EXPECT_TRUE(dialog_->is_changed());
}

TEST_F(StagePlanDialogTest, StepsGatesAndStagesAreTakenOut) {
    const StagePlan before = dialog_->draft();
    select(2, 1);
    tree()->setFocus();
    QTest::keyClick(tree(), Qt::Key_Delete);
    select(2, tree()->topLevelItem(2)->childCount() - 1);
    QTest::keyClick(tree(), Qt::Key_Delete);
    select(4, -1);
    QTest::keyClick(tree(), Qt::Key_Delete);
    StagePlan wanted = before;
    wanted.stages[2].steps.erase(wanted.stages[2].steps.begin() + 1);
    wanted.stages[2].gates.clear();
    wanted.stages.erase(wanted.stages.begin() + 4);
    EXPECT_EQ(dialog_->draft(), wanted);
}

TEST_F(StagePlanDialogTest, ClosingAsksWhatToDoWithWhatIsntKept) {
    select(0, 0);
    retype(child<QLineEdit>("item_title"), "Rung up");
    const auto press = [](const QString& text) {
        QTimer::singleShot(0, [text] {
            auto* ask = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
            ASSERT_NE(ask, nullptr);
            for (QAbstractButton* button : ask->buttons()) {
                if (button->text().remove('&') == text) button->click();
            }
        });
    };
    press("Go on editing");
    QTest::keyClick(dialog_.get(), Qt::Key_Escape);
    EXPECT_TRUE(dialog_->isVisible());
    press("Keep it");
    QTest::keyClick(dialog_.get(), Qt::Key_Escape);
    EXPECT_FALSE(dialog_->isVisible());
    EXPECT_EQ(find_plan(session_->shop(), "head_work")->stages[0].steps[0].title, "Rung up");
}

TEST_F(StagePlanDialogTest, FilesGoInAndOutAndABadOneSaysItsLine) {
    const QString file = folder_.filePath("plan.json");
    dialog_->export_file(file);
    QFile read(file);
    ASSERT_TRUE(read.open(QIODevice::ReadOnly));
    QByteArray bytes = read.readAll();
    read.close();
    const auto write = [&] {
        ASSERT_TRUE(read.open(QIODevice::WriteOnly));
        read.write(bytes);
        read.close();
    };
    bytes.replace("\"word\": \"head_work\"", "\"word\": \"our_heads\"");
    bytes.replace("\"title\": \"Head work\"", "\"title\": \"Our heads\"");
    write();
    dialog_->import_file(file);
    EXPECT_EQ(child<QComboBox>("plans")->currentText(), "Our heads (the shop's)");
    EXPECT_EQ(dialog_->draft().word, "our_heads");
    bytes.replace("\"sheet\": \"springs\"", "\"sheet\": \"spring\"");
    write();
    dialog_->import_file(file);
    EXPECT_TRUE(child<QLabel>("trouble")->text().contains("line "));
    EXPECT_EQ(own().size(), 1U);
}

TEST_F(StagePlanDialogTest, ANewBuildIsOfferedEveryPlanTheUsualOneFirst) {
    retype(child<QLineEdit>("item_title"), "Rung up");
    ASSERT_TRUE(dialog_->keep());
    NewBuildDialog dialog(*known_plans(session_->shop()));
    auto* plans = dialog.findChild<QComboBox*>("plan");
    ASSERT_EQ(plans->count(), 5);
    EXPECT_EQ(dialog.plan(), "complete_build");
    EXPECT_EQ(plans->itemText(3), "Head work (the shop's)");
    plans->setFocus();
    QTest::keyClicks(plans, "Head");
    EXPECT_EQ(dialog.plan(), "head_work");
}

TEST_F(StagePlanDialogTest, TickedChangesAreThoseThatAreTaken) {
    std::vector<PlanChange> changes(2);
    changes[0].id = "one";
    changes[0].title = "One";
    changes[1].id = "two";
    changes[1].title = "Two";
    PlanChangesDialog dialog("Blue pickup", changes);
    dialog.show();
    auto* list = dialog.findChild<QTreeWidget*>("plan_changes");
    EXPECT_TRUE(dialog.chosen().empty());
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_Space);
    EXPECT_EQ(dialog.chosen(), std::set<std::string>{"two"});
    PlanChangesDialog nothing("Blue pickup", {});
    bool said = false;
    for (const QLabel* label : nothing.findChildren<QLabel*>()) {
        said = said || label->text().contains("nothing to take over");
    }
    EXPECT_TRUE(said);
}

} // namespace
} // namespace rodway
