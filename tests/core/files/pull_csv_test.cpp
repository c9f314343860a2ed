#include "core/files/pull_csv.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <iostream>
#include <random>

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;

PullCsv table_of(const std::string& bytes, const PullCsvHints& hints = {}) {
    const auto table = read_pull_csv(bytes, hints);
    EXPECT_TRUE(table.ok()) << (table.ok() ? "" : table.error().field + " " + table.error().value);
    return table.ok() ? *table : PullCsv{};
}
Error error_of(const std::string& bytes, const PullCsvHints& hints = {}) {
    const auto table = read_pull_csv(bytes, hints);
    EXPECT_FALSE(table.ok()) << bytes;
    return table.ok() ? Error{ErrorCode::no_graphics, {}, {}, {}, {}, {}} : table.error();
}
double number(const PullCsv& table, std::size_t row, PullQuantity quantity) {
    return table.rows.at(row).numbers.at(*table.column_of(quantity))->value;
}

const std::string inches =
    "rpm,Torque (lb-ft),Power (hp),Oil press psi,Water temp degF,Fuel flow lb/h\n"
    "4000,400.0,304.6,60,180,152.0\n"
    "5000,400.0,380.8,62,182,190.4\n";

// 400 lbf ft at 5000 rpm: 380.799109526 hp; NIST SP 811 for the units.
TEST(PullCsv, ReadsARowForEachSpeed) {
    const PullCsv table = table_of(inches);
    ASSERT_EQ(table.rows.size(), 2u);
    EXPECT_TRUE(table.leftovers.empty());
    EXPECT_TRUE(table.contradictions.empty());
    EXPECT_EQ(table.rows[1].line, 3);
    EXPECT_DOUBLE_EQ(number(table, 1, PullQuantity::speed), 5000.0);
    EXPECT_NEAR(number(table, 1, PullQuantity::torque), 400.0 * 1.3558179483314004, 1e-10);
    EXPECT_NEAR(number(table, 1, PullQuantity::power), 380.8 * 0.74569987158227022, 1e-10);
    EXPECT_NEAR(number(table, 1, PullQuantity::oil_pressure), 62.0 * 6.894757293168361, 1e-10);
    EXPECT_NEAR(number(table, 0, PullQuantity::water_temperature), (180.0 - 32.0) / 1.8, 1e-10);
    EXPECT_NEAR(number(table, 0, PullQuantity::fuel_flow), 152.0 * 0.45359237, 1e-10);
    EXPECT_NEAR(table.rows[0].numbers[1]->step, 0.1 * 1.3558179483314004, 1e-12);
    EXPECT_NEAR(table.rows[0].numbers[4]->step, 1.0 / 1.8, 1e-12);
    const auto pull = raw_pull(table);
    ASSERT_TRUE(pull.ok());
    ASSERT_EQ(pull->rows.size(), 2u);
    EXPECT_NEAR(pull->rows[0].torque.in_lbf_ft(), 400.0, 1e-10);
    EXPECT_EQ(pull->rows[1].speed_rpm, 5000.0);
}

TEST(PullCsv, EverySeparatorAndMarkReadTheSame) {
    const std::string plain =
        "rpm|Torque (Nm)|Power (kW)\n3000|512.5|161.0\n3500|530.25|194.4\n4000|541|226.6\n";
    const auto written = [&](char separator, char mark, const std::string& line_end) {
        std::string text;
        for (const char c : plain) {
            text += c == '|'    ? std::string(1, separator)
                    : c == '.'  ? std::string(1, mark)
                    : c == '\n' ? line_end
                                : std::string(1, c);
        }
        return text;
    };
    const PullCsv expected = table_of(written(',', '.', "\n"));
    ASSERT_EQ(expected.rows.size(), 3u);
    EXPECT_DOUBLE_EQ(number(expected, 1, PullQuantity::torque), 530.25);
    for (const auto& [separator, mark] :
         {std::pair{';', '.'}, std::pair{';', ','}, std::pair{'\t', '.'}, std::pair{'\t', ','}}) {
        for (const std::string line_end : {"\n", "\r\n", "\r", "\n\n", " \n"}) {
            for (const std::string before : {"", "\xEF\xBB\xBF", "# a remark; and, more\n\n"}) {
                const PullCsv table = table_of(before + written(separator, mark, line_end));
                ASSERT_EQ(table.rows.size(), 3u);
                for (std::size_t row = 0; row < 3; ++row) {
                    for (std::size_t at = 0; at < 3; ++at) {
                        EXPECT_EQ(table.rows[row].numbers[at]->value,
                                  expected.rows[row].numbers[at]->value);
                        EXPECT_EQ(table.rows[row].numbers[at]->step,
                                  expected.rows[row].numbers[at]->step);
                    }
                }
            }
        }
    }
}

