#include "core/sheets/rod_clearance_reading.h"

#include <algorithm>
#include <cctype>
#include <string>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr double greatest_mm = 25.0;

std::string small_letters(std::string_view text) {
    std::string plain;
    for (const char c : text) {
        if (!std::isspace(static_cast<unsigned char>(c))) {
            plain += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        }
    }
    return plain;
}

} // namespace

Result<RodClearanceReading> parse_rod_clearance(std::string_view text, bool inches) {
    if (const std::string word = small_letters(text);
        word == "touch" || word == "touches" || word == "contact") {
        return RodClearanceReading{true, 0.0, 0.0};
    }
    const auto typed = parse_length(text, inches ? BareNumber::inches : BareNumber::millimetres);
    if (!typed) {
        return typed.error();
    }
    RodClearanceReading reading{false, typed->low.in_mm(), typed->high.in_mm()};
    if (reading.low_mm < 0.0 || reading.high_mm > greatest_mm) {
        Error error{ErrorCode::out_of_range,
                    std::string(rod_clearance_quantity),
                    std::string(text),
                    {},
                    {},
                    {}};
        const double unit = inches ? Length::mm_per_inch : 1.0;
        error.limits = Limits{0.0, greatest_mm / unit, inches ? "in" : "mm"};
        return error;
    }
    if (reading.high_mm == 0.0 && typed->firmness == Firmness::plain) {
        reading.touch = true;
        return reading;
    }
    const double step = typed->resolution.in_mm();
    switch (typed->firmness) {
        case Firmness::below:
            reading.low_mm = 0.0;
            break;
        case Firmness::above:
            reading.high_mm = greatest_mm;
            break;
        case Firmness::about:
            reading.low_mm = std::max(0.0, reading.low_mm - step);
            reading.high_mm += step;
            break;
        case Firmness::plain:
            if (!typed->is_interval()) {
                reading.low_mm = std::max(0.0, reading.low_mm - step / 2.0);
                reading.high_mm += step / 2.0;
            }
            break;
    }
    return reading;
}

Verdict judge(const RodClearanceReading& reading, const RodClearanceLimits& limits) {
    if (reading.touch) {
        return Verdict::contact;
    }
    const double middle = (reading.low_mm + reading.high_mm) / 2.0;
    return judge(middle, middle - reading.low_mm, limits);
}

} // namespace rodway
