#pragma once

#include <string_view>

#include "core/build/set_up_record.h"

namespace rodway {

/// Whether a set-up's field says the same with both: a value typed another way (".5" and "1/2",
/// "12.7 mm" and ".5 in") is no other value.
[[nodiscard]] bool same_field_value(std::string_view path, const TypedValue& before,
                                    const TypedValue& after);

} // namespace rodway
