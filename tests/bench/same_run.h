#pragma once

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdio>
#include <ctime>

namespace rodway::bench {

/// Least microseconds of processor time of several batches: the least disturbed one. What is
/// compared is measured so in one run, so that a ratio holds whatever the machine.
template <typename Work>
double least_us(const Work& work, int batches, int times) {
    double least = 1e18;
    for (int batch = 0; batch < batches; ++batch) {
        const std::clock_t start = std::clock();
        for (int time = 0; time < times; ++time) {
            benchmark::DoNotOptimize(work());
        }
        const double spent_us = 1e6 * double(std::clock() - start) / CLOCKS_PER_SEC;
        least = std::min(least, spent_us / times);
    }
    return least;
}

// Each prints its own comparison, after the benchmarks proper.
void print_minimum();
void print_growth();
void print_surroundings();
void print_change();
void print_picture(); ///< only where the window is built

} // namespace rodway::bench
