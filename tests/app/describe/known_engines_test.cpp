#include <gtest/gtest.h>

#include <QComboBox>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>

#include "app/build/new_build_dialog.h"
#include "app/first_run/new_build.h"
#include "app/known_engines/engine_file_dialog.h"
#include "app/known_engines/known_engines_page.h"
#include "app/work/known_engines.h"
#include "core/describe/description.h"
#include "core/describe/outline.h"
#include "db/build_store.h"
#include "db/set_up_store.h"
#include "tests/app/describe/person_at_work.h"
#include "tests/app/program.h"
#include "tests/app/window/place_test.h"
#include "tests/core/describe/measured_engine.h"

namespace rodway {
namespace {

/// The demo shop, its first build with a described six as its set-up in hand.
class KnownEnginesTest : public PlaceTest {
  protected:
    void SetUp() override {
        PlaceTest::SetUp();
        ASSERT_TRUE(add_set_up(session(), 1, "As described", six_).ok());
        go_to("Known\nengines");
    }
    QPushButton* button(const QString& text) {
        for (QPushButton* one : window_->findChildren<QPushButton*>()) {
            if (one->isVisible() && one->text() == text) {
                return one;
            }
        }
        ADD_FAILURE() << "no button " << text.toStdString();
        return nullptr;
    }
    void press(const QString& text) { QTest::mouseClick(button(text), Qt::LeftButton); }
    std::vector<KnownEngine> known() { return *known_engines(session().shop()); }
    QListWidget* list() { return window_->findChild<QListWidget*>("known_engines"); }
    int row_of(const QString& size) {
        auto* sizes = window_->findChild<QTableWidget*>("known_sizes");
        for (int row = 0; row < sizes->rowCount(); ++row) {
            if (sizes->item(row, 0)->text() == size) {
                return row;
            }
        }
        ADD_FAILURE() << size.toStdString();
        return 0;
    }
    const SetUpFields six_ = MeasuredEngine(demo_fields("inline-six")).fields();
};

TEST_F(KnownEnginesTest, ABuildsEngineIsKeptVersionByVersionAndUndoTakesItBack) {
    EXPECT_EQ(list()->count(), 0);
    press("Keep the open build's engine");
    ASSERT_EQ(known().size(), 1U);
    EXPECT_EQ(known().front().name, "Merrow 261 six");
    EXPECT_EQ(known().front().version, 1);
    EXPECT_EQ(known().front().fields, six_);
    press("Keep the open build's engine");
    ASSERT_EQ(known().size(), 2U);
    EXPECT_EQ(known().front().version, 2); // the newest first
    EXPECT_EQ(list()->currentItem()->text(), "Merrow 261 six, version 2");
    undo();
    EXPECT_EQ(known().size(), 1U);
    EXPECT_EQ(list()->count(), 1);
}

TEST_F(KnownEnginesTest, ASizeIsChangedInItsCellAndAWrongOneStaysAsTyped) {
    press("Keep the open build's engine");
    auto* sizes = window_->findChild<QTableWidget*>("known_sizes");
    const int row = row_of("Rod, overall (intake)");
    sizes->setCurrentCell(row, 1);
    sizes->item(row, 1)->setText("9.300 ±.004");
    const std::string path = "described/intake/rod_overall/";
    EXPECT_EQ(known().front().fields.at(path + "size"), (TypedValue{"9.300", "in"}));
    EXPECT_EQ(known().front().fields.at(path + "doubt"), (TypedValue{".004", "in"}));
    EXPECT_TRUE(sizes->item(row, 2)->text().contains("0.004"));
    sizes->item(row, 1)->setText("long");
    EXPECT_EQ(sizes->item(row, 1)->text(), "long");
    EXPECT_TRUE(window_->complaint().contains("Rod, overall"));
    EXPECT_EQ(known().front().fields.at(path + "size").text, "9.300");
    // The build it came from has its own.
    const auto set_up = newest_set_up(session().shop(), 1);
    EXPECT_NE((*set_up)->fields.at(path + "size").text, "9.300");
}

TEST_F(KnownEnginesTest, AFileIsShownBeforeItIsKeptAndAWrongOneCannotBe) {
    const QString file = folder_.filePath("flat-four.json");
    ASSERT_TRUE(QFile::copy(RODWAY_RESOURCES "/demo/flat-four.json", file));
    in_dialog<EngineFileDialog>([&] { press("Take one in from a file…"); },
                                [&](EngineFileDialog& dialog) {
                                    auto* answer = dialog.findChild<QLabel*>("answer");
                                    auto* good = dialog.findChildren<QPushButton*>().front();
                                    for (QPushButton* one : dialog.findChildren<QPushButton*>()) {
                                        good = one->text() == "Keep it" ? one : good;
                                    }
                                    type(dialog, "file", folder_.filePath("no-such-file.json"));
                                    EXPECT_FALSE(good->isEnabled());
                                    type(dialog, "file", file);
                                    EXPECT_TRUE(answer->text().contains("Corran 190 flat four"));
                                    EXPECT_TRUE(answer->text().contains("1-4-3-2"));
                                    EXPECT_TRUE(known().empty()); // only shown
                                    QTest::mouseClick(good, Qt::LeftButton);
                                });
    ASSERT_EQ(known().size(), 1U);
    EXPECT_EQ(known().front().name, "Corran 190 flat four");
}

TEST_F(KnownEnginesTest, ANewBuildBeginsFromOneAndItsSizesAreGuesses) {
    press("Keep the open build's engine");
    in_dialog<NewBuildDialog>([&] { press("New build from it…"); },
                              [&](NewBuildDialog& dialog) {
                                  const auto boxes = dialog.findChildren<QLineEdit*>();
                                  QTest::keyClicks(boxes[0], "Second six");
                                  QTest::keyClicks(boxes[1], "A. Wren");
                                  QTest::keyClicks(boxes[2], "261 six");
                                  QTest::keyClick(&dialog, Qt::Key_Return);
                              });
    const auto builds = load_builds(session().shop());
    const auto set_up = newest_set_up(session().shop(), builds->back().id);
    ASSERT_TRUE(set_up.ok() && set_up->has_value());
    const auto description = Description::read((*set_up)->fields);
    ASSERT_TRUE(description.ok());
    const EngineDimension& rod = *dimension_called("rod_overall");
    const auto size = description->size(rod, description->valves().front());
    EXPECT_EQ(size->source, DoubtSource::assumed);
    EXPECT_NEAR(size->doubt, rod.assumed_doubt, 1e-9);
    EXPECT_NEAR(size->value, 9.2775 * 25.4, 1e-6);
}

TEST_F(KnownEnginesTest, TheCommandsKeepListExportImportAndBegin) {
    const QString shop = QString::fromStdString(session().shop().path());
    const auto run = [&](const QStringList& words) {
        const auto ran = tests::run(words);
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
        return ran.output;
    };
    run({"keep-known-engine", shop, "1", "--measured-by", "T. Orme", "--measured-on",
         "2026-11-30"});
    const QString file = folder_.filePath("six.json");
    run({"export-known-engine", shop, "merrow 261 SIX", file});
    run({"import-known-engine", shop, file, "--name", "Merrow, shared"});
    const auto engines = QJsonDocument::fromJson(run({"known-engines", shop, "--json"}).toUtf8())
                             .object()["engines"]
                             .toArray();
    ASSERT_EQ(engines.size(), 2);
    EXPECT_EQ(engines[0].toObject()["name"], "Merrow 261 six");
    EXPECT_EQ(engines[1].toObject()["name"], "Merrow, shared");
    EXPECT_EQ(engines[1].toObject()["measured_by"], "T. Orme");
    EXPECT_EQ(engines[1].toObject()["measured_on"], "2026-11-30");
    run({"begin-from-known-engine", shop, "Merrow, shared", "2"});
    const auto set_up = newest_set_up(session().shop(), 2);
    EXPECT_EQ((*set_up)->fields.at("described/intake/rod_overall/source").text, "assumed");
    const auto open =
        QJsonDocument::fromJson(run({"open-sizes", shop, "2", "--json"}).toUtf8()).object();
    EXPECT_EQ(open["valves"].toArray().size(), 12);
    // What can't be told stands first; after it, what is worth most.
    int told = 0;
    for (const QJsonValue& size : open["sizes"].toArray()) {
        const QJsonValue worth = size.toObject()["worth_in"];
        if (worth.isNull()) {
            EXPECT_EQ(told, 0);
        } else if (told++ == 0) {
            EXPECT_GT(worth.toDouble(), 0.001);
        }
    }
    EXPECT_GT(told, 5) << QJsonDocument(open).toJson().toStdString();
    EXPECT_NE(tests::run({"export-known-engine", shop, "No such", file}).exit_code, 0);
}

} // namespace
} // namespace rodway
