#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <iostream>
#include <random>

#include "core/clearance/survey.h"
#include "core/engine/set_up.h"
#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"
#include "core/valvetrain/adjuster_setting.h"
#include "core/valvetrain/train_check.h"
#include "core/valvetrain/train_motion.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

/// What no field of numbers may take, and what some do: read wrong, each has broken a program
/// somewhere.
const std::vector<std::string> hostile_texts{"",
                                             " ",
                                             "nan",
                                             "-nan",
                                             "inf",
                                             "-inf",
                                             "1e400",
                                             "-1e400",
                                             "1e-400",
                                             "1e308",
                                             "-1e308",
                                             "5e-324",
                                             "-0",
                                             "0",
                                             "0.0",
                                             "+0",
                                             "0x10",
                                             "1/0",
                                             "0/0",
                                             "1.2.3",
                                             "1-1/2",
                                             "5/16-18",
                                             "~.010",
                                             "<.002",
                                             "10.2±.1",
                                             ".0015-.0030",
                                             "mil",
                                             "1,5",
                                             "99999999999999999999999999",
                                             "0 0",
                                             "0 0; 0 0",
                                             "0 0; 1 1; 2 0",
                                             "1 1; 1 1; 1 1",
                                             "nan nan; nan nan",
                                             "-1e308 1e308; 1e308 -1e308",
                                             ";;;",
                                             "1 2 3; 4",
                                             std::string("1\0002", 3),
                                             std::string(3000, '9'),
                                             std::string(300, '/')};
const std::vector<std::string> units{
    "",           "in",           "mm",     "thou", "deg",          "crank_deg",    "lbf",
    "cam_deg/in", "in/crank_deg", "in/lbf", "mm/N", "crank_deg/in", "crank_deg/mm", "degC",
    "degF",       "GPa",          "Mpsi",   "g",    "oz",           "rpm",          "ppm_K",
    "ppm_F"};

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : random_(seed) {}
    [[nodiscard]] double between(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random_);
    }
    [[nodiscard]] std::size_t below(std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_);
    }
    template <typename List>
    [[nodiscard]] const auto& one_of(const List& list) {
        return *std::next(list.begin(), static_cast<std::ptrdiff_t>(below(list.size())));
    }

  private:
    std::mt19937_64 random_;
};

void put(SetUpFields& fields, const std::string& root,
         const std::vector<std::pair<std::string, TypedValue>>& more) {
    for (const auto& [leaf, value] : more) {
        fields[root + leaf] = value;
    }
}

/// A demo engine with the trains of cylinder 1 alone.
SetUpFields small(const std::string& demo) {
    SetUpFields fields = demo_fields(demo);
    std::erase_if(fields, [](const auto& field) {
        return field.first.rfind("trains/", 0) == 0 && field.first.rfind("trains/1I/", 0) != 0 &&
               field.first.rfind("trains/1E/", 0) != 0;
    });
    return fields;
}

