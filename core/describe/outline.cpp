#include "core/describe/outline.h"

#include <algorithm>
#include <array>
#include <set>

#include "core/describe/description.h"
#include "core/describe/typed_size.h"
#include "core/engine/field_reader.h"
#include "core/engine/set_up.h"
#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr std::array<std::string_view, 3> arrangement_words{"vee", "inline", "flat"};

/// As many letters I and E as there are valves, each cylinder's two next to each other.
bool are_pairs(const std::string& text, std::size_t cylinders) {
    std::string letters;
    for (const char letter : text) {
        const char upper = letter == 'i' ? 'I' : letter == 'e' ? 'E' : letter;
        if (upper == 'I' || upper == 'E') {
            letters += upper;
        } else if (upper != ' ' && upper != '-' && upper != ',') {
            return false;
        }
    }
    for (std::size_t at = 0; at + 1 < letters.size(); at += 2) {
        if (letters[at] == letters[at + 1]) {
            return false;
        }
    }
    return letters.size() == 2 * cylinders;
}

/// Collects fields, and the first thing that is wrong.
class OutlineReader {
  public:
    explicit OutlineReader(const EngineOutline& outline) : outline_(outline) {}

    Result<SetUpFields> read() {
        words("engine/name", outline_.name, "name");
        fields_["engine/arrangement"] = {
            std::string(arrangement_words[static_cast<std::size_t>(outline_.arrangement)]), {}};
        fields_["engine/turns"] = {
            outline_.turning == Turning::clockwise ? "clockwise" : "counter_clockwise", {}};
        length("engine/bore", outline_.bore, "bore");
        length("engine/stroke", outline_.stroke, "stroke");
        length("camshaft/above_crank", outline_.cam_above, "cam_above");
        length("camshaft/beside_crank", outline_.cam_beside, "cam_beside");
        banks();
        rows();
        firing_order();
        if (error_) {
            return *error_;
        }
        // A vee's intake lies over both banks; where each has its own, one moves without the other.
        fields_["engine/intake_casting"] = {
            outline_.arrangement == Arrangement::vee ? "one_for_all" : "one_for_each_bank", {}};
        return fields_;
    }

  private:
    void refuse(Error error) {
        if (!error_) {
            error_ = std::move(error);
        }
    }
    void words(const std::string& path, const std::string& text, const char* field) {
        if (text.find_first_not_of(' ') == std::string::npos) {
            refuse(bad_field(ErrorCode::empty_text, field, text));
        }
        fields_[path] = {text, {}};
    }
    void length(const std::string& path, const std::string& text, const char* field) {
        const auto typed = read_typed_length(field, text);
        if (!typed) {
            refuse(typed.error());
            return;
        }
        if (const auto checked = length_field_mm(path, *typed); !checked) {
            Error error = checked.error();
            error.field = field;
            refuse(error);
        }
        fields_[path] = *typed;
    }

    void banks() {
        double lean_deg = outline_.arrangement == Arrangement::flat ? 90.0 : 0.0;
        if (outline_.arrangement != Arrangement::flat && !outline_.bank_angle.empty()) {
            const auto angle = parse_number(outline_.bank_angle);
            const bool vee = outline_.arrangement == Arrangement::vee;
            if (!angle) {
                refuse(bad_field(ErrorCode::not_an_angle, "bank_angle", outline_.bank_angle));
                return;
            }
            lean_deg = vee ? *angle / 2.0 : *angle;
            const Limits limits = vee ? Limits{10.0, 179.0, "deg"} : Limits{-80.0, 80.0, "deg"};
            if (*angle < limits.low || *angle > limits.high) {
                Error error = bad_field(ErrorCode::out_of_range, "bank_angle", outline_.bank_angle);
                error.limits = limits;
                refuse(error);
            }
        } else if (outline_.arrangement == Arrangement::vee) {
            refuse(bad_field(ErrorCode::empty_text, "bank_angle", {}));
        }
        const auto& names = bank_names(outline_.arrangement);
        if (names.size() == 1) {
            fields_["banks/row/lean"] = {exact_text(lean_deg), "deg"};
        } else {
            fields_["banks/left/lean"] = {exact_text(-lean_deg), "deg"};
            fields_["banks/right/lean"] = {exact_text(lean_deg), "deg"};
        }
    }

    void rows() {
        const auto& names = bank_names(outline_.arrangement);
        std::set<int> seen;
        for (std::size_t at = 0; at < names.size(); ++at) {
            const EngineOutline::Row row =
                at < outline_.rows.size() ? outline_.rows[at] : EngineOutline::Row{};
            const std::string field = names[at] + "_cylinders";
            const auto numbers = listed_cylinders(row.cylinders);
            if (!numbers || numbers->empty()) {
                refuse(bad_field(numbers ? ErrorCode::empty_text : ErrorCode::not_a_number, field,
                                 row.cylinders));
                return;
            }
            for (const int number : *numbers) {
                if (!seen.insert(number).second) {
                    refuse(bad_field(ErrorCode::cylinder_twice, field, std::to_string(number)));
                }
                fields_["cylinders/" + std::to_string(number) + "/bank"] = {names[at], {}};
            }
            fields_["described/" + names[at] + "/cylinders"] = {row.cylinders, {}};
            if (!are_pairs(row.valves, numbers->size())) {
                refuse(
                    bad_field(row.valves.empty() ? ErrorCode::empty_text : ErrorCode::not_a_choice,
                              names[at] + "_valves", row.valves, "IE EI"));
            }
            fields_["described/" + names[at] + "/valves"] = {row.valves, {}};
        }
        cylinders_ = static_cast<int>(seen.size());
        for (int number = 1; number <= cylinders_; ++number) {
            if (!seen.contains(number)) {
                refuse(bad_field(ErrorCode::cylinder_missing, names.front() + "_cylinders",
                                 std::to_string(number)));
            }
        }
    }

