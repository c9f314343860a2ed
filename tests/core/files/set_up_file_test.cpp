#include "core/files/set_up_file.h"

#include <gtest/gtest.h>

#include <random>

#include "core/engine/set_up.h"
#include "core/files/lift_table_file.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

constexpr const char* smallest = "flat-four";

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    const auto at = text.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return text.replace(at, what.size(), by);
}

/// Line on which a piece of text first stands.
int line_where(const std::string& text, const std::string& what) {
    const auto at = text.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return 1 +
           static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
}

void expect_refused(const std::string& bytes, ErrorCode code, const std::string& field,
                    std::optional<int> line) {
    const auto read = read_set_up_file(bytes);
    ASSERT_FALSE(read.ok()) << field;
    EXPECT_EQ(static_cast<int>(read.error().code), static_cast<int>(code)) << field;
    EXPECT_EQ(read.error().field, field);
    EXPECT_EQ(read.error().line, line) << field;
}

TEST(SetUpFile, ExportThenImportGivesTheSameFields) {
    for (const char* name : demo_names) {
        const SetUpFields fields = demo_fields(name);
        const std::string written = write_set_up_file(fields);
        const auto again = read_set_up_file(written);
        ASSERT_TRUE(again.ok()) << name << " line " << again.error().line.value_or(0);
        EXPECT_EQ(*again, fields) << name;
        EXPECT_EQ(write_set_up_file(*again), written) << name;
    }
}

TEST(SetUpFile, KeepsNumbersAsTheyWereTyped) {
    SetUpFields fields = demo_fields(smallest);
    const std::pair<const char*, TypedValue> typed[] = {
        {"trains/1I/rod/diameter", {".3125", "in"}},
        {"trains/1E/rod/diameter", {"5/16", "in"}},
        {"trains/2I/rod/diameter", {"0.31250", "in"}},
        {"trains/2E/rod/diameter", {"312.5", "thou"}},
        {"trains/3I/rod/diameter", {"7,9375", "mm"}},
        {"engine/name", {"\"Quoted\" \\ \xC3\xA9 \t name", ""}},
    };
    for (const auto& [path, value] : typed) {
        fields[path] = value;
    }
    ASSERT_TRUE(make_engine(fields).ok());
    const auto again = read_set_up_file(write_set_up_file(fields));
    ASSERT_TRUE(again.ok());
    EXPECT_EQ(*again, fields);
    // An exponent is written out, since a field holds a plain number.
    const auto exponent = read_set_up_file(
        replaced(demo_bytes(smallest), "\"rod_clearance_in\": 0.01", "\"rod_clearance_in\": 1e-2"));
    ASSERT_TRUE(exponent.ok());
    EXPECT_EQ(exponent->at("limits/rod_clearance").text, "0.01");
}

// Tables come from files whose numbers have a leading point, a plus or no space after the
// semicolon.
TEST(SetUpFile, ALiftTableSurvivesHoweverItsNumbersAreWritten) {
    SetUpFields fields = demo_fields(smallest);
    const std::string plain = fields.at("lobes/intake/lift_table").text;
    std::string points = plain;
    for (std::size_t at = 0; (at = points.find(" 0.", at)) != std::string::npos;) {
        points.replace(at, 3, " .");
    }
    std::string tight = plain;
    for (std::size_t at = 0; (at = tight.find("; ", at)) != std::string::npos;) {
        tight.replace(at, 2, ";");
    }
    for (const std::string& text : {points, tight}) {
        fields.at("lobes/intake/lift_table").text = text;
        const auto engine = make_engine(fields);
        ASSERT_TRUE(engine.ok());
        const auto again = read_set_up_file(write_set_up_file(fields));
        ASSERT_TRUE(again.ok()) << text.substr(0, 30) << ", code "
                                << static_cast<int>(again.error().code);
        EXPECT_DOUBLE_EQ(make_engine(*again)->intake.lobe.full_lift_mm(),
                         engine->intake.lobe.full_lift_mm());
    }
}

TEST(SetUpFile, CutOffAtAnyByteItIsRefusedOrWhole) {
    const std::string bytes = demo_bytes(smallest);
    const SetUpFields whole = demo_fields(smallest);
    int taken = 0;
    for (std::size_t length = 0; length < bytes.size(); ++length) {
        const auto read = read_set_up_file(std::string_view(bytes).substr(0, length));
        if (read.ok()) {
            ++taken;
            ASSERT_EQ(*read, whole) << "half a set-up, cut at byte " << length;
        }
    }
    EXPECT_LE(taken, 1); // only the last line's end may be missing
    expect_refused("", ErrorCode::empty_file, "", {});
}

