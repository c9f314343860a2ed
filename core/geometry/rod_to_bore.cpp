#include "core/geometry/rod_to_bore.h"

#include <cmath>

#include "core/geometry/least_along.h"

// Geometry
// --------
// Seen along the bore, its outline is the core (a point, or for an obround a segment of half length
// `half_straight`) grown by R. With r the distance of a point from the core, R - r is its signed
// distance to the bore's surface, inside and out. A rounding of radius e at an end is the sharp
// edge of a bore of radius R + e that ends e earlier, grown by e: so at each end
//     distance = hypot(R + e - r, h) - e      with h the height above the plane that lies e deeper,
// for h > 0 and r < R + e, and h - e over the material. Between those planes it is R - r.
//
// Along the rod's axis r is convex, so between the planes R - r less a radius that runs evenly is
// concave, and each section is least at one of its ends or at a plane. Beyond a plane the distance
// is one to a fixed set, and least_along.h bounds it.

namespace rodway {
namespace {

/// The axis in the bore's own directions: x the long way, z along the bore, from its centre.
class AxisInBore {
  public:
    AxisInBore(const Bore& bore, const Vec3& lower_K, const Vec3& upper_K)
        : bore_(bore), lower_K_(lower_K) {
        const bool round = !(bore.half_straight_mm > 0.0);
        x_K_ = round ? bore.axis_K.unitOrthogonal() : bore.long_way_K;
        y_K_ = bore.axis_K.cross(x_K_);
        half_straight_ = round ? 0.0 : bore.half_straight_mm;
        const Vec3 along = upper_K - lower_K;
        length_ = along.norm();
        direction_K_ = along / length_;
        const Vec3 from = lower_K - bore.centre_K;
        from_ = Vec3(from.dot(x_K_), from.dot(y_K_), from.dot(bore.axis_K));
        step_ = Vec3(direction_K_.dot(x_K_), direction_K_.dot(y_K_), direction_K_.dot(bore.axis_K));
    }

    [[nodiscard]] Vec3 local(double t) const { return from_ + t * step_; }
    [[nodiscard]] Vec3 at_K(double t) const { return lower_K_ + t * direction_K_; }
    [[nodiscard]] double station_of(double height_mm) const {
        return (height_mm - from_.z()) / step_.z();
    }
    [[nodiscard]] double length() const { return length_; }
    [[nodiscard]] const Vec3& direction() const { return step_; } ///< in the bore's directions
    [[nodiscard]] bool points_up() const { return step_.z() > 0.0; }
    /// Nearest point of the outline's core.
    [[nodiscard]] double core_x(double t) const {
        return std::clamp(from_.x() + t * step_.x(), -half_straight_, half_straight_);
    }
    [[nodiscard]] double from_core(double t) const {
        const double x = std::abs(from_.x() + t * step_.x()) - half_straight_;
        const double y = from_.y() + t * step_.y();
        return x > 0.0 ? std::sqrt(x * x + y * y) : std::abs(y);
    }
    /// Unit, in the bore's directions, from the core to the axis; any if the axis is on the core.
    [[nodiscard]] Vec3 outward(double t) const {
        const Vec3 here = local(t);
        const Vec3 out(here.x() - core_x(t), here.y(), 0.0);
        const double r = out.norm();
        return r > 0.0 ? Vec3(out / r) : Vec3::UnitY();
    }
    [[nodiscard]] Vec3 to_bank_K(const Vec3& local) const {
        return bore_.centre_K + local.x() * x_K_ + local.y() * y_K_ + local.z() * bore_.axis_K;
    }

