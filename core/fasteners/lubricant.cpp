#include "core/fasteners/lubricant.h"

#include <algorithm>
#include <utility>

#include "core/sheets/row_statistics.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double lubricated_scatter = 2.88 / 34.18; // Shigley, table 8-14
constexpr double dry_scatter = 4.91 / 34.3;         // Shigley, table 8-13

Lubricant from_book(const char* id, double factor, double scatter) {
    return {id, factor, scatter, FigureSource::published, FigureSource::published};
}

} // namespace

NutFactor Lubricant::nut_factor() const {
    return {factor / (1.0 + 2.0 * scatter), factor, factor / (1.0 - 2.0 * scatter)};
}

const std::vector<Lubricant>& lubricants() {
    static const std::vector<Lubricant> all{
        from_book("plain_black", 0.30, dry_scatter),
        from_book("zinc", 0.20, dry_scatter),
        from_book("lubricated", 0.18, lubricated_scatter),
        from_book("cadmium", 0.16, dry_scatter),
    };
    return all;
}

Result<Lubricant> lubricant_called(std::string_view id) {
    std::string known;
    for (const Lubricant& each : lubricants()) {
        if (each.id == id) {
            return each;
        }
        known += (known.empty() ? "" : " ") + each.id;
    }
    return Error{ErrorCode::not_a_choice, "lubricant", std::string(id), known, {}, {}};
}

Result<Lubricant> own_lubricant(std::string name, double factor, double scatter) {
    if (auto bad = outside("factor", factor, {0.03, 0.6, {}})) {
        return *bad;
    }
    if (auto bad = outside("scatter", scatter, {0.0, 0.4, {}})) {
        return *bad;
    }
    return Lubricant{std::move(name), factor, scatter, FigureSource::shop, FigureSource::shop};
}

Result<Lubricant> lubricant_from_trials(std::string name, Torque torque, double diameter_mm,
                                        const std::vector<Force>& preloads) {
    constexpr std::size_t least_trials = 3;
    if (preloads.size() < least_trials) {
        return Error{ErrorCode::too_few_rows,      "preload", std::to_string(preloads.size()),
                     std::to_string(least_trials), {},        {}};
    }
    if (auto bad = outside("torque", torque.in_Nm(), {0.1, 5000.0, "Nm"})) {
        return *bad;
    }
    if (auto bad = outside("diameter", diameter_mm, {2.0, 60.0, "mm"})) {
        return *bad;
    }
    std::vector<RowReading> row;
    for (const Force preload : preloads) {
        if (auto bad = outside("preload", preload.in_N(), {100.0, 1e6, "N"},
                               static_cast<int>(row.size()) + 1)) {
            return *bad;
        }
        row.push_back({{}, Interval::exactly(preload.in_N())});
    }
    const auto statistics = row_statistics(row);
    if (!statistics) {
        return statistics.error();
    }
    const double factor = 1000.0 * torque.in_Nm() / (statistics->mean * diameter_mm);
    return own_lubricant(std::move(name), factor,
                         *statistics->standard_deviation / statistics->mean);
}

} // namespace rodway