TEST(SetUpFile, NamesTheLineOfWhatIsWrong) {
    const std::string good = demo_bytes(smallest);
    std::string bytes = replaced(good, "\"bore_in\": 3.95", "\"bore_in\": 39.5");
    expect_refused(bytes, ErrorCode::out_of_range, "engine/bore",
                   line_where(bytes, "\"bore_in\": 39.5"));
    bytes = replaced(good, "\"bore_in\": 3.95", "\"bore_in\": \"wide\"");
    expect_refused(bytes, ErrorCode::not_a_length, "engine/bore", line_where(bytes, "\"wide\""));
    bytes = replaced(good, "\"bore_in\": 3.95", "\"bore_in\": [3.95]");
    expect_refused(bytes, ErrorCode::wrong_type, "engine/bore", line_where(bytes, "[3.95]"));
    bytes = replaced(good, "\"bore_in\": 3.95", "\"bore_in\": null");
    expect_refused(bytes, ErrorCode::wrong_type, "engine/bore",
                   line_where(bytes, "\"bore_in\": null"));
    bytes = replaced(good, "\"bore_in\": 3.95", "\"bore_deg\": 3.95");
    expect_refused(bytes, ErrorCode::wrong_type, "engine/bore", line_where(bytes, "\"bore_deg\""));
    bytes = replaced(good, "\"bore_in\": 3.95", "\"boar_in\": 3.95");
    expect_refused(bytes, ErrorCode::unknown_field, "engine/boar_in",
                   line_where(bytes, "\"boar_in\""));
    // Missing: the line of what should hold it.
    bytes = replaced(good, "\"bore_in\": 3.95,", "");
    expect_refused(bytes, ErrorCode::missing_field, "engine/bore", line_where(bytes, "\"engine\""));
    bytes = replaced(good, "\"axis\": [0, 0, 1]", "\"axis\": [0, 1]");
    expect_refused(bytes, ErrorCode::wrong_type, "trains/1I/lifter/axis",
                   line_where(bytes, "[0, 1]"));
    bytes = replaced(good, "[-60, 0.0352]", "[-62, 0.0352]");
    expect_refused(bytes, ErrorCode::order_wrong, "lobes/intake/lift_table",
                   line_where(bytes, "[-62, 0.0352]"));
    bytes = replaced(good, "[-60, 0.0352]", "[-60, 0.0352, 3]");
    expect_refused(bytes, ErrorCode::wrong_type, "lobes/intake/lift_table",
                   line_where(bytes, "0.0352, 3]"));
    bytes = replaced(good, "\"firing_order\": \"1-4-3-2\"", "\"firing_order\": \"1-4-3-3\"");
    expect_refused(bytes, ErrorCode::cylinder_twice, "engine/firing_order",
                   line_where(bytes, "1-4-3-3"));
}

TEST(SetUpFile, RefusesWhatIsNotAPlainSetUp) {
    const std::string good = demo_bytes(smallest);
    std::string bytes =
        replaced(good, "\"bore_in\": 3.95,", "\"bore_in\": 3.95,\n    \"bore_in\": 3.96,");
    auto read = read_set_up_file(bytes);
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(read.error().line, line_where(bytes, "3.96"));
    // The same field under two units.
    bytes = replaced(good, "\"bore_in\": 3.95,", "\"bore_in\": 3.95,\n    \"bore_mm\": 100.33,");
    expect_refused(bytes, ErrorCode::duplicate_field, "engine/bore", line_where(bytes, "100.33"));
    for (const std::string& other :
         {good + "x", good + good, replaced(good, "3.95,", "3.95,,"),
          replaced(good, "3.95,", "3.9.5,"), replaced(good, "\"engine\"", "engine"),
          std::string("plain words")}) {
        read = read_set_up_file(other);
        ASSERT_FALSE(read.ok());
        EXPECT_EQ(read.error().code, ErrorCode::not_json);
        EXPECT_TRUE(read.error().line.has_value());
    }
    expect_refused(replaced(good, "rodway-set-up", "other-set-up"), ErrorCode::wrong_format,
                   "format", 1);
    expect_refused("{}", ErrorCode::wrong_format, "format", 1);
    expect_refused("[1, 2]", ErrorCode::wrong_format, "format", 1);
    EXPECT_EQ(read_set_up_file(replaced(good, "\"version\": 1", "\"version\": 2")).error().code,
              ErrorCode::newer_version);
    EXPECT_EQ(read_set_up_file(replaced(good, "\"version\": 1", "\"version\": \"1\"")).error().code,
              ErrorCode::wrong_type);
    EXPECT_EQ(read_set_up_file(replaced(good, "\"version\": 1", "\"version\": 0")).error().code,
              ErrorCode::wrong_type);
}

