#include "core/clearance/hot_and_cold.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/clearance/survey.h"
#include "core/clearance/train_surroundings.h"
#include "core/clearance/variant.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

/// Everything stated, every part at one temperature, of one coefficient each.
HotStated all_stated(const Engine& engine, double degC, double per_K) {
    HotStated stated;
    for (PartWarmth& part : stated.parts) {
        part.expansion_per_K = per_K;
        part.temperature_degC = degC;
    }
    stated.head_gasket_mm = 1.0;
    for (std::size_t bank = 0; bank < engine.layout.banks.size(); ++bank) {
        stated.deck_height_mm.emplace_back(250.0);
        stated.intake_face_mm.emplace_back(55.0);
    }
    for (const Train& train : engine.trains) {
        stated.seat_to_tip_mm[train.position] = 120.0;
    }
    return stated;
}

std::vector<HotClearance> warmed(const Engine& engine, const HotStated& stated) {
    const auto found = hot_and_cold(engine, stated);
    EXPECT_TRUE(found.ok() && found->missing.empty());
    return found->valves;
}

PartWarmth& part(HotStated& stated, HotPart which) {
    return stated.parts[static_cast<std::size_t>(which)];
}
void warm_only(HotStated& stated, HotPart which, double per_K, double degC) {
    part(stated, which) = {std::nullopt, per_K, degC};
}

TEST(HotAndCold, NothingWarmedIsTheColdEngineItself) {
    for (const char* demo : demo_names) {
        const Engine engine = demo_engine(demo);
        const auto lines = survey(engine);
        const auto found = hot_and_cold(engine, all_stated(engine, 20.0, 20e-6));
        ASSERT_EQ(found->valves.size(), lines->size());
        for (std::size_t at = 0; at < lines->size(); ++at) {
            const HotClearance& valve = found->valves[at];
            const RodClearance& minimum = *(*lines)[at].found.minimum;
            const std::string name = demo + position_name(valve.valve);
            EXPECT_EQ(valve.status, TrainStatus::answered);
            EXPECT_EQ(valve.cold->clearance_mm, minimum.clearance_mm) << name;
            // Closing a train in another way: rounding, far below what a search leaves open.
            EXPECT_NEAR(valve.hot->clearance_mm, minimum.clearance_mm, 1e-8) << name;
            EXPECT_NEAR(valve.hot_least_mm->low, valve.hot_least_mm->high, 1e-12) << name;
            EXPECT_EQ(*valve.verdict, *(*lines)[at].verdict) << name;
            if (valve.cold_lash_mm) {
                EXPECT_NEAR(*valve.cold_lash_mm, engine.trains[at].valve.lash_mm, 1e-8);
                EXPECT_NEAR(valve.hot_lash_mm->middle(), *valve.cold_lash_mm, 1e-8);
            }
        }
    }
}

// An engine that grows alike in every part is the same engine on another scale, lash, rods and
// tubes: everything becomes larger by the same share (similar figures).
TEST(HotAndCold, AnEngineOfOneMetalEvenlyWarmIsItselfALittleLarger) {
    for (const char* demo : demo_names) {
        const Engine engine = demo_engine(demo);
        constexpr double strain = 100.0 * 20e-6;
        const auto found = hot_and_cold(engine, all_stated(engine, 120.0, 20e-6));
        for (const HotClearance& valve : found->valves) {
            ASSERT_EQ(valve.status, TrainStatus::answered);
            EXPECT_NEAR(valve.hot->clearance_mm, valve.cold->clearance_mm * (1.0 + strain), 1e-6)
                << demo << position_name(valve.valve);
            if (valve.cold_lash_mm && *valve.cold_lash_mm > 0.0) {
                EXPECT_NEAR(valve.hot_lash_mm->middle(), *valve.cold_lash_mm * (1.0 + strain),
                            1e-6);
            }
        }
    }
}

