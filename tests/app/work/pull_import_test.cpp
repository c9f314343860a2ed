#include "app/work/pull_import.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QTemporaryDir>

#include "app/words/error_text.h"
#include "app/work/file_bytes.h"
#include "app/work/kept_readings.h"
#include "core/sheets/sheet_kinds.h"
#include "db/build_store.h"
#include "db/reading_store.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

constexpr std::int64_t build_id = 1;

class PullImportTest : public ::testing::Test {
  protected:
    void SetUp() override {
        const std::string path = folder_.filePath("shop.rodway").toStdString();
        ASSERT_TRUE(ShopFile::create(path).ok());
        auto shop = ShopFile::open(path);
        ASSERT_TRUE(shop.ok());
        session_ = std::make_unique<ShopSession>(std::move(shop).value(), "Dee");
        Build build;
        build.id = build_id;
        build.name = "Blue pickup";
        ASSERT_TRUE(session_->act(edits_to_create(build), "build").ok());
    }
    [[nodiscard]] BuildSheets sheets() const {
        auto loaded = BuildSheets::load(session_->shop(), build_id);
        EXPECT_TRUE(loaded.ok());
        return std::move(loaded).value();
    }
    [[nodiscard]] std::vector<Reading> kept() const {
        const auto all = readings(session_->shop(), build_id);
        EXPECT_TRUE(all.ok());
        return all.ok() ? *all : std::vector<Reading>{};
    }
    /// Reads and keeps a file.
    void take(const std::string& bytes, const PullSaid& said = {}) const {
        const BuildSheets before = sheets();
        const auto pull = pull_to_keep(before, bytes, "pull.csv", said);
        ASSERT_TRUE(pull.ok()) << words::error_text(pull.error()).toStdString();
        ASSERT_TRUE(keep_pull(*session_, build_id, before, *pull).ok());
    }
    [[nodiscard]] std::optional<Reading> reading(const char* quantity,
                                                 const std::string& position) const {
        for (const Reading& one : kept()) {
            if (one.quantity == quantity && one.position == position) {
                return one;
            }
        }
        return std::nullopt;
    }

    QTemporaryDir folder_;
    std::unique_ptr<ShopSession> session_;
};

// Columns of every sort: what the sheet has by speed, once a pull, not at all; other units, other
// headings, empty cells, a speed between two whole ones, a row with nothing but a remark.
const std::vector<std::vector<std::string>> table{
    {"rpm", "Torque Nm", "Power kW", "Oil press psi", "Oil temp degC", "Water temp degC",
     "Fuel flow g/s", "Air temp degC", "Corrected power kW", "AFR", "Remark"},
    {"3000.4", "512.5", "161.0", "60", "95", "81", "10.55", "-5", "163", "12.81", "fan on"},
    {"3500", "530.25", "194.4", "", "95", "82", "12.15", "3", "197.5", "12.72", ""},
    {"4000", "541", "226.6", "63.5", "95", "", "", "-1.5", "230", "", "misfire; once"},
    {"4500", "", "", "", "", "", "", "", "", "", "let off"}};

std::string csv_of(const std::vector<std::vector<std::string>>& rows) {
    std::string text;
    for (const auto& row : rows) {
        for (const std::string& cell : row) {
            text += (&cell == &row.front() ? "" : ",") + cell;
        }
        text += '\n';
    }
    return text;
}