/// The same with what the demos leave out: a lobe from a card, a hydraulic lifter, a lobe of its
/// own, a stud rocker, a rod with a cup and a profile, another measured by a gauge, springs with
/// their wire.
SetUpFields rich(const std::string& demo) {
    SetUpFields fields = small(demo);
    const double length_in =
        *parse_number(fields.at("trains/1I/rod/length").text); // between centres
    fields.erase("trains/1I/rod/length");
    fields.erase("trains/1I/rod/diameter");
    fields.erase("lobes/exhaust/lift_table");
    put(fields, "lobes/exhaust/",
        {{"card/peak_lift", {".370", "in"}},
         {"card/durations", {".020 272; .050 240", "in/crank_deg"}}});
    put(fields, "lobes/1I/", {{"lash", {"0", "in"}}, {"centreline", {"108", "crank_deg"}}});
    put(fields, "trains/1I/",
        {{"lifter/kind", {"hydraulic", ""}},
         {"lifter/preload", {".010", "in"}},
         {"lifter/plunger_travel", {".150", "in"}},
         {"lifter/follower", {"roller", ""}},
         {"lifter/roller_radius", {".350", "in"}},
         {"rod/profile", {"0 .3125; 2 .3125; 2 .34; 7 .34; 8.5 .3125", "in"}},
         {"rod/lower_ball", {"5/16", "in"}},
         {"rod/upper_ball", {"3/8", "in"}},
         {"rod/top_end", {"cup", ""}},
         {"rod/cup_depth", {".150", "in"}},
         // Ball's tip .15625 below, cup's bottom .1875 short of its ball's centre.
         {"rod/effective_length", {exact_text(length_in + 0.15625 - 0.1875), "in"}},
         {"adjuster/pitch", {"1/24", "in"}},
         {"adjuster/cup_limit", {"20", "deg"}}});
    fields.erase("trains/1E/rod/length");
    put(fields, "trains/1E/",
        {{"rod/lower_ball", {"5/16", "in"}},
         {"rod/upper_ball", {"5/16", "in"}},
         {"rod/gauge_hole", {".140", "in"}},
         {"rod/gauge_length", {exact_text(length_in + 2.0 * 0.1396927), "in"}},
         {"rocker/end_float", {".010", "in"}},
         {"rocker/shaft", {"front", ""}}});
    put(fields, "springs/intake/",
        {{"installed_height", {"1.9", "in"}},
         {"loads", {"1.9 150; 1.25 430", "in/lbf"}},
         {"bind_height", {"1.15", "in"}},
         {"wire/diameter", {".187", "in"}},
         {"wire/mean_diameter", {"1.25", "in"}},
         {"wire/active_coils", {"4.5", ""}},
         {"wire/total_coils", {"6.5", ""}}});
    put(fields, "running/",
        {{"speed", {"6500", "rpm"}},
         {"rods/intake/wall", {".065", "in"}},
         {"rods/1E/modulus", {"30", "Mpsi"}},
         {"masses/exhaust/valve_side", {"5.5", "oz"}},
         {"masses/exhaust/rod", {"58", "g"}}});
    put(fields, "hot/",
        {{"cold_temperature", {"68", "degF"}},
         {"parts/block/metal", {"grey_iron", ""}},
         {"parts/block/temperature", {"85", "degC"}},
         {"parts/intake_gasket/expansion", {"30", "ppm_K"}},
         {"valves/1I/seat_to_tip", {"4.9", "in"}}});
    return fields;
}

std::vector<SetUpFields> small_set_ups() {
    std::vector<SetUpFields> all;
    for (const char* demo : demo_names) {
        all.push_back(small(demo));
        all.push_back(rich(demo));
    }
    return all;
}

bool holds_numbers(FieldKind kind) {
    return kind != FieldKind::words && kind != FieldKind::choice;
}

/// As people type numbers: no exponents, which a length may not have.
std::string typed(double number) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%.7f", number);
    return text.data();
}

std::string number_of_any_size(Dice& dice) {
    const double number = std::pow(10.0, dice.between(-12.0, 12.0));
    return exact_text(dice.below(2) == 0 ? number : -number);
}

std::string pairs_of_any_size(Dice& dice) {
    std::string text;
    for (std::size_t row = 0, rows = dice.below(12); row < rows; ++row) {
        text += (row == 0 ? "" : "; ") +
                exact_text(dice.between(-5.0, 40.0) * static_cast<double>(row + 1)) + " " +
                (dice.below(8) == 0 ? number_of_any_size(dice) : exact_text(dice.between(-1, 300)));
    }
    return text;
}

std::string random_bytes(Dice& dice) {
    std::string bytes(dice.below(20), ' ');
    for (char& byte : bytes) {
        byte = static_cast<char>(dice.below(256));
    }
    return bytes;
}

/// A value that a field of this kind could take by itself, its limits as likely as what lies
/// between them.
std::string text_within(const FieldSpec& spec, Dice& dice) {
    if (spec.kind == FieldKind::choice) {
        std::vector<std::string> choices(1);
        for (const char letter : spec.choices) {
            letter == ' ' ? choices.emplace_back() : choices.back() += std::string(1, letter);
        }
        return dice.one_of(choices);
    }
    const std::size_t edge = dice.below(4);
    return typed(edge == 0 ? spec.low : edge == 1 ? spec.high : dice.between(spec.low, spec.high));
}