  private:
    const Bore& bore_;
    Vec3 lower_K_, direction_K_, x_K_, y_K_;
    Vec3 from_, step_;
    double half_straight_ = 0.0;
    double length_ = 0.0;
};

/// One end of the bore as a sharp edge, the rounding to be taken off the distance.
struct SharpEnd {
    BoreEnd end;
    double outward; ///< +1 at the top, -1 at the bottom
    double edge_mm;
    double plane_mm; ///< height of the plane, the rounding deeper than the end
    double rim_mm;   ///< radius there
    double crossing; ///< station at which the axis crosses it
};

SharpEnd sharp_end(const Bore& bore, const AxisInBore& axis, BoreEnd end) {
    const bool top = end == BoreEnd::top;
    const double edge = top ? bore.top_edge_radius_mm : bore.bottom_edge_radius_mm;
    const double outward = top ? 1.0 : -1.0;
    const double plane = outward * (bore.length_mm / 2.0 - edge);
    return {end, outward, edge, plane, bore.bore_radius_mm + edge, axis.station_of(plane)};
}

class Search {
  public:
    Search(const Bore& bore, const AxisInBore& axis)
        : bore_(bore),
          axis_(axis),
          ends_{sharp_end(bore, axis, BoreEnd::top), sharp_end(bore, axis, BoreEnd::bottom)} {}

    /// Asked this way round, what is no number doesn't go through.
    [[nodiscard]] bool goes_through() const {
        return axis_.points_up() && ends_[1].crossing >= 0.0 &&
               ends_[0].crossing <= axis_.length() &&
               axis_.from_core(ends_[0].crossing) < bore_.bore_radius_mm &&
               axis_.from_core(ends_[1].crossing) < bore_.bore_radius_mm;
    }

    void offer(const RoundSection& section) {
        const double from = std::max(section.from_mm, ends_[1].crossing);
        const double to = std::min(section.to_mm, ends_[0].crossing);
        if (from <= to) {
            offer_between(section, from);
            offer_between(section, to);
        }
        offer_beyond(section, ends_[0], std::max(section.from_mm, ends_[0].crossing),
                     section.to_mm);
        offer_beyond(section, ends_[1], section.from_mm,
                     std::min(section.to_mm, ends_[1].crossing));
    }

    /// Whether the axis itself stays out of the rounded edges.
    [[nodiscard]] bool clears_edges() const {
        for (const SharpEnd& end : ends_) {
            const bool top = end.end == BoreEnd::top;
            const LeastAlong least = least_from_fixed_set(
                [&](double t) { return to_sharp_edge(end, t); }, top ? end.crossing : 0.0,
                top ? axis_.length() : end.crossing, 0.0);
            if (!(least.value_mm > end.edge_mm)) {
                return false;
            }
        }
        return true;
    }

    [[nodiscard]] bool found() const { return found_; }
    [[nodiscard]] ClosestBall closest() const;

  private:
    [[nodiscard]] double to_sharp_edge(const SharpEnd& end, double t) const {
        const double above = std::max(0.0, end.outward * (axis_.local(t).z() - end.plane_mm));
        const double inside = end.rim_mm - axis_.from_core(t);
        return inside > 0.0 ? std::sqrt(inside * inside + above * above) : above;
    }

    /// The point of an end's sharp edge, or of the face around it, that is nearest to a station.
    [[nodiscard]] Vec3 edge_point(const SharpEnd& end, double t) const {
        if (axis_.from_core(t) < end.rim_mm) {
            return Vec3(axis_.core_x(t), 0.0, end.plane_mm) + end.rim_mm * axis_.outward(t);
        }
        const Vec3 here = axis_.local(t);
        return {here.x(), here.y(), end.plane_mm};
    }
    [[nodiscard]] double edge_slope(const SharpEnd& end, double t) const;

    void offer_between(const RoundSection& section, double t) {
        keep(bore_.bore_radius_mm - axis_.from_core(t) - section.radius_at(t), t, section, nullptr);
    }

    void offer_beyond(const RoundSection& section, const SharpEnd& end, double from, double to) {
        if (!(from <= to)) {
            return;
        }
        const double taper = section.taper();
        const double taken_off = end.edge_mm + section.radius_at(0.0);
        const LeastAlong least =
            least_from_fixed_set([&](double t) { return to_sharp_edge(end, t); }, from, to, taper,
                                 clearance_ + taken_off);
        keep(least.value_mm - taken_off, least.at_mm, section, &end);
    }

