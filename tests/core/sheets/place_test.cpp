#include "core/sheets/place.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "core/sheets/position.h"

namespace rodway {
namespace {

// Shapes are looked up by the enumerator's number: each must answer for itself.
TEST(Place, EveryPlaceHasItsOwnShape) {
    std::set<std::string_view> ids;
    for (std::size_t at = 0; at < place_shapes().size(); ++at) {
        const PlaceShape& shape = place_shapes()[at];
        EXPECT_EQ(static_cast<std::size_t>(shape.place), at) << shape.id;
        EXPECT_EQ(&shape_of(shape.place), &shape);
        EXPECT_TRUE(ids.insert(shape.id).second) << shape.id;
        EXPECT_EQ(place_called(shape.id), shape.place);
        EXPECT_FALSE(shape.mark.empty()) << shape.id;
        EXPECT_EQ(shape.parts.empty(), shape.place == Place::engine) << shape.id;
    }
    EXPECT_EQ(static_cast<std::size_t>(Place::joint) + 1, place_shapes().size());
    EXPECT_EQ(place_called("everywhere"), std::nullopt);
}

// What an error shows as an example must be accepted, and be in the kept form itself.
TEST(Place, ExamplesAreAsKept) {
    for (const PlaceShape& shape : place_shapes()) {
        const auto kept = kept_position(shape.example, shape.place);
        ASSERT_TRUE(kept.ok()) << shape.id << ": " << shape.example;
        EXPECT_EQ(*kept, shape.example) << shape.id;
    }
}

// A word that could be two parts of one place would be read as whichever is tried first.
TEST(Place, NoWordOfAPlaceMeansTwoThings) {
    for (const PlaceShape& shape : place_shapes()) {
        std::map<std::string, std::string_view> meanings;
        for (const PlacePartUse& use : shape.parts) {
            for (const PlaceWord& word : place_words()) {
                for (std::size_t from = 0; word.part == use.part && from < word.alike.size();) {
                    const std::size_t to = std::min(word.alike.find(' ', from), word.alike.size());
                    const std::string alike(word.alike.substr(from, to - from));
                    EXPECT_TRUE(meanings.emplace(alike, word.kept).second)
                        << shape.id << ": " << alike;
                    from = to + 1;
                }
            }
        }
    }
}

TEST(Place, EveryKeptWordIsReadAsItself) {
    for (const PlaceWord& word : place_words()) {
        for (const PlaceShape& shape : place_shapes()) {
            if (shape.parts.size() == 1 && shape.parts.front().part == word.part) {
                EXPECT_EQ(*kept_position(word.kept, shape.place), word.kept);
            }
        }
    }
}

} // namespace
} // namespace rodway
