#include "db/edits.h"

#include <algorithm>
#include <chrono>

#include "db/build_store.h"
#include "db/connection.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;

class EditsTest : public ShopTest {
  protected:
    void SetUp() override { take(apply(shop_, edits_of_whole_build(), "Dee", noon)); }

    /// Applies edits that must be refused, and sees to it that nothing at all has changed.
    Error refused(const std::vector<Edit>& edits) {
        const std::string before = dump_with_history(shop_.path());
        const Error error = refusal(apply(shop_, edits, "Kim", noon));
        EXPECT_EQ(dump_with_history(shop_.path()), before);
        return error;
    }
    Act applied(const std::vector<Edit>& edits) { return take(apply(shop_, edits, "Kim", noon)); }

    std::string state() { return dump(shop_.path()); }

    ShopFile shop_ = new_shop();
    const RecordRef build_{RecordKind::build, 1};
    const RecordRef set_up_{RecordKind::set_up, 1};
    const RecordRef stage_{RecordKind::stage, 1};
    const RecordRef step_{RecordKind::step, 1};
    const RecordRef reading_{RecordKind::reading, 1};
    const RecordRef photo_{RecordKind::photo, 1};
};

TEST_F(EditsTest, ChangeTheFieldAndNothingElse) {
    std::string wanted = state();
    const std::size_t at = wanted.find("Blue pickup");
    wanted.replace(at, 11, "Blue truck");
    const Act act = applied({{build_, "name", "Blue pickup", "Blue truck"}});
    EXPECT_EQ(state(), wanted);
    EXPECT_EQ(act.number, 2);
    EXPECT_EQ(act.who, "Kim");
    EXPECT_EQ(act.when_utc, noon);
    EXPECT_FALSE(act.undoes.has_value());
}

TEST_F(EditsTest, OnAStaleBeforeAreRefusedWithBothValuesAndNothingIsChanged) {
    const Error error = refused({{build_, "customer", "R. Marsh", "T. Wells"},
                                 {build_, "note", "wants it loud", "wants it louder"}});
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.field, "note");
    EXPECT_EQ(error.value, "wants it quiet");
    EXPECT_EQ(error.expected, "wants it loud");
}

TEST_F(EditsTest, TellNothingFromSomething) {
    const Error filled = refused({{build_, "note", std::nullopt, "x"}});
    EXPECT_EQ(filled.code, ErrorCode::changed_since);
    EXPECT_EQ(filled.value, "wants it quiet");
    EXPECT_EQ(filled.expected, "");
    const Error absent = refused({{build_, "archived", noon, std::nullopt}});
    EXPECT_EQ(absent.code, ErrorCode::changed_since);
    EXPECT_EQ(absent.value, "");
    EXPECT_EQ(absent.expected, noon);
}

TEST_F(EditsTest, FollowEachOtherWithinAnAct) {
    applied({{build_, "name", "Blue pickup", "a"}, {build_, "name", "a", "b"}});
    EXPECT_EQ(take(load_build(shop_, 1)).name, "b");
    EXPECT_EQ(refused({{build_, "name", "b", "c"}, {build_, "name", "b", "d"}}).code,
              ErrorCode::changed_since);
}

TEST_F(EditsTest, ChangeAddAndTakeAwayAGeometryField) {
    const SetUpRecord before = take(load_set_up(shop_, 1));
    applied({edit_to_change(before, "trains/3I/rod/diameter", TypedValue{"8", "mm"}),
             edit_to_change(before, "trains/3I/rod/note", TypedValue{"it's \"used\" ", ""}),
             edit_to_change(before, "layout/cylinders", std::nullopt)});
    SetUpRecord wanted = before;
    wanted.fields["trains/3I/rod/diameter"] = {"8", "mm"};
    wanted.fields["trains/3I/rod/note"] = {"it's \"used\" ", ""};
    wanted.fields.erase("layout/cylinders");
    EXPECT_EQ(take(load_set_up(shop_, 1)).fields, wanted.fields);
    const Error error =
        refused({edit_to_change(before, "trains/3I/rod/diameter", TypedValue{"9", "mm"})});
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.value, "8 mm");
    EXPECT_EQ(error.expected, ".3125 in");
}

