#pragma once

#include <optional>
#include <vector>

#include "core/engine/engine.h"

namespace rodway {

/// What there is to say of one valve's spring.
enum class SpringStatus {
    answered,
    no_train,             ///< the set-up has no train for this valve, so no spring either
    no_spring,            ///< no spring in the set-up
    train_does_not_close, ///< its lift isn't known: only what stands with the valve closed is
};

/// One valve's spring and the lift that works it.
struct SpringLine {
    ValvePosition valve;
    SpringStatus status = SpringStatus::answered;
    TrainStatus train = TrainStatus::answered;
    const ValveSpring* spring = nullptr;      ///< none in the set-up
    std::optional<double> full_valve_lift_mm; ///< net of lash
    std::optional<SpringAtFullLift> open;
    bool lobe_estimated = false;

    /// The spring works higher or lower than its loads were listed: their rates are carried on.
    [[nodiscard]] bool beyond_loads() const;
};

/// Of every valve there is, by cylinder, intake before exhaust. `engine` must outlive it.
[[nodiscard]] std::vector<SpringLine> spring_lines(const Engine& engine);

/// Every valve has both its spring and its lift.
[[nodiscard]] bool all_answered(const std::vector<SpringLine>& lines);

} // namespace rodway