std::string a_unit_for(FieldKind kind, Dice& dice) {
    for (int tries = 0; tries < 200; ++tries) {
        const std::string& unit = dice.one_of(units);
        if (unit_fits(kind, unit) && unit != "in") {
            return unit;
        }
    }
    return "mm";
}

/// A field that may be there though it isn't.
std::string another_path(Dice& dice) {
    static const std::vector<std::string> names{"1I", "1E", "intake", "exhaust", "left",
                                                "1",  "9I", "0",      "x",       ""};
    std::string path;
    for (const char letter : dice.one_of(set_up_field_specs()).pattern) {
        path += letter == '*' ? dice.one_of(names) : std::string(1, letter);
    }
    return path;
}

/// The axis (or point) to which a field belongs, if it is a component of one.
std::optional<std::string> axis_of(const SetUpFields& fields, const std::string& path) {
    const std::string root = path.substr(0, path.rfind('/') + 1);
    return fields.count(root + "x") && fields.count(root + "y") && fields.count(root + "z")
               ? std::optional(root)
               : std::nullopt;
}

void spoil_axis(SetUpFields& fields, const std::string& root, Dice& dice) {
    const std::array<const char*, 3> names{"x", "y", "z"};
    switch (dice.below(4)) {
        case 0:
            std::swap(fields[root + dice.one_of(names)], fields[root + dice.one_of(names)]);
            break;
        case 1:
            for (const char* name : names) {
                fields[root + name].text = "0";
            }
            break;
        case 2:
            for (const char* name : names) {
                std::string& text = fields[root + name].text;
                text = text.rfind('-', 0) == 0 ? text.substr(1) : "-" + text;
            }
            break;
        default:
            for (const char* name : names) {
                fields[root + name].text = name == names[dice.below(3)] ? "1" : "0";
            }
    }
}

/// A number moved a little or a lot, in its own unit: most engines are still made, and what their
/// trains then do is looked at.
std::string moved(const std::string& text, FieldKind kind, Dice& dice) {
    const auto number = parse_number(text);
    if (!number) {
        return text;
    }
    if (kind == FieldKind::direction) {
        return typed(std::clamp(*number + dice.between(-0.008, 0.008), -1.0, 1.0));
    }
    const double size = std::pow(10.0, dice.between(-6.0, 0.5));
    return typed(*number + (dice.below(2) == 0 ? size : -size));
}

/// Changes one field, or what belongs together with it, and says how.
std::string mutate(SetUpFields& fields, Dice& dice) {
    const std::string path = dice.one_of(fields).first;
    TypedValue& value = fields[path];
    const FieldSpec* spec = field_spec(path);
    const std::size_t way = dice.below(24);
    switch (way) {
        case 0:
            value.text = dice.one_of(hostile_texts);
            break;
        case 1:
            value.unit = dice.one_of(units);
            break;
        case 2:
            value.text = random_bytes(dice);
            break;
        case 3:
            value.text = number_of_any_size(dice);
            break;
        case 4:
            fields.erase(path);
            break;
        case 5: {
            const std::string extra = another_path(dice);
            const FieldSpec* its = field_spec(extra);
            fields[extra] = its ? TypedValue{text_within(*its, dice), a_unit_for(its->kind, dice)}
                                : TypedValue{"1", "mm"};
            return "added " + extra;
        }
        case 6:
            std::swap(value.text, fields[dice.one_of(fields).first].text);
            break;
        case 7:
            if (const auto axis = axis_of(fields, path)) {
                spoil_axis(fields, *axis, dice);
                return "axis " + *axis;
            }
            [[fallthrough]];
        case 8:
            if (spec && is_list_of_pairs(spec->kind)) {
                value.text = pairs_of_any_size(dice);
                break;
            }
            [[fallthrough]];
        case 9:
        case 10:
            if (spec && !is_list_of_pairs(spec->kind)) {
                value.unit = spec->kind == FieldKind::length ? "mm" : value.unit;
                value.text = text_within(*spec, dice);
            }
            break;
        default:
            value.text = spec ? moved(value.text, spec->kind, dice) : value.text;
    }
    return std::to_string(way) + " " + path;
}

