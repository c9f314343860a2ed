// The certified minimum beside sampling 720 crank angles with the same formulae, in one run, so
// that the two can be compared whatever the machine.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <string>
#include <vector>

#include "core/clearance/certified_minimum.h"
#include "tests/bench/bench_engine.h"
#include "tests/bench/same_run.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

/// Sixteen rods in their tubes, and the lobe that drives each.
struct Sixteen {
    std::string name;
    std::vector<RodInTube> rods;
    std::vector<Lobe> lobes;
};

Sixteen demo_trains() {
    const Engine& engine = bench::demo_v8();
    Sixteen sixteen{"demo V8", {}, {}};
    for (const Train& train : engine.trains) {
        sixteen.rods.push_back(*rod_in_tube(engine, train)->rod);
        sixteen.lobes.push_back(engine.lobes(train.position).lobe);
    }
    return sixteen;
}

Sixteen random_trains(std::uint64_t seed) {
    const Engine& engine = bench::demo_v8();
    std::mt19937_64 random(seed);
    Sixteen sixteen{"16 random trains, seed " + std::to_string(seed), {}, {}};
    while (sixteen.rods.size() < 16) {
        const twins::RandomTrain made = twins::random_train(random);
        const auto closing = Linkage::close(made.train);
        if (!closing.linkage) {
            continue;
        }
        const RodInTube rod{*closing.linkage, made.train.tube.bore,
                            made.train.rod.diameter_mm / 2.0, engine.intake.lobe.full_lift_mm(),
                            1.0};
        if (certified_minimum(rod).status == TrainStatus::answered) {
            sixteen.rods.push_back(rod);
            sixteen.lobes.push_back(engine.intake.lobe);
        }
    }
    return sixteen;
}

const std::vector<Sixteen>& sets() {
    static const std::vector<Sixteen> both{demo_trains(), random_trains(20260405)};
    return both;
}

double certified(const Sixteen& sixteen) {
    double sum = 0.0;
    for (const RodInTube& rod : sixteen.rods) {
        sum += certified_minimum(rod).minimum->clearance_mm;
    }
    return sum;
}

double sampled(const Sixteen& sixteen) {
    double sum = 0.0;
    for (std::size_t at = 0; at < sixteen.rods.size(); ++at) {
        double least = 1e9;
        for (int degree = 0; degree < 720; ++degree) {
            const double s = sixteen.lobes[at].lift_mm(cam_angle(CrankAngle::deg(degree - 360.0)));
            least = std::min(least, rod_clearance_at(sixteen.rods[at], s)->clearance_mm);
        }
        sum += least;
    }
    return sum;
}

void evaluations(const Sixteen& sixteen, double& mean, int& worst) {
    mean = 0.0;
    worst = 0;
    for (const RodInTube& rod : sixteen.rods) {
        const int count = certified_minimum(rod).evaluations;
        mean += count / static_cast<double>(sixteen.rods.size());
        worst = std::max(worst, count);
    }
}

void certified_minimum_of_16(benchmark::State& state) {
    const Sixteen& sixteen = sets()[static_cast<std::size_t>(state.range(0))];
    for (auto turn : state) {
        benchmark::DoNotOptimize(certified(sixteen));
    }
    double mean = 0.0;
    int worst = 0;
    evaluations(sixteen, mean, worst);
    state.counters["evaluations_mean"] = mean;
    state.counters["evaluations_worst"] = worst;
    state.SetLabel(sixteen.name);
}
BENCHMARK(certified_minimum_of_16)->Arg(0)->Arg(1)->Unit(benchmark::kMicrosecond);

void sampling_720_angles_of_16(benchmark::State& state) {
    const Sixteen& sixteen = sets()[static_cast<std::size_t>(state.range(0))];
    for (auto turn : state) {
        benchmark::DoNotOptimize(sampled(sixteen));
    }
    state.SetLabel(sixteen.name);
}
BENCHMARK(sampling_720_angles_of_16)->Arg(0)->Arg(1)->Unit(benchmark::kMicrosecond);

} // namespace

void bench::print_minimum() {
    std::printf("\nCertified minimum of 16 tubes, one core; aim 25 us, 10 evaluations, ratio 50\n");
    for (const Sixteen& sixteen : sets()) {
        const double fast = bench::least_us([&] { return certified(sixteen); }, 20, 50);
        const double slow = bench::least_us([&] { return sampled(sixteen); }, 10, 3);
        double mean = 0.0;
        int worst = 0;
        evaluations(sixteen, mean, worst);
        std::printf(
            "%s: certified %.1f us, sampling 720 angles %.1f us, ratio %.1f; evaluations a train: "
            "mean %.1f, worst %d\n",
            sixteen.name.c_str(), fast, slow, slow / fast, mean, worst);
    }
}

} // namespace rodway