TEST_F(EditsTest, OfFieldsThatARecordDoesNotHaveAreRefused) {
    EXPECT_EQ(refused({{build_, "colour", std::nullopt, "blue"}}).code, ErrorCode::unknown_field);
    EXPECT_EQ(refused({{build_, "id", std::nullopt, "5"}}).code, ErrorCode::unknown_field);
    EXPECT_EQ(refused({{build_, "trains/3I/rod", std::nullopt, "5"}}).code,
              ErrorCode::unknown_field);
    EXPECT_EQ(refused({{set_up_, "cylinders", std::nullopt, "8"}}).code, ErrorCode::unknown_field);
    EXPECT_EQ(refused({{build_, "name = 'x' --", std::nullopt, "y"}}).code,
              ErrorCode::unknown_field);
}

TEST_F(EditsTest, OfWhatIsFixedAtCreationAreRefused) {
    applied(edits_to_create(sample_build(2)));
    for (const Edit& edit : {Edit{stage_, "build_id", "1", "2"}, Edit{step_, "stage_id", "1", "2"},
                             Edit{photo_, "digest", photo_digest, std::string(64, 'b')}}) {
        const Error error = refused({edit});
        EXPECT_EQ(error.code, ErrorCode::unknown_field) << edit.field;
        EXPECT_EQ(error.expected, "fixed");
    }
}

TEST_F(EditsTest, OfTextsThatTheFieldCannotHoldAreRefused) {
    const auto code = [this](const Edit& edit) {
        const Error error = refused({edit});
        EXPECT_EQ(error.field, edit.field);
        return error.code;
    };
    EXPECT_EQ(code({build_, "note", "wants it quiet", ""}), ErrorCode::empty_text);
    EXPECT_EQ(code({build_, "promised", "2026-05-20", "2026-02-30"}), ErrorCode::wrong_type);
    EXPECT_EQ(code({build_, "promised", "2026-05-20", "20 May"}), ErrorCode::wrong_type);
    EXPECT_EQ(code({build_, "archived", {}, "2026-05-20"}), ErrorCode::wrong_type);
    EXPECT_EQ(code({build_, "archived", {}, "2026-05-20T25:00:00Z"}), ErrorCode::wrong_type);
    EXPECT_EQ(code({build_, "archived", {}, "2026-05-20T12:00:00+01:00"}), ErrorCode::wrong_type);
    EXPECT_EQ(code({stage_, "ordinal", "2", "third"}), ErrorCode::not_a_number);
    EXPECT_EQ(code({stage_, "ordinal", "2", "03"}), ErrorCode::not_a_number);
    EXPECT_EQ(code({stage_, "ordinal", "2", "-1"}), ErrorCode::out_of_range);
    EXPECT_EQ(code({stage_, "ordinal", "2", "2147483648"}), ErrorCode::out_of_range);
    EXPECT_EQ(code({stage_, "ordinal", "2", "99999999999999999999"}), ErrorCode::out_of_range);
    EXPECT_EQ(code({reading_, "set_up_id", "1", "0"}), ErrorCode::out_of_range);
    EXPECT_EQ(code({reading_, "status", "measured", "guessed"}), ErrorCode::not_a_choice);
    EXPECT_EQ(code({build_, "exists", "1", "0"}), ErrorCode::not_a_choice);
    EXPECT_EQ(code({set_up_, "layout/cylinders", "8", "8 "}), ErrorCode::wrong_type);
    EXPECT_EQ(code({set_up_, "layout/cylinders", "8", ""}), ErrorCode::empty_text);
}