// Against a program that drops what it has no box for: every cell is looked for in what is kept.
TEST_F(PullImportTest, NothingThatStandsInTheFileIsLost) {
    take(csv_of(table));
    for (std::size_t row = 1; row < table.size(); ++row) {
        const long rpm = std::lround(std::stod(table[row][0]));
        const std::string position = "pull 1 " + std::to_string(rpm) + " rpm";
        std::string here; // all that is kept for this row
        for (const Reading& one : kept()) {
            if (one.position == position) {
                here += '|' + one.text + ' ' + one.unit + '|' + one.note.value_or("") + ';';
            }
        }
        EXPECT_FALSE(here.empty()) << position;
        const bool whole = table[row][0].find('.') == std::string::npos;
        for (std::size_t column = whole ? 1 : 0; column < table[row].size(); ++column) {
            const std::string& cell = table[row][column];
            const bool once = table[0][column] == "Oil temp degC"; // the same in all rows
            const bool said = here.find('|' + cell + ' ') != std::string::npos ||
                              here.find(table[0][column] + ": " + cell + ';') != std::string::npos;
            EXPECT_TRUE(cell.empty() || once || said)
                << table[0][column] << ' ' << cell << " at " << position << "\n"
                << here;
        }
    }
    EXPECT_EQ(reading("pull_oil_temperature", "pull 1")->text, "95");
    EXPECT_EQ(reading("pull_water_temperature", "pull 1")->text, "81 to 82");
    EXPECT_EQ(reading("pull_dry_bulb", "pull 1")->text, "-5 to 3");
    EXPECT_EQ(reading("pull_torque", "pull 1 3500 rpm")->unit, "Nm");
    EXPECT_EQ(reading("pull_torque", "pull 1 3500 rpm")->method, "pull.csv");
    // A gram a second is 7.93664 lb/h (NIST SP 811): 83.7315 and a step of 0.08.
    EXPECT_EQ(reading("pull_fuel_flow", "pull 1 3000 rpm")->text, "83.73");
    // What nobody measured is not there at all.
    EXPECT_FALSE(reading("pull_oil_pressure", "pull 1 3500 rpm"));
    EXPECT_EQ(reading("pull_torque", "pull 1 4500 rpm")->status, ReadingStatus::not_measured);
    // All of it can be read by the sheet.
    EXPECT_TRUE(sheets().taken().not_read().empty());
    EXPECT_NEAR(sheets().taken().number("pull_dry_bulb", "pull 1")->low, -5.0, 0.6);
    EXPECT_NEAR(sheets().taken().number("pull_dry_bulb", "pull 1")->high, 3.0, 0.6);
}

TEST_F(PullImportTest, IsOneActThatIsUndoneAndDoneAgain) {
    take(csv_of(table), {{}, "sea_level", "1200", "j1349", {}});
    const std::size_t all = kept().size();
    EXPECT_GT(all, 15u);
    EXPECT_EQ(reading("pull_altitude", "pull 1")->text, "1200");
    EXPECT_EQ(reading("pull_barometer_kind", "pull 1")->text, "sea_level");
    EXPECT_EQ(reading("pull_correction", "pull 1")->text, "j1349");
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_TRUE(kept().empty());
    ASSERT_TRUE(session_->redo().ok());
    EXPECT_EQ(kept().size(), all);
}

TEST_F(PullImportTest, EachTakesTheNextNumberAndNoneIsWrittenOver) {
    take("rpm,Torque Nm\n3000,400\n");
    take("rpm,Torque Nm\n3000,410\n");
    take("rpm,Torque Nm\n3000,420\n", {7, {}, {}, {}, {}});
    take("rpm,Torque Nm\n3000,430\n");
    for (const auto& [pull, torque] :
         {std::pair{"1", "400"}, {"2", "410"}, {"7", "420"}, {"8", "430"}}) {
        EXPECT_EQ(reading("pull_torque", "pull " + std::string(pull) + " 3000 rpm")->text, torque);
    }
    const auto again =
        pull_to_keep(sheets(), "rpm,Torque Nm\n3000,1\n", "pull.csv", {2, {}, {}, {}, {}});
    ASSERT_FALSE(again.ok());
    EXPECT_EQ(again.error().field, "pull");
    EXPECT_EQ(again.error().expected, "9");
}

