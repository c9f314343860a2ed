#pragma once

#include <string>

#include "core/engine/field_reader.h"
#include "core/valvetrain/train.h"

namespace rodway {

/// The rod's length between ball centres, mm, from whichever one of "length", "overall_length",
/// "effective_length" and "gauge_length" stands under `path`, the rod's ends being read already.
/// Refused: none of them or two; a size that the one given needs and that is absent, by its name.
double read_rod_length_mm(FieldReader& fields, const Pushrod& rod, const std::string& path);

} // namespace rodway
