#include "core/engine/obstacle_fields.h"

#include <algorithm>
#include <array>
#include <vector>

#include "core/engine/passage_fields.h"

namespace rodway {
namespace {

/// Every field that says where a solid is and how large, by its path below the obstacle.
const std::vector<std::string> leaves = {
    "normal/x",      "normal/y",      "normal/z", "axis/x", "axis/y",  "axis/z",  "second_axis/x",
    "second_axis/y", "second_axis/z", "diameter", "length", "sizes/x", "sizes/y", "sizes/z",
};

HalfSpace read_plane(FieldReader& fields, const std::string& path) {
    return {fields.point_mm(path + "/point"), fields.direction(path + "/normal")};
}

/// From the middle of the end that can be seen, back along the axis that points out of it.
RoundBar read_bar(FieldReader& fields, const std::string& path) {
    const Vec3 end = fields.point_mm(path + "/point");
    const Vec3 out = fields.direction(path + "/axis");
    const double length = fields.length_mm(path + "/length");
    return {end - length * out, end, fields.length_mm(path + "/diameter") / 2.0};
}

Cuboid read_box(FieldReader& fields, const std::string& path) {
    Cuboid box;
    box.centre_K = fields.point_mm(path + "/point");
    const Vec3 first = fields.direction(path + "/axis");
    const Vec3 second = fields.direction_across(path + "/second_axis", first);
    box.axes_K = {first, second, first.cross(second)};
    box.half_sizes_mm = fields.point_mm(path + "/sizes") / 2.0;
    return box;
}

/// A field of another kind of solid would be read by nobody: it is refused.
void refuse_others(FieldReader& fields, const std::string& path, const std::string& kind,
                   const std::vector<std::string>& own) {
    const std::string start = path + "/";
    for (const std::string& leaf : leaves) {
        const std::string group = leaf.substr(0, leaf.find('/'));
        if (std::find(own.begin(), own.end(), group) == own.end()) {
            fields.refuse_beside(kind, {start + leaf});
        }
    }
}

Obstacle read_obstacle(FieldReader& fields, const Engine& engine, const std::string& name) {
    static constexpr std::array kinds{ObstacleKind::plane, ObstacleKind::cylinder,
                                      ObstacleKind::box, ObstacleKind::bolt_end};
    static constexpr std::array kind_words{"plane", "cylinder", "box", "bolt_end"};
    static constexpr std::array castings{Casting::head, Casting::intake, Casting::block};
    const std::string path = "obstacles/" + name;
    Obstacle obstacle;
    obstacle.name = name;
    const std::string bank = fields.words(path + "/bank");
    const auto& banks = engine.layout.banks;
    const auto found = std::find_if(banks.begin(), banks.end(),
                                    [&](const Bank& each) { return each.name == bank; });
    if (found == banks.end()) {
        fields.refuse(bad_field(ErrorCode::not_a_choice, path + "/bank", bank));
        return obstacle;
    }
    obstacle.bank = static_cast<std::size_t>(found - banks.begin());
    obstacle.casting = castings[fields.choice(path + "/casting")];
    const std::size_t kind = fields.choice(path + "/kind");
    obstacle.kind = kinds[kind];
    if (obstacle.kind == ObstacleKind::plane) {
        obstacle.solid = read_plane(fields, path);
        refuse_others(fields, path, kind_words[kind], {"normal"});
    } else if (obstacle.kind == ObstacleKind::box) {
        obstacle.solid = read_box(fields, path);
        refuse_others(fields, path, kind_words[kind], {"axis", "second_axis", "sizes"});
    } else {
        obstacle.solid = read_bar(fields, path);
        refuse_others(fields, path, kind_words[kind], {"axis", "diameter", "length"});
    }
    check_intake_is_there(fields, engine, obstacle.casting, obstacle.bank);
    return obstacle;
}

} // namespace

void read_obstacles(FieldReader& fields, Engine& engine) {
    for (const std::string& name : fields.names_under("obstacles")) {
        if (fields.error()) {
            return;
        }
        engine.obstacles.push_back(read_obstacle(fields, engine, name));
    }
}

std::optional<Capsule> read_rocker_body(FieldReader& fields, const std::string& path) {
    if (!fields.has_any_under(path)) {
        return std::nullopt;
    }
    return Capsule{fields.point_mm(path + "/from"), fields.point_mm(path + "/to"),
                   fields.length_mm(path + "/diameter") / 2.0};
}

} // namespace rodway
