#pragma once

#include <string>
#include <vector>

#include "core/castings/passage.h"
#include "core/engine/engine.h"
#include "core/engine/field_reader.h"

namespace rodway {

/// "trains/3I/tube/…": the port tube.
[[nodiscard]] Passage read_tube(FieldReader& fields, const std::string& path);

/// "trains/3I/passages/NAME/…": what else the rod goes through, by name.
[[nodiscard]] std::vector<Passage> read_further_passages(FieldReader& fields,
                                                         const std::string& path);

/// What a train's passages must mean together with the rest of it: their axes run from the lifter
/// to the rocker, and one in the intake needs a flange.
void check_passages(FieldReader& fields, const Engine& engine, const Train& train,
                    const std::string& path);

/// Something in the intake of a bank whose head carries none is refused.
void check_intake_is_there(FieldReader& fields, const Engine& engine, Casting casting,
                           std::size_t bank);

} // namespace rodway
