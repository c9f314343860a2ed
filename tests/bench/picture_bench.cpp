// Change a number, get new numbers, plots and picture data: all that the window works out, drawing
// left aside.
#include <benchmark/benchmark.h>

#include "app/valvetrain/survey_pictures.h"
#include "core/clearance/causes.h"
#include "core/clearance/variant.h"
#include "tests/bench/bench_engine.h"
#include "tests/bench/same_run.h"

namespace rodway {
namespace {

std::vector<ValvePosition> positions(const Engine& engine, std::size_t count) {
    std::vector<ValvePosition> valves;
    for (std::size_t at = 0; at < count; ++at) {
        valves.push_back(engine.trains[at].position);
    }
    return valves;
}

/// What a changed number asks for; `curves` is how many valves' curves are shown.
std::size_t all_work(const Engine& stands, std::size_t curves) {
    const Engine engine = *with_variant(stands, {.lifter_taller_mm = 0.5});
    const auto lines = *survey(engine);
    const auto content = survey_curves(engine, lines, positions(engine, curves));
    return content.clearance.size() + Scene::build(engine)->parts().size();
}

void change_to_picture_data(benchmark::State& state) {
    for (auto turn : state) {
        benchmark::DoNotOptimize(
            all_work(bench::demo_v8(), static_cast<std::size_t>(state.range(0))));
    }
    state.SetLabel(std::to_string(state.range(0)) + " curves");
}
BENCHMARK(change_to_picture_data)->Arg(1)->Arg(16)->Unit(benchmark::kMicrosecond);

} // namespace

void bench::print_picture() {
    const Engine& engine = demo_v8();
    const auto lines = *survey(engine);
    const auto us = [](const auto& work) { return least_us(work, 8, 4); };
    const double all = us([&] { return all_work(engine, 1); });
    const auto share = [&](const char* what, double time) {
        std::printf("    %s: %.0f us, %.0f %%\n", what, time, 100.0 * time / all);
    };
    std::printf("\nChange a number: new numbers, plot, picture data: %.2f ms; aim 4 ms. Of it:\n",
                all / 1000.0);
    share("variant made", us([&] { return with_variant(engine, {.lifter_taller_mm = 0.5}); }));
    share("survey", us([&] { return survey(engine); }));
    share("the selected valve's curve",
          us([&] { return survey_curves(engine, lines, positions(engine, 1)); }));
    share("scene", us([&] { return Scene::build(engine); }));
    std::printf("With the curves of all 16: %.2f ms\n",
                us([&] { return all_work(engine, 16); }) / 1000.0);
    const Engine stated = with_stated_doubt();
    std::printf("With the doubt, stated in full, and the causes of all 16: %.2f ms\n",
                us([&] {
                    std::size_t causes = 0;
                    for (const Train& train : stated.trains) {
                        causes += (*causes_of(stated, train))->causes.size();
                    }
                    return causes + all_work(stated, 1);
                }) / 1000.0);
}

} // namespace rodway
