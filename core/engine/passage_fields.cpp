#include "core/engine/passage_fields.h"

#include <array>

namespace rodway {
namespace {

const char* const further = "/passages";

/// An edge may not be rounded so far that the two roundings meet.
double edge_radius_mm(FieldReader& fields, const std::string& path, double length_mm) {
    const double radius = fields.length_mm_or(path, 0.0);
    if (radius > 0.0 && radius >= length_mm / 2.0) {
        fields.refuse_length(path, 0.0, length_mm / 2.0);
    }
    return radius;
}

/// `kind`: the word by which a round or obround bore is told from others.
Bore read_bore(FieldReader& fields, const std::string& path, bool obround,
               const std::string& kind) {
    Bore bore;
    bore.centre_K = fields.point_mm(path + "/centre");
    bore.axis_K = fields.direction(path + "/axis");
    bore.length_mm = fields.length_mm(path + "/length");
    const double narrow_mm = fields.length_mm(path + "/bore");
    bore.bore_radius_mm = narrow_mm / 2.0;
    if (!obround) {
        fields.refuse_beside(kind, {path + "/long_bore", path + "/long_way/x", path + "/long_way/y",
                                    path + "/long_way/z"});
    } else {
        const double long_mm = fields.length_mm(path + "/long_bore");
        if (long_mm < narrow_mm && !fields.error()) {
            fields.refuse_length(path + "/long_bore", narrow_mm, {});
        }
        bore.half_straight_mm = (long_mm - narrow_mm) / 2.0;
        bore.long_way_K = fields.direction_across(path + "/long_way", bore.axis_K);
    }
    bore.top_edge_radius_mm = edge_radius_mm(fields, path + "/top_edge", bore.length_mm);
    bore.bottom_edge_radius_mm = edge_radius_mm(fields, path + "/bottom_edge", bore.length_mm);
    return bore;
}

Passage read_further_passage(FieldReader& fields, const std::string& name,
                             const std::string& path) {
    static constexpr std::array kinds{PassageKind::round_tube, PassageKind::obround_tube,
                                      PassageKind::drilled_hole, PassageKind::guide_slot};
    static constexpr std::array kind_words{"tube", "obround_tube", "hole", "slot"};
    static constexpr std::array castings{Casting::head, Casting::intake, Casting::block};
    const std::size_t kind = fields.choice(path + "/kind");
    Passage passage;
    passage.name = name;
    passage.kind = kinds[kind];
    passage.casting = castings[fields.choice(path + "/casting")];
    const bool obround =
        passage.kind == PassageKind::obround_tube || passage.kind == PassageKind::guide_slot;
    passage.bore = read_bore(fields, path, obround, kind_words[kind]);
    if (passage.kind == PassageKind::drilled_hole || passage.kind == PassageKind::guide_slot) {
        fields.refuse_beside(kind_words[kind], {path + "/wall"});
    }
    passage.wall_mm = fields.length_mm_if_any(path + "/wall");
    passage.fitted_doubt_mm = fields.length_mm_if_any(path + "/fitted_doubt");
    return passage;
}

void check_passage(FieldReader& fields, const Engine& engine, const Train& train,
                   const Passage& passage, const std::string& path) {
    check_intake_is_there(fields, engine, passage.casting, train.bank);
    const Vec3 rod = train.rocker.pivot_K + train.rocker.ball_arm_K - train.lifter.lower_ball_K();
    if (passage.bore.axis_K.dot(rod) < 0.0) {
        fields.refuse(bad_field(ErrorCode::passage_swapped, path + "/axis", {}));
    }
}

} // namespace

Passage read_tube(FieldReader& fields, const std::string& path) {
    const bool obround = fields.choice_or_first(path + "/shape") == 1;
    Passage tube;
    tube.kind = obround ? PassageKind::obround_tube : PassageKind::round_tube;
    tube.casting = fields.choice(path + "/casting") == 0 ? Casting::intake : Casting::head;
    tube.bore = read_bore(fields, path, obround, "round");
    tube.wall_mm = fields.length_mm_if_any(path + "/wall");
    tube.fitted_doubt_mm = fields.length_mm_if_any(path + "/fitted_doubt");
    return tube;
}

std::vector<Passage> read_further_passages(FieldReader& fields, const std::string& path) {
    std::vector<Passage> passages;
    const std::string start = path + further + "/";
    for (const std::string& name : fields.names_under(path + further)) {
        const std::string its_path = start + name;
        // Answers name passages, and the port tube has that name already.
        if (name == Passage{}.name) {
            fields.refuse(bad_field(ErrorCode::duplicate_field, its_path, name));
        }
        passages.push_back(read_further_passage(fields, name, its_path));
    }
    return passages;
}

void check_passages(FieldReader& fields, const Engine& engine, const Train& train,
                    const std::string& path) {
    check_passage(fields, engine, train, train.tube, path + "/tube");
    for (const Passage& passage : train.further_passages) {
        check_passage(fields, engine, train, passage, path + further + "/" + passage.name);
    }
}

void check_intake_is_there(FieldReader& fields, const Engine& engine, Casting casting,
                           std::size_t bank) {
    if (casting == Casting::intake && !engine.flanges[bank]) {
        fields.refuse(bad_field(ErrorCode::missing_field,
                                "banks/" + engine.layout.banks[bank].name + "/flange", {}));
    }
}

} // namespace rodway
