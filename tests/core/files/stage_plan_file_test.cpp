#include "core/files/stage_plan_file.h"

#include <gtest/gtest.h>
#include <json/json.h>

#include <algorithm>
#include <random>
#include <set>

#include "core/files/json_tree.h"
#include "core/sheets/sheet_kinds.h"
#include "tests/core/built_in_plans.h"

namespace rodway {
namespace {

/// One stage, one step, one gate; each of the keys on a line of its own.
constexpr const char* small_plan = R"({
  "format": "rodway-stage-plan",
  "version": 1,
  "word": "small",
  "title": "Small",
  "stages": [
    {
      "id": "one",
      "title": "One",
      "caution": "lifting",
      "steps": [
        {
          "id": "first",
          "title": "First “thing”",
          "detail": "Line one\nline two",
          "sheet": "lash",
          "parts": "rocker, rocker_shaft",
          "caution": "torque"
        }
      ],
      "gates": [
        {
          "id": "stop",
          "title": "Stop",
          "needs": "steps; sheet lash"
        }
      ]
    }
  ]
}
)";

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    const auto at = text.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return text.replace(at, what.size(), by);
}

/// Line on which a piece of text last stands.
int line_where(const std::string& text, const std::string& what) {
    const auto at = text.rfind(what);
    EXPECT_NE(at, std::string::npos) << what;
    return 1 +
           static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
}

TEST(StagePlanFile, EveryFieldIsRead) {
    const auto plan = read_stage_plan_file(small_plan);
    ASSERT_TRUE(plan.ok()) << plan.error().field << " " << plan.error().value;
    StagePlan expected{"small", "Small", std::nullopt, {}};
    PlannedStage stage{"one", "One", "lifting", {}, {}};
    stage.steps.push_back({"first",
                           "First “thing”",
                           "Line one\nline two",
                           "lash",
                           {"rocker", "rocker_shaft"},
                           "torque"});
    stage.gates.push_back({"stop", "Stop", {{NeedKind::steps}, {NeedKind::sheet, {"lash"}}}});
    expected.stages.push_back(stage);
    EXPECT_EQ(*plan, expected);
    EXPECT_EQ(write_stage_plan_file(*plan), small_plan);
}

TEST(StagePlanFile, BuiltInFilesAreWrittenAsTheyStand) {
    for (const char* word : tests::built_in_plan_words) {
        const std::string text = tests::built_in_plan_text(word);
        const auto plan = read_stage_plan_file(text);
        ASSERT_TRUE(plan.ok()) << word << " " << plan.error().field << " " << plan.error().value;
        EXPECT_EQ(plan->word, word);
        EXPECT_EQ(write_stage_plan_file(*plan), text) << word;
    }
}

TEST(StagePlanFile, AnyTextSurvives) {
    StagePlan plan = *read_stage_plan_file(small_plan);
    plan.stages[0].steps[0].detail = "\"quoted\" \\ / \t ¼ № 日本 \x7f";
    plan.about = "é";
    EXPECT_EQ(*read_stage_plan_file(write_stage_plan_file(plan)), plan);
}

