#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/castings/hot_stated.h"
#include "core/engine/engine.h"

namespace rodway {

/// How much longer each part is for each of its millimetres, in the order of `HotPart`.
using PartStrains = std::array<double, hot_part_count>;

/// The set-up's paths of what would have to be stated before an engine can be grown: of every part
/// in it what it is made of and how warm it runs, and the lengths that its places don't tell.
[[nodiscard]] std::vector<std::string> missing_to_grow(const Engine& engine,
                                                       const HotStated& stated);

/// An engine whose adjusters stand where the cold lash was set and stay there, like one that was
/// set cold and then run: each train as it closes, with no adjuster left. Empty for a train that
/// doesn't close.
[[nodiscard]] std::vector<std::optional<Train>> trains_as_set(const Engine& engine);

/// The engine with every part grown; nothing is missing of what is stated. `as_set`: its trains
/// from `trains_as_set`; those that don't close keep to the cold one.
///
/// Each part grows alike in all directions. The block grows about the crank's axis, along the crank
/// from its front face; heads from their deck faces, along the crank from the middle of their bank;
/// the intake about the middle of the engine, lying on its gaskets' faces wherever those have gone
/// (`intake_movement_E`), or, on one face alone, held by that face. A lifter stands on its lobe,
/// whose base circle and lift grow with the camshaft; rockers grow about their pivots, which go
/// with the head; a valve's tip goes with its seat and its own length; rods grow in length and
/// thickness. Gaskets grow in thickness. Clamping, bending and warmth uneven within a part are left
/// out.
[[nodiscard]] Engine grown_engine(const Engine& engine,
                                  const std::vector<std::optional<Train>>& as_set,
                                  const HotStated& stated, const PartStrains& strains);

} // namespace rodway