    void firing_order() {
        if (outline_.firing_order.empty()) {
            refuse(bad_field(ErrorCode::empty_text, "firing_order", {}));
            return;
        }
        const auto order = FiringOrder::parse(outline_.firing_order, cylinders_);
        if (!order) {
            Error error = order.error();
            error.field = "firing_order";
            refuse(error);
        }
        fields_["engine/firing_order"] = {outline_.firing_order, {}};
    }

    const EngineOutline& outline_;
    SetUpFields fields_;
    std::optional<Error> error_;
    int cylinders_ = 0;
};

std::string text_at(const SetUpFields& fields, const std::string& path) {
    const auto found = fields.find(path);
    if (found == fields.end()) {
        return {};
    }
    return found->second.unit == "mm" ? found->second.text + " mm" : found->second.text;
}

/// Whether a field is one that an outline makes.
bool is_of_outline(const std::string& path) {
    const auto parts = path_parts(path);
    return parts[0] == "camshaft" || (parts[0] == "engine" && path != "engine/connecting_rod") ||
           (parts[0] == "cylinders" && parts.back() == "bank") ||
           (parts[0] == "banks" && parts.back() == "lean") ||
           (parts[0] == "described" && (parts.back() == "valves" || parts.back() == "cylinders"));
}

/// Whether a path is of a bank, a cylinder or a valve that there isn't now.
bool belongs_to_none(const SetUpFields& now, const std::string& path) {
    const auto parts = path_parts(path);
    if (parts.size() < 3) {
        return false;
    }
    const auto cylinder_there = [&](int number) {
        return now.contains("cylinders/" + std::to_string(number) + "/bank");
    };
    if (const auto valve = parse_position(parts[1]);
        valve && (parts[0] == "trains" || parts[0] == "described" || parts[0] == "lobes" ||
                  parts[0] == "springs" || parts[0] == "piston_to_valve")) {
        return !cylinder_there(valve->cylinder);
    }
    const bool of_bank = parts[0] == "banks" ||
                         (parts[0] == "described" && parts[1] != "intake" && parts[1] != "exhaust");
    if (of_bank) {
        return !now.contains("banks/" + parts[1] + "/lean");
    }
    return parts[0] == "cylinders" && !now.contains("cylinders/" + parts[1] + "/bank");
}

} // namespace

const std::vector<std::string>& bank_names(Arrangement arrangement) {
    static const std::vector<std::string> one{"row"};
    static const std::vector<std::string> two{"left", "right"};
    return arrangement == Arrangement::inline_row ? one : two;
}

Result<SetUpFields> outline_fields(const EngineOutline& outline) {
    return OutlineReader(outline).read();
}

EngineOutline outline_of(const SetUpFields& fields) {
    EngineOutline outline;
    outline.name = text_at(fields, "engine/name");
    const std::string arrangement = text_at(fields, "engine/arrangement");
    outline.arrangement = arrangement == "vee"    ? Arrangement::vee
                          : arrangement == "flat" ? Arrangement::flat
                                                  : Arrangement::inline_row;
    outline.turning = text_at(fields, "engine/turns") == "counter_clockwise"
                          ? Turning::counter_clockwise
                          : Turning::clockwise;
    outline.firing_order = text_at(fields, "engine/firing_order");
    outline.bore = text_at(fields, "engine/bore");
    outline.stroke = text_at(fields, "engine/stroke");
    outline.cam_above = text_at(fields, "camshaft/above_crank");
    outline.cam_beside = text_at(fields, "camshaft/beside_crank");
    const auto& names = bank_names(outline.arrangement);
    const auto lean = parse_number(text_at(fields, "banks/" + names.back() + "/lean"));
    if (lean && outline.arrangement != Arrangement::flat &&
        (*lean != 0.0 || outline.arrangement == Arrangement::vee)) {
        outline.bank_angle =
            exact_text(outline.arrangement == Arrangement::vee ? 2.0 * *lean : *lean);
    }
    for (const std::string& name : names) {
        EngineOutline::Row row;
        row.valves = text_at(fields, "described/" + name + "/valves");
        row.cylinders = text_at(fields, "described/" + name + "/cylinders");
        outline.rows.push_back(row);
    }
    return outline;
}

SetUpFields with_outline(const SetUpFields& fields, const SetUpFields& outline) {
    SetUpFields changed = outline;
    for (const auto& [path, value] : fields) {
        if (!is_of_outline(path) && !belongs_to_none(outline, path)) {
            changed.emplace(path, value);
        }
    }
    return changed;
}

} // namespace rodway
