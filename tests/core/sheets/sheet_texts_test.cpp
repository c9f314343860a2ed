#include <gtest/gtest.h>
#include <json/json.h>

#include <filesystem>
#include <fstream>
#include <set>

#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

const std::string folder = RODWAY_RESOURCES "/sheets";

Json::Value texts_of(const std::string& kind) {
    std::ifstream file(folder + "/" + kind + ".json");
    Json::CharReaderBuilder builder;
    Json::CharReaderBuilder::strictMode(&builder.settings_);
    builder["rejectDupKeys"] = true;
    Json::Value root;
    std::string errors;
    EXPECT_TRUE(Json::parseFromStream(builder, file, &root, &errors)) << kind << ": " << errors;
    return root;
}

/// A sentence that a person can read: begins with a capital or figure, ends as sentences do.
void expect_sentence(const Json::Value& text, const std::string& where) {
    ASSERT_TRUE(text.isString()) << where;
    const std::string words = text.asString();
    ASSERT_GT(words.size(), 3U) << where;
    EXPECT_TRUE(words.back() == '.') << where << ": " << words;
    EXPECT_FALSE(words.front() >= 'a' && words.front() <= 'z') << where << ": " << words;
}

TEST(SheetTexts, EverySheetAndQuantityHasItsWordsAndNoneIsLeftOver) {
    for (const SheetKind& kind : sheet_kinds()) {
        const Json::Value root = texts_of(kind.id);
        EXPECT_FALSE(root["title"].asString().empty()) << kind.id;
        expect_sentence(root["about"], kind.id);
        std::set<std::string> wanted;
        std::set<std::string> titles;
        for (const Quantity& quantity : kind.quantities) {
            wanted.insert(quantity.id);
            const Json::Value& text = root["quantities"][quantity.id];
            ASSERT_TRUE(text.isObject()) << quantity.id;
            EXPECT_FALSE(text["title"].asString().empty()) << quantity.id;
            // Two lines of one sheet must not look alike.
            EXPECT_TRUE(titles.insert(text["title"].asString()).second) << quantity.id;
            expect_sentence(text["meaning"], quantity.id);
            EXPECT_NE(text["meaning"], text["title"]) << quantity.id;
            if (text.isMember("measured")) {
                expect_sentence(text["measured"], quantity.id);
            }
        }
        for (const std::string& id : root["quantities"].getMemberNames()) {
            EXPECT_TRUE(wanted.contains(id)) << kind.id << " has words for " << id;
        }
    }
}

// Whoever reads a number must know how; what stands on a card or box needs no measuring.
TEST(SheetTexts, SayHowNumbersAreMeasured) {
    const std::set<std::string> from_a_card{"card_duration",        "card_lift",
                                            "card_lobe_separation", "card_centreline",
                                            "rocker_ratio_nominal", "end_rail_bead"};
    for (const SheetKind& kind : sheet_kinds()) {
        const Json::Value root = texts_of(kind.id);
        for (const Quantity& quantity : kind.quantities) {
            if (is_numeric(quantity.form) && !from_a_card.contains(quantity.id)) {
                EXPECT_TRUE(root["quantities"][quantity.id].isMember("measured")) << quantity.id;
            }
        }
    }
}

TEST(SheetTexts, NoFileBelongsToNoSheet) {
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        EXPECT_NE(find_sheet_kind(entry.path().stem().string()), nullptr) << entry.path();
        ++files;
    }
    EXPECT_EQ(files, sheet_kinds().size());
}

} // namespace
} // namespace rodway
