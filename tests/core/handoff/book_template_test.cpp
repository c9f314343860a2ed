#include "core/handoff/book_template.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

namespace rodway {
namespace {

TEST(BookTemplate, KeepsItsSectionsInTheirOrderWithTheirWords) {
    const auto read = read_book_template(
        "# a note\n\nbook  Build record\nsection settings\nheading What to set\nbefore One.\n"
        "before Two.\nafter Three.\nsection photos\nempty leave-out\nsection cover\nempty say\n");
    ASSERT_TRUE(read.ok());
    EXPECT_EQ(read->title, "Build record");
    ASSERT_EQ(read->sections.size(), 3U);
    EXPECT_EQ(read->sections[0].section, BookSection::settings);
    EXPECT_EQ(read->sections[0].heading, "What to set");
    EXPECT_EQ(read->sections[0].before, (std::vector<std::string>{"One.", "Two."}));
    EXPECT_EQ(read->sections[0].after, std::vector<std::string>{"Three."});
    EXPECT_FALSE(read->sections[0].leave_out_empty);
    EXPECT_EQ(read->sections[1].section, BookSection::photos);
    EXPECT_TRUE(read->sections[1].leave_out_empty);
    EXPECT_TRUE(read->sections[1].before.empty());
    EXPECT_EQ(read->sections[2].section, BookSection::cover);
    EXPECT_FALSE(read->sections[2].leave_out_empty);
}

TEST(BookTemplate, ABrokenOneIsRefusedWithItsLine) {
    struct Broken {
        const char* text;
        ErrorCode code;
        const char* field;
        int line;
    };
    const Broken all[] = {
        {"", ErrorCode::wrong_format, "book", 1},
        {"# only a note\n", ErrorCode::wrong_format, "book", 1},
        {"section cover\nbook B\n", ErrorCode::wrong_format, "section", 1},
        {"<html>\n", ErrorCode::wrong_format, "<html>", 1},
        {"book\nsection cover\n", ErrorCode::empty_text, "book", 1},
        {"book B\nbook C\n", ErrorCode::duplicate_field, "book", 2},
        {"book B\n", ErrorCode::missing_field, "section", 1},
        {"book B\nheading H\n", ErrorCode::missing_field, "section", 2},
        {"book B\n\nsection covers\n", ErrorCode::not_a_choice, "section", 3},
        {"book B\nsection cover\n#\nsection cover\n", ErrorCode::duplicate_field, "section", 4},
        {"book B\nsection cover\ncolour red\n", ErrorCode::unknown_field, "colour", 3},
        {"book B\nsection cover\nbefore   \n", ErrorCode::empty_text, "before", 3},
        {"book B\nsection cover\nheading A\nheading B\n", ErrorCode::duplicate_field, "heading", 4},
        {"book B\nsection cover\nempty no\n", ErrorCode::not_a_choice, "empty", 3},
        {"book B\nsection cover\nempty say\nempty say\n", ErrorCode::duplicate_field, "empty", 4},
    };
    for (const Broken& one : all) {
        const auto read = read_book_template(one.text);
        ASSERT_FALSE(read.ok()) << one.text;
        EXPECT_EQ(read.error().code, one.code) << one.text;
        EXPECT_EQ(read.error().field, one.field) << one.text;
        EXPECT_EQ(read.error().line, one.line) << one.text;
    }
}

TEST(BookTemplate, EverySectionIsCalledByItsOwnWord) {
    for (const BookSection section : book_sections()) {
        EXPECT_EQ(book_section_called(book_section_word(section)), section);
    }
    EXPECT_FALSE(book_section_called("").has_value());
    EXPECT_FALSE(book_section_called("Cover").has_value());
}

TEST(BookTemplate, ThoseGivenAwayAreGoodAndTheWholeOneHasEverySection) {
    int found = 0;
    for (const auto& entry : std::filesystem::directory_iterator(RODWAY_RESOURCES "/handoff")) {
        std::ifstream file(entry.path());
        std::stringstream text;
        text << file.rdbuf();
        const auto read = read_book_template(text.str());
        ASSERT_TRUE(read.ok()) << entry.path() << " line " << read.error().line.value_or(0);
        ++found;
        if (entry.path().stem() == "complete") {
            EXPECT_EQ(read->sections.size(), book_sections().size());
        }
    }
    EXPECT_GE(found, 3);
}

} // namespace
} // namespace rodway