/// The demo's V8 with everything beside its rods that there can be.
Engine crowded_engine() {
    Engine engine = demo_engine("v8-port-tubes");
    const Vec3 beside_K(0.0, 30.0, 0.0);
    const Vec3 rod_K = engine.trains[0].tube.bore.centre_K;
    const auto add = [&](const char* name, ObstacleKind kind, Casting casting, Solid solid) {
        engine.obstacles.push_back({name, kind, casting, engine.trains[0].bank, std::move(solid)});
    };
    add("wall", ObstacleKind::plane, Casting::head, HalfSpace{rod_K - beside_K, Vec3::UnitY()});
    add("bar", ObstacleKind::cylinder, Casting::block,
        RoundBar{rod_K + beside_K, rod_K + beside_K + Vec3(40.0, 0.0, 0.0), 6.0});
    add("box", ObstacleKind::box, Casting::intake,
        Cuboid{rod_K + 1.5 * beside_K,
               {Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ()},
               Vec3(20.0, 8.0, 5.0)});
    for (Train& train : engine.trains) {
        train.rocker.body_K = Capsule{Vec3(0.0, 0.0, 12.0), train.rocker.ball_arm_K * 0.6, 5.0};
        Passage slot = train.tube;
        slot.name = "slot";
        slot.kind = PassageKind::guide_slot;
        slot.casting = Casting::block;
        slot.bore.centre_K -= 60.0 * slot.bore.axis_K;
        slot.bore.length_mm = 8.0;
        slot.bore.bore_radius_mm = 9.0;
        slot.bore.half_straight_mm = 4.0;
        slot.bore.top_edge_radius_mm = 1.0;
        train.further_passages.push_back(slot);
        train.lifter.body_diameter_mm = 21.4;
        train.lifter.body_length_mm = 50.0;
    }
    return engine;
}

TEST(HotAndCold, EverythingBesideTheRodsScalesWithThem) {
    const Engine engine = crowded_engine();
    constexpr double strain = 2e-3;
    PartStrains strains;
    strains.fill(strain);
    const HotStated stated = all_stated(engine, 120.0, 20e-6);
    const Engine hot = grown_engine(engine, trains_as_set(engine), stated, strains);
    std::size_t compared = 0;
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const auto cold_all =
            certified_minima(*train_surroundings(engine, engine.trains[at])->surroundings);
        const auto hot_all =
            certified_minima(*train_surroundings(hot, hot.trains[at])->surroundings);
        ASSERT_EQ(cold_all.size(), hot_all.size());
        for (std::size_t pair = 0; pair < cold_all.size(); ++pair) {
            ASSERT_TRUE(cold_all[pair].minimum && hot_all[pair].minimum) << cold_all[pair].feature;
            EXPECT_NEAR(hot_all[pair].minimum->clearance_mm,
                        cold_all[pair].minimum->clearance_mm * (1.0 + strain), 1e-6)
                << position_name(engine.trains[at].position) << " " << cold_all[pair].feature;
            ++compared;
        }
    }
    EXPECT_EQ(compared, 16U * 9U); // tube, slot, three obstacles, rocker; lifter by the obstacles
}

// Where parts don't grow alike, each from its own place: a head from the middle of its bank along
// the crank and from the deck up, carried there by block and gasket.
TEST(HotAndCold, AHeadGrowsFromItsDeckAndTheMiddleOfItsBank) {
    const Engine engine = demo_engine("v8-port-tubes");
    const HotStated stated = all_stated(engine, 20.0, 0.0);
    const auto grown = [&](HotPart which, double strain) {
        PartStrains strains{};
        strains[static_cast<std::size_t>(which)] = strain;
        return grown_engine(engine, trains_as_set(engine), stated, strains);
    };
    const Engine by_head = grown(HotPart::head, 1e-3);
    const Engine by_block = grown(HotPart::block, 1e-3);
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& train = engine.trains[at];
        double low = 1e9;
        double high = 0.0;
        for (const Cylinder& cylinder : engine.layout.cylinders) {
            if (cylinder.bank == train.bank) {
                low = std::min(low, cylinder.centre_x_mm);
                high = std::max(high, cylinder.centre_x_mm);
            }
        }
        const Vec3 held((low + high) / 2.0, 0.0, 251.0); // deck 250, gasket 1
        const Vec3 pivot = train.rocker.pivot_K;
        const Vec3 head = by_head.trains[at].rocker.pivot_K - pivot;
        EXPECT_NEAR((head - 1e-3 * (pivot - held)).norm(), 0.0, 1e-9);
        const Vec3 block = by_block.trains[at].rocker.pivot_K - pivot;
        EXPECT_NEAR((block - 1e-3 * Vec3(held.x(), 0.0, 250.0)).norm(), 0.0, 1e-9);
        if (train.tube.casting == Casting::head) {
            const auto gone = [&](const Engine& hot) -> Vec3 {
                return hot.tube_in_place(hot.trains[at])->centre_K -
                       engine.tube_in_place(train)->centre_K;
            };
            const Vec3 tube = engine.tube_in_place(train)->centre_K;
            EXPECT_NEAR((gone(by_head) - 1e-3 * (tube - held)).norm(), 0.0, 1e-9);
            EXPECT_NEAR((gone(by_block) - block).norm(), 0.0, 1e-9);
        }
    }
}

