#include "app/work/pull_import.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "app/work/kept_readings.h"
#include "core/base/assert.h"
#include "core/dyno/fuel_power.h"
#include "core/sheets/sheet_kinds.h"
#include "core/units/other_unit.h"
#include "core/units/within.h"

namespace rodway {
namespace {

/// Where a column's numbers go on the sheet.
struct Box {
    PullQuantity column;
    std::string_view quantity;
    double per_sheet_unit =
        0.0; ///< of a plain number: one of the sheet's unit, as the column holds it
};
constexpr std::array boxes{
    Box{PullQuantity::torque, "pull_torque"},
    Box{PullQuantity::power, "pull_power"},
    Box{PullQuantity::corrected_torque, "pull_torque_corrected"},
    Box{PullQuantity::corrected_power, "pull_power_corrected"},
    Box{PullQuantity::air_pressure, "pull_air_pressure"},
    Box{PullQuantity::vapour_pressure, "pull_vapour_pressure"},
    Box{PullQuantity::dry_bulb, "pull_dry_bulb"},
    Box{PullQuantity::wet_bulb, "pull_wet_bulb"},
    Box{PullQuantity::relative_humidity, "pull_humidity"},
    Box{PullQuantity::oil_pressure, "pull_oil_pressure"},
    Box{PullQuantity::oil_temperature, "pull_oil_temperature"},
    Box{PullQuantity::water_temperature, "pull_water_temperature"},
    Box{PullQuantity::fuel_flow, "pull_fuel_flow", kg_per_h_per_lb_per_h},
    Box{PullQuantity::specific_consumption, "pull_specific_consumption", g_per_kWh_per_lb_per_hp_h},
};

const Box* box_of(PullQuantity column) {
    const auto* found = std::find_if(boxes.begin(), boxes.end(),
                                     [&](const Box& box) { return box.column == column; });
    return found == boxes.end() ? nullptr : found;
}

/// A number as the sheet's box takes it.
struct BoxText {
    std::string text;
    std::string unit;
    bool as_written = true;
};

BoxText text_for(const PullNumber& number, const PullColumn& column, const Box& box,
                 const Quantity& quantity) {
    if (box.per_sheet_unit == 0.0 || column.heading.unit.id == quantity.unit) {
        return {number.written, column.heading.unit.id, true};
    }
    const MeasureUnit unit{quantity.unit, Dimension::none, box.per_sheet_unit, 0.0, {}};
    return {number_in_unit(number.value, unit, other_unit_digits(number.step, unit)), quantity.unit,
            false};
}

/// Makes one pull's readings of a table.
class PullReadings {
  public:
    PullReadings(const PullCsv& table, int number, const std::string& file_name)
        : table_(table), pull_("pull " + std::to_string(number)), file_name_(file_name) {}

    Result<std::vector<Reading>> made() {
        for (std::size_t column = 0; column < table_.columns.size(); ++column) {
            if (const auto bad = take_once(column)) {
                return *bad;
            }
        }
        for (const PullCsvRow& row : table_.rows) {
            if (const auto bad = take_row(row)) {
                return *bad;
            }
        }
        return std::move(readings_);
    }

  private:
    [[nodiscard]] static const Quantity& quantity_of(const Box& box) {
        const Quantity* quantity = find_quantity(box.quantity);
        RODWAY_ASSERT(quantity != nullptr);
        return *quantity;
    }

    std::optional<Error> add(const Quantity& quantity, const std::string& position,
                             const BoxText& said, std::optional<int> line) {
        auto reading = reading_to_keep(quantity, position, said.text, said.unit);
        if (!reading) {
            Error error = reading.error();
            error.line = line;
            return error;
        }
        readings_.push_back(std::move(reading).value());
        readings_.back().method = file_name_;
        return std::nullopt;
    }

    /// What the sheet has once a pull: one number, or from the least to the greatest of its column.
    std::optional<Error> take_once(std::size_t at) {
        const PullColumn& column = table_.columns[at];
        const Box* box = box_of(column.heading.quantity);
        if (box == nullptr || quantity_of(*box).place != Place::pull) {
            return std::nullopt;
        }
        const PullNumber* least = nullptr;
        const PullNumber* greatest = nullptr;
        for (const PullCsvRow& row : table_.rows) {
            if (const auto& number = row.numbers[at]) {
                least = least == nullptr || number->value < least->value ? &*number : least;
                greatest =
                    greatest == nullptr || number->value > greatest->value ? &*number : greatest;
            }
        }
        if (least == nullptr) {
            return std::nullopt;
        }
        BoxText said = text_for(*least, column, *box, quantity_of(*box));
        if (greatest->value > least->value) {
            said.text += " to " + greatest->written;
            varies_.push_back(at);
        }
        return add(quantity_of(*box), pull_, said, {});
    }

