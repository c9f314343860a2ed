// Change a number, get new numbers: the part of it that core does.
#include <benchmark/benchmark.h>

#include "core/clearance/causes.h"
#include "core/clearance/variant_table.h"
#include "core/engine/lobes_made.h"
#include "tests/bench/bench_engine.h"
#include "tests/bench/same_run.h"

namespace rodway {
namespace {

const Variant& one_size() {
    static const Variant variant{.lifter_taller_mm = 0.5};
    return variant;
}

const Variant& every_size() {
    static const Variant variant{0.5, 0.1, {0.1, 0.1}, 0.2, -0.2, {0.1, 0.1}, 0.05, 0.2};
    return variant;
}

std::size_t tried(const Engine& engine, const Variant& variant) {
    return survey(*with_variant(engine, variant))->size();
}

std::size_t causes_of_all(const Engine& engine) {
    std::size_t causes = 0;
    for (const Train& train : engine.trains) {
        const auto found = causes_of(engine, train);
        causes += *found ? (*found)->causes.size() : 0;
    }
    return causes;
}

void variant_and_survey(benchmark::State& state) {
    const Variant& variant = state.range(0) == 0 ? one_size() : every_size();
    for (auto turn : state) {
        benchmark::DoNotOptimize(tried(bench::demo_v8(), variant));
    }
    state.SetLabel(state.range(0) == 0 ? "one size changed" : "every size changed");
}
BENCHMARK(variant_and_survey)->Arg(0)->Arg(1)->Unit(benchmark::kMicrosecond);

void survey_with_stated_doubt(benchmark::State& state) {
    const Engine engine = bench::with_stated_doubt();
    for (auto turn : state) {
        benchmark::DoNotOptimize(survey(engine));
    }
}
BENCHMARK(survey_with_stated_doubt)->Unit(benchmark::kMicrosecond);

void causes_of_16(benchmark::State& state) {
    for (auto turn : state) {
        benchmark::DoNotOptimize(causes_of_all(bench::demo_v8()));
    }
}
BENCHMARK(causes_of_16)->Unit(benchmark::kMicrosecond);

void table_of_four_variants(benchmark::State& state) {
    const std::vector<NamedVariant> four{{"lifter", one_size()},
                                         {"every", every_size()},
                                         {"rod", {.rod_thicker_mm = 0.5}},
                                         {"gasket", {.gasket_thicker_mm = {-0.3, -0.3}}}};
    for (auto turn : state) {
        benchmark::DoNotOptimize(variant_table(bench::demo_v8(), four));
    }
}
BENCHMARK(table_of_four_variants)->Unit(benchmark::kMicrosecond);

void set_up_to_engine(benchmark::State& state) {
    for (auto turn : state) {
        benchmark::DoNotOptimize(make_engine(bench::demo_v8_fields()));
    }
}
BENCHMARK(set_up_to_engine)->Unit(benchmark::kMicrosecond);

} // namespace

void bench::print_change() {
    const Engine& engine = demo_v8();
    const Engine stated = with_stated_doubt();
    const auto us = [](const auto& work) { return least_us(work, 10, 10); };
    const double as_it_stands = us([&] { return survey(engine); });
    const auto line = [&](const char* what, double time) {
        std::printf("%s: %.0f us, %.1f of a survey as it stands\n", what, time,
                    time / as_it_stands);
    };
    std::printf("\nChange a number, core's part; a survey of 16 as it stands: %.0f us\n",
                as_it_stands);
    line("one size changed and surveyed", us([&] { return tried(engine, one_size()); }));
    line("every size changed and surveyed", us([&] { return tried(engine, every_size()); }));
    line("survey with everything stated of its doubt", us([&] { return survey(stated); }));
    line("causes of all 16", us([&] { return causes_of_all(engine); }));
    line("changed, surveyed, with doubt and causes of all 16", us([&] {
             const Engine changed = *with_variant(stated, one_size());
             return survey(changed)->size() + causes_of_all(changed);
         }));
    line("engine made of the set-up again, lobes smoothed",
         least_us([&] { return make_engine(demo_v8_fields()); }, 3, 1));
    LobesMade made;
    line("engine made of the set-up again, lobes kept, as the window does",
         us([&] { return make_engine(demo_v8_fields(), made); }));
}

} // namespace rodway
