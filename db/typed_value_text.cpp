#include "db/typed_value_text.h"

#include <cstddef>

namespace rodway {

std::string to_edit_text(const TypedValue& value) {
    RODWAY_ASSERT(value.unit.find(' ') == std::string::npos);
    const bool text_has_space = value.text.find(' ') != std::string::npos;
    if (value.unit.empty() && !text_has_space) return value.text;
    return value.text + ' ' + value.unit;
}

Result<TypedValue> typed_value_from(const std::string& text) {
    const std::size_t space = text.rfind(' ');
    TypedValue value{text, {}};
    if (space != std::string::npos)
        value = TypedValue{text.substr(0, space), text.substr(space + 1)};
    if (value.text.empty()) return Error{ErrorCode::empty_text, {}, text, {}, {}, {}};
    // One value has one form: else the history could differ from the record and mean the same.
    if (to_edit_text(value) != text) {
        return Error{ErrorCode::wrong_type, {}, text, to_edit_text(value), {}, {}};
    }
    return value;
}

} // namespace rodway
