#include "core/sheets/sheet_limit.h"

#include "core/sheets/reading_value.h"

namespace rodway {
namespace {

/// One side of a limit: its number, nothing if it isn't given.
Result<std::optional<double>> read_side(const std::optional<std::string>& text, const char* field,
                                        const LimitRecord& record, const Quantity& quantity) {
    if (!text || text->empty()) {
        return std::optional<double>();
    }
    Reading as_typed;
    as_typed.text = *text;
    as_typed.unit = record.unit.value_or(std::string());
    auto value = read_value(as_typed, quantity);
    if (value && value->is_number()) {
        return std::optional(value->middle());
    }
    Error error = value ? Error{ErrorCode::not_an_amount, {}, *text, {}, {}, {}} : value.error();
    error.field = field;
    return error;
}

bool within(double value, const SheetLimit& limit) {
    return (!limit.low || value >= *limit.low) && (!limit.high || value <= *limit.high);
}

} // namespace

Result<SheetLimit> read_limit(const LimitRecord& record, const Quantity& quantity) {
    const auto low = read_side(record.low, "low", record, quantity);
    if (!low) {
        return low.error();
    }
    const auto high = read_side(record.high, "high", record, quantity);
    if (!high) {
        return high.error();
    }
    if (!*low && !*high) {
        return Error{ErrorCode::missing_field, "low", {}, {}, {}, {}};
    }
    if (*low && *high && **low > **high) {
        return Error{ErrorCode::out_of_range, "low", *record.low, *record.high, {}, {}};
    }
    SheetLimit limit;
    limit.quantity = quantity.id;
    limit.position = record.position.value_or(std::string());
    limit.low = *low;
    limit.high = *high;
    limit.holds_for = record.serviceable ? LimitFor::serviceable : LimitFor::new_parts;
    limit.source = record.source;
    return limit;
}

const SheetLimit* ruling_limit(std::span<const SheetLimit> limits, std::string_view quantity,
                               std::string_view position, LimitFor holds_for) {
    const auto rank = [](const SheetLimit& limit) {
        const int own = limit.usual == UsualSource::none ? 2 : 0;
        return own + (limit.position.empty() ? 0 : 1);
    };
    const SheetLimit* ruling = nullptr;
    for (const SheetLimit& limit : limits) {
        const bool here = limit.position.empty() || limit.position == position;
        if (limit.quantity != quantity || !here || limit.holds_for != holds_for) {
            continue;
        }
        if (ruling == nullptr || rank(limit) >= rank(*ruling)) {
            ruling = &limit;
        }
    }
    return ruling;
}

SheetVerdict judge(const Interval& value, const SheetLimit& limit) {
    // Numbers typed in inches and limits typed in inches meet as millimetres: a limit that is met
    // exactly is met, whatever the last bit of the conversion.
    constexpr double last_bits = 1e-9;
    SheetLimit eased = limit;
    if (eased.low) {
        *eased.low -= last_bits;
    }
    if (eased.high) {
        *eased.high += last_bits;
    }
    if (within(value.low, eased) && within(value.high, eased)) {
        return SheetVerdict::passed;
    }
    const bool all_below = limit.low && value.high < *limit.low - last_bits;
    const bool all_above = limit.high && value.low > *limit.high + last_bits;
    return all_below || all_above ? SheetVerdict::failed : SheetVerdict::too_close;
}

} // namespace rodway
