#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/work/build_sheets.h"
#include "render/joint_drawing.h"

namespace rodway {

/// The drawing of one joint with what its log says.
struct KnownJoint {
    JointDrawing drawing;
    std::vector<std::string> bolts; ///< positions as kept, by the drawing's bolts
};

/// Every joint of a build of which a bolt was written down or its bolts were counted.
[[nodiscard]] std::vector<KnownJoint> joint_drawings(const TakenReadings& readings,
                                                     const EnginePlaces* places);

/// Bolts of the joints in the order of tightening, pass by pass for a place that has passes: where
/// something is going to be written.
[[nodiscard]] std::vector<std::string> expected_bolts(const std::vector<KnownJoint>& joints,
                                                      Place place);
/// A bolt as kept, in one pass.
[[nodiscard]] std::string bolt_in_pass(const std::string& bolt, std::size_t pass);

/// Which of them a position of the sheet speaks of, and which of its bolts; nothing if of none.
struct JointSpot {
    std::size_t joint = 0;
    std::optional<std::size_t> bolt;
};
[[nodiscard]] std::optional<JointSpot> joint_at(const std::vector<KnownJoint>& joints,
                                                const std::string& position, Place place);

} // namespace rodway
