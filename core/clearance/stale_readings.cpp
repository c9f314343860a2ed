#include "core/clearance/stale_readings.h"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include "core/describe/description.h"
#include "core/describe/written_out.h"
#include "core/engine/field_value.h"
#include "core/engine/set_up_fields.h"

namespace rodway {
namespace {

template <std::size_t count>
bool is_one_of(std::string_view word, const std::array<std::string_view, count>& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool begins_with(std::string_view text, std::string_view start) {
    return text.substr(0, start.size()) == start;
}

/// Which fields act on one reading.
class ActingFields {
  public:
    ActingFields(const SetUpFields& before, const SetUpFields& after, const GapReading& reading)
        : before_(before),
          after_(after),
          reading_(reading),
          train_("trains/" + position_name(reading.valve) + "/"),
          passage_(reading.passage == "tube" ? train_ + "tube/"
                                             : train_ + "passages/" + reading.passage + "/") {}

    [[nodiscard]] bool acts(const std::string& path) const {
        const std::vector<std::string> parts = path_parts(path);
        const std::string& section = parts.front();
        static constexpr std::array<std::string_view, 8> elsewhere{
            "camshaft",  "doubt",           "hot",     "limits",
            "obstacles", "piston_to_valve", "running", "springs"};
        if (is_one_of(section, elsewhere)) {
            return false;
        }
        if (section == "trains") {
            return begins_with(path, train_) && acts_in_train(path);
        }
        if (section == "engine") {
            return acts_in_engine(path);
        }
        if (section == "banks") {
            return parts.size() < 3 || acts_in_bank(parts);
        }
        if (section == "lobes") {
            return parts.size() < 3 || acts_in_lobes(parts);
        }
        if (section == "cylinders") {
            return path == "cylinders/" + std::to_string(reading_.valve.cylinder) + "/bank";
        }
        return true;
    }

  private:
    [[nodiscard]] bool acts_in_train(const std::string& path) const {
        if (begins_with(path, train_ + "tube/") || begins_with(path, train_ + "passages/")) {
            return begins_with(path, passage_) && path != passage_ + "wall" &&
                   path != passage_ + "fitted_doubt";
        }
        static constexpr std::array<std::string_view, 16> describing{
            "lifter/face_diameter",
            "lifter/roller_radius",
            "lifter/follower",
            "lifter/body_diameter",
            "lifter/body_length",
            "lifter/plunger_travel",
            "rod/lower_ball",
            "rod/upper_ball",
            "rod/top_end",
            "rod/cup_outside",
            "rocker/shaft",
            "rocker/end_float",
            "adjuster/thread_towards_rod",
            "adjuster/pitch",
            "adjuster/cup_limit",
            "adjuster/thread_away_from_rod"};
        const std::string_view leaf = std::string_view(path).substr(train_.size());
        return !is_one_of(leaf, describing) && !begins_with(leaf, "valve/tip/") &&
               !begins_with(leaf, "rocker/body/");
    }

    [[nodiscard]] bool acts_in_engine(const std::string& path) const {
        if (path == "engine/intake_casting") {
            return in_intake();
        }
        return path == "engine/firing_order" && reading_.place == TurnPlace::at_crank_angle;
    }

    [[nodiscard]] bool acts_in_bank(const std::vector<std::string>& parts) const {
        const bool own = is_own_bank(parts[1]);
        if (parts[2] == "flange") {
            return in_intake() && (own || one_intake_for_all());
        }
        return own || (in_intake() && one_intake_for_all());
    }

    /// A valve's own lobe, where it has one, hides what all valves of its kind have.
    [[nodiscard]] bool acts_in_lobes(const std::vector<std::string>& parts) const {
        const std::string own = position_name(reading_.valve);
        const std::string kind = reading_.valve.kind == ValveKind::intake ? "intake" : "exhaust";
        const std::string& leaf = parts[2];
        const bool curve = leaf == "lift_table" || leaf == "card";
        const bool hidden = curve ? in_both_sets([&](const SetUpFields& fields) {
            return fields.contains("lobes/" + own + "/lift_table") ||
                   fields.contains("lobes/" + own + "/card/durations");
        })
                                  : in_both_sets([&](const SetUpFields& fields) {
                                        return fields.contains("lobes/" + own + "/" + leaf);
                                    });
        if (parts[1] != own && (parts[1] != kind || hidden)) {
            return false;
        }
        if (curve) {
            return reading_.place != TurnPlace::on_heel;
        }
        return leaf != "centreline" || reading_.place == TurnPlace::at_crank_angle;
    }

    template <typename Holds>
    [[nodiscard]] bool in_both_sets(const Holds& holds) const {
        return holds(before_) && holds(after_);
    }

    /// Whether a field has a text in either set-up.
    [[nodiscard]] bool is_in_either(const std::string& path, std::string_view text) const {
        for (const SetUpFields* fields : {&before_, &after_}) {
            const auto found = fields->find(path);
            if (found != fields->end() && found->second.text == text) {
                return true;
            }
        }
        return false;
    }
    [[nodiscard]] bool in_intake() const { return is_in_either(passage_ + "casting", "intake"); }
    [[nodiscard]] bool one_intake_for_all() const {
        const std::string path = "engine/intake_casting";
        return !before_.contains(path) || !after_.contains(path) ||
               is_in_either(path, "one_for_all");
    }
    [[nodiscard]] bool is_own_bank(std::string_view bank) const {
        return is_in_either("cylinders/" + std::to_string(reading_.valve.cylinder) + "/bank", bank);
    }

    const SetUpFields& before_;
    const SetUpFields& after_;
    const GapReading& reading_;
    std::string train_;
    std::string passage_;
};

/// Paths whose value differs, or that only one of the two has.
std::set<std::string> changed_fields(const SetUpFields& before, const SetUpFields& after) {
    std::set<std::string> changed;
    for (const auto& [path, value] : before) {
        const auto now = after.find(path);
        if (now == after.end() || !same_field_value(path, value, now->second)) {
            changed.insert(path);
        }
    }
    for (const auto& [path, value] : after) {
        if (!before.contains(path)) {
            changed.insert(path);
        }
    }
    return changed;
}

/// A description as the places that it makes; one that makes none says which of its sizes differ.
SetUpFields as_places(const SetUpFields& fields) {
    if (!is_described(fields)) {
        return fields;
    }
    const auto out = written_out(fields);
    return out ? out->fields : fields;
}

std::vector<std::string> acting(const std::set<std::string>& changed, const ActingFields& fields) {
    std::vector<std::string> found;
    std::copy_if(changed.begin(), changed.end(), std::back_inserter(found),
                 [&](const std::string& path) { return fields.acts(path); });
    return found;
}

} // namespace

std::vector<std::string> stale_by(const SetUpFields& before, const SetUpFields& after,
                                  const GapReading& reading) {
    const SetUpFields was = as_places(before);
    const SetUpFields is = as_places(after);
    return acting(changed_fields(was, is), ActingFields(was, is, reading));
}

std::vector<StaleReading> stale_readings(const SetUpFields& before, const SetUpFields& after,
                                         const std::vector<GapReading>& readings) {
    const SetUpFields was = as_places(before);
    const SetUpFields is = as_places(after);
    const std::set<std::string> changed = changed_fields(was, is);
    std::vector<StaleReading> stale;
    for (const GapReading& reading : readings) {
        std::vector<std::string> fields = acting(changed, ActingFields(was, is, reading));
        if (!fields.empty()) {
            stale.push_back({reading.name, std::move(fields)});
        }
    }
    return stale;
}

} // namespace rodway