    std::optional<Error> take_row(const PullCsvRow& row) {
        const PullNumber& speed = *row.numbers[*table_.column_of(PullQuantity::speed)];
        const long whole_rpm = std::lround(speed.value);
        if (whole_rpm <= last_rpm_) {
            return Error{ErrorCode::order_wrong, "speed", speed.written, {}, row.line, {}};
        }
        last_rpm_ = whole_rpm;
        const std::string position = pull_ + ' ' + std::to_string(whole_rpm) + " rpm";
        const std::size_t first = readings_.size();
        std::string note;
        const auto tell = [&](const std::string& heading, const std::string& cell) {
            note += (note.empty() ? "" : "; ") + heading + ": " + cell;
        };
        for (std::size_t at = 0; at < table_.columns.size(); ++at) {
            const PullColumn& column = table_.columns[at];
            const auto& number = row.numbers[at];
            if (!number) {
                continue;
            }
            const Box* box = box_of(column.heading.quantity);
            const bool in_position = column.heading.quantity == PullQuantity::speed &&
                                     number->value == static_cast<double>(whole_rpm);
            const bool once = box != nullptr && quantity_of(*box).place == Place::pull;
            const bool alike =
                once && std::find(varies_.begin(), varies_.end(), at) == varies_.end();
            if (in_position || alike) {
                continue;
            }
            if (box == nullptr || once) {
                tell(column.written, number->written);
                continue;
            }
            const BoxText said = text_for(*number, column, *box, quantity_of(*box));
            if (!said.as_written) {
                tell(column.written, number->written);
            }
            if (const auto bad = add(quantity_of(*box), position, said, row.line)) {
                return bad;
            }
        }
        for (std::size_t at = 0; at < row.leftovers.size(); ++at) {
            if (!row.leftovers[at].empty()) {
                tell(table_.leftovers[at], row.leftovers[at]);
            }
        }
        return keep_note(note, position, first, row.line);
    }

    /// A row whose boxes are all empty has its notes at a torque that wasn't measured.
    std::optional<Error> keep_note(const std::string& note, const std::string& position,
                                   std::size_t first, int line) {
        if (note.empty()) {
            return std::nullopt;
        }
        if (first == readings_.size()) {
            if (const auto bad =
                    add(*find_quantity("pull_torque"), position, {"n/m", {}, true}, line)) {
                return bad;
            }
        }
        readings_[first].note = note;
        return std::nullopt;
    }

    const PullCsv& table_;
    std::string pull_;
    const std::string& file_name_;
    std::vector<std::size_t> varies_; ///< columns told once, whose rows differ
    long last_rpm_ = 0;
    std::vector<Reading> readings_;
};

/// Numbers of the pulls that something is written of.
std::vector<int> pulls_written(const BuildSheets& sheets) {
    std::vector<int> numbers;
    for (const Quantity& quantity : sheets.kind("dyno_pull")->quantities) {
        for (const Taken& taken : sheets.taken().of(quantity.id)) {
            if (const auto pull = taken.place.part(PlacePart::pull)) {
                numbers.push_back(std::atoi(pull->c_str()));
            }
        }
    }
    return numbers;
}

Result<int> number_for(const BuildSheets& sheets, const std::optional<int>& wanted) {
    const std::vector<int> written = pulls_written(sheets);
    const int next = written.empty() ? 1 : *std::max_element(written.begin(), written.end()) + 1;
    if (!wanted) {
        return next;
    }
    if (const auto bad = outside("pull", *wanted, {1.0, 999.0, {}})) {
        return *bad;
    }
    if (std::find(written.begin(), written.end(), *wanted) != written.end()) {
        return Error{ErrorCode::duplicate_field, "pull", std::to_string(*wanted),
                     std::to_string(next),       {},     {}};
    }
    return *wanted;
}

/// What was said beside the file, in front of what the file says.
std::optional<Error> add_said(const PullSaid& said, int number, std::vector<Reading>& readings) {
    struct One {
        const std::optional<std::string>& text;
        const char* quantity;
        const char* field;
    };
    std::vector<Reading> first;
    for (const One& one : {One{said.barometer, "pull_barometer_kind", "barometer"},
                           One{said.altitude, "pull_altitude", "altitude"},
                           One{said.correction, "pull_correction", "correction"}}) {
        if (!one.text) {
            continue;
        }
        auto reading = reading_to_keep(*find_quantity(one.quantity),
                                       "pull " + std::to_string(number), *one.text);
        if (!reading) {
            Error error = reading.error();
            error.field = one.field;
            return error;
        }
        first.push_back(std::move(reading).value());
    }
    readings.insert(readings.begin(), first.begin(), first.end());
    return std::nullopt;
}

} // namespace

Result<PullToKeep> pull_to_keep(const BuildSheets& sheets, const std::string& bytes,
                                const std::string& file_name, const PullSaid& said) {
    auto table = read_pull_csv(bytes, said.hints);
    if (!table) {
        return table.error();
    }
    if (const auto bad =
            outside("rows", static_cast<double>(table->rows.size()), {1.0, most_pull_rows, {}})) {
        return *bad;
    }
    auto raw = raw_pull(*table);
    if (!raw) {
        return raw.error();
    }
    const auto number = number_for(sheets, said.number);
    if (!number) {
        return number.error();
    }
    auto made = PullReadings(*table, *number, file_name).made();
    if (!made) {
        return made.error();
    }
    std::vector<Reading> readings = std::move(made).value();
    if (const auto bad = add_said(said, *number, readings)) {
        return *bad;
    }
    return PullToKeep{*number, std::move(table).value(), std::move(raw).value(),
                      std::move(readings)};
}

Result<Done> keep_pull(ShopSession& session, std::int64_t build_id, const BuildSheets& sheets,
                       const PullToKeep& pull) {
    const auto kept = keep_readings(session, build_id, sheets, pull.readings,
                                    QObject::tr("pull %1").arg(pull.number));
    if (!kept) {
        return kept.error();
    }
    return Done{};
}

} // namespace rodway
