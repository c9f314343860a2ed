#include "core/intake/port_heights.h"

#include <map>
#include <set>
#include <string>
#include <utility>

#include "core/units/figure_band.h"

namespace rodway {
namespace {

std::optional<Error> wrong_ports(const std::vector<PortHeight>& ports) {
    if (ports.empty()) {
        return Error{ErrorCode::too_few_rows, "port", "0", "1", {}, {}};
    }
    const Limits heights{-500.0, 500.0, "mm"};
    std::set<std::pair<std::size_t, IntakeEnd>> seen;
    int line = 0;
    for (const PortHeight& port : ports) {
        ++line;
        const Interval side = Interval::exactly(static_cast<double>(port.side));
        if (auto bad = first_outside({{"side", side, {0.0, 3.0, {}}, line},
                                      {"head", port.head_mm, heights, line},
                                      {"intake", port.intake_mm, heights, line}})) {
            return bad;
        }
        if (!seen.insert({port.side, port.end}).second) {
            return Error{
                ErrorCode::duplicate_field, "port", std::to_string(port.side), {}, line, {}};
        }
    }
    return std::nullopt;
}

SideMismatch side_of(std::size_t side, const std::map<IntakeEnd, Interval>& ends) {
    std::vector<Interval> all_mm;
    all_mm.reserve(ends.size());
    for (const auto& [end, mismatch_mm] : ends) {
        all_mm.push_back(mismatch_mm);
    }
    SideMismatch found{side, mean_of(all_mm), {}};
    if (ends.size() == 2) {
        found.tilt_mm = ends.at(IntakeEnd::front) - ends.at(IntakeEnd::rear);
    }
    return found;
}

/// Of a signed error: below, above, neither, or open. One that isn't known says nothing.
class Findings {
  public:
    explicit Findings(double tolerance_mm)
        : band_{-tolerance_mm, tolerance_mm, FigureSource::shop} {}

    void judge(const std::optional<Interval>& off_mm, PortFinding above, PortFinding below) {
        if (!off_mm) {
            return;
        }
        const BandStanding at = standing(*off_mm, band_);
        if (at == BandStanding::above) {
            found_.push_back(above);
        } else if (at == BandStanding::below) {
            found_.push_back(below);
        } else if (at != BandStanding::inside) {
            undecided_ = true;
        }
    }
    [[nodiscard]] std::vector<PortFinding> all() const {
        std::vector<PortFinding> all = found_;
        if (undecided_) {
            all.push_back(PortFinding::undecided);
        }
        return all.empty() ? std::vector{PortFinding::matched} : all;
    }

  private:
    FigureBand band_;
    std::vector<PortFinding> found_;
    bool undecided_ = false;
};

} // namespace

Result<PortHeights> port_heights(const std::vector<PortHeight>& ports, double tolerance_mm) {
    if (const auto bad = wrong_ports(ports)) {
        return *bad;
    }
    if (const auto bad =
            first_outside({{"tolerance", Interval::exactly(tolerance_mm), {0.0, 10.0, "mm"}}})) {
        return *bad;
    }
    PortHeights found;
    std::map<std::size_t, std::map<IntakeEnd, Interval>> by_side;
    for (const PortHeight& port : ports) {
        const Interval mismatch_mm = port.intake_mm - port.head_mm;
        found.ports.push_back({port.side, port.end, mismatch_mm});
        by_side[port.side][port.end] = mismatch_mm;
    }
    std::vector<Interval> means_mm;
    std::vector<Interval> tilts_mm;
    for (const auto& [side, ends] : by_side) {
        found.sides.push_back(side_of(side, ends));
        means_mm.push_back(found.sides.back().mean_mm);
        if (found.sides.back().tilt_mm) {
            tilts_mm.push_back(*found.sides.back().tilt_mm);
        }
    }
    found.mean_mm = mean_of(means_mm);
    if (tilts_mm.size() == found.sides.size()) {
        found.tilt_mm = mean_of(tilts_mm);
    }
    if (found.sides.size() > 1) {
        found.sides_differ_mm = means_mm.front() - means_mm.back();
    }
    Findings findings(tolerance_mm);
    findings.judge(found.mean_mm, PortFinding::intake_high, PortFinding::intake_low);
    findings.judge(found.tilt_mm, PortFinding::front_high, PortFinding::rear_high);
    findings.judge(found.sides_differ_mm, PortFinding::sides_differ, PortFinding::sides_differ);
    found.findings = findings.all();
    return found;
}

} // namespace rodway