TEST_F(EditsTest, OfTextThatWouldNotComeBackExactlyAreRefused) {
    for (const std::string& text :
         {std::string("\xff\xfe"), std::string("caf\xe9"), std::string("a\0b", 3),
          std::string("\xef\xbb\xbf"
                      "a"),
          std::string("\xef\xbf\xbe"
                      "a"),
          std::string("\xed\xa0\x80")}) {
        EXPECT_EQ(refused({{build_, "note", "wants it quiet", text}}).code, ErrorCode::not_utf8);
        EXPECT_EQ(refused({{set_up_, text + "/rod", std::nullopt, "1"}}).code, ErrorCode::not_utf8);
        for (const std::string& typed : {text + " in", "1 " + text}) {
            EXPECT_EQ(refused({{set_up_, "layout/cylinders", "8", typed}}).code,
                      ErrorCode::not_utf8);
        }
        const Edit rename{build_, "name", "Blue pickup", "x"};
        EXPECT_EQ(refusal(apply(shop_, {rename}, text, noon)).code, ErrorCode::not_utf8);
    }
}

TEST_F(EditsTest, KeepEveryTextExactly) {
    std::string before = "wants it quiet";
    for (const std::string& text :
         {std::string("it's \"quoted\"; DROP TABLE builds; --"), std::string("line\r\nline\n\ttab"),
          std::string("Zündung \u2300 8 \u00bd\u2033 \U0001F527 \u05d0\u05d1 e\u0301"),
          std::string("%1 ? :name @x $1 \\ \\n"), std::string(" "), std::string("a\xef\xbb\xbf"),
          std::string(200'000, 'x'), std::string("NULL"), std::string("0")}) {
        applied({{build_, "note", before, text},
                 {build_, "customer", take(load_build(shop_, 1)).customer, text}});
        const ShopFile closed = std::move(shop_);
        shop_ = take(ShopFile::open(closed.path()));
        EXPECT_EQ(take(load_build(shop_, 1)).note, text);
        EXPECT_EQ(take(load_build(shop_, 1)).customer, text);
        EXPECT_EQ(take(load_act(shop_, take(last_act(shop_)))).edits[0].after, text);
        EXPECT_EQ(ask(shop_.path(), "SELECT hex(note) FROM builds").size(), text.size() * 2);
        before = text;
    }
}

TEST_F(EditsTest, OfNoRecordAreRefused) {
    const Error error = refused({{{RecordKind::build, 9}, "note", std::nullopt, "x"}});
    EXPECT_EQ(error.code, ErrorCode::no_such_record);
    EXPECT_EQ(error.field, "note");
    EXPECT_EQ(refused({{{RecordKind::build, 0}, "exists", std::nullopt, "1"}}).code,
              ErrorCode::out_of_range);
}

TEST_F(EditsTest, MayCreateInAnyOrderWithinAnAct) {
    std::vector<Edit> edits = edits_to_create(sample_build(2));
    edits = joined(std::move(edits), edits_to_create(sample_stage(2, 2)));
    edits = joined(std::move(edits), edits_to_create(sample_step(2, 2)));
    std::reverse(edits.begin(), edits.end());
    applied(edits);
    const auto plan = take(stages_with_steps(shop_, 2));
    ASSERT_EQ(plan.size(), 1U);
    EXPECT_EQ(plan[0].steps.size(), 1U);
}

TEST_F(EditsTest, ThatCreateWithoutANeededFieldAreRefused) {
    const std::vector<Edit> whole = edits_to_create(sample_stage(2, 1));
    for (const char* needed : {"build_id", "ordinal", "title"}) {
        std::vector<Edit> edits;
        for (const Edit& edit : whole) {
            if (edit.field != needed) edits.push_back(edit);
        }
        ASSERT_EQ(edits.size() + 1, whole.size());
        const Error error = refused(edits);
        EXPECT_EQ(error.code, ErrorCode::missing_field);
        EXPECT_EQ(error.field, needed);
    }
    EXPECT_EQ(refused({{build_, "name", "Blue pickup", std::nullopt}}).code,
              ErrorCode::missing_field);
}

TEST_F(EditsTest, OfHalfATickOrAReadingWithoutItsNumberAreRefused) {
    EXPECT_EQ(refused({{step_, "ticked_by", std::nullopt, "Dee"}}).field, "ticked_at");
    EXPECT_EQ(refused({{step_, "ticked_at", std::nullopt, noon}}).field, "ticked_by");
    const Error error = refused({{reading_, "text", ".008-.010", std::nullopt}});
    EXPECT_EQ(error.code, ErrorCode::missing_field);
    EXPECT_EQ(error.field, "text");
    applied({{reading_, "text", ".008-.010", std::nullopt},
             {reading_, "status", "measured", "not_measured"}});
    EXPECT_EQ(take(readings(shop_, 1)).at(0).status, ReadingStatus::not_measured);
}

TEST_F(EditsTest, ThatReferToNothingOrToAnotherBuildAreRefused) {
    const Error nowhere = refused(edits_to_create(sample_stage(2, 55)));
    EXPECT_EQ(nowhere.code, ErrorCode::no_such_record);
    EXPECT_EQ(nowhere.field, "build_id");
    EXPECT_EQ(nowhere.value, "55");
    applied(joined(edits_to_create(sample_build(2)), edits_to_create(sample_set_up(2, 2))));
    const Error other_build = refused({{reading_, "set_up_id", "1", "2"}});
    EXPECT_EQ(other_build.code, ErrorCode::no_such_record);
    EXPECT_EQ(other_build.field, "set_up_id");
}

TEST_F(EditsTest, ThatCreateATakenIdAreRefused) {
    const Error error = refused(edits_to_create(sample_build(1)));
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.field, "exists");
    EXPECT_EQ(error.value, "1");
}

TEST_F(EditsTest, ThatCreateAnIdOfARemovedRecordAreRefused) {
    applied(take(edits_to_remove(shop_, photo_)));
    const Error error = refused({{photo_, "exists", std::nullopt, "1"},
                                 {photo_, "build_id", std::nullopt, "1"},
                                 {photo_, "digest", std::nullopt, photo_digest},
                                 {photo_, "file_name", std::nullopt, "x.jpg"},
                                 {photo_, "added_at", std::nullopt, noon}});
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.value, "removed");
}