// A longer rod turns its rocker on the heel, and the rocker's body with it.
TEST(HotAndCold, ARockersBodyTurnsWithItsArm) {
    const Engine engine = crowded_engine();
    PartStrains strains{};
    strains[static_cast<std::size_t>(HotPart::rod)] = 5e-4;
    const Engine hot =
        grown_engine(engine, trains_as_set(engine), all_stated(engine, 20.0, 0.0), strains);
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Vec3 arm_cold = Linkage::close(engine.trains[at]).linkage->ball_arm_K();
        const Vec3 arm_hot = Linkage::close(hot.trains[at]).linkage->ball_arm_K();
        ASSERT_GT((arm_hot - arm_cold).norm(), 0.05);
        const Capsule& cold_body = *engine.trains[at].rocker.body_K;
        const Capsule& hot_body = *hot.trains[at].rocker.body_K;
        for (const auto end : {&Capsule::from_K, &Capsule::to_K}) {
            EXPECT_NEAR((hot_body.*end).norm(), (cold_body.*end).norm(), 1e-9);
            EXPECT_NEAR((hot_body.*end).dot(arm_hot), (cold_body.*end).dot(arm_cold), 1e-8);
            EXPECT_NEAR(arm_hot.cross(hot_body.*end).x(), arm_cold.cross(cold_body.*end).x(), 1e-8);
        }
    }
}

// One part at a time against the closed form that the lash sheet uses (similar triangles about the
// pivot; lengths along the cylinders). The demo's valves and rods lean, by up to 15 degrees, which
// is what the tolerance allows for: 6 % of the parts' own growths.
TEST(HotAndCold, LashGrowsAsTheRockersLeverSays) {
    const Engine engine = demo_engine("v8-port-tubes");
    const Train& train = engine.trains[0];
    constexpr double per_K = 15e-6;
    constexpr double warmed_K = 80.0;
    constexpr double strain = per_K * warmed_K;
    const double ratio = arm_ratio(train);
    const auto grown = [&](HotPart which) {
        HotStated stated = all_stated(engine, 20.0, 0.0);
        warm_only(stated, which, per_K, 20.0 + warmed_K);
        const HotClearance valve = warmed(engine, stated)[0];
        return valve.hot_lash_mm->middle() - *valve.cold_lash_mm;
    };
    const double pivot_z = train.rocker.pivot_K.z();
    // Block: deck, so pivot and tip, rise by 250·ε, and the cam goes up in the block by its own
    // height; the rod's seat goes with the cam.
    const double cam_z = train.lifter.foot_K.z() - engine.intake.base_circle_radius_mm;
    EXPECT_NEAR(grown(HotPart::block), strain * ((1.0 + ratio) * 250.0 - ratio * cam_z - 250.0),
                0.06 * strain * 250.0);
    EXPECT_NEAR(grown(HotPart::rod), -ratio * strain * train.rod.length_mm,
                0.06 * ratio * strain * train.rod.length_mm);
    EXPECT_NEAR(grown(HotPart::lifter), -ratio * strain * train.lifter.seat_height_mm,
                0.06 * ratio * strain * train.lifter.seat_height_mm);
    EXPECT_NEAR(grown(HotPart::intake_valve), -strain * 120.0, 1e-3 * strain * 120.0);
    EXPECT_NEAR(grown(HotPart::exhaust_valve), 0.0, 1e-9) << "of an intake valve";
    EXPECT_NEAR(grown(HotPart::head_gasket), strain * ratio, 0.06 * strain * ratio);
    // Head: pivot from the deck up, tip by its seat: 120 mm below it.
    const double tip_z = pivot_z + train.rocker.tip_arm_K.z();
    const double seat_z = tip_z - 120.0 * train.valve.axis_K.z();
    EXPECT_NEAR(grown(HotPart::head),
                strain * ((1.0 + ratio) * (pivot_z - 251.0) - (seat_z - 251.0)),
                0.06 * strain * (pivot_z - 251.0) * (1.0 + ratio));
    EXPECT_NEAR(grown(HotPart::camshaft), -ratio * strain * engine.intake.base_circle_radius_mm,
                0.06 * ratio * strain * engine.intake.base_circle_radius_mm);
    EXPECT_NEAR(grown(HotPart::intake), 0.0, 1e-9);
    EXPECT_NEAR(grown(HotPart::intake_gasket), 0.0, 1e-9);
}

