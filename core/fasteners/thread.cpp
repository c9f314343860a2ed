#include "core/fasteners/thread.h"

#include <array>
#include <cmath>
#include <numbers>
#include <span>

#include "core/fasteners/thread_reader.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct InchRow {
    const char* size;
    double diameter_in;
    int coarse; ///< threads in an inch
    int fine;
};
constexpr std::array inch_rows{
    InchRow{"#4", 0.112, 40, 48},   InchRow{"#5", 0.125, 40, 44},
    InchRow{"#6", 0.138, 32, 40},   InchRow{"#8", 0.164, 32, 36},
    InchRow{"#10", 0.190, 24, 32},  InchRow{"#12", 0.216, 24, 28},
    InchRow{"1/4", 0.25, 20, 28},   InchRow{"5/16", 0.3125, 18, 24},
    InchRow{"3/8", 0.375, 16, 24},  InchRow{"7/16", 0.4375, 14, 20},
    InchRow{"1/2", 0.5, 13, 20},    InchRow{"9/16", 0.5625, 12, 18},
    InchRow{"5/8", 0.625, 11, 18},  InchRow{"3/4", 0.75, 10, 16},
    InchRow{"7/8", 0.875, 9, 14},   InchRow{"1", 1.0, 8, 12},
    InchRow{"1-1/8", 1.125, 7, 12}, InchRow{"1-1/4", 1.25, 7, 12},
    InchRow{"1-3/8", 1.375, 6, 12}, InchRow{"1-1/2", 1.5, 6, 12},
};

struct MetricRow {
    double diameter_mm;
    double coarse_mm;
    std::array<double, 3> fine_mm; ///< 0: none
};
constexpr std::array metric_rows{
    MetricRow{3.0, 0.5, {}},
    MetricRow{4.0, 0.7, {}},
    MetricRow{5.0, 0.8, {}},
    MetricRow{6.0, 1.0, {0.75}},
    MetricRow{7.0, 1.0, {0.75}},
    MetricRow{8.0, 1.25, {1.0, 0.75}},
    MetricRow{9.0, 1.25, {1.0, 0.75}},
    MetricRow{10.0, 1.5, {1.25, 1.0, 0.75}},
    MetricRow{11.0, 1.5, {1.0, 0.75}},
    MetricRow{12.0, 1.75, {1.5, 1.25, 1.0}},
    MetricRow{14.0, 2.0, {1.5, 1.25, 1.0}},
    MetricRow{16.0, 2.0, {1.5, 1.0}},
    MetricRow{18.0, 2.5, {2.0, 1.5, 1.0}},
    MetricRow{20.0, 2.5, {2.0, 1.5, 1.0}},
    MetricRow{22.0, 2.5, {2.0, 1.5, 1.0}},
    MetricRow{24.0, 3.0, {2.0, 1.5, 1.0}},
    MetricRow{27.0, 3.0, {2.0, 1.5, 1.0}},
    MetricRow{30.0, 3.5, {2.0, 1.5, 1.0}},
    MetricRow{33.0, 3.5, {2.0, 1.5}},
    MetricRow{36.0, 4.0, {3.0, 2.0, 1.5}},
};

Thread inch_thread(const InchRow& row, ThreadSeries series) {
    const int count = series == ThreadSeries::coarse ? row.coarse : row.fine;
    return {ThreadSystem::inch,
            series,
            row.size,
            std::string(row.size) + "-" + std::to_string(count),
            Length::inches(row.diameter_in).in_mm(),
            Length::mm_per_inch / count};
}

Thread metric_thread(const MetricRow& row, double pitch_mm) {
    const std::string size = "M" + exact_text(row.diameter_mm);
    const bool coarse = pitch_mm == row.coarse_mm;
    return {ThreadSystem::metric,
            coarse ? ThreadSeries::coarse : ThreadSeries::fine,
            size,
            coarse ? size : size + "x" + exact_text(pitch_mm),
            row.diameter_mm,
            pitch_mm};
}

std::vector<Thread> make_threads() {
    std::vector<Thread> all;
    for (const InchRow& row : inch_rows) {
        all.push_back(inch_thread(row, ThreadSeries::coarse));
        all.push_back(inch_thread(row, ThreadSeries::fine));
    }
    for (const MetricRow& row : metric_rows) {
        all.push_back(metric_thread(row, row.coarse_mm));
        for (const double pitch_mm : row.fine_mm) {
            if (pitch_mm > 0.0) {
                all.push_back(metric_thread(row, pitch_mm));
            }
        }
    }
    return all;
}

double circle_area(double diameter_mm) {
    return std::numbers::pi / 4.0 * diameter_mm * diameter_mm;
}

} // namespace

double Thread::stress_area_mm2() const {
    const double share = system == ThreadSystem::inch ? 9.0 * std::numbers::sqrt3 / 16.0
                                                      : 13.0 * std::numbers::sqrt3 / 24.0;
    return circle_area(diameter_mm - share * pitch_mm);
}

double Thread::minor_diameter_mm() const {
    return diameter_mm - (system == ThreadSystem::inch ? 1.299038 : 1.226869) * pitch_mm;
}

double Thread::mean_diameter_mm() const {
    return (diameter_mm + minor_diameter_mm()) / 2.0;
}

const std::vector<Thread>& threads() {
    static const std::vector<Thread> all = make_threads();
    return all;
}

std::vector<Thread> threads_of(std::string_view size) {
    std::vector<Thread> of_size;
    for (const Thread& thread : threads()) {
        if (thread.size == size) {
            of_size.push_back(thread);
        }
    }
    return of_size;
}

Result<Thread> parse_thread(std::string_view text) {
    ThreadReader reader(text);
    if (reader.at_end()) {
        return Error{ErrorCode::empty_text, "thread", std::string(text), {}, {}, {}};
    }
    if (!reader.take_size()) {
        return reader.no_thread();
    }
    if (!reader.take_pitch()) {
        return reader.refusal();
    }
    if (!reader.at_end()) {
        return reader.no_thread();
    }
    return reader.thread() ? Result<Thread>(*reader.thread()) : reader.refusal();
}

} // namespace rodway