TEST_F(EditsTest, ThatRemoveWhatOthersDependOnAreRefused) {
    for (const auto& [record, dependant] :
         {std::pair(build_, "set_up 1"), std::pair(set_up_, "reading 1"),
          std::pair(stage_, "step 1")}) {
        const Error error = refused(take(edits_to_remove(shop_, record)));
        EXPECT_EQ(error.code, ErrorCode::changed_since);
        EXPECT_EQ(error.field, "exists");
        EXPECT_EQ(error.value, dependant);
    }
}

TEST_F(EditsTest, ThatRemoveWithoutKnowingAllFieldsAreRefused) {
    std::vector<Edit> edits = take(edits_to_remove(shop_, reading_));
    applied({{reading_, "unit", "in", "mm"}});
    EXPECT_EQ(refused(edits).field, "unit");
    edits = take(edits_to_remove(shop_, photo_));
    edits.erase(std::find_if(edits.begin(), edits.end(),
                             [](const Edit& edit) { return edit.field == "caption"; }));
    const Error error = refused(edits);
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.field, "caption");
    EXPECT_EQ(error.value, "witness mark");
}

TEST_F(EditsTest, NeedAnActWithAName) {
    const Edit rename{build_, "name", "Blue pickup", "x"};
    EXPECT_EQ(refusal(apply(shop_, {rename}, "", noon)).field, "who");
    EXPECT_EQ(refusal(apply(shop_, {rename}, "Kim", "yesterday")).field, "when_utc");
    EXPECT_EQ(refusal(apply(shop_, {}, "Kim", noon)).field, "edits");
    EXPECT_EQ(take(last_act(shop_)), 1);
}

