#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

/// Whether it is two words of small letters and underlines with one point between, as
/// 'record.field'.
bool names_a_field(const std::string& id) {
    const auto point = id.find('.');
    return point != std::string::npos && point > 0 && point + 1 < id.size() &&
           id.find_first_not_of("abcdefghijklmnopqrstuvwxyz_", point + 1) == std::string::npos &&
           id.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") == point;
}

/// A field that builders keep, and where it lives here.
struct KeptField {
    std::string group;
    std::string name;
    std::string mark;
    std::vector<std::string> homes; ///< "quantity bore"
};

std::vector<std::string> split_at(const std::string& text, const std::string& sign) {
    std::vector<std::string> parts;
    for (std::size_t from = 0;;) {
        const std::size_t to = text.find(sign, from);
        parts.push_back(text.substr(from, to - from));
        if (to == std::string::npos) {
            return parts;
        }
        from = to + sign.size();
    }
}

std::vector<KeptField> part_b() {
    std::ifstream file(RODWAY_TEST_DATA "/part_b.txt");
    std::vector<KeptField> fields;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') {
            continue;
        }
        const auto columns = split_at(line, "|");
        EXPECT_EQ(columns.size(), 4U) << line;
        if (columns.size() == 4) {
            fields.push_back({columns[0], columns[1], columns[2], split_at(columns[3], ", ")});
        }
    }
    return fields;
}

/// Whether a quantity is read at as many places as the field has: at its mark, or finer.
bool fits(const std::string& mark, std::string_view place_mark) {
    if (mark == "-") {
        return place_mark == "1";
    }
    const std::string named = mark.front() == '-' ? mark.substr(2, mark.size() - 3) : mark;
    const auto allowed = split_at(named, " ");
    return std::any_of(allowed.begin(), allowed.end(), [&](const std::string& one) {
        return place_mark == one || place_mark.starts_with(one + "x");
    });
}

// The numbers of fields are those of the builders' list.
TEST(PartB, HasEveryFieldOfEveryGroup) {
    const std::vector<std::pair<std::string, int>> groups{{"Job", 19},
                                                          {"Numbering", 9},
                                                          {"Parts", 9},
                                                          {"As found", 11},
                                                          {"Block", 21},
                                                          {"Crank/rods/pistons", 27},
                                                          {"Deck/ratio", 9},
                                                          {"Cam/timing", 24},
                                                          {"Heads/springs", 25},
                                                          {"Valvetrain", 28},
                                                          {"PTV", 8},
                                                          {"Fasteners", 10},
                                                          {"Intake/distributor/oil", 18},
                                                          {"Start/break-in/dyno", 27},
                                                          {"Hand-off", 10}};
    std::map<std::string, int> found;
    std::set<std::pair<std::string, std::string>> names;
    for (const KeptField& field : part_b()) {
        ++found[field.group];
        EXPECT_TRUE(names.emplace(field.group, field.name).second)
            << field.group << ": " << field.name;
    }
    EXPECT_EQ(found.size(), groups.size());
    for (const auto& [group, count] : groups) {
        EXPECT_EQ(found[group], count) << group;
    }
    EXPECT_EQ(names.size(), 255U);
}

TEST(PartB, EveryMeasuredFieldHasItsQuantityAtFittingPlaces) {
    std::set<std::string> named;
    int quantities = 0;
    for (const KeptField& field : part_b()) {
        for (const std::string& home : field.homes) {
            const auto words = split_at(home, " ");
            ASSERT_EQ(words.size(), 2U) << field.name;
            const std::string& id = words[1];
            if (words[0] == "record") {
                EXPECT_TRUE(names_a_field(id)) << id;
                continue;
            }
            if (words[0] == "position") {
                EXPECT_TRUE(place_called(id)) << id;
                continue;
            }
            ASSERT_TRUE(words[0] == "quantity" || words[0] == "same") << home;
            // One quantity for two fields only where they are said to be the same.
            EXPECT_EQ(named.insert(id).second, words[0] == "quantity") << field.name << ": " << id;
            const Quantity* quantity = find_quantity(id);
            ASSERT_NE(quantity, nullptr) << id;
            EXPECT_TRUE(fits(field.mark, shape_of(quantity->place).mark))
                << field.name << ' ' << field.mark << ": " << id << ' '
                << shape_of(quantity->place).mark;
            ++quantities;
        }
    }
    // Only jobs, parts and what is handed over are records; the rest is read on the engine.
    EXPECT_GT(quantities, 220);
}

TEST(PartB, FieldsOfTheEngineAreNotLeftToRecords) {
    const std::set<std::string> of_records{"Job", "Parts", "Hand-off"};
    for (const KeptField& field : part_b()) {
        if (of_records.contains(field.group) || field.name == "wrench id/cal date") {
            continue;
        }
        for (const std::string& home : field.homes) {
            EXPECT_FALSE(home.starts_with("record ")) << field.group << ": " << field.name;
        }
    }
}

} // namespace
} // namespace rodway