// A gasket that grows is a gasket that is thicker: the set-up's own movement of castings.
TEST(HotAndCold, AGasketsGrowthIsThatOfAThickerGasket) {
    const Engine engine = demo_engine("v8-port-tubes");
    HotStated stated = all_stated(engine, 20.0, 0.0);
    constexpr double per_K = 5e-4; // a soft one, to have something to see
    warm_only(stated, HotPart::intake_gasket, per_K, 120.0);
    const double thicker = 0.05 * engine.flanges[0]->gasket_mm;
    const Engine by_variant =
        *with_variant(engine, Variant{.gasket_thicker_mm = {thicker, thicker}});
    const auto lines = survey(by_variant);
    const auto found = hot_and_cold(engine, stated);
    for (std::size_t at = 0; at < lines->size(); ++at) {
        EXPECT_NEAR(found->valves[at].hot->clearance_mm, (*lines)[at].found.minimum->clearance_mm,
                    1e-6);
        const bool in_intake = engine.trains[at].tube.casting == Casting::intake;
        const double changed =
            found->valves[at].hot->clearance_mm - found->valves[at].cold->clearance_mm;
        EXPECT_EQ(std::abs(changed) > 1e-3, in_intake) << "other tubes are in the heads";
    }
}

// A hotter intake on cold heads: its flanges reach farther by what lies between them, and the
// casting climbs out of the vee. Where it stands is worked out here from the two faces alone.
TEST(HotAndCold, AnIntakeThatGrowsClimbsItsFacesAndCarriesItsTubes) {
    const Engine engine = demo_engine("v8-port-tubes");
    HotStated stated = all_stated(engine, 20.0, 0.0);
    constexpr double strain = 2e-3;
    warm_only(stated, HotPart::intake, 2e-5, 120.0);
    PartStrains strains{};
    strains[static_cast<std::size_t>(HotPart::intake)] = strain;
    const Engine hot = grown_engine(engine, trains_as_set(engine), stated, strains);
    // Faces 55 mm from the crank's axis along normals of 45°, flanges the gasket's 1.524 mm on:
    // symmetric, so that the casting rises by √2 of what each face lacks.
    const double reach = 55.0 + engine.flanges[0]->gasket_mm;
    const double height = -strain * reach * std::sqrt(2.0);
    double low = 1e9;
    double high = 0.0;
    for (const Cylinder& cylinder : engine.layout.cylinders) {
        low = std::min(low, cylinder.centre_x_mm);
        high = std::max(high, cylinder.centre_x_mm);
    }
    int in_intake = 0;
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& train = engine.trains[at];
        if (train.tube.casting != Casting::intake) {
            continue;
        }
        ++in_intake;
        const BankFrame& frame = engine.layout.banks[train.bank].frame;
        const Vec3 before = frame.to_block(engine.tube_in_place(train)->centre_K);
        const Vec3 after = frame.to_block(hot.tube_in_place(hot.trains[at])->centre_K);
        const double middle_x = (low + high) / 2.0;
        // Every point from the middle of the engine on, and all of it down into the vee or up.
        EXPECT_NEAR(after.x() - before.x(), strain * (before.x() - middle_x), 1e-9);
        EXPECT_NEAR(after.y() - before.y(), strain * before.y(), 1e-9);
        EXPECT_NEAR(after.z() - before.z(), strain * before.z() + height, 1e-9);
        EXPECT_NEAR(hot.trains[at].tube.bore.bore_radius_mm,
                    train.tube.bore.bore_radius_mm * (1.0 + strain), 1e-12);
    }
    EXPECT_EQ(in_intake, 8);
    // The faces are touched again: a point of the flange that lies on it goes along it only.
    const BankFrame& left = engine.layout.banks[0].frame;
    const Vec3 n = left.to_block(engine.flanges[0]->normal_K);
    const Vec3 on_flange = reach * n;
    EXPECT_NEAR(n.dot(strain * on_flange + Vec3(0.0, 0.0, height)), 0.0, 1e-9);
}