TEST_F(EditsTest, WaitForAnotherWriterAndThenSaySo) {
    Connection other = take(Connection::open_existing(shop_.path(), 0ms));
    shop_ = take(ShopFile::open(shop_.path(), 50ms));
    take(other.run("BEGIN IMMEDIATE"));
    const Edit rename{build_, "name", "Blue pickup", "x"};
    EXPECT_EQ(refused({rename}).code, ErrorCode::locked_file);
    take(other.run("COMMIT"));
    applied({rename});
}

class UndoTest : public EditsTest {
  protected:
    /// Does the act, takes it back, does it again, and compares every row each time.
    void there_and_back(const std::vector<Edit>& edits) {
        const std::string before = state();
        const Act act = applied(edits);
        const std::string after = state();
        ASSERT_NE(before, after);
        const Act back = take(undo(shop_, act.number, "Dee", noon));
        EXPECT_EQ(back.undoes, act.number);
        EXPECT_EQ(back.who, "Dee");
        EXPECT_EQ(state(), before);
        take(undo(shop_, back.number, "Dee", noon));
        EXPECT_EQ(state(), after);
        take(undo(shop_, act.number, "Dee", noon));
        EXPECT_EQ(state(), before);
    }
};

TEST_F(UndoTest, RestoresChangedFieldsExactly) {
    there_and_back({{build_, "name", "Blue pickup", "a"},
                    {build_, "name", "a", "b"},
                    {build_, "note", "wants it quiet", std::nullopt},
                    {set_up_, "layout/cylinders", "8", std::nullopt},
                    {set_up_, "layout/stroke", std::nullopt, "4 in"},
                    {step_, "ticked_by", std::nullopt, "Dee"},
                    {step_, "ticked_at", std::nullopt, noon}});
}

TEST_F(UndoTest, RestoresAWholeBuildThatWasRemoved) {
    std::vector<Edit> edits;
    for (const RecordRef& record : {photo_, reading_, step_, stage_, set_up_, build_}) {
        edits = joined(std::move(edits), take(edits_to_remove(shop_, record)));
    }
    there_and_back(edits);
    applied(edits);
    EXPECT_EQ(state(), "");
}

TEST_F(UndoTest, TakesAWholeCreationBack) {
    take(undo(shop_, 1, "Dee", noon));
    EXPECT_EQ(state(), "");
}

TEST_F(UndoTest, OfAnActThatIsUndoneAlreadyIsRefusedEvenIfTheValuesFit) {
    const Edit rename{build_, "name", "Blue pickup", "x"};
    const Act act = applied({rename});
    const Act back = take(undo(shop_, act.number, "Dee", noon));
    applied({rename}); // the same by hand
    const std::string before = dump_with_history(shop_.path());
    const Error error = refusal(undo(shop_, act.number, "Dee", noon));
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.field, "act");
    EXPECT_EQ(error.value, std::to_string(back.number));
    EXPECT_EQ(dump_with_history(shop_.path()), before);
}

TEST_F(UndoTest, OfAnActThatWasChangedSinceIsRefusedWhole) {
    const Act act =
        applied({{build_, "name", "Blue pickup", "a"}, {build_, "note", "wants it quiet", "b"}});
    applied({{build_, "name", "a", "c"}});
    const std::string before = dump_with_history(shop_.path());
    const Error error = refusal(undo(shop_, act.number, "Dee", noon));
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.field, "name");
    EXPECT_EQ(error.value, "c");
    EXPECT_EQ(error.expected, "a");
    EXPECT_EQ(dump_with_history(shop_.path()), before);
}

TEST_F(UndoTest, OfACreationThatOthersBuiltOnIsRefused) {
    const Act act = applied(edits_to_create(sample_build(2)));
    applied(edits_to_create(sample_stage(2, 2)));
    EXPECT_EQ(refusal(undo(shop_, act.number, "Dee", noon)).value, "stage 2");
}

TEST_F(UndoTest, OfNoActIsRefused) {
    EXPECT_EQ(refusal(undo(shop_, 77, "Dee", noon)).code, ErrorCode::no_such_record);
}

} // namespace
} // namespace rodway