/// Whether a path names a field, or a group of fields that the guide names.
bool names_a_field(const SetUpFields& fields, const std::string& path) {
    const auto next = fields.lower_bound(path + "/");
    if (path.empty() || field_spec(path) || fields.count(path) ||
        (next != fields.end() && next->first.rfind(path + "/", 0) == 0)) {
        return !path.empty() || fields.count(path);
    }
    const auto parts = path_parts(path);
    return std::any_of(set_up_field_specs().begin(), set_up_field_specs().end(),
                       [&](const FieldSpec& spec) {
                           const auto pattern = path_parts(spec.pattern);
                           bool alike = parts.size() < pattern.size();
                           for (std::size_t at = 0; alike && at < parts.size(); ++at) {
                               alike = pattern[at] == "*" || pattern[at] == parts[at];
                           }
                           return alike;
                       });
}

bool finite(const std::vector<double>& numbers) {
    return std::all_of(numbers.begin(), numbers.end(), [](double x) { return std::isfinite(x); });
}

bool sound(const RodClearance& found) {
    const PlaceInPassage at = found.in_passage.value_or(PlaceInPassage{});
    return finite({found.lobe_lift_mm, found.clearance_mm, at.clock_hours, at.depth_mm}) &&
           found.p_rod_K.allFinite() && found.p_wall_K.allFinite() && found.normal_K.allFinite();
}

bool sound(const TrainAtLift& at) {
    return finite({at.lobe_lift_mm, at.gross_lift_mm, at.net_lift_mm, at.gross_ratio,
                   at.net_ratio.value_or(0.0), at.rod_to_adjuster_rad, at.rod_to_lifter_rad,
                   at.side_share, at.sweep_mm});
}

/// A train's motion holds numbers where it is answered and none where it isn't.
bool sound(const TrainMotion& motion) {
    if (!finite({motion.trouble_at_mm.value_or(0.0), motion.adjuster_needed_mm.value_or(0.0),
                 motion.adjuster_in_mm, motion.preload_mm, motion.lash_mm, motion.rocker_swing_rad,
                 motion.steepest_rod_to_adjuster_rad, motion.cup_room_rad.value_or(0.0)})) {
        return false;
    }
    if (motion.status != TrainStatus::answered) {
        return !motion.full_lift && !motion.sweep;
    }
    return motion.on_heel && motion.half_lift && motion.full_lift && motion.sweep &&
           sound(*motion.on_heel) && sound(*motion.half_lift) && sound(*motion.full_lift) &&
           finite({motion.sweep->from_mm, motion.sweep->to_mm, motion.sweep->on_heel_mm,
                   motion.sweep->at_full_lift_mm,
                   motion.sweep->turns_back_at_net_lift_mm.value_or(0.0)});
}

/// The same of a valve's clearance.
bool sound(const ValveClearance& line) {
    const CertifiedMinimum& found = line.found;
    if (!finite({line.adjuster_needed_mm.value_or(0.0), found.status_at_mm.value_or(0.0),
                 found.bound_mm})) {
        return false;
    }
    if (found.status != TrainStatus::answered) {
        return !found.minimum && !line.verdict && !line.opening;
    }
    return found.minimum && found.on_heel && found.at_full_lift && line.verdict &&
           sound(*found.minimum) && sound(*found.on_heel) && sound(*found.at_full_lift) &&
           finite({line.opening.value_or(CrankAngle()).in_deg(),
                   line.closing.value_or(CrankAngle()).in_deg()}) &&
           found.minimum->clearance_mm <= found.on_heel->clearance_mm &&
           found.minimum->clearance_mm <= found.at_full_lift->clearance_mm;
}

/// No clearance on the way is less than the proof allows. Rounding: 1e-9 mm.
bool least_of_all(const Engine& engine, const Train& train, const ValveClearance& line) {
    const auto rod = rod_in_tube(engine, train);
    if (!rod || !rod->rod) {
        return false;
    }
    for (int step = 0; step <= 12; ++step) {
        const auto here = rod_clearance_at(*rod->rod, rod->rod->full_lift_mm * step / 12.0);
        if (!here ||
            here->clearance_mm < line.found.minimum->clearance_mm - line.found.bound_mm - 1e-9) {
            return false;
        }
    }
    return true;
}

