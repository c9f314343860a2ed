#include "app/words/history_words.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

const RecordRef note{RecordKind::note, 4};
const RecordRef item{RecordKind::open_item, 7};

std::string lines(const std::vector<Edit>& edits, std::optional<std::int64_t> undoes = {}) {
    return words::act_lines({9, "Dee", "2026-03-01T12:00:00Z", undoes, edits})
        .join('\n')
        .toStdString();
}

// The wording is the project's own; common practice, no source.
TEST(HistoryWords, ARecordIsMadeOrRemovedInOneLineAboveItsFields) {
    // Edits of two records mixed, as edits of one act may stand.
    const std::vector<Edit> made{
        {note, "text", {}, "thread chased"}, {item, "title", {}, "gasket"},
        {note, "exists", {}, "1"},           {item, "if_it_goes_wrong", {}, "leaks"},
        {item, "exists", {}, "1"},           {note, "written_by", {}, {}, true}};
    EXPECT_EQ(lines(made),
              "9  2026-03-01T12:00:00Z  Dee\n"
              "   note 4 made\n"
              "      text: “thread chased”\n"
              "      written by: erased\n"
              "   open item 7 made\n"
              "      title: “gasket”\n"
              "      if it goes wrong: “leaks”");
    EXPECT_EQ(lines({{note, "exists", "1", {}}, {note, "text", "thread chased", {}}}, 8),
              "9  2026-03-01T12:00:00Z  Dee  takes back 8\n"
              "   note 4 removed\n"
              "      text: “thread chased”");
}

TEST(HistoryWords, AFieldOfARecordThatStaysIsToldWithBothTexts) {
    EXPECT_EQ(lines({{note, "text", "chased", "cut"},
                     {item, "due", {}, "2026-05-01"},
                     {item, "detail", "the left one", {}},
                     {item, "opened_by", {}, {}, true}}),
              "9  2026-03-01T12:00:00Z  Dee\n"
              "   note 4, text: “chased” → “cut”\n"
              "   open item 7, due: nothing → “2026-05-01”\n"
              "   open item 7, detail: “the left one” → nothing\n"
              "   open item 7, opened by: erased");
}

} // namespace
} // namespace rodway
