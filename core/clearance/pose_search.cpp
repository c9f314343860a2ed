#include "core/clearance/pose_search.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

// Gaps alone often can't tell a pose from its mirror: seen from the tube, the rod crosses each
// mouth at some distance from the middle, and as it swings it moves there along nearly one line;
// gaps without a clock direction look the same from the other side of that line. So the search
// starts from a grid of places for both ends, and, from every pose it finds, at that pose's mirrors
// at either end and at both.

namespace rodway {
namespace {

constexpr double step_mm = 1e-4; // of the differences by which slopes are taken
constexpr double step_rad = 1e-6;
constexpr double settled = 1e-5;        // in stated standard deviations
constexpr double same_pose = 0.02;      // likewise
constexpr double same_start = 0.1;      // likewise
constexpr double longest_step = 2.0;    // likewise
constexpr std::size_t most_minima = 16; // more are a line of poses, not separate ones
constexpr double plane_weight = 1e6;    // holds a search in a plane
constexpr double slight_pull = 0.01;    // of misfit for one stated standard deviation
constexpr double little_barrier = 4.0;  // of misfit: two standard deviations
constexpr int connecting_halvings = 3;

/// Starts that are tried once only.
class Tried {
  public:
    /// False where one as good as the same was there before.
    bool add(const PoseVector& start) {
        const bool is_new = std::none_of(
            starts_.begin(), starts_.end(),
            [&](const PoseVector& other) { return (other - start).norm() < same_start; });
        if (is_new) {
            starts_.push_back(start);
        }
        return is_new;
    }

