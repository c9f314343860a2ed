#include "core/intake/milling_match.h"

#include <cmath>

#include "core/castings/moving_castings.h"
#include "core/units/interval.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::optional<Error> wrong_face(const MatchedFace& face, int line) {
    const auto inside = [&](const char* field, double value, double most_mm) {
        return first_outside({{field, Interval::exactly(value), {-most_mm, most_mm, "mm"}, line}});
    };
    for (int axis = 0; axis < 3; ++axis) {
        if (auto bad = inside("normal", face.normal_E[axis], 1.0 + 1e-9)) {
            return bad;
        }
        if (auto bad = inside("head_moved", face.head_moved_E[axis], 100.0)) {
            return bad;
        }
    }
    if (std::abs(face.normal_E.norm() - 1.0) > 1e-6) {
        return Error{
            ErrorCode::not_a_direction, "normal", exact_text(face.normal_E.norm()), {}, line, {}};
    }
    return inside("gained", face.gained_mm, 50.0);
}

/// Up along a face, as `port_shift` counts it, in E's y and z: an intake doesn't move along the
/// crank.
Vec2 up_the_face(const Vec3& normal_E) {
    const auto up_by = [&](const Vec3& moved_E) {
        return port_shift(normal_E, moved_E, Vec3::Zero()).up_the_face_mm;
    };
    return {up_by(Vec3::UnitY()), up_by(Vec3::UnitZ())};
}

/// The intake's movement that sets its ports level with the heads' at both faces.
Result<Vec3> matched_movement_E(const std::array<MatchedFace, 2>& faces) {
    Eigen::Matrix2d ups;
    Vec2 heads_up;
    for (int at = 0; at < 2; ++at) {
        const MatchedFace& face = faces[static_cast<std::size_t>(at)];
        ups.row(at) = up_the_face(face.normal_E).transpose();
        heads_up[at] = port_shift(face.normal_E, face.head_moved_E, Vec3::Zero()).up_the_face_mm;
    }
    // As for the faces themselves in `intake_movement_E`: within some 3 degrees of one line.
    if (std::abs(ups.determinant()) < 0.05) {
        return Error{ErrorCode::banks_parallel, "intake", {}, {}, {}, {}};
    }
    const Vec2 moved = ups.inverse() * heads_up;
    return Vec3(0.0, moved.x(), moved.y());
}

Result<std::array<PortShift, 2>> ports_with(const std::array<MatchedFace, 2>& faces,
                                            const std::array<double, 2>& off_face_mm) {
    std::vector<IntakeFace> resting;
    for (std::size_t at = 0; at < 2; ++at) {
        resting.push_back({faces[at].normal_E, faces[at].gained_mm - off_face_mm[at] +
                                                   faces[at].normal_E.dot(faces[at].head_moved_E)});
    }
    const auto moved_E = intake_movement_E(resting);
    if (!moved_E) {
        return moved_E.error();
    }
    std::array<PortShift, 2> ports;
    for (std::size_t at = 0; at < 2; ++at) {
        ports[at] = port_shift(faces[at].normal_E, *moved_E, faces[at].head_moved_E);
    }
    return ports;
}

} // namespace

Result<MillingMatch> milling_match(const MatchedFace& one, const MatchedFace& other) {
    const std::array<MatchedFace, 2> faces{one, other};
    int line = 0;
    for (const MatchedFace& face : faces) {
        if (const auto bad = wrong_face(face, ++line)) {
            return *bad;
        }
    }
    const auto moved_E = matched_movement_E(faces);
    if (!moved_E) {
        return moved_E.error();
    }
    MillingMatch match;
    for (std::size_t at = 0; at < 2; ++at) {
        match.off_face_mm[at] =
            faces[at].gained_mm - faces[at].normal_E.dot(*moved_E - faces[at].head_moved_E);
    }
    match.off_end_rails_mm = -moved_E->z();
    match.sideways_mm = moved_E->y();
    const auto before = ports_with(faces, {0.0, 0.0});
    if (!before) {
        return before.error();
    }
    const auto after = ports_with(faces, match.off_face_mm);
    if (!after) {
        return after.error();
    }
    match.before = *before;
    match.after = *after;
    return match;
}

Result<MillingMatch> milling_match(const Engine& engine) {
    std::vector<MatchedFace> faces;
    for (std::size_t bank = 0; bank < engine.flanges.size(); ++bank) {
        if (engine.flanges[bank]) {
            const BankFrame& frame = engine.layout.banks[bank].frame;
            faces.push_back({frame.to_block(engine.flanges[bank]->normal_K),
                             frame.to_block(engine.head_movement_K(bank)),
                             engine.flanges[bank]->gained_mm()});
        }
    }
    if (faces.size() < 2) {
        return Error{ErrorCode::missing_field, "flange", {}, {}, {}, {}};
    }
    if (!engine.one_intake_for_all) {
        return Error{ErrorCode::not_of_this_kind, "intake_casting", {}, {}, {}, {}};
    }
    return milling_match(faces[0], faces[1]);
}

} // namespace rodway
