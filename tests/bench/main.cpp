#include <benchmark/benchmark.h>

#include "tests/bench/same_run.h"

int main(int argc, char** argv) {
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    benchmark::Shutdown();
    rodway::bench::print_minimum();
    rodway::bench::print_growth();
    rodway::bench::print_surroundings();
    rodway::bench::print_change();
#ifdef RODWAY_BENCH_PICTURES
    rodway::bench::print_picture();
#endif
}