struct Tally {
    int refused = 0;
    int made = 0;
    int trains = 0;
    int answered = 0;       ///< trains with a clearance
    int whole_answered = 0; ///< engines with all of theirs
    LobesMade lobes;        ///< else smoothing the same tables anew would take minutes
};

/// Whether a train is what `make_engine` promises of those it lets through.
bool as_promised(const SetUpFields& fields, const Train& train) {
    for (const char* part : {"/lifter", "/valve", "/tube"}) {
        double squared = 0.0;
        for (const char* component : {"/axis/x", "/axis/y", "/axis/z"}) {
            const auto number = parse_number(
                fields.at("trains/" + position_name(train.position) + part + component).text);
            squared += number ? *number * *number : 1e9;
        }
        // The guide's own tolerance, and rounding.
        if (std::abs(std::sqrt(squared) - 1.0) > 0.01 + 1e-9) {
            return false;
        }
    }
    const Bore& bore = train.tube.bore;
    return check_train(train).ok() && std::abs(bore.axis_K.norm() - 1.0) < 1e-9 &&
           2.0 * bore.bore_radius_mm > train.rod.diameter_mm;
}

/// What is wrong with the answer to these fields, if anything.
std::optional<std::string> fault(const SetUpFields& fields, Tally& tally) {
    const auto engine = make_engine(fields, tally.lobes);
    if (!engine) {
        ++tally.refused;
        return names_a_field(fields, engine.error().field)
                   ? std::nullopt
                   : std::optional("names no field: " + engine.error().field);
    }
    ++tally.made;
    const auto lines = survey(*engine);
    if (!lines) {
        return "made, yet not surveyed";
    }
    if (lines->size() != engine->trains.size()) {
        return "not all surveyed";
    }
    bool all = true;
    for (std::size_t at = 0; at < engine->trains.size(); ++at) {
        const Train& train = engine->trains[at];
        const ValveClearance& line = (*lines)[at];
        ++tally.trains;
        const bool answered = line.found.status == TrainStatus::answered;
        tally.answered += answered ? 1 : 0;
        all = all && answered;
        const double full_lift = engine->lobes(train.position).lobe.full_lift_mm();
        if (!as_promised(fields, train)) {
            return "let through: " + position_name(train.position);
        }
        if (!sound(line)) {
            return "clearance of " + position_name(train.position);
        }
        if (answered && !least_of_all(*engine, train, line)) {
            return "not the least clearance of " + position_name(train.position);
        }
        if (!sound(train_motion(train, full_lift))) {
            return "motion of " + position_name(train.position);
        }
        const auto lengths = rod_lengths(train);
        if (lengths && !finite({lengths->as_found_mm, lengths->shortest_mm, lengths->longest_mm})) {
            return "rod lengths of " + position_name(train.position);
        }
    }
    tally.whole_answered += all ? 1 : 0;
    return std::nullopt;
}

/// One random case, told by its own number so that it can be run alone.
void run_mutated(const SetUpFields& good, std::uint64_t seed, Tally& tally) {
    Dice dice(seed);
    SetUpFields fields = good;
    std::string changes;
    for (std::size_t change = 0, many = 1 + dice.below(6); change < many && !fields.empty();
         ++change) {
        changes += mutate(fields, dice) + "; ";
    }
    if (const auto wrong = fault(fields, tally)) {
        ADD_FAILURE() << "seed " << seed << ": " << *wrong << " (" << changes << ")";
    }
}

void print(const Tally& tally) {
    std::cout << tally.refused << " refused, " << tally.made << " made; " << tally.answered
              << " of " << tally.trains << " trains answered\n";
}

