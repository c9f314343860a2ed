// Whatever is typed, every reader of it answers: with a value that is one, or by naming what is
// wrong. RODWAY_LONG=1 in the environment asks for ten million texts; packaging/test.sh --long
// does.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <map>

#include "core/cam/typed_timing.h"
#include "core/engine/firing_order.h"
#include "core/engine/valve_position.h"
#include "core/fasteners/tightening_steps.h"
#include "core/sheets/day.h"
#include "core/sheets/position.h"
#include "core/sheets/reading_value.h"
#include "core/sheets/rod_clearance_reading.h"
#include "core/sheets/typed_pair.h"
#include "core/units/other_unit.h"
#include "core/units/plain_text.h"
#include "core/units/typed_amount.h"
#include "tests/core/sheets/text_maker.h"
#include "tests/core/sheets/typed_table.h"

namespace rodway {
namespace {

using Code = ErrorCode;

bool long_run() {
    const char* const asked = std::getenv("RODWAY_LONG");
    return asked && std::atoi(asked) != 0;
}

/// What a reader made of a text.
struct Answer {
    std::vector<double> numbers; ///< in pairs: the lower first
    std::string kept;            ///< what else must be the same with blanks around the text
    std::optional<Code> refused;
    std::string fault; ///< a promise that it broke
};

struct Target {
    std::string family;
    std::function<Answer(const std::string&)> read;
    std::vector<Code> codes;   ///< those it may refuse by
    bool blanks_count = false; ///< blanks around the text may change what it says
};

Answer refused(const Error& error) {
    Answer answer;
    answer.refused = error.code;
    return answer;
}
Answer numbers(std::vector<double> pairs, std::string kept = {}) {
    return {std::move(pairs), std::move(kept), {}, {}};
}
Answer kept_text(std::string kept) {
    return {{}, std::move(kept), {}, {}};
}

/// Steps are steps, and every unit can show them.
std::string fault_of_steps(double resolution, double finest, Dimension dimension) {
    if (!(resolution >= 0.0 && std::isfinite(resolution) && finest >= 0.0) ||
        finest > resolution * (1.0 + 1e-9) + (resolution == 0.0 ? finest : 0.0)) {
        return "steps";
    }
    for (const MeasureUnit& unit : units_of(dimension)) {
        const int digits = other_unit_digits(finest, unit);
        if (digits < 0 || digits > 30) {
            return "digits";
        }
    }
    return {};
}

Answer of_amount(const Result<TypedAmount>& typed, Dimension dimension) {
    if (!typed) {
        return refused(typed.error());
    }
    Answer answer = numbers({typed->low, typed->high}, typed->unit);
    answer.fault = fault_of_steps(typed->resolution, typed->finest, dimension);
    return answer;
}

Answer of_angle(const Result<TypedAngle>& typed) {
    return typed ? numbers({typed->deg, typed->deg}) : refused(typed.error());
}

const std::vector<Code> length_codes{Code::empty_text, Code::not_a_length, Code::unit_needed,
                                     Code::ambiguous_unit, Code::thread_not_length};
const std::vector<Code> angle_codes{Code::empty_text, Code::not_an_angle, Code::not_a_choice,
                                    Code::out_of_range, Code::angle_kind_unclear};

void add_units(std::vector<Target>& all) {
    for (const BareNumber bare :
         {BareNumber::inches, BareNumber::millimetres, BareNumber::refused}) {
        all.push_back({"length",
                       [bare](const std::string& text) {
                           const auto typed = parse_length(text, bare);
                           return typed ? numbers({typed->low.in_mm(), typed->high.in_mm()})
                                        : refused(typed.error());
                       },
                       length_codes});
    }
    all.push_back({"number",
                   [](const std::string& text) {
                       const auto typed = parse_number(text);
                       return typed ? numbers({*typed, *typed}) : refused(typed.error());
                   },
                   {Code::empty_text, Code::not_a_number}});
    for (int of = 0; of <= static_cast<int>(Dimension::percent); ++of) {
        const auto dimension = static_cast<Dimension>(of);
        std::vector<std::string> units;
        for (const MeasureUnit& unit : units_of(dimension)) {
            units.emplace_back(unit.id);
        }
        if (units.empty()) {
            units.emplace_back();
        }
        for (const std::string& unit : units) {
            all.push_back({"amount",
                           [dimension, unit](const std::string& text) {
                               return of_amount(parse_amount(text, dimension, unit), dimension);
                           },
                           dimension == Dimension::length
                               ? length_codes
                               : std::vector<Code>{Code::empty_text, Code::not_an_amount}});
        }
    }
}

Answer of_reading(const std::string& text, const Quantity& quantity) {
    Reading reading;
    reading.text = text;
    const auto value = read_value(reading, quantity);
    if (!value) {
        Answer answer = refused(value.error());
        answer.fault = value.error().value == text ? "" : "names another text";
        return answer;
    }
    if (!value->is_number()) {
        return kept_text(value->said == Said::words && quantity.form != Form::words ? value->words
                                                                                    : "");
    }
    Answer answer = numbers({value->low, value->high}, value->words);
    answer.fault = fault_of_steps(value->resolution, value->finest, dimension_of(quantity.form));
    return answer;
}

void add_readings(std::vector<Target>& all) {
    for (int of = 0; of <= static_cast<int>(Form::choice); ++of) {
        const Form form = static_cast<Form>(of);
        std::vector<Code> codes{Code::not_an_amount, Code::not_a_date,   Code::not_a_choice,
                                Code::sign_needed,   Code::gauge_needed, Code::two_values,
                                Code::out_of_range};
        codes.insert(codes.end(), length_codes.begin(), length_codes.end());
        const Quantity named = *typed_quantity(std::string(form_name(form)));
        std::vector<Quantity> in_each_unit;
        for (const MeasureUnit& unit : units_of(dimension_of(form))) {
            in_each_unit.push_back(named);
            in_each_unit.back().unit = unit.id;
        }
        if (in_each_unit.empty()) {
            in_each_unit.push_back(named);
        }
        for (const Quantity& quantity : in_each_unit) {
            all.push_back(
                {"reading " + std::string(form_name(form)),
                 [quantity](const std::string& text) { return of_reading(text, quantity); },
                 codes});
        }
    }
    for (const bool inches : {true, false}) {
        std::vector<Code> codes{Code::gauge_needed, Code::out_of_range};
        codes.insert(codes.end(), length_codes.begin(), length_codes.end());
        all.push_back({"rod clearance",
                       [inches](const std::string& text) {
                           const auto felt = parse_rod_clearance(text, inches);
                           if (!felt) {
                               return refused(felt.error());
                           }
                           Answer answer = numbers({felt->low_mm, felt->high_mm});
                           answer.fault = felt->low_mm < 0.0 ? "negative" : "";
                           return answer;
                       },
                       codes});
    }
}

Answer of_position(const std::string& text, Place place) {
    const auto position = parse_sheet_position(text, place);
    if (!position) {
        return refused(position.error());
    }
    const std::string kept = sheet_position_text(*position);
    Answer answer = kept_text(kept);
    const auto again = kept_position(kept, place);
    answer.fault = again && *again == kept ? "" : "is kept as another place";
    return answer;
}

void add_places(std::vector<Target>& all) {
    for (const PlaceShape& shape : place_shapes()) {
        all.push_back(
            {"place",
             [place = shape.place](const std::string& text) { return of_position(text, place); },
             {Code::not_a_place},
             shape.place == Place::rod_gap}); // read as it is kept only
    }
    all.push_back({"valve",
                   [](const std::string& text) {
                       const auto valve = parse_position(text);
                       return valve ? kept_text(position_name(*valve)) : refused(valve.error());
                   },
                   {Code::not_a_position}});
    all.push_back(
        {"day",
         [](const std::string& text) {
             const auto day = parse_day(plain_text(text));
             return day ? kept_text(*day) : refused({Code::not_a_date, {}, text, {}, {}, {}});
         },
         {Code::not_a_date}});
    for (const int cylinders : {4, 6, 8, 12}) {
        all.push_back({"firing order",
                       [cylinders](const std::string& text) {
                           const auto order = FiringOrder::parse(text, cylinders);
                           if (!order) {
                               return refused(order.error());
                           }
                           Answer answer;
                           for (const int number : order->cylinders()) {
                               answer.kept += std::to_string(number) + " ";
                           }
                           const auto many = static_cast<std::size_t>(cylinders);
                           answer.fault = order->cylinders().size() == many ? "" : "cylinders";
                           return answer;
                       },
                       {Code::not_a_firing_order, Code::cylinder_twice, Code::cylinder_missing,
                        Code::cylinder_unknown}});
    }
}

Answer of_events(const ValveEvents& events) {
    return numbers({events.opens_crank_deg, events.opens_crank_deg, events.closes_crank_deg,
                    events.closes_crank_deg});
}

Answer of_centreline(const Result<TypedCentreline>& typed) {
    if (!typed) {
        return refused(typed.error());
    }
    Answer answer;
    for (const auto& number :
         {typed->centreline_crank_deg, typed->lobe_separation_cam_deg, typed->advance_crank_deg}) {
        if (number) {
            answer.numbers.insert(answer.numbers.end(), 2, *number);
        }
    }
    answer.fault = answer.numbers.empty() ? "nothing told" : "";
    return answer;
}

void add_timing(std::vector<Target>& all) {
    const auto add = [&](std::function<Answer(const std::string&)> read) {
        all.push_back({"timing", std::move(read), angle_codes});
    };
    for (const CamEvent event : {CamEvent::intake_opens, CamEvent::intake_closes,
                                 CamEvent::exhaust_opens, CamEvent::exhaust_closes}) {
        add([event](const std::string& text) { return of_angle(parse_event(text, event)); });
    }
    for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
        add([kind](const std::string& text) {
            const auto typed = parse_valve_events(text, kind);
            return typed ? of_events(typed->events) : refused(typed.error());
        });
        add([kind](const std::string& text) {
            return of_centreline(parse_centreline(text, kind));
        });
    }
    add([](const std::string& text) {
        const auto typed = parse_card(text);
        return typed ? of_events(typed->intake) : refused(typed.error());
    });
    add([](const std::string& text) { return of_angle(parse_duration(text)); });
    add([](const std::string& text) { return of_angle(parse_lobe_separation(text)); });
    add([](const std::string& text) { return of_angle(parse_wheel_mark(text)); });
}

void add_steps_and_pairs(std::vector<Target>& all) {
    all.push_back({"tightening",
                   [](const std::string& text) {
                       const auto steps = parse_tightening_steps(text, "lb-ft");
                       if (!steps) {
                           return refused(steps.error());
                       }
                       Answer answer;
                       for (const TighteningStep& step : *steps) {
                           if (step.kind == TighteningKind::torque ||
                               step.kind == TighteningKind::angle ||
                               step.kind == TighteningKind::stretch) {
                               answer.numbers.push_back(step.low);
                               answer.numbers.push_back(step.high);
                           }
                       }
                       answer.fault = steps->empty() ? "no step" : "";
                       return answer;
                   },
                   {Code::empty_text, Code::wrong_type, Code::not_a_choice, Code::not_an_amount,
                    Code::missing_field, Code::out_of_range}});
    all.push_back({"pair",
                   [](const std::string& text) {
                       const auto pair = split_pair(text);
                       return pair ? kept_text(pair->first + "|" + pair->second)
                                   : refused({Code::two_values, {}, text, {}, {}, {}});
                   },
                   {Code::two_values}});
}

std::vector<Target> targets() {
    std::vector<Target> all;
    add_units(all);
    add_readings(all);
    add_places(all);
    add_timing(all);
    add_steps_and_pairs(all);
    return all;
}

/// A text that can be read in a report, whatever bytes it has.
std::string shown(const std::string& text) {
    std::string all;
    for (const char c : text.substr(0, 200)) {
        const auto byte = static_cast<unsigned char>(c);
        std::array<char, 8> hex{};
        std::snprintf(hex.data(), hex.size(), "\\x%02x", byte);
        all += byte >= 0x20 && byte < 0x7f ? std::string(1, c) : std::string(hex.data());
    }
    return all + (text.size() > 200 ? "..." : "");
}

/// What is wrong with an answer, or nothing.
std::string fault_of(const Answer& answer, const Target& target) {
    if (!answer.fault.empty()) {
        return answer.fault;
    }
    if (answer.refused) {
        const bool known = std::find(target.codes.begin(), target.codes.end(), *answer.refused) !=
                           target.codes.end();
        return known ? "" : "refused by code " + std::to_string(static_cast<int>(*answer.refused));
    }
    for (std::size_t at = 0; at + 1 < answer.numbers.size(); at += 2) {
        const double low = answer.numbers[at];
        const double high = answer.numbers[at + 1];
        if (!std::isfinite(low) || !std::isfinite(high) || low > high) {
            return "numbers";
        }
    }
    return {};
}

struct Count {
    long accepted = 0;
    long refused = 0;
};

TEST(TypedFuzz, EveryReaderAnswersWhateverIsTyped) {
    const std::uint64_t seed = 20261129;
    const long texts = long_run() ? 10000000 : 200000;
    std::cout << "seed " << seed << ", " << texts << " texts\n";
    std::map<std::string, std::vector<Target>> families;
    for (const Target& target : targets()) {
        families[target.family].push_back(target);
    }
    EXPECT_EQ(families.size(), 39U);
    TextMaker maker(seed);
    std::map<std::string, Count> counts;
    int faults = 0;
    for (long which = 0; which < texts && faults < 20; ++which) {
        const std::string text = maker.next();
        constexpr int readers = 6;
        for (int reader = 0; reader < readers; ++reader) {
            const auto family =
                std::next(families.begin(), static_cast<long>(maker.below(families.size())));
            const Target& target = family->second[maker.below(family->second.size())];
            const Answer answer = target.read(text);
            std::string fault = fault_of(answer, target);
            Count& count = counts[target.family];
            ++(answer.refused ? count.refused : count.accepted);
            if (!answer.refused && !target.blanks_count) {
                const Answer with_blanks = target.read("  " + text + " ");
                const bool same = !with_blanks.refused && with_blanks.kept == answer.kept &&
                                  with_blanks.numbers == answer.numbers;
                fault = same ? fault : "blanks around it count";
            }
            if (!fault.empty()) {
                ADD_FAILURE() << target.family << ", text " << which << ": " << fault << ": "
                              << shown(text);
                ++faults;
            }
        }
    }
    // Each kind of reader had both kinds of text, or nothing was tried of it.
    for (const auto& [family, count] : counts) {
        EXPECT_GT(count.accepted, 20) << family;
        EXPECT_GT(count.refused, family == "reading words" ? -1 : 20) << family;
    }
}

// A program may put in what no person types. It takes some milliseconds if a reader's time grows
// with the length; if it grows with the length's square, half a second and more.
TEST(TypedFuzz, ALongTextTakesNoLongTime) {
    const std::vector<Target> all = targets();
    for (const std::string part : {"\u00bd", "'", "1/", "no ", "three "}) {
        std::string text;
        while (text.size() < 100000) {
            text += part;
        }
        for (const Target& target : all) {
            const auto begun = std::chrono::steady_clock::now();
            EXPECT_EQ(fault_of(target.read(text), target), "") << target.family << ' ' << part;
            const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begun;
            EXPECT_LT(took.count(), 0.5) << target.family << ' ' << part;
        }
    }
}

} // namespace
} // namespace rodway