TEST(PullCsv, ALineOfUnitsBelowTheHeadingsCounts) {
    const PullCsv table = table_of("Speed;Torque;Power;Note\nrpm;Nm;[kW];\n5000;500,5;262,1;ok\n");
    ASSERT_EQ(table.rows.size(), 1u);
    EXPECT_DOUBLE_EQ(number(table, 0, PullQuantity::torque), 500.5);
    EXPECT_EQ(table.columns[1].heading.unit.id, "Nm");
    EXPECT_EQ(table.rows[0].line, 3);
    EXPECT_EQ(table.leftovers, std::vector<std::string>{"Note"});
}

TEST(PullCsv, ColumnsItDoesNotKnowAreKeptWithTheirNames) {
    const PullCsv table =
        table_of("rpm,EGT 1 degF,torque Nm,remark\n4000,1210,500,\"a, b\"\n4500,,510,=x\n");
    EXPECT_EQ(table.leftovers, (std::vector<std::string>{"EGT 1 degF", "remark"}));
    EXPECT_EQ(table.rows[0].leftovers, (std::vector<std::string>{"1210", "a, b"}));
    EXPECT_EQ(table.rows[1].leftovers, (std::vector<std::string>{"", "=x"}));
    EXPECT_EQ(table.columns.size(), 2u);
    EXPECT_DOUBLE_EQ(number(table, 1, PullQuantity::torque), 510.0);
}

TEST(PullCsv, WhatWasNotMeasuredIsNotZero) {
    const PullCsv table =
        table_of("rpm,torque Nm,oil pressure psi\n4000,,60\n4500,510,-\n5000,0,n/m\n");
    EXPECT_FALSE(table.rows[0].numbers[1].has_value());
    EXPECT_FALSE(table.rows[1].numbers[2].has_value());
    EXPECT_FALSE(table.rows[2].numbers[2].has_value());
    EXPECT_EQ(table.rows[2].numbers[1]->value, 0.0);
    const auto pull = raw_pull(table);
    ASSERT_EQ(pull->rows.size(), 2u);
    EXPECT_EQ(pull->rows[0].speed_rpm, 4500.0);
}

TEST(PullCsv, ARawPullIsNeverMadeOfCorrectedColumns) {
    const PullCsv both =
        table_of("rpm,corrected torque Nm,torque Nm,corrected power kW\n5000,550,500,288\n");
    EXPECT_NEAR(raw_pull(both)->rows[0].torque.in_Nm(), 500.0, 1e-12);
    const PullCsv corrected = table_of("rpm,STP torque Nm\n5000,550\n");
    EXPECT_EQ(raw_pull(corrected).error().field, "torque");
    // Of a power alone, the torque follows: 100 kW at 5000 rpm, 9549.296586·100/5000.
    const PullCsv power = table_of("rpm,power kW\n5000,100\n");
    EXPECT_NEAR(raw_pull(power)->rows[0].torque.in_Nm(), 190.98593172, 1e-8);
}

TEST(PullCsv, PointsAtAPowerThatIsNotTorqueTimesSpeed) {
    // 380.799 hp: 380.8 to a tenth, 381 to the whole one; 5252 for 5252.113 is no contradiction.
    const auto contradictions = [](const std::string& power, const std::string& torque = "400") {
        return table_of("rpm,torque lb-ft,hp\n5000," + torque + "," + power + "\n").contradictions;
    };
    EXPECT_TRUE(contradictions("380.8").empty());
    EXPECT_TRUE(contradictions("381").empty());
    ASSERT_EQ(contradictions("390.8").size(), 1u);
    EXPECT_TRUE(contradictions("381.3").empty());  // torque to the whole one hides it
    EXPECT_EQ(contradictions("382.3").size(), 1u); // but no more than that
    EXPECT_EQ(contradictions("381.3", "400.0").size(), 1u);
    EXPECT_EQ(contradictions("379.5", "400.0").size(), 1u);
    const PowerContradiction one = contradictions("390.8").front();
    EXPECT_EQ(one.line, 2);
    EXPECT_FALSE(one.corrected);
    EXPECT_NEAR(one.stated.in_hp(), 390.8, 1e-9);
    EXPECT_NEAR(one.own.in_hp(), 380.799109526, 1e-8);
    EXPECT_NEAR(*one.stated_over_own, 390.8 / 380.799109526, 1e-10);
    // Divided by 5252, by 9549 and by 9550, every digit kept.
    const auto exactly = [](const std::string& headings, const std::string& row) {
        return table_of("rpm," + headings + "\n5000.0000," + row + "\n").contradictions.size();
    };
    EXPECT_EQ(exactly("torque lb-ft,hp", "400.0000,380.8073"), 0u);
    EXPECT_EQ(exactly("torque Nm,kW", "500.0000,261.8075"), 0u);
    EXPECT_EQ(exactly("torque Nm,kW", "500.0000,261.7801"), 0u);
    EXPECT_EQ(exactly("torque Nm,kW", "500.0000,261.7400"), 1u);
    EXPECT_EQ(exactly("torque Nm,kW", "500.0000,261.8600"), 1u);
    // Raw torque beside corrected power is no contradiction; two corrected ones may be.
    EXPECT_TRUE(
        table_of("rpm,torque Nm,corrected power kW\n5000,500,300\n").contradictions.empty());
    const auto corrected =
        table_of("rpm,corrected torque Nm,corrected power kW\n5000,500,300\n").contradictions;
    ASSERT_EQ(corrected.size(), 1u);
    EXPECT_TRUE(corrected[0].corrected);
    // Torque 0 has no ratio.
    EXPECT_FALSE(contradictions("50", "0").front().stated_over_own.has_value());
}