// The spread of a coefficient listed differently: 5.5 % either way of each metal by itself. The
// range is what the ends themselves give, no wider and no narrower.
TEST(HotAndCold, TheRangeIsWhatTheEndsOfTheCoefficientsGive) {
    const Engine engine = demo_engine("v8-port-tubes");
    HotStated stated = all_stated(engine, 20.0, 0.0);
    const auto make = [&](HotPart which, Metal metal, double degC) {
        part(stated, which) = {metal, std::nullopt, degC};
    };
    make(HotPart::head, Metal::cast_aluminium, 100.0);
    make(HotPart::intake, Metal::cast_aluminium, 60.0);
    make(HotPart::rod, Metal::alloy_steel, 90.0);
    const auto found = hot_and_cold(engine, stated);
    double low = 1e9;
    double high = -1e9;
    for (const double head : {0.945, 1.055}) {
        for (const double rod : {0.945, 1.055}) {
            HotStated at_ends = stated;
            warm_only(at_ends, HotPart::head, head * 21.5e-6, 100.0);
            warm_only(at_ends, HotPart::intake, head * 21.5e-6, 60.0);
            warm_only(at_ends, HotPart::rod, rod * 12.3e-6, 90.0);
            const HotClearance valve = warmed(engine, at_ends)[4];
            low = std::min(low, valve.hot_lash_mm->low);
            high = std::max(high, valve.hot_lash_mm->high);
            EXPECT_GE(valve.hot_least_mm->low, found->valves[4].hot_least_mm->low - 1e-9);
            EXPECT_LE(valve.hot_least_mm->high, found->valves[4].hot_least_mm->high + 1e-9);
        }
    }
    EXPECT_NEAR(found->valves[4].hot_lash_mm->low, low, 1e-9);
    EXPECT_NEAR(found->valves[4].hot_lash_mm->high, high, 1e-9);
    EXPECT_GT(high - low, 0.005);
    // An aluminium head over a steel rod: the gap grows.
    EXPECT_GT(low, *found->valves[4].cold_lash_mm);
    const HotClearance& valve = found->valves[4];
    EXPECT_GE(*valve.doubt_mm, engine.assumed_doubt_mm.value_or(0.0) +
                                   (valve.hot->clearance_mm - valve.hot_least_mm->low) - 1e-9)
        << "what the coefficients leave open counts";
}

TEST(HotAndCold, WhereNoLashIsLeftTheValveIsHeldOpenAndThatIsSaid) {
    const Engine engine = demo_engine("v8-port-tubes");
    HotStated stated = all_stated(engine, 20.0, 0.0);
    warm_only(stated, HotPart::rod, 50e-6, 220.0);
    for (const HotClearance& valve : warmed(engine, stated)) {
        EXPECT_EQ(valve.status, TrainStatus::rod_too_long);
        EXPECT_TRUE(valve.cold && valve.cold_lash_mm);
        EXPECT_FALSE(valve.hot || valve.hot_lash_mm || valve.hot_least_mm || valve.verdict);
    }
}