TEST(StagePlanFile, WhatIsWrongIsNamedWithItsPlaceLineAndChoices) {
    struct Wrong {
        const char* what;
        const char* by;
        ErrorCode code;
        const char* field;
        const char* value;
        const char* among; ///< a word that would be accepted
    };
    const std::vector<Wrong> wrongs{
        {"\"caution\": \"lifting\"", "\"caution\": \"liftings\"", ErrorCode::not_a_choice,
         "stages/1/caution", "liftings", "lifting"},
        {"\"caution\": \"torque\"", "\"caution\": \"tork\"", ErrorCode::not_a_choice,
         "stages/1/steps/1/caution", "tork", "torque"},
        {"\"sheet\": \"lash\"", "\"sheet\": \"lashes\"", ErrorCode::not_a_choice,
         "stages/1/steps/1/sheet", "lashes", "lash"},
        {"rocker, rocker_shaft", "rocker, rocket", ErrorCode::not_a_choice,
         "stages/1/steps/1/parts", "rocket", "rocker"},
        {"rocker, rocker_shaft", "rocker, rocker", ErrorCode::duplicate_field,
         "stages/1/steps/1/parts", "rocker", ""},
        {"steps; sheet lash", "steps; sheets lash", ErrorCode::not_a_choice,
         "stages/1/gates/1/needs", "sheets", "sheet"},
        {"steps; sheet lash", "steps; sheet own_unknown", ErrorCode::not_a_choice,
         "stages/1/gates/1/needs", "own_unknown", "lash"},
        {"steps; sheet lash", "steps; sheet", ErrorCode::missing_field, "stages/1/gates/1/needs",
         "sheet", ""},
        {"\"id\": \"first\"", "\"id\": \"one\"", ErrorCode::duplicate_field, "stages/1/steps/1/id",
         "one", ""},
        {"\"id\": \"stop\"", "\"id\": \"first\"", ErrorCode::duplicate_field, "stages/1/gates/1/id",
         "first", ""},
        {"\"id\": \"stop\"", "\"id\": \"Stop it\"", ErrorCode::not_a_choice, "stages/1/gates/1/id",
         "Stop it", "one_word"},
        {"\"word\": \"small\"", "\"word\": \"small:2\"", ErrorCode::not_a_choice, "word", "small:2",
         "one_word"},
        {"\"detail\"", "\"details\"", ErrorCode::unknown_field, "stages/1/steps/1/details", "", ""},
        {"\"gates\"", "\"gate\"", ErrorCode::unknown_field, "stages/1/gate", "", ""},
        {"\"title\": \"Stop\"", "\"title\": \" \"", ErrorCode::empty_text, "stages/1/gates/1/title",
         "", ""},
        {"\"title\": \"Stop\"", "\"title\": 7", ErrorCode::wrong_type, "stages/1/gates/1/title",
         "7", "text"},
        {"\"title\": \"Stop\"", "\"title\": \"a\\u0000\"", ErrorCode::wrong_type,
         "stages/1/gates/1/title", "\"a\\u0000\"", "text"},
        {"\"title\": \"Stop\"", "\"title\": \"\\udc00\"", ErrorCode::wrong_type,
         "stages/1/gates/1/title", "\"\\udc00\"", "text"},
    };
    for (const Wrong& wrong : wrongs) {
        const std::string text = replaced(small_plan, wrong.what, wrong.by);
        const auto plan = read_stage_plan_file(text);
        ASSERT_FALSE(plan.ok()) << wrong.by;
        const Error& error = plan.error();
        EXPECT_EQ(static_cast<int>(error.code), static_cast<int>(wrong.code)) << wrong.by;
        EXPECT_EQ(error.field, wrong.field) << wrong.by;
        EXPECT_EQ(error.value, wrong.value) << wrong.by;
        EXPECT_EQ(error.line, line_where(text, wrong.by)) << wrong.by;
        EXPECT_NE((" " + error.expected + " ").find(wrong.among), std::string::npos) << wrong.by;
    }
}

TEST(StagePlanFile, WhatIsMissingIsNamed) {
    const auto missing = [](const std::string& line) {
        const auto plan = read_stage_plan_file(replaced(small_plan, line, ""));
        EXPECT_FALSE(plan.ok()) << line;
        EXPECT_EQ(static_cast<int>(plan.error().code), static_cast<int>(ErrorCode::missing_field));
        EXPECT_TRUE(plan.error().line.has_value());
        return plan.error().field;
    };
    EXPECT_EQ(missing("\"word\": \"small\","), "word");
    EXPECT_EQ(missing("\"id\": \"first\","), "stages/1/steps/1/id");
    EXPECT_EQ(missing("\"title\": \"Stop\","), "stages/1/gates/1/title");
    EXPECT_EQ(missing(",\n          \"needs\": \"steps; sheet lash\""), "stages/1/gates/1/needs");
    EXPECT_EQ(static_cast<int>(
                  read_stage_plan_file(R"({"format": "rodway-stage-plan", "version": 1, "word": "w",
                                       "title": "T", "stages": []})")
                      .error()
                      .code),
              static_cast<int>(ErrorCode::empty_text));
}

