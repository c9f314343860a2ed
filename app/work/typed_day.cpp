#include "app/work/typed_day.h"

#include "core/sheets/day.h"

namespace rodway {

Result<std::optional<std::string>> typed_day(const std::optional<std::string>& text,
                                             const char* field) {
    if (!text) {
        return std::optional<std::string>();
    }
    auto day = parse_day(*text);
    if (!day) {
        return Error{ErrorCode::not_a_date, field, *text, {}, {}, {}};
    }
    return day;
}

} // namespace rodway
