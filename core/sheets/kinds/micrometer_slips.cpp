#include "core/sheets/kinds/micrometer_slips.h"

#include <algorithm>
#include <set>

#include "core/bottom_end/reading_slip.h"
#include "core/sheets/kinds/read_diameters.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/sheet_kinds.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

double median_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

bool typed_metric(const Taken& taken, const Quantity& quantity) {
    const std::string& unit = taken.reading.unit.empty() ? quantity.unit : taken.reading.unit;
    const auto typed = parse_length(taken.reading.text,
                                    unit == "mm" ? BareNumber::millimetres : BareNumber::inches);
    return typed && !typed->inch;
}

/// One bearing with where its readings stand.
struct ReadBearing {
    ReadDiameters journal;
    ReadDiameters bore;
    ReadDiameters housing;

    [[nodiscard]] const ReadDiameters& of(MeasuredSize size) const {
        return size == MeasuredSize::journal ? journal
               : size == MeasuredSize::bore  ? bore
                                             : housing;
    }
};

class SlipsOfSheet {
  public:
    SlipsOfSheet(const TakenReadings& readings, const BearingQuantities& quantities)
        : readings_(readings), quantities_(quantities) {
        for (const std::string& name :
             parts_read(readings, {quantities.journal, quantities.bore, quantities.housing},
                        quantities.part)) {
            const auto at = [&](std::string_view quantity) {
                return diameters_at(readings, quantity, quantities.part, name);
            };
            names_.push_back(name);
            bearings_.push_back(
                {at(quantities.journal), at(quantities.bore), at(quantities.housing)});
        }
    }

    std::vector<SheetFinding> findings() {
        std::vector<BearingReadings> bearings;
        for (std::size_t at = 0; at < bearings_.size(); ++at) {
            const ReadBearing& read = bearings_[at];
            bearings.push_back({names_[at],
                                read.journal.readings,
                                read.bore.readings,
                                read.housing.readings,
                                {},
                                {}});
        }
        const auto slips = find_slips(bearings, {}, slip_of());
        if (!slips) {
            return {};
        }
        for (const SlipFinding& slip : *slips) {
            if (slip.size) {
                for (const std::string& position : suspected_at(slip)) {
                    suspected_.insert({*slip.size, position});
                }
            }
        }
        std::vector<SheetFinding> findings;
        for (const SlipFinding& slip : *slips) {
            findings.push_back(slip.size ? of_readings(slip) : of_clearance(slip));
        }
        return findings;
    }

  private:
    [[nodiscard]] std::string_view quantity_of(MeasuredSize size) const {
        return size == MeasuredSize::journal ? quantities_.journal
               : size == MeasuredSize::bore  ? quantities_.bore
                                             : quantities_.housing;
    }
    [[nodiscard]] SlipOf slip_of() const {
        int inch = 0;
        int metric = 0;
        for (const std::string_view id :
             {quantities_.journal, quantities_.bore, quantities_.housing}) {
            const Quantity* quantity = find_quantity(id);
            for (const Taken& taken : readings_.of(id)) {
                ++(typed_metric(taken, *quantity) ? metric : inch);
            }
        }
        return metric > inch ? SlipOf::metric_micrometer : SlipOf::inch_micrometer;
    }
    [[nodiscard]] const ReadBearing& bearing(const SlipFinding& slip) const {
        const auto found = std::find(names_.begin(), names_.end(), slip.bearing);
        return bearings_[static_cast<std::size_t>(found - names_.begin())];
    }
    [[nodiscard]] std::vector<std::string> suspected_at(const SlipFinding& slip) const {
        std::vector<std::string> positions;
        for (const std::size_t reading : slip.readings) {
            positions.push_back(bearing(slip).of(*slip.size).positions[reading]);
        }
        return positions;
    }
    /// The readings of a size at one bearing that nothing is suspected of.
    [[nodiscard]] std::vector<double> good_mm(const ReadBearing& each, MeasuredSize size) const {
        std::vector<double> good;
        const ReadDiameters& read = each.of(size);
        for (std::size_t at = 0; at < read.readings.size(); ++at) {
            if (!suspected_.contains({size, read.positions[at]})) {
                good.push_back(read.readings[at].diameter_mm.middle());
            }
        }
        return good;
    }
    [[nodiscard]] std::optional<double> mates_mm(MeasuredSize size) const {
        std::vector<double> mates;
        for (const ReadBearing& each : bearings_) {
            const std::vector<double> good = good_mm(each, size);
            mates.insert(mates.end(), good.begin(), good.end());
        }
        return mates.empty() ? std::nullopt : std::optional(median_of(std::move(mates)));
    }
    [[nodiscard]] SheetFinding of_readings(const SlipFinding& slip) const {
        std::vector<double> values;
        for (const std::size_t reading : slip.readings) {
            values.push_back(bearing(slip).of(*slip.size).readings[reading].diameter_mm.middle());
        }
        const double read_mm = median_of(std::move(values));
        return {PointedOut::misread_by_a_turn,
                std::string(quantity_of(*slip.size)),
                suspected_at(slip),
                {read_mm, mates_mm(*slip.size).value_or(read_mm - slip.too_large_mm),
                 slip.too_large_mm},
                Dimension::length};
    }
    [[nodiscard]] SheetFinding of_clearance(const SlipFinding& slip) const {
        const ReadBearing& read = bearing(slip);
        const double clearance_mm = median_of(good_mm(read, MeasuredSize::bore)) -
                                    median_of(good_mm(read, MeasuredSize::journal));
        return {PointedOut::misread_by_a_turn,
                std::string(quantities_.clearance),
                {std::string(quantities_.mark) + slip.bearing},
                {clearance_mm, clearance_mm - slip.too_large_mm, slip.too_large_mm},
                Dimension::length};
    }

    const TakenReadings& readings_;
    const BearingQuantities& quantities_;
    std::vector<std::string> names_;
    std::vector<ReadBearing> bearings_;
    std::set<std::pair<MeasuredSize, std::string>> suspected_;
};

} // namespace

std::vector<SheetFinding> micrometer_slips(const TakenReadings& readings,
                                           const BearingQuantities& quantities) {
    return SlipsOfSheet(readings, quantities).findings();
}

} // namespace rodway
