#pragma once

#include <QStringList>
#include <vector>

#include "core/clearance/survey.h"
#include "render/tube_drawing.h"

namespace rodway {

/// Which view down which passage.
struct TubeChoice {
    ValvePosition valve;
    std::size_t passage = 0; ///< 0: the port tube, then the train's further passages
    CrankAngle crank;
    std::optional<double> depth_mm; ///< of the cut between the ends; left out: where it is closest
};

/// The passages of a valve's train, the port tube first; empty for a valve without a train.
[[nodiscard]] QStringList passage_words(const Engine& engine, const ValvePosition& valve);

/// The passage as it stands; nothing where there is none of that number.
[[nodiscard]] std::optional<Bore> passage_in_place(const Engine& engine, const ValvePosition& valve,
                                                   std::size_t passage);

/// The depth at which the cut between the ends is made, mm from the rocker end.
[[nodiscard]] double middle_depth_mm(const Engine& engine, const std::vector<ValveClearance>& lines,
                                     const TubeChoice& choice);

/// The bore at both ends and between them, the rod in it, and where it is closest. A valve without
/// a train, or whose train doesn't close, says so.
[[nodiscard]] TubeContent tube_content(const Engine& engine,
                                       const std::vector<ValveClearance>& lines,
                                       const TubeChoice& choice);

} // namespace rodway