TEST(StagePlanFile, OtherFilesAndNewerOnesAreRefused) {
    const auto code = [](const std::string& text) {
        return static_cast<int>(read_stage_plan_file(text).error().code);
    };
    EXPECT_EQ(code(replaced(small_plan, "rodway-stage-plan", "rodway-set-up")),
              static_cast<int>(ErrorCode::wrong_format));
    EXPECT_EQ(code("[]"), static_cast<int>(ErrorCode::wrong_format));
    EXPECT_EQ(code(replaced(small_plan, "\"version\": 1", "\"version\": 2")),
              static_cast<int>(ErrorCode::newer_version));
    EXPECT_EQ(code(replaced(small_plan, "\"version\": 1", "\"version\": \"1\"")),
              static_cast<int>(ErrorCode::wrong_type));
    EXPECT_EQ(code(""), static_cast<int>(ErrorCode::empty_file));
    EXPECT_EQ(code("\xff\xfe{"), static_cast<int>(ErrorCode::not_utf8));
    const auto cut = read_stage_plan_file(std::string(small_plan).substr(0, 300));
    EXPECT_EQ(static_cast<int>(cut.error().code), static_cast<int>(ErrorCode::not_json));
    EXPECT_TRUE(cut.error().line.has_value());
    const auto twice = read_stage_plan_file(
        replaced(small_plan, "\"sheet\": \"lash\",", "\"sheet\": \"lash\", \"sheet\": \"cam\","));
    EXPECT_EQ(static_cast<int>(twice.error().code), static_cast<int>(ErrorCode::duplicate_field));
    EXPECT_EQ(twice.error().field, "sheet");
}

TEST(StagePlanFile, AShopsOwnSheetsAreTakenWhereTheShopHasThem) {
    std::string text = replaced(small_plan, "\"sheet\": \"lash\"", "\"sheet\": \"own_tip\"");
    text = replaced(text, "steps; sheet lash", "sheet own_tip");
    EXPECT_EQ(read_stage_plan_file(text).error().field, "stages/1/steps/1/sheet");
    const auto plan = read_stage_plan_file(text, {"own_other", "own_tip"});
    ASSERT_TRUE(plan.ok());
    EXPECT_EQ(plan->stages[0].steps[0].sheet, "own_tip");
    EXPECT_EQ(plan->stages[0].gates[0].needs[0].sheets, std::vector<std::string>{"own_tip"});
}

/// Objects with an id, found without the reader.
std::size_t objects_with_id(const Json::Value& value) {
    std::size_t count = value.isObject() && value.isMember("id") ? 1 : 0;
    if (value.isObject() || value.isArray()) {
        for (const Json::Value& inside : value) {
            count += objects_with_id(inside);
        }
    }
    return count;
}

std::size_t items_of(const StagePlan& plan) {
    std::size_t count = 0;
    for (const PlannedStage& stage : plan.stages) {
        count += 1 + stage.steps.size() + stage.gates.size();
    }
    return count;
}

std::string mutated(std::string text, std::mt19937& random) {
    const auto upto = [&](std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
    };
    static const std::string letters = "\"{}[]:,;\\ \nabeosz_019\xc3\xff\x01";
    const std::size_t at = upto(text.size());
    switch (upto(5)) {
        case 0:
            text[at] = letters[upto(letters.size())];
            break;
        case 1:
            text.erase(at, 1 + upto(40));
            break;
        case 2:
            text.insert(at, 1, letters[upto(letters.size())]);
            break;
        case 3:
            text.insert(upto(text.size()), text.substr(at, 1 + upto(200)));
            break;
        default: {
            // Two lines change places.
            const std::size_t next = text.find('\n', at);
            const std::size_t end = next == std::string::npos ? next : text.find('\n', next + 1);
            if (end != std::string::npos) {
                const std::string line = text.substr(next, end - next);
                text.erase(next, end - next);
                text.insert(text.rfind('\n', next > 0 ? next - 1 : 0), line);
            }
        }
    }
    return text;
}

TEST(StagePlanFile, FiveHundredMutatedFilesAreRefusedOrReadWhole) {
    std::mt19937 random(20261130);
    int refused = 0;
    int read = 0;
    for (int round = 0; round < 500; ++round) {
        const char* word = tests::built_in_plan_words[static_cast<std::size_t>(round) % 5];
        const std::string text = mutated(tests::built_in_plan_text(word), random);
        const auto plan = read_stage_plan_file(text);
        if (!plan) {
            ++refused;
            const auto lines = std::count(text.begin(), text.end(), '\n') + 1;
            EXPECT_TRUE(!plan.error().line ||
                        (*plan.error().line >= 1 && *plan.error().line <= lines))
                << round;
            EXPECT_TRUE(plan.error().line || plan.error().code == ErrorCode::not_utf8) << round;
            continue;
        }
        ++read;
        EXPECT_EQ(items_of(*plan), objects_with_id(*json_tree(text))) << round;
        const auto again = read_stage_plan_file(write_stage_plan_file(*plan));
        ASSERT_TRUE(again.ok()) << round;
        EXPECT_EQ(*again, *plan) << round;
    }
    EXPECT_GT(refused, 100);
    EXPECT_GT(read, 50);
}

} // namespace
} // namespace rodway
