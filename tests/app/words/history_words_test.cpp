#include "app/words/history_words.h"

#include <gtest/gtest.h>

#include <ctime>

namespace rodway {
namespace {

const RecordRef note{RecordKind::note, 4};
const RecordRef item{RecordKind::open_item, 7};

const RecordRef line{RecordKind::account_line, 16};
const RecordRef set_up{RecordKind::set_up, 2};
const RecordRef reading{RecordKind::reading, 5};

/// The program speaks of times as this computer's clock shows them; here a clock of its own.
class HistoryWords : public ::testing::Test {
  protected:
    HistoryWords() : before_(qgetenv("TZ")) {
        qputenv("TZ", "XST-2"); // two hours before UTC, as POSIX writes it
        tzset();
    }
    ~HistoryWords() override {
        before_.isNull() ? qunsetenv("TZ") : qputenv("TZ", before_);
        tzset();
    }

    const RecordTexts now{{note, {{"text", "chased, then cut"}}},
                          {item, {{"title", "gasket"}}},
                          {{RecordKind::approval, 3}, {{"subject", "Exhaust guides"}}}};

    std::string lines(const std::vector<Edit>& edits, std::optional<std::int64_t> undoes = {}) {
        return words::act_lines({9, "Dee", "2026-03-01T23:30:00Z", undoes, edits}, now)
            .join('\n')
            .toStdString();
    }

  private:
    QByteArray before_;
};

// The wording is the project's own; common practice, no source.
TEST_F(HistoryWords, ARecordIsMadeOrRemovedInOneLineAboveItsFields) {
    // Edits of two records mixed, as edits of one act may stand.
    const std::vector<Edit> made{
        {note, "text", {}, "thread chased"}, {item, "title", {}, "gasket"},
        {note, "exists", {}, "1"},           {item, "if_it_goes_wrong", {}, "leaks"},
        {item, "exists", {}, "1"},           {note, "written_by", {}, {}, true}};
    EXPECT_EQ(lines(made),
              "Act 9, 2 March 2026, 01:30, Dee\n"
              "   note “thread chased” made\n"
              "      text: “thread chased”\n"
              "      written by: erased\n"
              "   open item “gasket” made\n"
              "      title: “gasket”\n"
              "      if it goes wrong: “leaks”");
    EXPECT_EQ(lines({{note, "exists", "1", {}}, {note, "text", "thread chased", {}}}, 8),
              "Act 9, 2 March 2026, 01:30, Dee, takes back act 8\n"
              "   note “thread chased” removed\n"
              "      text: “thread chased”");
}

// What only the file needs, the build's number and the order of lines, nobody reads.
TEST_F(HistoryWords, WhatAFieldRefersToIsNamedAndWhatOnlyTheFileNeedsIsLeftOut) {
    EXPECT_EQ(lines({{line, "exists", {}, "1"},
                     {line, "build_id", {}, "4"},
                     {line, "ordinal", {}, "4"},
                     {line, "paper", {}, "invoice"},
                     {line, "approval_id", {}, "3"},
                     {line, "text", {}, "Exhaust guides: eight"}}),
              "Act 9, 2 March 2026, 01:30, Dee\n"
              "   account line “Exhaust guides: eight” made\n"
              "      paper: “invoice”\n"
              "      approval: “Exhaust guides”\n"
              "      text: “Exhaust guides: eight”");
    EXPECT_EQ(lines({{reading, "exists", {}, "1"},
                     {reading, "quantity", {}, "rod_clearance"},
                     {reading, "set_up_id", {}, "77"}}),
              "Act 9, 2 March 2026, 01:30, Dee\n"
              "   reading “Pushrod clearance” made\n"
              "      quantity: “Pushrod clearance”\n"
              "      set up: set-up 77");
}

TEST_F(HistoryWords, AFieldOfARecordThatStaysIsToldWithBothTexts) {
    EXPECT_EQ(lines({{note, "text", "chased", "cut"},
                     {item, "due", {}, "2026-05-01"},
                     {item, "detail", "the left one", {}},
                     {item, "customer_told", {}, "1"},
                     {item, "kind", "watch", "temporary_part"},
                     {item, "closed_at", "2026-04-30T22:15:00Z", {}},
                     {item, "opened_by", {}, {}, true},
                     {set_up, "banks/left/flange/gasket", ".055 in", ".075 in"}}),
              "Act 9, 2 March 2026, 01:30, Dee\n"
              "   note “cut”, text: “chased” → “cut”\n"
              "   open item “gasket”, due: nothing → 1 May 2026\n"
              "   open item “gasket”, detail: “the left one” → nothing\n"
              "   open item “gasket”, customer told: no → yes\n"
              "   open item “gasket”, kind: “watch” → “temporary part”\n"
              "   open item “gasket”, closed at: 1 May 2026, 00:15 → nothing\n"
              "   open item “gasket”, opened by: erased\n"
              "   set-up 2, intake gasket, left bank: “.055 in” → “.075 in”");
}

} // namespace
} // namespace rodway