TEST(PullCsv, AMarkThatCouldBeOfThousandsIsAskedFor) {
    const std::string thousands = "rpm;torque Nm\n4,000;500\n5,250;510\n";
    const Error unclear = error_of(thousands);
    EXPECT_EQ(unclear.code, ErrorCode::separator_unclear);
    EXPECT_EQ(unclear.field, "decimal_mark");
    EXPECT_EQ(unclear.line, 2);
    // One number that can't be thousands settles it for the file.
    EXPECT_DOUBLE_EQ(
        number(table_of("rpm;torque Nm\n4000;500,125\n4500;510,5\n"), 0, PullQuantity::torque),
        500.125);
    EXPECT_EQ(error_of("rpm;torque Nm\n4000;500.125\n4500;510.250\n").code,
              ErrorCode::separator_unclear);
    EXPECT_DOUBLE_EQ(number(table_of("rpm;torque Nm\n4000;500.125\n"
                                     "4500;510.250\n",
                                     {std::nullopt, '.'}),
                            0, PullQuantity::torque),
                     500.125);
    EXPECT_DOUBLE_EQ(number(table_of("rpm,torque Nm\n4000,500.125\n"), 0, PullQuantity::torque),
                     500.125);
    EXPECT_DOUBLE_EQ(number(table_of("rpm\ttorque Nm\n4000\t500.125\n"), 0, PullQuantity::torque),
                     500.125);
    // No thousand begins with 0, and none has four digits before its mark.
    EXPECT_NEAR(number(table_of("rpm;torque Nm;oil pressure bar\n4000;500;0,125\n"), 0,
                       PullQuantity::oil_pressure),
                12.5, 1e-12);
    EXPECT_DOUBLE_EQ(number(table_of("rpm;torque Nm\n4000,125;500\n"), 0, PullQuantity::speed),
                     4000.125);
    const Error mixed = error_of("rpm;torque Nm\n4000;500.5\n4500;510,5\n");
    EXPECT_EQ(mixed.code, ErrorCode::separator_unclear);
    EXPECT_EQ(mixed.line, 3);
    EXPECT_EQ(error_of("rpm;torque Nm\n4000;500.5\n4500;1.510,5\n").code,
              ErrorCode::separator_unclear);
    // What isn't known may hold any mark.
    EXPECT_EQ(table_of("rpm;torque Nm;note\n4000;500,5;v1.2\n").rows.size(), 1u);
    EXPECT_EQ(error_of("rpm,torque Nm\n4000,\"500,5\"\n").code, ErrorCode::not_a_number);
}

