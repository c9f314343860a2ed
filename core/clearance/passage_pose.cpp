#include "core/clearance/passage_pose.h"

#include <utility>

#include "core/clearance/gap_at.h"
#include "core/units/within.h"

namespace rodway {

PoseVector as_vector(const PassagePose& pose) {
    return {pose.towards_12_mm, pose.towards_3_mm, pose.lean_12_rad, pose.lean_3_rad};
}

PassagePose as_pose(const PoseVector& vector) {
    return {vector[0], vector[1], vector[2], vector[3]};
}

PoseVector as_vector(const StatedPlace& stated) {
    return {stated.sideways_u_mm, stated.sideways_u_mm, stated.lean_u_rad, stated.lean_u_rad};
}

Bore at_pose(const Bore& bore, const PassagePose& pose) {
    const Vec3 twelve = clock_direction_K(bore, 12.0);
    const Vec3 three = clock_direction_K(bore, 3.0);
    Bore moved = bore;
    moved.centre_K += pose.towards_12_mm * twelve + pose.towards_3_mm * three;
    moved.axis_K = (bore.axis_K + pose.lean_12_rad * twelve + pose.lean_3_rad * three).normalized();
    const Vec3 square = bore.long_way_K - bore.long_way_K.dot(moved.axis_K) * moved.axis_K;
    if (square.norm() > 0.1) { // of no meaning in a round bore, where it may be anything
        moved.long_way_K = square.normalized();
    }
    return moved;
}

PosedBore at_pose_with_rates(const Bore& bore, const PassagePose& pose) {
    const Vec3 twelve = clock_direction_K(bore, 12.0);
    const Vec3 three = clock_direction_K(bore, 3.0);
    PosedBore posed{at_pose(bore, pose), {}};
    posed.rates[0].centre_K = twelve;
    posed.rates[1].centre_K = three;
    const double length =
        (bore.axis_K + pose.lean_12_rad * twelve + pose.lean_3_rad * three).norm();
    const Vec3& axis = posed.bore.axis_K;
    const Vec3& long_way = posed.bore.long_way_K;
    const double square = (bore.long_way_K - bore.long_way_K.dot(axis) * axis).norm();
    for (const auto& [unknown, towards] : {std::pair{2u, twelve}, std::pair{3u, three}}) {
        BoreRate& rate = posed.rates[unknown];
        rate.axis_K = (towards - towards.dot(axis) * axis) / length;
        if (square > 0.1) { // as in `at_pose`
            const Vec3 turned =
                -bore.long_way_K.dot(rate.axis_K) * axis - bore.long_way_K.dot(axis) * rate.axis_K;
            rate.long_way_K = (turned - turned.dot(long_way) * long_way) / square;
        }
    }
    return posed;
}

Result<Done> check_stated_place(const StatedPlace& stated) {
    if (auto error = outside("stated/sideways", stated.sideways_u_mm, {0.0, 25.0, "mm"})) {
        return *error;
    }
    if (auto error = outside("stated/lean", stated.lean_u_rad, {0.0, 0.2, "rad"})) {
        return *error;
    }
    return Done{};
}

} // namespace rodway