TEST_F(PullImportTest, ABadFileIsRefusedWithItsLineAndField) {
    struct Bad {
        const char* bytes;
        ErrorCode code;
        const char* field;
        std::optional<int> line;
    };
    const Bad bad[] = {
        {"rpm,Torque Nm\n3000,400\n3500,wide\n", ErrorCode::not_a_number, "Torque Nm", 3},
        {"rpm,Torque\n3000,400\n", ErrorCode::unit_unclear, "torque", 1},
        {"rpm,Corrected torque Nm\n3000,400\n", ErrorCode::missing_field, "torque", {}},
        {"Torque Nm\n400\n", ErrorCode::missing_field, "speed", 1},
        {"rpm;Torque Nm\n3000;1,250\n", ErrorCode::separator_unclear, "decimal_mark", 2},
        {"rpm,Torque Nm\n3000,400,3\n", ErrorCode::column_count, "columns", 2},
        {"rpm,Torque Nm\n3000,400\n2000,300\n", ErrorCode::order_wrong, "speed", 3},
        {"rpm,Torque Nm\n3000.1,400\n3000.4,500\n", ErrorCode::order_wrong, "speed", 3},
        {"rpm,Torque Nm,torque lb-ft\n3000,400,295\n", ErrorCode::duplicate_field, "torque", 1},
        {"rpm,Torque Nm\n3000,40000\n", ErrorCode::out_of_range, "Torque Nm", 2},
        {"rpm,Torque Nm\n,400\n", ErrorCode::empty_text, "rpm", 2},
        {"rpm,Torque Nm\n", ErrorCode::too_few_rows, "rows", {}},
        {"", ErrorCode::empty_file, "", {}},
    };
    const BuildSheets before = sheets();
    for (const Bad& one : bad) {
        const auto pull = pull_to_keep(before, one.bytes, "pull.csv", {});
        ASSERT_FALSE(pull.ok()) << one.bytes;
        EXPECT_EQ(static_cast<int>(pull.error().code), static_cast<int>(one.code)) << one.bytes;
        EXPECT_EQ(pull.error().field, one.field) << one.bytes;
        EXPECT_EQ(pull.error().line, one.line) << one.bytes;
    }
    std::string long_file = "rpm,Torque Nm\n";
    for (int row = 0; row <= most_pull_rows; ++row) {
        long_file += std::to_string(1000 + row) + ",400\n";
    }
    EXPECT_EQ(pull_to_keep(before, long_file, "pull.csv", {}).error().field, "rows");
    EXPECT_EQ(
        pull_to_keep(before, "rpm,Torque Nm\n3000,400\n", "pull.csv", {{}, {}, "high up", {}, {}})
            .error()
            .field,
        "altitude");
    EXPECT_TRUE(kept().empty());
}

// Its figure by the sheet is that of the file: a pull of one row, 100 kW at 5000 rpm, is
// 9549.296586*100/5000 N m (2*pi*n*T, NIST SP 811).
TEST_F(PullImportTest, TheSheetWorksOutWhatTheFileLeftOut) {
    take("rpm,Power kW\n5000,100.00\n");
    const BuildSheets now = sheets();
    const AssessedSheet sheet = now.assess(*now.kind("dyno_pull"), EntryOrder::by_number);
    bool found = false;
    for (const SheetLine& line : sheet.lines) {
        for (const SheetBox& box : line.boxes) {
            if (line.quantity.id == "pull_torque" && box.figure) {
                EXPECT_NEAR(box.figure->middle(), 190.98593172, 0.001);
                found = true;
            }
        }
    }
    EXPECT_TRUE(found);
}

class KeptReadingsTest : public PullImportTest {
  protected:
    /// "3I .018; 3E .020": what a box's text makes; an error's code otherwise.
    [[nodiscard]] static std::string parted(const char* quantity, const char* position,
                                            const char* text) {
        const auto made = readings_to_keep(*find_quantity(quantity), position, text);
        if (!made) {
            return "refused " + std::to_string(static_cast<int>(made.error().code));
        }
        std::string all;
        for (const Reading& one : *made) {
            all += (all.empty() ? "" : "; ") + one.position + ' ' + one.text;
        }
        return all;
    }
};

TEST_F(KeptReadingsTest, TwoSaidInOneBreathGoToNeighbours) {
    const std::string two = "refused " + std::to_string(static_cast<int>(ErrorCode::two_values));
    EXPECT_EQ(parted("lash_hot", "3", ".026/.028"), "3I .026; 3E .028");
    EXPECT_EQ(parted("lash_hot", "3I", "26/28 thou hot"), "3I 26 thou hot; 3E 28 thou hot");
    EXPECT_EQ(parted("lash_hot", "3E", ".026/.028"), two);
    EXPECT_EQ(parted("ring_gap", "3", "18 and 20 thou"), "3 top 18 thou; 3 second 20 thou");
    EXPECT_EQ(parted("ring_gap", "3 top", "18 and 20 thou"), "3 top 18 thou; 3 second 20 thou");
    EXPECT_EQ(parted("lash_hot_wanted", "", ".024 and .026"), "I .024; E .026");
    // A fraction of a length is one number, and what stands alone stays where it is.
    EXPECT_EQ(parted("ring_gap", "3 top", "1/64"), "3 top 1/64");
    EXPECT_EQ(parted("lash_hot", "3I", ".026"), "3I .026");
    // Either both can be read or neither is kept.
    EXPECT_NE(parted("ring_gap", "3", "18 and 20").find("refused"), std::string::npos);
    EXPECT_NE(parted("main_diameter", "J2", "2 and 3").find("refused"), std::string::npos);
}

} // namespace
} // namespace rodway