TEST(PullCsv, ErrorsCarryLineFieldValueAndWhatWasWanted) {
    const Error text = error_of("# pull 7\nrpm,Torque (Nm)\n4000,500\n4500,51o\n");
    EXPECT_EQ(text.code, ErrorCode::not_a_number);
    EXPECT_EQ(text.line, 4);
    EXPECT_EQ(text.field, "Torque (Nm)");
    EXPECT_EQ(text.value, "51o");
    EXPECT_EQ(text.expected, "number");

    const Error count = error_of("rpm,Torque (Nm)\n4000,500\n4500,510,1\n");
    EXPECT_EQ(count.code, ErrorCode::column_count);
    EXPECT_EQ(count.line, 3);
    EXPECT_EQ(count.value, "3");
    EXPECT_EQ(count.expected, "2");

    const Error limits = error_of("rpm,Oil temp degF,torque Nm\n4000,1000,500\n");
    EXPECT_EQ(limits.code, ErrorCode::out_of_range);
    EXPECT_EQ(limits.field, "Oil temp degF");
    EXPECT_EQ(limits.value, "1000"); // in the file's unit, and its limits too: 300 degC
    EXPECT_EQ(limits.limits->unit, "degF");
    EXPECT_NEAR(limits.limits->high, 572.0, 1e-9);

    const Error twice = error_of("rpm,torque Nm,Torque (lb-ft)\n4000,500,369\n");
    EXPECT_EQ(twice.code, ErrorCode::duplicate_field);
    EXPECT_EQ(twice.value, "Torque (lb-ft)");
    EXPECT_EQ(twice.expected, "torque Nm");

    const Error unit = error_of("\nrpm,torque\n4000,500\n");
    EXPECT_EQ(unit.code, ErrorCode::unit_unclear);
    EXPECT_EQ(unit.line, 2);
    EXPECT_EQ(unit.expected, "Nm lb-ft in-lb kgf-m");

    EXPECT_EQ(error_of("torque Nm,hp\n500,300\n").field, "speed");
    EXPECT_EQ(error_of("rpm,oil press psi\n4000,60\n").field, "torque");
    EXPECT_EQ(error_of("rpm,torque Nm\n,500\n").code, ErrorCode::empty_text);
    EXPECT_EQ(error_of("rpm,torque Nm\n").code, ErrorCode::too_few_rows);
    EXPECT_EQ(error_of("# nothing\n").code, ErrorCode::empty_file);
    EXPECT_EQ(error_of("").code, ErrorCode::empty_file);
    EXPECT_EQ(error_of(std::string("r\0p\0m\0", 6)).code, ErrorCode::not_utf8);
    for (const std::string bad : {"1e3", "0x10", "nan", "inf", "5 00", "+-5", ".", "1.2.3", "="}) {
        EXPECT_EQ(error_of("rpm,torque Nm\n4000," + bad + "\n").code, ErrorCode::not_a_number)
            << bad;
    }
}

TEST(PullCsv, RowsOutOfOrderAreNamedByTheFilesLine) {
    const PullCsv table = table_of("# one\nrpm,torque Nm\n4000,500\n4500,\n4400,510\n4300,520\n");
    const auto pull = raw_pull(table);
    EXPECT_EQ(pull.error().code, ErrorCode::order_wrong);
    EXPECT_EQ(pull.error().line, 6);
    EXPECT_EQ(raw_pull(table_of("rpm,torque Nm\n4000,\n")).error().code, ErrorCode::too_few_rows);
}

TEST(PullCsv, AFileThatIsTooLargeIsRefused) {
    const Error bytes = error_of(std::string(4 * 1024 * 1024 + 1, 'x'));
    EXPECT_EQ(bytes.field, "file");
    std::string rows = "rpm,torque Nm\n";
    for (int row = 0; row < 20000; ++row) {
        rows += std::to_string(row + 1) + ",5\n";
    }
    EXPECT_EQ(error_of(rows).field, "rows");
    std::string columns = "rpm,torque Nm";
    for (int column = 0; column < 63; ++column) {
        columns += ",x";
    }
    EXPECT_EQ(error_of(columns + "\n").field, "columns");
    EXPECT_EQ(error_of("rpm,torque Nm," + std::string(401, 'x') + "\n").field, "cell");
}

// Whatever a broken file has, the answer is a table or an error, and a table is whole.
TEST(PullCsv, NoBrokenFileBreaksIt) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const std::string letters = "0123456789.,;\t\"\n\r-+#()[]rpmNhkWlbft \xC3\xA9";
    int read = 0;
    for (int round = 0; round < 20000; ++round) {
        std::string bytes = inches;
        const std::size_t changes = 1 + random() % 4;
        for (std::size_t change = 0; change < changes; ++change) {
            const std::size_t at = random() % (bytes.size() + 1);
            const char letter = letters[random() % letters.size()];
            if (at == bytes.size() || random() % 3 == 0) {
                bytes.insert(at, 1, letter);
            } else if (random() % 2 == 0) {
                bytes.erase(at, 1 + random() % 5);
            } else {
                bytes[at] = letter;
            }
        }
        const auto table = read_pull_csv(bytes);
        if (!table) {
            continue;
        }
        ++read;
        EXPECT_FALSE(table->rows.empty());
        for (const PullCsvRow& row : table->rows) {
            EXPECT_EQ(row.numbers.size(), table->columns.size());
            EXPECT_EQ(row.leftovers.size(), table->leftovers.size());
        }
        (void)raw_pull(*table).ok();
    }
    EXPECT_GT(read, 1000);
}

} // namespace
} // namespace rodway
