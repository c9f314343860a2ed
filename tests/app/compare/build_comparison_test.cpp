#include "app/compare/build_comparison.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QCheckBox>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QProcess>
#include <QSettings>
#include <QTableWidget>
#include <QTemporaryDir>
#include <cmath>

#include "app/compare/compare_page.h"
#include "app/window/main_window.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// Two builds of a demo shop with readings, parts and set-ups of the test's own choice.
class BuildComparisonTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(path("shop.rodway"), true));
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    template <typename Record>
    void put(Record record) {
        const auto id = window_->session()->create(
            RecordShape<Record>::kind,
            [&](std::int64_t new_id) {
                record.id = new_id;
                return edits_to_create(record);
            },
            "put");
        ASSERT_TRUE(id.ok());
    }
    void read(std::int64_t build, const char* quantity, const char* position, const char* text) {
        Reading reading;
        reading.build_id = build;
        reading.quantity = quantity;
        reading.position = position;
        reading.text = text;
        reading.unit = "in";
        reading.taken_by = "BK";
        reading.taken_at = "2026-11-20T08:00:00Z";
        put(reading);
    }
    ComparedLine line(const std::string& what, const std::string& position = {}) {
        const auto both = compare_builds(window_->session()->shop(), 1, 2);
        EXPECT_TRUE(both.ok());
        for (const ComparedLine& found : both->lines) {
            if (found.what == what && found.position == position) return found;
        }
        ADD_FAILURE() << "no line " << what << " " << position;
        return {};
    }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(BuildComparisonTest, ReadingsStandSideBySideByPositionWithTheSignOfWhatTheLastDigitsTell) {
    read(1, "main_clearance", "J1", ".0020"); // a retake: the last counts
    read(1, "main_clearance", "J1", ".0025");
    read(2, "main_clearance", "J1", ".0028");
    read(1, "main_clearance", "J2", ".0025");
    read(2, "main_clearance", "J2", ".0022");
    read(1, "main_clearance", "J3", ".0025");
    read(2, "main_clearance", "J3", "0.0025");
    read(1, "main_clearance", "J4", ".0025");
    read(2, "main_clearance", "J4", ".003"); // read to a thousandth: could be .0025
    read(1, "main_clearance", "J5", ".0025");
    const ComparedLine more = line("main_clearance", "J1");
    EXPECT_EQ(more.difference, Difference::more);
    EXPECT_EQ(more.first, ".0025 in");
    EXPECT_EQ(more.second, ".0028 in");
    ASSERT_TRUE(more.by.has_value());
    EXPECT_NEAR(more.by->middle(), 0.0003 * 25.4, 1e-9); // a millimetre's rounding
    EXPECT_EQ(line("main_clearance", "J2").difference, Difference::less);
    EXPECT_EQ(line("main_clearance", "J3").difference, Difference::none);
    EXPECT_EQ(line("main_clearance", "J4").difference, Difference::within_doubt);
    const ComparedLine alone = line("main_clearance", "J5");
    EXPECT_EQ(alone.difference, Difference::first_only);
    EXPECT_EQ(alone.second, std::nullopt);
    EXPECT_FALSE(alone.by.has_value());
}

TEST_F(BuildComparisonTest, ClearancesThatFollowFromDiametersAreComparedToo) {
    for (const std::int64_t build : {1, 2}) {
        read(build, "main_diameter", "J2", "2.4480");
        read(build, "main_bearing_bore", "J2", build == 1 ? "2.4505" : "2.4510");
    }
    const ComparedLine clearance = line("main_clearance", "J2");
    EXPECT_EQ(clearance.difference, Difference::more);
    EXPECT_NEAR(clearance.by->middle(), 0.0005 * 25.4, 1e-9);
}

