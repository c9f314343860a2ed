#include "core/castings/shift_against_lifter.h"

#include <cmath>

namespace rodway {
namespace {

/// The directions from which one train's shifts are told.
class SeenFromLifter {
  public:
    SeenFromLifter(const Engine& engine, const Train& train)
        : lifter_K_(train.lifter.axis_K),
          rod_K_((train.rocker.pivot_K + train.rocker.ball_arm_K - train.lifter.lower_ball_K())
                     .normalized()) {
        rear_K_ = (Vec3::UnitX() - lifter_K_.x() * lifter_K_).normalized();
        outboard_K_ = engine.outboard_y_sign(train) * lifter_K_.cross(rear_K_);
    }
    [[nodiscard]] ShiftAgainstLifter of(const Vec3& moved_K) const {
        ShiftAgainstLifter shift;
        shift.moved_K = moved_K;
        shift.along_lifter_mm = lifter_K_.dot(moved_K);
        shift.rearward_mm = rear_K_.dot(moved_K);
        shift.outboard_mm = outboard_K_.dot(moved_K);
        shift.along_rod_mm = rod_K_.dot(moved_K);
        shift.across_rod_mm = (moved_K - shift.along_rod_mm * rod_K_).norm();
        return shift;
    }

  private:
    Vec3 lifter_K_;
    Vec3 rod_K_;
    Vec3 rear_K_;
    Vec3 outboard_K_;
};

} // namespace

double ShiftAgainstLifter::across_lifter_mm() const {
    return std::hypot(rearward_mm, outboard_mm);
}

Result<ShiftsAgainstLifter> shifts_against_lifter(const Engine& engine, const Train& train) {
    const SeenFromLifter seen(engine, train);
    ShiftsAgainstLifter shifts;
    std::vector<Passage> passages{train.tube};
    passages.insert(passages.end(), train.further_passages.begin(), train.further_passages.end());
    for (const Passage& passage : passages) {
        const Result<Vec3> moved = engine.casting_movement_K(passage.casting, train.bank);
        if (!moved) {
            return moved.error();
        }
        shifts.passages.push_back({passage.name, seen.of(*moved)});
    }
    shifts.ball_seat = seen.of(engine.head_movement_K(train.bank));
    return shifts;
}

} // namespace rodway
