// Rods with a profile, tubes that are rounded or obround, and obstacles: the certified minima
// beside sampling 720 crank angles with the same formulae.
#include <benchmark/benchmark.h>

#include <functional>
#include <string>
#include <vector>

#include "core/clearance/certified_minimum.h"
#include "tests/bench/bench_engine.h"
#include "tests/bench/same_run.h"

namespace rodway {
namespace {

/// Sixteen rods among what they may touch.
struct Case {
    std::string name;
    std::vector<TrainSurroundings> trains = {};
    std::vector<std::vector<double>> lifts_mm = {}; ///< by crank degree
};

void give_profile(Train& train) {
    const double thick = train.rod.diameter_mm;
    const double thin = 0.8 * thick;
    const double end = train.rod.length_mm;
    train.rod.profile = {{0.0, 15.0, thin, thin},
                         {15.0, 40.0, thin, thick},
                         {40.0, end - 40.0, thick, thick},
                         {end - 40.0, end - 15.0, thick, thin},
                         {end - 15.0, end, thin, thin}};
}

void round_edges(Train& train) {
    train.tube.bore.top_edge_radius_mm = 1.5;
    train.tube.bore.bottom_edge_radius_mm = 1.5;
}

void make_obround(Train& train) {
    train.tube.bore.half_straight_mm = 3.0;
    train.tube.bore.long_way_K = train.tube.bore.axis_K.unitOrthogonal();
}

/// Bars, boxes, balls' ends and faces, some 10 mm beside the first rod, from bottom to top.
std::vector<Obstacle> obstacles_beside(const Train& train, std::size_t count) {
    std::vector<Obstacle> obstacles;
    const Vec3 lower = train.lifter.lower_ball_K();
    const Vec3 along = (train.rocker.pivot_K + train.rocker.ball_arm_K - lower).normalized();
    const Vec3 aside = along.unitOrthogonal();
    for (std::size_t at = 0; at < count; ++at) {
        const double station = train.rod.length_mm * double(at + 1) / double(count + 1);
        const Vec3 out = Eigen::AngleAxisd(2.4 * double(at), along) * aside;
        const Vec3 near = lower + station * along + 14.0 * out;
        const Vec3 side = along.cross(out);
        Solid solid = HalfSpace{near, -out};
        if (at % 4 == 0) {
            solid = RoundBar{near + 3.0 * out - 10.0 * side, near + 3.0 * out + 10.0 * side, 3.0};
        } else if (at % 4 == 1) {
            solid = Cuboid{near + 5.0 * out, {out, side, out.cross(side)}, Vec3(5.0, 8.0, 4.0)};
        } else if (at % 4 == 2) {
            solid = Capsule{near + 3.0 * out, near + 20.0 * out, 3.0};
        }
        obstacles.push_back(
            {"obstacle " + std::to_string(at), ObstacleKind::box, Casting::block, 0, solid});
    }
    return obstacles;
}

Case made(const std::string& name, const std::function<void(Train&)>& change,
          std::size_t obstacles = 0) {
    Engine engine = bench::demo_v8();
    engine.obstacles = obstacles_beside(engine.trains.front(), obstacles);
    Case one{name};
    for (Train& train : engine.trains) {
        change(train);
        one.trains.push_back(*train_surroundings(engine, train)->surroundings);
        std::vector<double> lifts;
        for (int degree = 0; degree < 720; ++degree) {
            lifts.push_back(engine.lobe_lift_mm(train.position, CrankAngle::deg(degree)));
        }
        one.lifts_mm.push_back(std::move(lifts));
    }
    return one;
}

const std::vector<Case>& cases() {
    static const std::vector<Case> all{made("straight rod, sharp round tube", [](Train&) {}),
                                       made("profiled rod", give_profile),
                                       made("rounded edges", round_edges),
                                       made("obround tube", make_obround),
                                       made("profiled rod, rounded obround tube",
                                            [](Train& train) {
                                                give_profile(train);
                                                round_edges(train);
                                                make_obround(train);
                                            }),
                                       made(
                                           "straight rod, 4 obstacles", [](Train&) {}, 4),
                                       made(
                                           "straight rod, 16 obstacles", [](Train&) {}, 16),
                                       made("profiled rod, 16 obstacles", give_profile, 16)};
    return all;
}

std::size_t certified(const Case& one) {
    std::size_t answered = 0;
    for (const TrainSurroundings& train : one.trains) {
        answered += deciding(certified_minima(train)).minimum.has_value() ? 1U : 0U;
    }
    return answered;
}

double sampled(const Case& one) {
    double sum = 0.0;
    for (std::size_t at = 0; at < one.trains.size(); ++at) {
        double least = 1e9;
        for (const double lift : one.lifts_mm[at]) {
            if (const auto found = least_clearance_at(one.trains[at], lift)) {
                least = std::min(least, found->clearance_mm);
            }
        }
        sum += least;
    }
    return sum;
}

void certified_minima_of_16(benchmark::State& state) {
    const Case& one = cases()[static_cast<std::size_t>(state.range(0))];
    for (auto turn : state) {
        benchmark::DoNotOptimize(certified(one));
    }
    state.SetLabel(one.name);
}
BENCHMARK(certified_minima_of_16)->DenseRange(0, 7)->Unit(benchmark::kMicrosecond);

} // namespace

void bench::print_surroundings() {
    std::printf("\nCertified minima of 16 trains beside all that they may touch\n");
    for (const Case& one : cases()) {
        const double fast = least_us([&] { return certified(one); }, 8, 4);
        const double slow = least_us([&] { return sampled(one); }, 3, 1);
        double mean = 0.0;
        int worst = 0;
        std::size_t pairs = 0;
        for (const TrainSurroundings& train : one.trains) {
            for (const CertifiedMinimum& found : certified_minima(train)) {
                mean += found.evaluations;
                worst = std::max(worst, found.evaluations);
                ++pairs;
            }
        }
        std::printf(
            "%s: certified %.1f us (%zu of 16 answered), sampling 720 angles %.0f us, ratio %.1f; "
            "evaluations a pair: mean %.1f, worst %d\n",
            one.name.c_str(), fast, certified(one), slow, slow / fast, mean / double(pairs), worst);
    }
}

} // namespace rodway
