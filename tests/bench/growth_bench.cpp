// How the work grows with the number of trains: a survey of 8, 16, 32 … of the demo's.
#include <benchmark/benchmark.h>

#include "core/clearance/survey.h"
#include "tests/bench/bench_engine.h"
#include "tests/bench/same_run.h"

namespace rodway {
namespace {

void survey_of_trains(benchmark::State& state) {
    const Engine engine = bench::with_trains(static_cast<std::size_t>(state.range(0)));
    for (auto turn : state) {
        benchmark::DoNotOptimize(survey(engine));
    }
    state.SetComplexityN(state.range(0));
}
BENCHMARK(survey_of_trains)
    ->RangeMultiplier(2)
    ->Range(8, 128)
    ->Unit(benchmark::kMicrosecond)
    ->Complexity(benchmark::oN);

} // namespace

void bench::print_growth() {
    std::printf(
        "\nSurvey by trains: each valve's minimum beside all it may touch, and its doubt\n");
    double first_us = 0.0;
    for (const std::size_t trains : {8U, 16U, 32U, 64U, 128U}) {
        const Engine engine = with_trains(trains);
        const double us = least_us([&] { return survey(engine); }, 10, 20) / double(trains);
        first_us = trains == 8 ? us : first_us;
        std::printf("%4zu trains: %.2f us a train, %.2f of what it is with 8\n", trains, us,
                    us / first_us);
    }
}

} // namespace rodway