// A hydraulic lifter's plunger takes up what grows: there is no lash, and the rocker stays on its
// valve's tip.
TEST(HotAndCold, AHydraulicLiftersPlungerGivesWay) {
    Engine engine = demo_engine("v8-port-tubes");
    for (Train& train : engine.trains) {
        train.lifter.kind = LifterKind::hydraulic;
        train.lifter.preload_mm = 1.0;
        train.lifter.plunger_travel_mm = 4.0;
        train.lifter.seat_height_mm += 1.0;
        train.valve.lash_mm = 0.0;
    }
    HotStated stated = all_stated(engine, 20.0, 0.0);
    constexpr double strain = 1e-3;
    warm_only(stated, HotPart::intake_valve, 1e-5, 120.0);
    const auto set = trains_as_set(engine);
    ASSERT_TRUE(set[0]);
    PartStrains strains{};
    strains[static_cast<std::size_t>(HotPart::intake_valve)] = strain;
    const Engine hot = grown_engine(engine, set, stated, strains);
    const Train& before = *set[0];
    const Train& after = hot.trains[0];
    const auto tip = [](const Train& train) {
        return train.valve.axis_K.dot(train.rocker.pivot_K + train.rocker.tip_arm_K);
    };
    EXPECT_NEAR(tip(after) - tip(before), strain * 120.0, 1e-9);
    EXPECT_NEAR((after.rocker.pivot_K - before.rocker.pivot_K).norm(), 0.0, 1e-12);
    EXPECT_NEAR(after.rocker.tip_arm_K.norm(), before.rocker.tip_arm_K.norm(), 1e-9);
    // The ball goes down as the tip goes up, and the plunger deeper.
    const double deeper =
        Linkage::close(after).linkage->preload_mm() - Linkage::close(before).linkage->preload_mm();
    EXPECT_NEAR(deeper, strain * 120.0 / arm_ratio(before), 0.06 * strain * 120.0);
    EXPECT_FALSE(warmed(engine, stated)[0].hot_lash_mm);
}

TEST(HotAndCold, WhatIsMissingIsNamed) {
    const Engine engine = demo_engine("v8-port-tubes");
    HotStated stated = all_stated(engine, 90.0, 12e-6);
    EXPECT_TRUE(hot_and_cold(engine, stated)->missing.empty());
    part(stated, HotPart::rod).expansion_per_K.reset();
    part(stated, HotPart::head).temperature_degC.reset();
    stated.deck_height_mm[1].reset();
    stated.intake_face_mm[0].reset();
    stated.head_gasket_mm.reset();
    stated.seat_to_tip_mm[{3, ValveKind::exhaust, 1}].reset();
    const auto found = hot_and_cold(engine, stated);
    std::vector<std::string> missing = found->missing;
    std::sort(missing.begin(), missing.end());
    EXPECT_EQ(missing, (std::vector<std::string>{
                           "hot/banks/left/intake_face", "hot/banks/right/deck_height",
                           "hot/parts/head/temperature", "hot/parts/head_gasket/thickness",
                           "hot/parts/rod/metal", "hot/valves/exhaust/seat_to_tip"}));
    EXPECT_TRUE(found->valves.empty());
    // No rod goes through an intake here: nothing need be known of one.
    Engine in_heads = engine;
    for (Train& train : in_heads.trains) {
        train.tube.casting = Casting::head;
    }
    HotStated no_intake = all_stated(engine, 90.0, 12e-6);
    part(no_intake, HotPart::intake) = {};
    part(no_intake, HotPart::intake_gasket) = {};
    no_intake.intake_face_mm = {{}, {}};
    EXPECT_TRUE(missing_to_grow(in_heads, no_intake).empty());
    EXPECT_EQ(missing_to_grow(engine, no_intake).size(), 6u);
}

// A thickness stated with the bank's own head setting goes before the other.
TEST(HotAndCold, AHeadGasketIsAsThickAsItsBankSays) {
    Engine engine = demo_engine("v8-port-tubes");
    HotStated stated = all_stated(engine, 20.0, 0.0);
    warm_only(stated, HotPart::head_gasket, 1e-4, 120.0);
    stated.head_gasket_mm.reset();
    for (std::size_t bank = 0; bank < 2; ++bank) {
        HeadSetting head;
        head.gasket_mm = head.gasket_when_located_mm = 2.0;
        engine.set_head(bank, head);
    }
    EXPECT_TRUE(missing_to_grow(engine, stated).empty());
    PartStrains strains{};
    strains[static_cast<std::size_t>(HotPart::head_gasket)] = 0.01;
    const Engine hot = grown_engine(engine, trains_as_set(engine), stated, strains);
    EXPECT_NEAR(hot.head_movement_K(0).z(), 0.02, 1e-12);
    EXPECT_NEAR(hot.trains[0].rocker.pivot_K.z() - engine.trains[0].rocker.pivot_K.z(), 0.02,
                1e-12);
}

} // namespace
} // namespace rodway
