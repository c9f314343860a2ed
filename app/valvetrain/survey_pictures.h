#pragma once

#include <vector>

#include "app/valvetrain/by_hand.h"
#include "core/clearance/survey.h"
#include "render/cylinder_plan.h"
#include "render/offscreen_picture.h"
#include "render/plots/clearance_curve.h"

namespace rodway {

/// A verdict as the plan's signs show it; none is no answer.
[[nodiscard]] CheckState check_state(const std::optional<Verdict>& verdict);

/// The plan with each valve's least clearance, and the verdict that rules.
[[nodiscard]] PlanContent survey_plan(const Engine& engine,
                                      const std::vector<ValveClearance>& lines,
                                      const ByHand& by_hand);

/// Clearance and lift of some valves through a turn, with the limit and each minimum marked.
[[nodiscard]] ClearanceCurveContent survey_curves(const Engine& engine,
                                                  const std::vector<ValveClearance>& lines,
                                                  const std::vector<ValvePosition>& valves);

/// The closest spot of one valve, labelled. The line must have an answer.
[[nodiscard]] ClosestSpot closest_spot(const Engine& engine, const ValveClearance& line);

/// Crank angle at which a line's minimum stands: its opening flank, or the middle of the heel.
[[nodiscard]] CrankAngle angle_of_minimum(const Engine& engine, const ValveClearance& line);

/// One valve's train at its tightest, the others faded; without a line, the whole engine.
[[nodiscard]] PictureRequest survey_picture(const Engine& engine, const ValveClearance* line,
                                            PictureSize size, const Palette& palette);

} // namespace rodway
