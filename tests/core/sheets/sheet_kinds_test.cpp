#include "core/sheets/sheet_kinds.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <set>

#include "core/sheets/reading_value.h"
#include "core/sheets/rod_clearance_reading.h"
#include "core/sheets/rod_gap_position.h"

namespace rodway {
namespace {

std::vector<std::string> frozen_ids() {
    std::ifstream file(RODWAY_TEST_DATA "/quantity_ids.txt");
    std::vector<std::string> ids;
    for (std::string line; std::getline(file, line);) {
        ids.push_back(line);
    }
    return ids;
}

constexpr std::size_t first_ids = 264;

/// FNV-1a of the first identities, a line end behind each: they can't be edited by oversight.
std::uint64_t digest_of_first(const std::vector<std::string>& ids) {
    std::uint64_t digest = 14695981039346656037U;
    for (std::size_t which = 0; which < first_ids; ++which) {
        for (const char c : ids[which] + '\n') {
            digest = (digest ^ static_cast<unsigned char>(c)) * 1099511628211U;
        }
    }
    return digest;
}

std::vector<Quantity> all_quantities() {
    std::vector<Quantity> all;
    for (const SheetKind& kind : sheet_kinds()) {
        all.insert(all.end(), kind.quantities.begin(), kind.quantities.end());
    }
    return all;
}

/// Small letters, digits and underlines, a letter first.
bool is_one_word(const std::string& id) {
    return !id.empty() && id.front() >= 'a' && id.front() <= 'z' &&
           id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string::npos;
}

TEST(SheetKinds, EveryIdentityIsOneWordAndStandsOnce) {
    std::set<std::string> kinds;
    std::set<std::string> quantities;
    for (const SheetKind& kind : sheet_kinds()) {
        EXPECT_TRUE(is_one_word(kind.id)) << kind.id;
        EXPECT_TRUE(kinds.insert(kind.id).second) << kind.id;
        EXPECT_FALSE(kind.quantities.empty()) << kind.id;
        for (const Quantity& quantity : kind.quantities) {
            EXPECT_TRUE(is_one_word(quantity.id)) << quantity.id;
            EXPECT_TRUE(quantities.insert(quantity.id).second) << quantity.id;
        }
    }
}

// Shop files name quantities by these words for decades. A new one goes to the list's end; what
// stands there already is neither renamed nor taken out.
TEST(SheetKinds, IdentitiesOnceGivenStay) {
    const auto ids = frozen_ids();
    ASSERT_GE(ids.size(), first_ids);
    EXPECT_EQ(digest_of_first(ids), 8775690648150712973U)
        << "one of the first identities was changed";
    for (const std::string& id : ids) {
        EXPECT_NE(find_quantity(id), nullptr) << id << " is gone";
    }
    const std::set<std::string> listed(ids.begin(), ids.end());
    EXPECT_EQ(listed.size(), ids.size());
    for (const Quantity& quantity : all_quantities()) {
        EXPECT_TRUE(listed.contains(quantity.id))
            << "append " << quantity.id << " to tests/data/quantity_ids.txt";
    }
}

TEST(SheetKinds, KeepTheQuantitiesThatShopFilesHaveAlready) {
    const Quantity* clearance = find_quantity(rod_clearance_quantity);
    ASSERT_NE(clearance, nullptr);
    EXPECT_EQ(clearance->form, Form::clearance);
    EXPECT_EQ(clearance->place, Place::valve);
    const Quantity* gap = find_quantity(rod_gap_quantity);
    ASSERT_NE(gap, nullptr);
    EXPECT_EQ(gap->form, Form::clearance);
    EXPECT_EQ(gap->place, Place::rod_gap);
}

TEST(SheetKinds, AreFoundByIdentityOnly) {
    ASSERT_NE(find_sheet_kind("bores"), nullptr);
    EXPECT_EQ(find_sheet_kind("bores")->id, "bores");
    EXPECT_EQ(find_sheet_kind("bore"), nullptr);
    EXPECT_EQ(find_sheet_kind(""), nullptr);
    EXPECT_EQ(find_quantity(""), nullptr);
    EXPECT_EQ(find_quantity("bores"), nullptr);
    for (const SheetKind& kind : sheet_kinds()) {
        EXPECT_EQ(find_sheet_kind(kind.id), &kind);
        for (const Quantity& quantity : kind.quantities) {
            EXPECT_EQ(find_quantity(quantity.id), &quantity);
            EXPECT_EQ(sheet_of_quantity(quantity.id), &kind);
        }
    }
    EXPECT_EQ(sheet_of_quantity("bores"), nullptr);
}

// A shop's sheets are kept in the order of the work: what is measured before what needs it.
TEST(SheetKinds, StandInTheOrderOfAJob) {
    std::vector<std::string> order;
    for (const SheetKind& kind : sheet_kinds()) {
        order.push_back(kind.id);
    }
    const auto at = [&](const char* id) {
        const auto found = std::find(order.begin(), order.end(), id);
        EXPECT_NE(found, order.end()) << id;
        return found;
    };
    for (const auto& [before, after] :
         std::vector<std::pair<const char*, const char*>>{{"as_found", "bores"},
                                                          {"bores", "pistons"},
                                                          {"main_bearings", "turning_torque"},
                                                          {"deck", "compression"},
                                                          {"cam_card", "cam_timing"},
                                                          {"springs", "lash"},
                                                          {"rocker_geometry", "rod_clearance"},
                                                          {"cam_timing", "piston_to_valve"},
                                                          {"fasteners", "start_and_break_in"},
                                                          {"start_and_break_in", "dyno_pull"},
                                                          {"dyno_pull", "hand_off"}}) {
        EXPECT_LT(at(before), at(after)) << before << ' ' << after;
    }
}

TEST(SheetKinds, EveryNumberHasAUnitOfItsDimensionAndEveryChoiceItsWords) {
    for (const Quantity& quantity : all_quantities()) {
        const Dimension dimension = dimension_of(quantity.form);
        if (dimension != Dimension::none) {
            EXPECT_NE(find_unit(dimension, quantity.unit), nullptr) << quantity.id;
        } else if (quantity.form == Form::number) {
            EXPECT_FALSE(quantity.unit.empty()) << quantity.id; // counted in what?
        } else {
            EXPECT_EQ(quantity.unit, "") << quantity.id;
        }
        const bool has_words = quantity.form == Form::choice || quantity.form == Form::lash;
        EXPECT_EQ(has_words, !quantity.choices.empty()) << quantity.id;
        EXPECT_TRUE(quantity.origin == Origin::read || is_numeric(quantity.form)) << quantity.id;
    }
}

// Each word of a choice must be readable as it stands in the table, or nobody could choose it.
TEST(SheetKinds, EveryChoiceCanBeChosen) {
    int choices = 0;
    for (const Quantity& quantity : all_quantities()) {
        for (std::size_t from = 0;
             quantity.form == Form::choice && from < quantity.choices.size();) {
            const std::size_t to =
                std::min(quantity.choices.find(' ', from), quantity.choices.size());
            Reading reading;
            reading.text = quantity.choices.substr(from, to - from);
            const auto value = read_value(reading, quantity);
            ASSERT_TRUE(value.ok()) << quantity.id << ' ' << reading.text;
            EXPECT_EQ(value->words, reading.text) << quantity.id;
            ++choices;
            from = to + 1;
        }
    }
    EXPECT_GE(choices, 30);
}

} // namespace
} // namespace rodway