// JSON has no comments (RFC 8259, from memory). One is refused, or it changes nothing.
TEST(SetUpFile, ACommentNeverChangesASetUp) {
    const std::string good = demo_bytes(smallest);
    for (const std::string& text :
         {replaced(good, "{", "{ // \"bore_in\": 9\n"), replaced(good, "{", "{ /* why */"),
          "// why\n" + good, replaced(good, "3.95,", "3.95, // \"stroke_in\": 3,\n")}) {
        const auto read = read_set_up_file(text);
        EXPECT_TRUE(!read.ok() || *read == demo_fields(smallest));
    }
}

// Braces with nothing between would leave out a whole train without a word.
TEST(SetUpFile, AnEmptyObjectIsRefused) {
    const std::string good = demo_bytes(smallest);
    const auto trains = good.find("\"trains\": {");
    std::string no_train = good;
    no_train.insert(trains + 11, "\"3I2\": {}, ");
    EXPECT_FALSE(read_set_up_file(no_train).ok());
    EXPECT_FALSE(
        read_set_up_file(replaced(good, "\"engine\": {", "\"extra\": {}, \"engine\": {")).ok());
}

std::string utf16(const std::string& text, bool big_end, bool mark) {
    std::string bytes = mark ? (big_end ? "\xFE\xFF" : "\xFF\xFE") : "";
    for (const char c : text) {
        bytes += big_end ? std::string{'\0', c} : std::string{c, '\0'};
    }
    return bytes;
}

TEST(SetUpFile, KnowsOtherEncodings) {
    const std::string good = demo_bytes(smallest);
    EXPECT_TRUE(read_set_up_file("\xEF\xBB\xBF" + good).ok());
    for (const bool big_end : {false, true}) {
        for (const bool mark : {false, true}) {
            const auto read = read_set_up_file(utf16(good, big_end, mark));
            ASSERT_FALSE(read.ok());
            EXPECT_EQ(read.error().code, ErrorCode::not_utf8);
            EXPECT_EQ(read.error().expected, "utf-16");
        }
    }
    std::string binary(4096, '\x7F');
    binary[100] = '\0';
    EXPECT_EQ(read_set_up_file(binary).error().expected, "binary");
    const std::string latin = replaced(good, "Corran", "Corr\xE4n");
    expect_refused(latin, ErrorCode::not_utf8, "", line_where(latin, "Corr"));
}

TEST(SetUpFile, NothingNestedWithoutEndBringsItDown) {
    for (const char* brace : {"[", "{\"a\":"}) {
        std::string bytes;
        for (int depth = 0; depth < 20000; ++depth) {
            bytes += brace;
        }
        EXPECT_NO_THROW({ EXPECT_FALSE(read_set_up_file(bytes).ok()); });
    }
}

// A zero character can be written as an escape; it must not cut a name short on its way out.
TEST(SetUpFile, AZeroCharacterIsRefusedOrKept) {
    const auto read = read_set_up_file(replaced(demo_bytes(smallest), "Corran", "Cor\\u0000ran"));
    if (read.ok()) {
        const auto again = read_set_up_file(write_set_up_file(*read));
        ASSERT_TRUE(again.ok());
        EXPECT_EQ(*again, *read);
    }
}

TEST(SetUpFile, RandomDamageIsRefusedOrMakesAnEngine) {
    const std::uint64_t seed = 4711;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const std::string good = demo_bytes(smallest);
    const auto place = [&] {
        return std::uniform_int_distribution<std::size_t>(0, good.size() - 1)(random);
    };
    int refused = 0;
    for (int mutation = 0; mutation < 2000; ++mutation) {
        std::string bytes = good;
        for (int hit = std::uniform_int_distribution<int>(1, 4)(random); hit > 0; --hit) {
            const std::size_t at = place() % bytes.size();
            switch (std::uniform_int_distribution<int>(0, 3)(random)) {
                case 0:
                    bytes[at] =
                        static_cast<char>(std::uniform_int_distribution<int>(0, 255)(random));
                    break;
                case 1:
                    bytes.erase(at, 1 + place() % 40);
                    break;
                case 2:
                    bytes.insert(at, good.substr(place(), 1 + place() % 40));
                    break;
                default:
                    bytes[at] = "0123456789-.eE[]{}\":, "[place() % 22];
                    break;
            }
        }
        const auto read = read_set_up_file(bytes);
        if (!read.ok()) {
            ++refused;
            continue;
        }
        ASSERT_TRUE(make_engine(*read).ok()) << "mutation " << mutation;
        const auto again = read_set_up_file(write_set_up_file(*read));
        ASSERT_TRUE(again.ok()) << "mutation " << mutation;
        ASSERT_EQ(*again, *read) << "mutation " << mutation;
    }
    EXPECT_GT(refused, 1000);
    EXPECT_LT(refused, 2000);
}

} // namespace
} // namespace rodway
