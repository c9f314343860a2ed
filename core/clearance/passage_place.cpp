#include "core/clearance/passage_place.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/engine/length_text.h"
#include "core/engine/set_up.h"

namespace rodway {
const Passage* find_passage(const Train& train, std::string_view name) {
    if (name == train.tube.name) {
        return &train.tube;
    }
    const auto found = std::find_if(train.further_passages.begin(), train.further_passages.end(),
                                    [&](const Passage& passage) { return passage.name == name; });
    return found == train.further_passages.end() ? nullptr : &*found;
}

Result<SetUpFields> fields_at_pose(const SetUpFields& fields, const Engine& engine,
                                   const ValvePosition& valve, const std::string& name,
                                   const PassagePose& pose, std::optional<double> doubt_mm) {
    const Train* train = engine.train(valve);
    if (!train) {
        return Error{ErrorCode::valve_unknown, "valve", position_name(valve), {}, {}, {}};
    }
    const Passage* passage = find_passage(*train, name);
    if (!passage) {
        return Error{ErrorCode::not_a_choice, "passage", name, {}, {}, {}};
    }
    const auto in_place = engine.bore_in_place(*train, *passage);
    if (!in_place) {
        return in_place.error();
    }
    const Bore moved = at_pose(*in_place, pose);
    const Vec3 centre_K = passage->bore.centre_K + (moved.centre_K - in_place->centre_K);
    const std::string path = "trains/" + position_name(valve) +
                             (passage == &train->tube ? "/tube" : "/passages/" + name);
    SetUpFields changed = fields;
    static constexpr std::array<const char*, 3> components{"/x", "/y", "/z"};
    for (std::size_t at = 0; at < components.size(); ++at) {
        const auto component = static_cast<Eigen::Index>(at);
        TypedValue& centre = changed[path + "/centre" + components[at]];
        if (centre.unit.empty()) {
            centre.unit = "in"; // a described tube has no place of its own until now
        }
        centre.text = length_text(centre_K[component], centre.unit);
        changed[path + "/axis" + components[at]].text = rounded_text(moved.axis_K[component], 1e7);
    }
    changed.erase(path + "/fitted_doubt");
    if (doubt_mm) {
        constexpr double step_mm = 0.001;
        const double up_mm = step_mm * std::ceil(*doubt_mm / step_mm - 1e-9);
        changed[path + "/fitted_doubt"] = {length_text(up_mm, "mm"), "mm"};
    }
    if (const auto made = make_engine(changed); !made) {
        return made.error();
    }
    return changed;
}

} // namespace rodway
