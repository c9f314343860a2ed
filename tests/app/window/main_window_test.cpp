#include "app/window/main_window.h"

#include <gtest/gtest.h>

#include <QAction>
#include <QDragEnterEvent>
#include <QFile>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMenuBar>
#include <QMimeData>
#include <QSettings>
#include <QSignalSpy>
#include <QSlider>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTest>

#include "app/valvetrain/survey_table.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/valvetrain/view_bar.h"
#include "app/words/lengths.h"
#include "app/work/build_in_hand.h"
#include "db/photo_store.h"
#include "db/reading_store.h"
#include "db/stage_store.h"
#include "render/cylinder_plan_view.h"
#include "render/scene_view.h"
#include "tests/app/build/step_list.h"

namespace rodway {
namespace {

constexpr int patience_ms = 20000;

/// The real window on a demo shop, its first build open at the valvetrain.
class MainWindowTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(path("shop.rodway"), true));
        window_->open_build(1);
        ASSERT_TRUE(QTest::qWaitFor([&] { return model().engine() != nullptr; }, patience_ms));
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    ValvetrainModel& model() { return window_->valvetrain().model(); }
    template <typename Widget>
    Widget* child(const char* name) {
        auto* found = window_->findChild<Widget*>(name);
        EXPECT_NE(found, nullptr) << name;
        return found;
    }
    QAction* action(const QString& beginning) {
        for (QAction* found : window_->findChildren<QAction*>()) {
            if (found->text().remove('&').startsWith(beginning)) {
                return found;
            }
        }
        ADD_FAILURE() << "no action " << beginning.toStdString();
        return nullptr;
    }
    const ValveClearance& line(const char* valve) {
        for (const ValveClearance& found : model().lines()) {
            if (position_name(found.position) == valve) {
                return found;
            }
        }
        throw std::runtime_error("no such valve");
    }
    void type(QLineEdit* box, const QString& text) {
        box->setFocus();
        box->selectAll();
        QTest::keyClicks(box, text);
        QTest::keyClick(box, Qt::Key_Return);
    }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(MainWindowTest, TheTightestRodIsSelectedFirstAndTheCrankStandsAtItsMinimum) {
    ASSERT_TRUE(model().selected().has_value());
    EXPECT_EQ(position_name(*model().selected()), "3I");
    EXPECT_NEAR(model().crank().in_deg(), line("3I").opening->in_deg(), 1e-9);
}

TEST_F(MainWindowTest, AGasketTypedIntoItsWhatIfBoxCuresTheTightRodAndNothingIsStored) {
    const double before = line("3I").found.minimum->clearance_mm;
    EXPECT_EQ(line("3I").verdict, Verdict::failed);
    QSignalSpy answered(&model(), &ValvetrainModel::answered);
    type(child<QLineEdit>("what_if_gasket_left"), ".075");
    ASSERT_TRUE(answered.wait(patience_ms));
    type(child<QLineEdit>("what_if_gasket_right"), "+.015");
    ASSERT_TRUE(QTest::qWaitFor([&] { return is_pass(*line("3I").verdict); }, patience_ms));
    EXPECT_GT(line("3I").found.minimum->clearance_mm, before + 0.254);
    const auto stored = newest_set_up(window_->session()->shop(), 1);
    EXPECT_EQ((*stored)->fields.at("banks/left/flange/gasket").text, "0.06");
}

TEST_F(MainWindowTest, AWrongWhatIfIsKeptAsTypedAndSaysWhatWouldBeAccepted) {
    const double before = line("3I").found.minimum->clearance_mm;
    auto* box = child<QLineEdit>("what_if_rod");
    for (const char* wrong : {"10", "thick", "7/16-14"}) {
        type(box, wrong);
        EXPECT_EQ(box->text(), wrong);
        const auto* trouble = child<QWidget>("what_if")->findChild<QLabel*>("trouble");
        EXPECT_FALSE(trouble->isHidden()) << wrong;
        EXPECT_FALSE(trouble->text().isEmpty());
    }
    EXPECT_DOUBLE_EQ(line("3I").found.minimum->clearance_mm, before);
    // A rod thicker than its tube is refused by the engine, not by the text.
    type(box, "5/8");
    const auto told = [&] {
        for (const QLabel* label : window_->findChildren<QLabel*>()) {
            if (label->text().contains("not larger than its rod") && !label->isHidden()) {
                return true;
            }
        }
        return false;
    };
    ASSERT_TRUE(QTest::qWaitFor(told, patience_ms));
    EXPECT_EQ(box->text(), "5/8");
    EXPECT_DOUBLE_EQ(line("3I").found.minimum->clearance_mm, before);
}

TEST_F(MainWindowTest, AReadingTypedInItsCellIsKeptJudgedAndUndone) {
    auto* table = child<QTableWidget>("survey");
    const auto count = [&] { return readings(window_->session()->shop(), 1)->size(); };
    const std::size_t before = count();
    const int row = 4; // 3I
    table->setCurrentCell(row, SurveyTable::hand_column);
    table->item(row, SurveyTable::hand_column)->setText(".012");
    EXPECT_EQ(count(), before + 1);
    EXPECT_EQ(readings(window_->session()->shop(), 1)->back().text, ".012");
    EXPECT_EQ(readings(window_->session()->shop(), 1)->back().position, "3I");
    EXPECT_TRUE(table->item(row, SurveyTable::hand_verdict_column)->text().startsWith("Pass"));

    table->item(row, SurveyTable::hand_column)->setText("snug");
    EXPECT_EQ(count(), before + 1);
    EXPECT_EQ(table->item(row, SurveyTable::hand_column)->text(), "snug");
    EXPECT_FALSE(window_->complaint().isEmpty());

    table->item(row, SurveyTable::hand_column)->setText("touch");
    EXPECT_EQ(table->item(row, SurveyTable::hand_verdict_column)->text(), "Contact");
    EXPECT_EQ(count(), before + 2);

    action("Undo")->trigger();
    EXPECT_EQ(count(), before + 1);
    EXPECT_EQ(table->item(row, SurveyTable::hand_column)->text(), ".012");
    action("Redo")->trigger();
    EXPECT_EQ(count(), before + 2);
}

// A gap that is felt again and found the same is a reading of its own; a box gone through isn't.
TEST_F(MainWindowTest, TheSameReadingTypedAgainIsKeptAgain) {
    auto* table = child<QTableWidget>("survey");
    const auto count = [&] { return readings(window_->session()->shop(), 1)->size(); };
    const std::size_t before = count();
    const auto enter = [&](const QString& text) {
        table->setFocus();
        table->setCurrentCell(4, SurveyTable::hand_column);
        table->editItem(table->item(4, SurveyTable::hand_column));
        auto* editor = table->viewport()->findChild<QLineEdit*>();
        ASSERT_NE(editor, nullptr);
        editor->selectAll();
        QTest::keyClicks(editor, text);
        QTest::keyClick(editor, Qt::Key_Return);
        QTest::qWait(1); // the editor goes
    };
    enter(".012");
    EXPECT_EQ(count(), before + 1);
    enter(".012");
    EXPECT_EQ(count(), before + 2);
    enter({});
    EXPECT_EQ(count(), before + 2);
}

// As fast as keys can come: each reading lands at its own valve.
TEST_F(MainWindowTest, ReadingsTypedDownTheColumnWithoutAPauseEachLandAtTheirValve) {
    auto* table = child<QTableWidget>("survey");
    table->setFocus();
    table->setCurrentCell(0, SurveyTable::hand_column);
    const QStringList typed{".061", ".062", "touch", ".064", ".065", ".066-.067", ".068", ".069"};
    for (const QString& text : typed) {
        for (const QChar key : text) {
            QWidget* editor = QApplication::focusWidget();
            QTest::keyClick(editor, key.toLatin1());
        }
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    }
    const auto kept = readings(window_->session()->shop(), 1);
    const QStringList valves{"1I", "1E", "2I", "2E", "3I", "3E", "4I", "4E"};
    ASSERT_GE(kept->size(), static_cast<std::size_t>(typed.size()));
    for (int at = 0; at < typed.size(); ++at) {
        const Reading& reading =
            (*kept)[kept->size() - static_cast<std::size_t>(typed.size() - at)];
        EXPECT_EQ(QString::fromStdString(reading.position), valves[at]);
        EXPECT_EQ(QString::fromStdString(reading.text), typed[at]);
    }
    // A touch found by hand rules over a figure that passes.
    auto* plan = child<CylinderPlanView>("plan");
    for (const PlanValve& valve : plan->content().valves) {
        if (position_name(valve.position) == "2I") {
            EXPECT_EQ(valve.state, CheckState::failed);
        }
        if (position_name(valve.position) == "4E") {
            EXPECT_EQ(valve.state, CheckState::passed);
        }
    }
}

TEST_F(MainWindowTest, ATickIsKeptWithItsNameAndTakenBackByUndo) {
    auto* rail = child<QListWidget>("stage_rail");
    rail->setCurrentRow(11);
    const auto ticked = [&] {
        const auto stages = stages_with_steps(window_->session()->shop(), 1);
        return (*stages)[11].steps[4].ticked_by;
    };
    EXPECT_FALSE(ticked().has_value());
    window_->session()->set_who("KL");
    press_space_on(step_row(*window_, "Pushrod clearance walked"));
    EXPECT_EQ(ticked(), "KL");
    action("Undo")->trigger();
    EXPECT_FALSE(ticked().has_value());
}

TEST_F(MainWindowTest, APhotoDroppedOnTheBuildIsKeptOnItsStage) {
    QImage picture(32, 24, QImage::Format_RGB32);
    picture.fill(Qt::darkGreen);
    ASSERT_TRUE(picture.save(path("tube.png")));
    QFile notes(path("notes.txt"));
    ASSERT_TRUE(notes.open(QIODevice::WriteOnly));
    notes.write("no picture");
    notes.close();
    auto* list = child<QListWidget>("photos");
    QWidget* page = list->parentWidget();
    const auto drop = [&](const QString& file) {
        QMimeData data;
        data.setUrls({QUrl::fromLocalFile(file)});
        QDragEnterEvent enters(QPoint(10, 10), Qt::CopyAction, &data, Qt::LeftButton,
                               Qt::NoModifier);
        QApplication::sendEvent(page, &enters);
        EXPECT_TRUE(enters.isAccepted());
        QDropEvent drops(QPointF(10, 10), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(page, &drops);
    };
    drop(path("tube.png"));
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
    EXPECT_EQ(list->count(), 1);
    const auto kept = photos(window_->session()->shop(), 1);
    ASSERT_EQ(kept->size(), 1U);
    EXPECT_EQ(kept->front().file_name, "tube.png");
    EXPECT_TRUE(window_->session()->shop().check()->findings.empty());
    drop(path("notes.txt"));
    EXPECT_EQ(list->count(), 1);
    EXPECT_TRUE(window_->complaint().contains("notes.txt"));
}

TEST_F(MainWindowTest, PlanCrankAndTableAllShowTheSameValve) {
    auto* plan = child<CylinderPlanView>("plan");
    const auto centre = plan->centre_of({8, ValveKind::exhaust, 1});
    ASSERT_TRUE(centre.has_value());
    QTest::mouseClick(plan, Qt::LeftButton, Qt::NoModifier, centre->toPoint());
    EXPECT_EQ(position_name(*model().selected()), "8E");
    auto* table = child<QTableWidget>("survey");
    EXPECT_EQ(table->item(table->currentRow(), SurveyTable::valve_column)->text(), "8E");
    table->setCurrentCell(0, SurveyTable::hand_column);
    EXPECT_EQ(position_name(*model().selected()), "1I");
    EXPECT_EQ(plan->selected(), (ValvePosition{1, ValveKind::intake, 1}));
    child<QSlider>("crank")->setValue(250);
    EXPECT_DOUBLE_EQ(model().crank().in_deg(), 250.0);
}

TEST_F(MainWindowTest, WrongFilesAreRefusedAndWhatWasThereStays) {
    window_->export_set_up(path("good.json"));
    QFile good(path("good.json"));
    ASSERT_TRUE(good.open(QIODevice::ReadOnly));
    const QByteArray bytes = good.readAll();
    const auto before = newest_set_up(window_->session()->shop(), 1);
    const std::pair<const char*, QByteArray> wrong[] = {
        {"cut.json", bytes.left(bytes.size() / 2)},
        {"order.json", QByteArray(bytes).replace("1-8-4-3-6-5-7-2", "1-8-4-3-6-5-2-2")},
        {"empty.json", {}},
        {"utf16.json", QByteArray("\xff\xfe{\0", 4)},
    };
    for (const auto& [name, content] : wrong) {
        QFile file(path(name));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(content);
        file.close();
        window_->import_set_up(path(name));
        EXPECT_TRUE(window_->complaint().contains("Nothing was taken in")) << name;
        EXPECT_EQ((*newest_set_up(window_->session()->shop(), 1))->id, (*before)->id) << name;
    }
    window_->import_set_up(path("good.json"));
    EXPECT_NE((*newest_set_up(window_->session()->shop(), 1))->id, (*before)->id);
    EXPECT_EQ((*newest_set_up(window_->session()->shop(), 1))->fields, (*before)->fields);

    // A shop file that is none leaves the open one open.
    EXPECT_FALSE(window_->open_shop(path("order.json")));
    EXPECT_TRUE(window_->complaint().contains("not a Rodway shop file"));
    EXPECT_NE(window_->session(), nullptr);
    EXPECT_FALSE(window_->open_shop(path("nowhere.rodway")));
    EXPECT_FALSE(QFile::exists(path("nowhere.rodway")));
    window_->save_document(path("no/such/folder.pdf"));
    EXPECT_TRUE(window_->complaint().contains("can't be written"));
}

TEST_F(MainWindowTest, ASecondWindowSeesTheFirstOnesEdits) {
    MainWindow second;
    ASSERT_TRUE(second.open_shop(path("shop.rodway")));
    second.open_build(1);
    const auto stages = stages_with_steps(second.session()->shop(), 1);
    ASSERT_TRUE(
        second.session()
            ->act(edits_to_tick((*stages)[12].steps[0], "XY", "2026-11-20T08:00:00Z"), "tick")
            .ok());
    auto* rail = child<QListWidget>("stage_rail");
    const QString one_done = QString("1 of %1").arg((*stages)[12].steps.size());
    EXPECT_TRUE(
        QTest::qWaitFor([&] { return rail->item(12)->text().contains(one_done); }, patience_ms));
    // The first window's edit on what has changed meanwhile is refused, with both values.
    const auto stale = window_->session()->act(
        edits_to_tick((*stages)[12].steps[0], "AB", "2026-11-20T08:01:00Z"), "tick");
    ASSERT_FALSE(stale.ok());
    EXPECT_EQ(stale.error().code, ErrorCode::changed_since);
}

TEST_F(MainWindowTest, PapersAndPicturesAreWritten) {
    window_->save_document(path("clearance.pdf"));
    auto* view = window_->findChild<SceneView*>();
    auto* bar = window_->findChild<ViewBar*>();
    ASSERT_NE(view, nullptr);
    ASSERT_NE(bar, nullptr);
    bar->save(ViewFile::view, path("view.png"));
    view->look_from(Look::above, {});
    bar->save(ViewFile::view, path("above.png"));
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
    QFile pdf(path("clearance.pdf"));
    ASSERT_TRUE(pdf.open(QIODevice::ReadOnly));
    EXPECT_TRUE(pdf.readAll().startsWith("%PDF-"));
    EXPECT_EQ(QImage(path("view.png")).width(), 1920);
    EXPECT_NE(QImage(path("view.png")), QImage(path("above.png"))); // as it was seen
}

TEST(Lengths, AreShownToTheThousandthWithoutAMinusZero) {
    EXPECT_EQ(words::inches(-0.0001), "0.000 in");
    EXPECT_EQ(words::inches(0.254), "0.010 in");
    EXPECT_EQ(words::both_units(0.254), "0.010 in (0.25 mm)");
    EXPECT_EQ(words::signed_inches(0.381), "+0.015 in");
    EXPECT_EQ(words::size(7.9375), "0.3125 in");
    EXPECT_EQ(words::size(44.45), "1.750 in");
    EXPECT_EQ(words::crank_degrees(106.0), "106\u00b0");
    EXPECT_EQ(words::crank_degrees(106.54), "106.5\u00b0");
}

} // namespace
} // namespace rodway
