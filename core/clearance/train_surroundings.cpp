#include "core/clearance/train_surroundings.h"

#include "core/geometry/rod_to_solid.h"

namespace rodway {

std::vector<TouchPair> TrainSurroundings::pairs() const {
    std::vector<TouchPair> all;
    for (std::size_t at = 0; at < features.size(); ++at) {
        all.push_back({at, MovedPart::rod});
    }
    for (std::size_t at = 0; lifter_body && at < features.size(); ++at) {
        if (features[at].kind == FeatureKind::obstacle) {
            all.push_back({at, MovedPart::lifter_body});
        }
    }
    return all;
}

RodPair TrainSurroundings::rod_pair(const Feature& feature) const {
    return {linkage,
            rod,
            full_lift_mm,
            outboard_y_sign,
            feature.kind,
            feature.name,
            std::get_if<Bore>(&feature.shape),
            std::get_if<Solid>(&feature.shape)};
}

Result<ClosedSurroundings> train_surroundings(const Engine& engine, const Train& train) {
    const Result<Bore> tube = engine.tube_in_place(train);
    if (!tube) {
        return tube.error();
    }
    std::vector<Feature> features{{FeatureKind::port_tube, train.tube.name, *tube}};
    for (const Passage& passage : train.further_passages) {
        const Result<Bore> bore = engine.bore_in_place(train, passage);
        if (!bore) {
            return bore.error();
        }
        features.push_back({FeatureKind::passage, passage.name, *bore});
    }
    const Eigen::Matrix3d from_block = engine.layout.banks[train.bank].frame.R_EK().transpose();
    for (const Obstacle& obstacle : engine.obstacles) {
        const Result<Solid> solid = engine.solid_in_place(obstacle);
        if (!solid) {
            return solid.error();
        }
        const bool same_bank = obstacle.bank == train.bank;
        features.push_back(
            {FeatureKind::obstacle, obstacle.name,
             same_bank
                 ? *solid
                 : turned(*solid, from_block * engine.layout.banks[obstacle.bank].frame.R_EK())});
    }
    if (train.rocker.body_K) {
        features.push_back({FeatureKind::rocker_body, "rocker", Solid(*train.rocker.body_K)});
    }
    const Linkage::Closing closing = Linkage::close(train);
    ClosedSurroundings closed{closing.status, closing.adjuster_needed_mm, {}};
    if (closing.linkage) {
        closed.surroundings = TrainSurroundings{*closing.linkage,
                                                rod_sections(train.rod),
                                                engine.lobes(train.position).lobe.full_lift_mm(),
                                                engine.outboard_y_sign(train),
                                                std::move(features),
                                                {}};
        if (train.lifter.body_diameter_mm && train.lifter.body_length_mm) {
            closed.surroundings->lifter_body =
                LifterBody{train.lifter.foot_K, *train.lifter.body_length_mm,
                           *train.lifter.body_diameter_mm / 2.0};
        }
    }
    return closed;
}

std::optional<RodClearance> pair_clearance_at(const TrainSurroundings& surroundings,
                                              const TouchPair& pair, double lobe_lift_mm) {
    const Feature& feature = surroundings.features[pair.feature];
    const RodPair rod = surroundings.rod_pair(feature);
    if (pair.part == MovedPart::rod) {
        const std::optional<Pose> pose = surroundings.linkage.at(lobe_lift_mm);
        const auto ball = pose ? closest_ball(rod, *pose) : std::nullopt;
        return ball ? std::optional(rod_clearance(rod, *ball, lobe_lift_mm)) : std::nullopt;
    }
    RODWAY_ASSERT(surroundings.lifter_body && rod.solid != nullptr);
    const LifterBody& body = *surroundings.lifter_body;
    const Vec3& axis = surroundings.linkage.lifter_axis_K();
    const Vec3 foot_K = body.foot_K + lobe_lift_mm * axis;
    const RoundSection whole{0.0, body.length_mm, body.radius_mm, body.radius_mm};
    const auto ball = rod_to_solid(*rod.solid, foot_K, foot_K + body.length_mm * axis, {&whole, 1});
    if (!ball) {
        return std::nullopt;
    }
    RodClearance found = rod_clearance(rod, *ball, lobe_lift_mm);
    found.part = MovedPart::lifter_body;
    return found;
}

std::optional<RodClearance> least_clearance_at(const TrainSurroundings& surroundings,
                                               double lobe_lift_mm) {
    std::optional<RodClearance> least;
    for (const TouchPair& pair : surroundings.pairs()) {
        const auto found = pair_clearance_at(surroundings, pair, lobe_lift_mm);
        if (!found) {
            return std::nullopt;
        }
        if (!least || found->clearance_mm < least->clearance_mm) {
            least = found;
        }
    }
    return least;
}

} // namespace rodway
