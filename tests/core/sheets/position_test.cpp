#include "core/sheets/position.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>

namespace rodway {
namespace {

struct Written {
    Place place;
    const char* kept;
    std::vector<const char*> alike;
};

std::string kept(std::string_view text, Place place) {
    const auto read = kept_position(text, place);
    return read.ok() ? *read : "refused";
}

// The left column stands in shop files and may never change; the spellings are common practice,
// no source.
TEST(SheetPosition, OnePlaceHasOneTextHoweverItIsWritten) {
    const Written cases[] = {
        {Place::engine, "", {"", "  "}},
        {Place::bank, "left", {"LH", "left hand", "Left"}},
        {Place::bank, "", {""}},
        {Place::spot, "left front", {"front left", "LEFT, FRONT", "front/lh"}},
        {Place::spot, "right rear top", {"top right back", "rear upper right"}},
        {Place::spot, "left 3", {"stand 3 left", "left #3"}},
        {Place::cylinder,
         "3",
         {"#3", "cyl 3", "cyl. 3", "Cylinder 3", "cyl3", "no 3", " 3 ", "03"}},
        {Place::bore, "3 top thrust", {"3 thrust top", "#3 upper cross", "thrust 3 top"}},
        {Place::bore, "12 middle pin", {"12 mid axial", "cyl 12 centre along"}},
        {Place::bore, "3", {"#3"}},
        {Place::cylinder_side, "3 antithrust", {"3 anti-thrust", "3 anti thrust", "3 minor"}},
        {Place::cylinder_side, "3 thrust top", {"3 top thrust", "3 major thrust top"}},
        {Place::ring, "3 second", {"#3 2nd", "second 3"}},
        {Place::rod_pin, "3 front vertical", {"rod 3 vert front", "3 front v"}},
        {Place::valve, "3I", {"3i", "#3 intake", "3 in", "int 3", "cyl 3 intake", "I3"}},
        {Place::valve, "5E", {"5 ex", "ex 5", "#5 exhaust", "5e", "exhaust #5", "lifter 5E"}},
        {Place::valve, "3I2", {"3i2", "3 in2"}},
        {Place::lobe, "3I", {"lobe 3I"}},
        {Place::valve_tube, "3I top across", {"3i cross top", "across 3I upper"}},
        {Place::valve_lift, "3I half", {"3I half lift", "3I mid-lift"}},
        {Place::valve_lift, "3I overlap", {"3I at overlap", "#3 intake, rocking"}},
        {Place::valve_lift, "3I closed", {"3I on the heel", "3I base"}},
        {Place::valve_angle,
         "3I 20 BTDC",
         {"3I -20", "3i 20 btdc", "20 BTDC 3I", "3I 700", "3I 20\u00b0 BTDC", "3I @ -20 deg"}},
        {Place::valve_angle, "3I TDC", {"3I 0", "3I tdc", "3I 720", "3I -0.0001"}},
        {Place::valve_angle, "3E 240 ATDC", {"3E 60 ABDC", "3E 240", "3E -480"}},
        {Place::valve_angle, "3E 140 ATDC", {"3E 40 BBDC"}},
        {Place::valve_angle, "3I 7.5 ATDC", {"3I 7.5", "3I 7,5 atdc"}},
        {Place::spring_height,
         "3I 1.8in",
         {"3I 1.800", "3I at 1.800 in", "3I 1.8\"", "3I 45.72 mm"}},
        {Place::lobe_event,
         "3I opens 0.05in",
         {"3I .050 opening", "3i open .05\"", "3I opens 1.27mm"}},
        {Place::lobe_event, "3I closes 1mm", {"3I closing 1 mm"}},
        {Place::card_lobe, "I", {"intake", "in", "i"}},
        {Place::card_height, "E 0.006in", {"exhaust .006", ".006 ex"}},
        {Place::main_journal, "J2", {"main 2", "2", "#2", "j2", "M2", "main bearing 2", "main #2"}},
        {Place::main_journal, "J2 front vertical", {"J2 vertical front", "main 2 vert, front"}},
        {Place::cam_journal, "J2", {"cam 2", "cam journal 2"}},
        {Place::bolt, "bolt 7", {"7", "#7", "stud 7", "bolt #7"}},
        {Place::bolt, "head left bolt 7", {"left head 7", "LH head bolt 7", "head bolt 7 left"}},
        {Place::bolt, "main 2 bolt 1", {"main cap 2 bolt 1", "main 2 stud 1", "bolt 1 main 2"}},
        {Place::bolt, "rod 3 bolt 2", {"rod 3 nut 2", "rod #3 bolt 2"}},
        {Place::bolt, "front cover bolt 4", {"timing cover 4", "front cover 4"}},
        {Place::bolt_pass,
         "main 2 bolt 1 pass 2",
         {"pass 2 main 2 bolt 1", "main 2 bolt 1 step 2"}},
        {Place::joint, "head left", {"LH head", "left cylinder head"}},
        {Place::joint, "main 2", {"main cap 2", "Main #2"}},
        {Place::joint, "rod", {"Rod cap"}},
        {Place::joint, "", {" "}},
        {Place::hole, "head left hole 7", {"left head hole 7", "head left 7"}},
        {Place::plug, "left front plug 2", {"front left 2", "plug 2 left front"}},
        {Place::series, "2026-03-01", {"2026-3-1", " 2026-03-01"}},
        {Place::series, "2026-03-01 2", {"2026-3-1 #2"}},
        {Place::pull, "pull 3", {"3", "#3", "run 3"}},
        {Place::pull_speed, "pull 3 4500 rpm", {"3 4500", "pull 3, 4500rpm", "4500 rpm pull 3"}},
        {Place::pull_cylinder, "pull 3 4500 rpm cyl 5", {"pull 3 cyl 5 4500"}},
        {Place::pull_cylinder, "pull 3 cyl 5", {"cyl 5 pull 3"}},
        {Place::stop_side, "forward", {"Forwards"}},
        {Place::rod_gap, "3I/tube/rocker/3:30/full_lift", {}},
    };
    for (const Written& each : cases) {
        EXPECT_EQ(kept(each.kept, each.place), each.kept);
        for (const char* text : each.alike) {
            EXPECT_EQ(kept(text, each.place), each.kept) << text;
        }
    }
}

TEST(SheetPosition, RefusesWhatIsNoPlaceOrCouldBeTwo) {
    const std::pair<Place, const char*> cases[] = {
        {Place::engine, "3"},
        {Place::bank, "driver"},
        {Place::bank, "odd"},
        {Place::bank, "left right"},
        {Place::spot, ""},
        {Place::cylinder, ""},
        {Place::cylinder, "0"},
        {Place::cylinder, "-3"},
        {Place::cylinder, "3I"},
        {Place::cylinder, "3 4"},
        {Place::cylinder, "3.5"},
        {Place::cylinder, "100"},
        {Place::cylinder, "99999999999999999999"},
        {Place::cylinder, "three"},
        {Place::bore, "top thrust"},
        {Place::bore, "3 top bottom"},
        {Place::ring, "3"},
        {Place::valve, "3"},
        {Place::valve, "I"},
        {Place::valve, "3X"},
        {Place::valve, "0I"},
        {Place::valve, "3I0"},
        {Place::valve, "3I 4E"},
        {Place::valve_angle, "3I"},
        {Place::valve_angle, "3I -8 ATDC"},
        {Place::valve_angle, "3I 10-20"},
        {Place::valve_angle, "3I nan"},
        {Place::valve_angle, "3I 1,250"},
        {Place::lobe_event, "3I opens"},
        {Place::lobe_event, "3I opens 1"},
        {Place::lobe_event, "3I opens -.050"},
        {Place::lobe_event, "3I .050"},
        {Place::spring_height, "1.8in"},
        {Place::main_journal, "vertical"},
        {Place::cam_journal, "C"},
        {Place::bolt, "main 7"}, // a cap, and no bolt
        {Place::bolt, "head"},
        {Place::bolt_pass, "main 2 bolt 1"},
        {Place::joint, "head left bolt 7"},
        {Place::joint, "7"},
        {Place::series, "3/1/2026"},
        {Place::series, "2026-02-30"},
        {Place::series, "26-03-01"},
        {Place::pull_speed, "pull 3"},
        {Place::pull_cylinder, "pull 3 5"},
        {Place::rod_gap, "3I"},
        {Place::rod_gap, "3i/tube/rocker/3/heel"},
    };
    for (const auto& [place, text] : cases) {
        const auto read = parse_sheet_position(text, place);
        ASSERT_FALSE(read.ok()) << text << " in " << shape_of(place).id;
        EXPECT_EQ(read.error().code, ErrorCode::not_a_place) << text;
        EXPECT_EQ(read.error().field, "position");
        EXPECT_EQ(read.error().value, text);
        EXPECT_EQ(read.error().expected, shape_of(place).example);
    }
}

TEST(SheetPosition, GivesItsPartsAsTheArithmeticNeedsThem) {
    const auto bore = *parse_sheet_position("thrust #3 top", Place::bore);
    EXPECT_EQ(bore.cylinder(), 3);
    EXPECT_EQ(bore.part(PlacePart::depth), "top");
    EXPECT_EQ(bore.part(PlacePart::side), std::nullopt);
    EXPECT_EQ(bore.valve(), std::nullopt);
    EXPECT_EQ(bore.angle(), std::nullopt);
    EXPECT_EQ(bore.rise(), std::nullopt);
    const auto drop = *parse_sheet_position("12 ex 7.5 btdc", Place::valve_angle);
    EXPECT_EQ(drop.valve(), (ValvePosition{12, ValveKind::exhaust, 1}));
    EXPECT_EQ(drop.cylinder(), 12);
    EXPECT_DOUBLE_EQ(drop.angle()->in_deg(), -7.5);
    EXPECT_DOUBLE_EQ(parse_sheet_position("3I 340", Place::valve_angle)->angle()->in_deg(), 340.0);
    EXPECT_DOUBLE_EQ(parse_sheet_position("3I 360", Place::valve_angle)->angle()->in_deg(), -360.0);
    const auto event = *parse_sheet_position("3I closes 1 mm", Place::lobe_event);
    EXPECT_DOUBLE_EQ(event.rise()->in_mm(), 1.0);
    EXPECT_EQ(parse_sheet_position("main 12 vertical", Place::main_journal)->journal(), 12);
    EXPECT_EQ(parse_sheet_position("pull 3 cyl 5", Place::pull_cylinder)->cylinder(), 5);
    EXPECT_EQ(parse_sheet_position("5E/tube/rocker/3/heel", Place::rod_gap)->cylinder(), 5);
}

/// A random part as it is kept.
std::string random_part(PlacePart part, std::mt19937_64& random) {
    const auto below = [&](int limit) { return static_cast<int>(random() % limit); };
    switch (part) {
        case PlacePart::valve:
            return std::to_string(1 + below(99)) + (below(2) == 0 ? "I" : "E") +
                   (below(4) == 0 ? "2" : "");
        case PlacePart::angle:
            return below(20) == 0 ? "TDC"
                                  : std::to_string(1 + below(359)) + (below(2) == 0 ? ".125" : "") +
                                        (below(2) == 0 ? " BTDC" : " ATDC");
        case PlacePart::rise:
            return below(2) == 0 ? std::to_string(1 + below(9)) + "in"
                                 : std::to_string(1 + below(9)) + ".013mm";
        case PlacePart::day:
            return "20" + std::to_string(10 + below(80)) + "-0" + std::to_string(1 + below(9)) +
                   "-" + std::to_string(10 + below(19));
        case PlacePart::speed:
            return std::to_string(1000 + below(8999));
        default:
            break;
    }
    std::vector<std::string_view> words;
    for (const PlaceWord& word : place_words()) {
        if (word.part == part) {
            words.push_back(word.kept);
        }
    }
    return words.empty() ? std::to_string(1 + below(99))
                         : std::string(words[random() % words.size()]);
}

// A kept text that read back as another place, or not at all, would lose what was filed under it.
TEST(SheetPosition, EveryKeptTextReadsBackAsItself) {
    const std::uint64_t seed = 20261125;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int read_back = 0;
    for (const PlaceShape& shape : place_shapes()) {
        for (int round = 0; round < 400 && shape.place != Place::rod_gap; ++round) {
            SheetPosition position{shape.place, {}};
            for (const PlacePartUse& use : shape.parts) {
                if (use.needed || random() % 2 == 0) {
                    position.parts[use.part] = random_part(use.part, random);
                }
            }
            if (position.parts.empty() && !shape.may_be_empty) {
                continue;
            }
            const std::string text = sheet_position_text(position);
            const auto read = parse_sheet_position(text, shape.place);
            ASSERT_TRUE(read.ok()) << shape.id << ": " << text;
            EXPECT_EQ(read->parts, position.parts) << shape.id << ": " << text;
            EXPECT_EQ(sheet_position_text(*read), text) << shape.id;
            ++read_back;
        }
    }
    EXPECT_GT(read_back, 10000);
}

} // namespace
} // namespace rodway