    void keep(double clearance, double t, const RoundSection& section, const SharpEnd* beyond) {
        if (clearance < clearance_) {
            found_ = true;
            clearance_ = clearance;
            station_ = t;
            section_ = &section;
            beyond_ = beyond;
        }
    }

    const Bore& bore_;
    const AxisInBore& axis_;
    std::array<SharpEnd, 2> ends_;
    bool found_ = false;
    double clearance_ = std::numeric_limits<double>::infinity();
    double station_ = 0.0;
    const RoundSection* section_ = nullptr;
    const SharpEnd* beyond_ = nullptr; ///< the end past which the nearest ball stands, if it does
};

/// How the distance to an end's sharp edge changes along the axis.
double Search::edge_slope(const SharpEnd& end, double t) const {
    const Vec3 here = axis_.local(t);
    const Vec3 rim = edge_point(end, t);
    return (here - rim).normalized().dot(axis_.direction());
}

ClosestBall Search::closest() const {
    ClosestBall ball;
    double t = station_;
    double clearance = clearance_;
    const bool inside_section = t > section_->from_mm && t < section_->to_mm;
    if (beyond_ && inside_section && t != beyond_->crossing) {
        const double from = beyond_->outward > 0.0 ? beyond_->crossing : section_->from_mm;
        const double to = beyond_->outward > 0.0 ? section_->to_mm : beyond_->crossing;
        t = level_station(
            [&](double station) { return edge_slope(*beyond_, station) - section_->taper(); }, t,
            std::max(from, section_->from_mm), std::min(to, section_->to_mm));
        clearance = to_sharp_edge(*beyond_, t) - beyond_->edge_mm - section_->radius_at(t);
    }
    ball.clearance_mm = clearance;
    ball.station_mm = t;
    ball.ball_radius_mm = section_->radius_at(t);
    ball.taper = section_->taper();
    ball.held_by_rod = t == section_->from_mm || t == section_->to_mm;
    ball.p_axis_K = axis_.at_K(t);
    const Vec3 here = axis_.local(t);
    const Vec3 outward = axis_.outward(t);
    ball.end = beyond_ ? beyond_->end : here.z() >= 0.0 ? BoreEnd::top : BoreEnd::bottom;
    if (!beyond_) {
        const Vec3 wall = Vec3(axis_.core_x(t), 0.0, here.z()) + bore_.bore_radius_mm * outward;
        ball.p_wall_K = axis_.to_bank_K(wall);
        ball.normal_K = axis_.to_bank_K(outward) - bore_.centre_K;
        return ball;
    }
    const Vec3 rim = edge_point(*beyond_, t);
    const Vec3 to_rim = rim - here;
    const Vec3 normal = to_rim / to_rim.norm();
    ball.p_wall_K = axis_.to_bank_K(rim - beyond_->edge_mm * normal);
    ball.normal_K = axis_.to_bank_K(normal) - bore_.centre_K;
    return ball;
}

} // namespace

std::optional<ClosestBall> rod_to_bore(const Bore& bore, const Vec3& lower_K, const Vec3& upper_K,
                                       std::span<const RoundSection> sections) {
    const AxisInBore axis(bore, lower_K, upper_K);
    Search search(bore, axis);
    if (!search.goes_through()) {
        return std::nullopt;
    }
    double thinnest = std::numeric_limits<double>::infinity();
    for (const RoundSection& section : sections) {
        search.offer(section);
        thinnest = std::min(thinnest, section.least_radius_mm());
    }
    if (!search.found()) {
        return std::nullopt;
    }
    const ClosestBall ball = search.closest();
    const bool rounded = bore.top_edge_radius_mm > 0.0 || bore.bottom_edge_radius_mm > 0.0;
    // Each point of the axis is at least the clearance and the thinnest radius from the wall.
    if (rounded && !(ball.clearance_mm + thinnest > 0.0) && !search.clears_edges()) {
        return std::nullopt;
    }
    return ball;
}

} // namespace rodway