TEST_F(BuildComparisonTest, PartsAreComparedByTheirRoleAndSetUpsFieldByField) {
    PartRecord part;
    part.build_id = 1;
    part.item = "Bolt, intake";
    part.role = "intake_bolt";
    part.size = "3/8 x 1.25";
    put(part);
    part.build_id = 2;
    part.item = "Intake bolt";
    part.size = "3/8 x 1.50";
    put(part);
    part.role = {};
    part.item = "Oil pump";
    put(part);
    const ComparedLine bolt = line("intake_bolt");
    EXPECT_EQ(bolt.part, ComparedPart::parts);
    EXPECT_EQ(bolt.difference, Difference::other);
    EXPECT_THAT(*bolt.second, HasSubstr("1.50"));
    EXPECT_EQ(line("oil pump").difference, Difference::second_only);
    const auto both = compare_builds(window_->session()->shop(), 1, 1);
    ASSERT_TRUE(both.ok());
    int set_up_fields = 0;
    for (const ComparedLine& same : both->lines) {
        EXPECT_EQ(same.difference, Difference::none) << same.what;
        set_up_fields += same.part == ComparedPart::set_up ? 1 : 0;
    }
    EXPECT_GT(set_up_fields, 50);
    EXPECT_FALSE(compare_builds(window_->session()->shop(), 1, 99).ok());
}

TEST_F(BuildComparisonTest, ThePageShowsWhatDiffersBySignAndWordsAndWritesItAll) {
    read(1, "main_clearance", "J1", ".0025");
    read(2, "main_clearance", "J1", ".0028");
    read(1, "main_clearance", "J3", ".0031");
    read(2, "main_clearance", "J3", ".0031");
    window_->open_build(1);
    window_->go_to_compare();
    ComparePage& page = window_->compare_page();
    auto* table = page.findChild<QTableWidget*>("comparison");
    auto* filter = page.findChild<QLineEdit*>("compare_filter");
    EXPECT_FALSE(table->isVisible());
    EXPECT_THAT(page.findChild<QLabel*>("compare_state")->text().toStdString(),
                HasSubstr("Choose a build"));
    page.compare_with(2);
    filter->setText("clearance J1");
    ASSERT_EQ(table->rowCount(), 1);
    EXPECT_EQ(table->item(0, 3)->text(), ".0025 in");
    EXPECT_EQ(table->item(0, 4)->text(), ".0028 in");
    EXPECT_EQ(table->item(0, 5)->text(), QString(QChar(0x25b2)));
    EXPECT_THAT(table->item(0, 6)->text().toStdString(), HasSubstr("+0.0003"));
    filter->setText("J3");
    EXPECT_EQ(table->rowCount(), 0);
    page.findChild<QCheckBox*>("only_different")->setChecked(false);
    ASSERT_GE(table->rowCount(), 1);
    EXPECT_EQ(table->item(0, 6)->text(), "the same");
    page.write_csv(path("both.csv"));
    QFile csv(path("both.csv"));
    ASSERT_TRUE(csv.open(QIODevice::ReadOnly));
    const QByteArray text = csv.readAll();
    EXPECT_TRUE(
        text.startsWith("\xEF\xBB\xBF"
                        "section,what,position,Halden V8,Merrow six,difference,by\r\n"));
    EXPECT_TRUE(text.contains(",J1,.0025 in,.0028 in,more,"));
    EXPECT_TRUE(text.contains(",J3,.0031 in,.0031 in,none,"));
    // A name that is no build's stays as typed and is told of.
    auto* other = page.findChild<QComboBox*>("other_build");
    other->setEditText("=cmd|' /C calc'!A0 <b>");
    emit other->lineEdit()->returnPressed();
    EXPECT_EQ(other->currentText(), "=cmd|' /C calc'!A0 <b>");
    EXPECT_THAT(page.findChild<QLabel*>("compare_state")->text().toStdString(),
                HasSubstr("no build called"));
}

TEST_F(BuildComparisonTest, TheCommandSaysTheSame) {
    read(1, "main_clearance", "J1", ".0025");
    read(2, "main_clearance", "J1", ".0028");
    QProcess program;
    program.start(RODWAY_PROGRAM,
                  {"compare-builds", path("shop.rodway"), "1", "Merrow six", "--json"});
    ASSERT_TRUE(program.waitForFinished(60000));
    EXPECT_EQ(program.exitCode(), 0);
    const QByteArray json = program.readAllStandardOutput();
    EXPECT_TRUE(json.contains("\"format\": \"rodway-compare-builds\""));
    EXPECT_TRUE(json.contains("\"first\": \".0025 in\""));
    EXPECT_TRUE(json.contains("\"difference\": \"more\""));
    EXPECT_FALSE(json.contains("\"difference\": \"none\""));
    program.start(RODWAY_PROGRAM, {"compare-builds", path("shop.rodway"), "1", "nobody"});
    ASSERT_TRUE(program.waitForFinished(60000));
    EXPECT_EQ(program.exitCode(), 3);
}

} // namespace
} // namespace rodway
