#include "core/bottom_end/rotating_balance.h"

#include <algorithm>
#include <utility>

namespace rodway {
namespace {

using Parts = std::vector<WeighedPart>;

/// Each kind's parts together, the last mass of each.
std::vector<Parts> kinds_of(const Parts& parts) {
    std::vector<Parts> kinds;
    for (const WeighedPart& part : parts) {
        auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const Parts& of_kind) {
            return of_kind.front().kind == part.kind;
        });
        if (kind == kinds.end()) {
            kinds.push_back({part});
            continue;
        }
        const auto before = std::find_if(kind->begin(), kind->end(), [&](const WeighedPart& other) {
            return other.cylinder == part.cylinder;
        });
        if (before != kind->end()) {
            before->mass_g = part.mass_g;
        } else {
            kind->push_back(part);
        }
    }
    return kinds;
}

} // namespace

Result<std::vector<PartSpread>> spread_of_parts(const std::vector<WeighedPart>& parts) {
    if (parts.empty()) {
        return Error{ErrorCode::too_few_rows, "mass", "0", "1", {}, {}};
    }
    for (std::size_t at = 0; at < parts.size(); ++at) {
        if (auto bad = wrong_interval("mass", parts[at].mass_g, {-50.0, 50000.0, "g"},
                                      static_cast<int>(at) + 1)) {
            return *bad;
        }
    }
    std::vector<PartSpread> spreads;
    for (const Parts& kind : kinds_of(parts)) {
        std::vector<RowReading> row;
        for (const WeighedPart& part : kind) {
            row.push_back({std::to_string(part.cylinder), part.mass_g});
        }
        auto masses = row_statistics(row);
        if (!masses) {
            return masses.error();
        }
        PartSpread spread{kind.front().kind, *masses, {}};
        const Interval lightest = kind[masses->least].mass_g;
        for (std::size_t at = 0; at < kind.size(); ++at) {
            const Interval more = kind[at].mass_g - lightest;
            spread.parts.push_back(
                {kind[at].cylinder,
                 at == masses->least ? Interval{} : Interval{std::max(0.0, more.low), more.high}});
        }
        spreads.push_back(std::move(spread));
    }
    return spreads;
}

} // namespace rodway
