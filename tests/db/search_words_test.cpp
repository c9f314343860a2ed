#include "db/search_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<std::string> marked(const TextPassage& passage) {
    std::vector<std::string> texts;
    texts.reserve(passage.marks.size());
    for (const TextMark& mark : passage.marks) {
        texts.push_back(passage.text.substr(mark.begin, mark.length));
    }
    return texts;
}

TEST(SearchWords, AreSplitAtSpacesAndThoseWithoutALetterSayNothing) {
    EXPECT_THAT(typed_words("  3I/tube\t\"rod\"\n— % _ .008"),
                ElementsAre("3I/tube", "\"rod\"", ".008"));
    EXPECT_THAT(typed_words(std::string("a\0b\x01z", 5)), ElementsAre("a", "b", "z"));
    EXPECT_THAT(typed_words(" — \xcc\x81 "), IsEmpty());
}

TEST(SearchWords, AreCountedWhereWordsBeginSo) {
    const WordCount count =
        count_words("Rodent, Róds and brod; rod/rocker", typed_words("rod ROD/ROCK zz"));
    EXPECT_EQ(count.words, 6);
    EXPECT_THAT(count.times, ElementsAre(3, 1, 0));
    EXPECT_EQ(count_words("", typed_words("rod")).words, 0);
}

TEST(SearchWords, MarkWholeWordsThatBeginAsTyped) {
    const TextPassage passage =
        passage_around("Rodent, Róds and brod; rod/rocker", typed_words("rod ROD/ROCK zz"));
    EXPECT_THAT(marked(passage), ElementsAre("Rodent", "Róds", "rod/rocker"));
    EXPECT_EQ(passage.words_found, 2);
    EXPECT_FALSE(passage.cut_before || passage.cut_after);
}

TEST(SearchWords, CutALongTextAroundTheFirstOfThem) {
    std::string text;
    for (int i = 0; i < 100; ++i) text += "längere ";
    text += "gasket ";
    for (int i = 0; i < 100; ++i) text += "längere ";
    const TextPassage passage = passage_around(text, typed_words("gask"));
    EXPECT_THAT(marked(passage), ElementsAre("gasket"));
    EXPECT_TRUE(passage.cut_before && passage.cut_after);
    EXPECT_LE(passage.text.size(), 200U);
    EXPECT_NE(text.find(passage.text), std::string::npos);
    EXPECT_EQ(passage.text.rfind("längere ", 0), 0U);
    EXPECT_EQ(passage_around(text, typed_words("zz")).text.rfind("längere ", 0), 0U);
}

TEST(SearchWords, CutAWordWithoutEndWhereItStands) {
    const TextPassage passage = passage_around(std::string(5000, 'x'), typed_words("x"));
    EXPECT_LE(passage.text.size(), 400U);
    EXPECT_TRUE(passage.cut_after);
}

} // namespace
} // namespace rodway