  private:
    std::vector<PoseVector> starts_;
};

double gap_in(const Bore& bore, const FeltGap& felt) {
    return felt.clock_hours ? gap_anywhere_mm(bore, felt.rod, felt.end, *felt.clock_hours)
                            : tightest_gap_anywhere(bore, felt.rod, felt.end).gap_mm;
}

} // namespace

double outside_mm(const FeltGap& felt, double gap_mm) {
    if (felt.high_mm && gap_mm > *felt.high_mm) {
        return gap_mm - *felt.high_mm;
    }
    if (felt.low_mm && gap_mm < *felt.low_mm) {
        return gap_mm - *felt.low_mm;
    }
    return 0.0;
}

Bore PoseSearch::bore_at(const PoseVector& in_stated_u) const {
    return at_pose(bore_, as_pose(in_stated_u.cwiseProduct(stated_u_)));
}

PosedBore PoseSearch::posed(const PoseVector& in_stated_u) const {
    return at_pose_with_rates(bore_, as_pose(in_stated_u.cwiseProduct(stated_u_)));
}

double PoseSearch::gap_mm(const FeltGap& felt, const PoseVector& in_stated_u) const {
    return gap_in(bore_at(in_stated_u), felt);
}

PoseVector PoseSearch::slope_by_steps(const FeltGap& felt, const PoseVector& in_stated_u,
                                      double clock_hours) const {
    PoseVector slope;
    const PoseVector at = in_stated_u.cwiseProduct(stated_u_);
    for (int unknown = 0; unknown < 4; ++unknown) {
        const double step = unknown < 2 ? step_mm : step_rad;
        const auto stepped = [&](double by) {
            PoseVector moved = at;
            moved[unknown] += by;
            return gap_anywhere_mm(at_pose(bore_, as_pose(moved)), felt.rod, felt.end, clock_hours);
        };
        slope[unknown] = (stepped(step) - stepped(-step)) / (2.0 * step) * stated_u_[unknown];
    }
    return slope;
}

PoseSearch::GapSlope PoseSearch::gap_slope(const FeltGap& felt, const PosedBore& here,
                                           const PoseVector& in_stated_u) const {
    // The least gap moves as the gap at that place does.
    const auto tightest = felt.clock_hours
                              ? std::nullopt
                              : std::optional(tightest_gap_anywhere(here.bore, felt.rod, felt.end));
    const double hours = tightest ? tightest->clock_hours : *felt.clock_hours;
    GapSlope found;
    const auto gradient = gap_gradient(here.bore, felt.rod, felt.end, hours);
    if (!gradient) { // far off: seldom met, and only on the way
        found.gap_mm = gap_in(here.bore, felt);
        found.slope = slope_by_steps(felt, in_stated_u, hours);
        return found;
    }
    found.gap_mm = tightest ? tightest->gap_mm : gradient->gap_mm;
    for (int unknown = 0; unknown < 4; ++unknown) {
        const BoreRate& rate = here.rates[static_cast<std::size_t>(unknown)];
        found.slope[unknown] =
            (gradient->by_centre_K.dot(rate.centre_K) + gradient->by_axis_K.dot(rate.axis_K) +
             gradient->by_long_way_K.dot(rate.long_way_K)) *
            stated_u_[unknown];
    }
    return found;
}

PoseSearch::GapSlope PoseSearch::gap_slope(const FeltGap& felt,
                                           const PoseVector& in_stated_u) const {
    return gap_slope(felt, posed(in_stated_u), in_stated_u);
}

std::vector<PoseSearch::GapSlope> PoseSearch::gap_slopes(const PoseVector& in_stated_u) const {
    const PosedBore here = posed(in_stated_u);
    std::vector<GapSlope> slopes;
    slopes.reserve(felt_.size());
    for (const FeltGap& felt : felt_) {
        slopes.push_back(gap_slope(felt, here, in_stated_u));
    }
    return slopes;
}

Candidate PoseSearch::look(const PoseVector& in_stated_u) const {
    Candidate candidate;
    candidate.in_stated_u = in_stated_u;
    const Bore bore = bore_at(in_stated_u);
    for (const FeltGap& felt : felt_) {
        const double miss = std::abs(outside_mm(felt, gap_in(bore, felt))) / gauge_u_mm_;
        candidate.reading_misfit += miss * miss;
        candidate.worst_miss = std::max(candidate.worst_miss, miss);
    }
    return candidate;
}

Candidate PoseSearch::descend(const PoseVector& start) const {
    return descend(start, Pull{}, std::nullopt);
}

Candidate PoseSearch::descend(const PoseVector& start, const Pull& drawn,
                              const std::optional<Plane>& in) const {
    constexpr int most_steps = 60;
    const auto cost = [&](const Candidate& at) {
        const double off = in ? in->normal.dot(at.in_stated_u - in->point) : 0.0;
        return at.reading_misfit + drawn.weight * (at.in_stated_u - drawn.towards).squaredNorm() +
               plane_weight * off * off;
    };
    Candidate here = look(start);
    double damping = 1e-3;
    for (int step = 0; step < most_steps; ++step) {
        PoseMatrix curving = drawn.weight * PoseMatrix::Identity();
        PoseVector pull = drawn.weight * (here.in_stated_u - drawn.towards);
        const PosedBore bore = posed(here.in_stated_u);
        for (const FeltGap& felt : felt_) {
            const GapSlope at = gap_slope(felt, bore, here.in_stated_u);
            const double miss = outside_mm(felt, at.gap_mm) / gauge_u_mm_;
            if (miss != 0.0) {
                const PoseVector slope = at.slope / gauge_u_mm_;
                curving += slope * slope.transpose();
                pull += miss * slope;
            }
        }
        if (in) {
            curving += plane_weight * in->normal * in->normal.transpose();
            pull += plane_weight * in->normal.dot(here.in_stated_u - in->point) * in->normal;
        }
        bool better = false;
        double moved = 0.0;
        while (!better && damping < 1e10) {
            PoseMatrix damped = curving;
            damped.diagonal() *= 1.0 + damping;
            PoseVector by = -damped.ldlt().solve(pull);
            by *= std::min(1.0, longest_step / std::max(by.norm(), 1e-300));
            const Candidate there = look(here.in_stated_u + by);
            better = cost(there) < cost(here);
            damping = better ? damping / 5.0 : damping * 4.0;
            if (better) {
                moved = by.norm();
                here = there;
            }
        }
        damping = std::max(damping, 1e-9);
        if (!better || moved < settled) {
            break;
        }
    }
    return here;
}

PoseVector PoseSearch::ends_moved(const PoseVector& from, const Vec2& top_mm,
                                  const Vec2& bottom_mm) const {
    const Vec2 sideways = (top_mm + bottom_mm) / 2.0;
    const Vec2 lean = (top_mm - bottom_mm) / bore_.length_mm;
    PoseVector moved = from;
    for (int unknown = 0; unknown < 4; ++unknown) {
        if (stated_u_[unknown] > 0.0) {
            moved[unknown] +=
                (unknown < 2 ? sideways[unknown] : lean[unknown - 2]) / stated_u_[unknown];
        }
    }
    return moved;
}

std::vector<PoseVector> PoseSearch::starts() const {
    // As far out as an end may well stand, by what was stated.
    const double out = 1.3 * std::hypot(stated_u_[0], stated_u_[2] * bore_.length_mm / 2.0);
    const std::array<Vec2, 5> places{Vec2(0, 0), Vec2(out, 0), Vec2(-out, 0), Vec2(0, out),
                                     Vec2(0, -out)};
    std::vector<PoseVector> all;
    for (const Vec2& top : places) {
        for (const Vec2& bottom : places) {
            all.push_back(ends_moved(PoseVector::Zero(), top, bottom));
        }
    }
    return all;
}

std::vector<PoseVector> PoseSearch::mirrors(const PoseVector& of) const {
    const Bore bore = bore_at(of);
    const Vec3 twelve = clock_direction_K(bore, 12.0);
    const Vec3 three = clock_direction_K(bore, 3.0);
    const auto crossing = [&](const FeltGap& felt, BoreEnd end) {
        const auto at = mouth_crossing_K(bore, felt.rod, end).value_or(Vec3::Zero());
        return Vec2(at.dot(twelve), at.dot(three));
    };
    // For each end, the tube's movements that put the rod on the other side of the middle: through
    // the middle, across the line along which the rod swings there, and along that line.
    const auto movements = [&](BoreEnd end) {
        Vec2 middle = Vec2::Zero();
        for (const FeltGap& felt : felt_) {
            middle += crossing(felt, end) / static_cast<double>(felt_.size());
        }
        Vec2 swing = Vec2::Zero();
        for (const FeltGap& felt : felt_) {
            const Vec2 off = crossing(felt, end) - middle;
            swing = off.norm() > swing.norm() ? off : swing;
        }
        const Vec2 along = swing.norm() > 1e-6 ? Vec2(swing.normalized()) : Vec2(1.0, 0.0);
        const Vec2 on_line = along.dot(middle) * along;
        return std::array<Vec2, 4>{Vec2::Zero(), 2.0 * middle, 2.0 * (middle - on_line),
                                   2.0 * on_line};
    };
    std::vector<PoseVector> all;
    for (const Vec2& top : movements(BoreEnd::top)) {
        for (const Vec2& bottom : movements(BoreEnd::bottom)) {
            all.push_back(ends_moved(of, top, bottom));
        }
    }
    return all;
}

void PoseSearch::add(std::vector<Candidate>& known, const Candidate& candidate) const {
    const auto same = std::find_if(known.begin(), known.end(), [&](const Candidate& other) {
        return (other.in_stated_u - candidate.in_stated_u).norm() < same_pose;
    });
    if (same == known.end()) {
        known.push_back(candidate);
    } else if (candidate.misfit() < same->misfit()) {
        *same = candidate;
    }
}

std::vector<Candidate> PoseSearch::minima() const {
    std::vector<Candidate> fitting;
    Candidate best = descend(PoseVector::Zero());
    Tried tried;
    const auto try_from = [&](const PoseVector& start) {
        if (!tried.add(start)) {
            return;
        }
        const Candidate found = descend(start);
        if (found.misfit() < best.misfit()) {
            best = found;
        }
        if (fits(found) && fitting.size() < most_minima) {
            add(fitting, found);
        }
    };
    if (fits(best)) {
        fitting.push_back(best);
    }
    if (felt_.empty()) {
        return {best};
    }
    for (const PoseVector& start : starts()) {
        try_from(start);
    }
    for (std::size_t at = 0; at < fitting.size(); ++at) {
        for (const PoseVector& start : mirrors(fitting[at].in_stated_u)) {
            try_from(start);
        }
    }
    if (fitting.empty()) {
        return {best};
    }
    std::sort(fitting.begin(), fitting.end(),
              [](const Candidate& a, const Candidate& b) { return a.misfit() < b.misfit(); });
    return fitting;
}

std::vector<Candidate> PoseSearch::elsewhere(const std::vector<Candidate>& minima) const {
    std::vector<PoseVector> from = starts();
    for (const Candidate& minimum : minima) {
        const std::vector<PoseVector> mirrored = mirrors(minimum.in_stated_u);
        from.insert(from.end(), mirrored.begin(), mirrored.end());
    }
    std::vector<Candidate> found;
    Tried tried;
    for (const PoseVector& start : from) {
        if (!tried.add(start)) {
            continue;
        }
        const Candidate there = descend(start, Pull{start, slight_pull}, std::nullopt);
        if (fits(there)) {
            add(found, there);
        }
    }
    return found;
}

bool PoseSearch::connected(const Candidate& a, const Candidate& b) const {
    return connected(a, b, std::max(a.misfit(), b.misfit()) + little_barrier, connecting_halvings);
}

bool PoseSearch::connected(const Candidate& a, const Candidate& b, double most_misfit,
                           int halvings) const {
    const PoseVector way = b.in_stated_u - a.in_stated_u;
    if (halvings == 0 || way.norm() < same_pose) {
        return true;
    }
    const PoseVector middle = (a.in_stated_u + b.in_stated_u) / 2.0;
    Candidate between = look(middle);
    if (between.misfit() > most_misfit) {
        // The poses that fit may lie round a bend: look in the plane half-way.
        between = descend(middle, Pull{}, Plane{middle, way.normalized()});
    }
    return between.misfit() <= most_misfit &&
           (between.in_stated_u - middle).norm() < 0.75 * way.norm() &&
           connected(a, between, most_misfit, halvings - 1) &&
           connected(between, b, most_misfit, halvings - 1);
}

} // namespace rodway
