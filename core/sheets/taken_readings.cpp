#include "core/sheets/taken_readings.h"

#include <algorithm>
#include <limits>

#include "core/sheets/reading_interval.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

const Quantity* find_among(std::span<const Quantity> own, std::string_view id) {
    const auto found =
        std::find_if(own.begin(), own.end(), [&](const Quantity& one) { return one.id == id; });
    return found == own.end() ? find_quantity(id) : &*found;
}

} // namespace

std::optional<Interval> Taken::range() const {
    return interval_of(value);
}

std::optional<Interval> Taken::reach() const {
    constexpr double no_end = std::numeric_limits<double>::infinity();
    if (value.is_number() && value.firmness == Firmness::above) {
        return Interval{value.low, no_end};
    }
    if (value.is_number() && value.firmness == Firmness::below) {
        return Interval{-no_end, value.high};
    }
    return range();
}

TakenReadings::TakenReadings(const std::vector<Reading>& readings, std::span<const Quantity> own) {
    for (const Reading& reading : readings) {
        if (const Quantity* quantity = find_among(own, reading.quantity)) {
            take(reading, *quantity);
        } else {
            not_read_.push_back(
                {reading, {ErrorCode::no_such_record, "quantity", reading.quantity, {}, {}, {}}});
        }
    }
}

void TakenReadings::take(const Reading& reading, const Quantity& quantity) {
    const auto place = parse_sheet_position(reading.position, quantity.place);
    if (!place) {
        not_read_.push_back({reading, place.error()});
        return;
    }
    auto read = read_value(reading, quantity);
    if (!read) {
        not_read_.push_back({reading, read.error()});
        return;
    }
    ReadingValue value = std::move(read).value();
    std::vector<Taken>& row = taken_[quantity.id];
    const auto [known, is_new] =
        where_[quantity.id].try_emplace(sheet_position_text(*place), row.size());
    const auto there =
        is_new ? row.end() : row.begin() + static_cast<std::ptrdiff_t>(known->second);
    if (value.said == Said::same) {
        // As the reading before it: the last one written elsewhere on the row.
        const Taken* before = nullptr;
        for (const Taken& one : row) {
            const bool elsewhere = there == row.end() || &one != &*there;
            if (elsewhere && (before == nullptr || one.reading.id > before->reading.id)) {
                before = &one;
            }
        }
        if (before != nullptr) {
            value = before->value;
        }
    }
    if (there == row.end()) {
        row.push_back({*place, std::move(value), reading, {}});
        return;
    }
    there->retaken.push_back(there->reading.id);
    there->earlier.push_back({there->reading.id, there->value});
    there->value = std::move(value);
    there->reading = reading;
}

std::span<const Taken> TakenReadings::of(std::string_view quantity) const {
    const auto found = taken_.find(quantity);
    return found == taken_.end() ? std::span<const Taken>() : found->second;
}

const Taken* TakenReadings::at(std::string_view quantity, std::string_view position) const {
    const auto row = where_.find(quantity);
    if (row == where_.end()) {
        return nullptr;
    }
    const auto there = row->second.find(position);
    return there == row->second.end() ? nullptr : &of(quantity)[there->second];
}

std::optional<Interval> TakenReadings::number(std::string_view quantity,
                                              std::string_view position) const {
    const Taken* there = at(quantity, position);
    return there == nullptr ? std::nullopt : there->range();
}

std::optional<std::string> TakenReadings::word(std::string_view quantity,
                                               std::string_view position) const {
    const Taken* there = at(quantity, position);
    if (there == nullptr || there->value.said != Said::words) {
        return std::nullopt;
    }
    return there->value.words;
}

} // namespace rodway