TEST(RandomSetUp, NeverCrashesNorAnswersWithWhatIsNoNumber) {
    constexpr int cases = 24000;
    constexpr std::uint64_t first_seed = 1000000;
    const std::vector<SetUpFields> good = small_set_ups();
    Tally tally;
    for (int at = 0; at < cases; ++at) {
        run_mutated(good[static_cast<std::size_t>(at) % good.size()],
                    first_seed + static_cast<std::uint64_t>(at), tally);
    }
    std::cout << cases << " cases from seed " << first_seed << ": ";
    print(tally);
    // A program that refuses all, or takes all, or answers none, is caught here.
    EXPECT_GT(tally.made, cases / 20);
    EXPECT_GT(tally.refused, cases / 4);
    EXPECT_GT(tally.answered, tally.trains / 4);
    EXPECT_LT(tally.answered, tally.trains);
}

// The demos whole, every train of theirs, their lobes made anew each time: fewer.
TEST(RandomSetUp, WholeEnginesWithTheirTablesToo) {
    constexpr int cases = 300;
    constexpr std::uint64_t first_seed = 2000000;
    Tally tally;
    for (const char* demo : demo_names) {
        const SetUpFields good = demo_fields(demo);
        for (int at = 0; at < cases / 3; ++at) {
            tally.lobes = {};
            run_mutated(good, first_seed + static_cast<std::uint64_t>(at), tally);
        }
    }
    std::cout << cases << " cases from seed " << first_seed << ": ";
    print(tally);
    EXPECT_GT(tally.made, cases / 20);
    EXPECT_GT(tally.refused, cases / 4);
}

// Not by chance, but every field in turn: what is no number is refused by the field's own name.
TEST(RandomSetUp, WhatIsNoNumberIsRefusedByItsOwnName) {
    int tried = 0;
    LobesMade lobes;
    for (const SetUpFields& good : small_set_ups()) {
        ASSERT_TRUE(make_engine(good).ok()) << make_engine(good).error().field;
        for (const auto& [path, value] : good) {
            if (!holds_numbers(field_spec(path)->kind)) {
                continue;
            }
            for (const char* text : {"nan", "-inf", "1e400", "", "x", "1.2.3"}) {
                SetUpFields fields = good;
                fields[path].text = text;
                const auto engine = make_engine(fields, lobes);
                ASSERT_FALSE(engine.ok()) << path << " '" << text << "'";
                EXPECT_EQ(engine.error().field, path) << text;
                ++tried;
            }
        }
    }
    std::cout << tried << " tried\n";
}

/// A number changed by as much as two engines of a kind, or two people who measure, differ.
double nearly(const FieldSpec& spec, const std::string& path, double number, Dice& dice) {
    const bool in_a_place =
        path.find("/foot/") != std::string::npos || path.find("/pivot/") != std::string::npos ||
        path.find("arm/") != std::string::npos || path.find("/centre/") != std::string::npos ||
        path.find("_length") != std::string::npos || path.find("/length") != std::string::npos ||
        path.find("/seat_height") != std::string::npos;
    const bool of_a_place = in_a_place && !path.starts_with("doubt/"); // how well one is known
    if (spec.kind == FieldKind::direction) {
        return std::clamp(number + dice.between(-0.003, 0.003), -1.0, 1.0);
    }
    // A place or a long length: give or take .012 in. Else a size: give or take 1 %.
    return of_a_place ? number + dice.between(-0.012, 0.012) : number * dice.between(0.99, 1.01);
}

TEST(RandomSetUp, EnginesNearlyAsTheDemosAreAnswered) {
    constexpr int cases = 2000;
    constexpr std::uint64_t first_seed = 3000000;
    const std::vector<SetUpFields> good = small_set_ups();
    Tally tally;
    for (int at = 0; at < cases; ++at) {
        const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(at);
        Dice dice(seed);
        SetUpFields fields = good[static_cast<std::size_t>(at) % good.size()];
        for (auto& [path, value] : fields) {
            const FieldSpec& spec = *field_spec(path);
            const auto number = parse_number(value.text);
            if (number && (spec.kind == FieldKind::length || spec.kind == FieldKind::direction)) {
                value.text = typed(nearly(spec, path, *number, dice));
            }
        }
        if (const auto wrong = fault(fields, tally)) {
            ADD_FAILURE() << "seed " << seed << ": " << *wrong;
        }
    }
    std::cout << cases << " cases from seed " << first_seed << ": ";
    print(tally);
    EXPECT_GE(tally.whole_answered, cases * 95 / 100);
}

} // namespace
} // namespace rodway
