#include "core/bottom_end/reading_slip.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/units/length.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr std::array all_sizes{MeasuredSize::journal, MeasuredSize::bore, MeasuredSize::housing};

const std::vector<DiameterReading>& readings_of(const BearingReadings& bearing, MeasuredSize size) {
    return size == MeasuredSize::journal ? bearing.journal
           : size == MeasuredSize::bore  ? bearing.bore
                                         : bearing.housing;
}

std::optional<double> nominal_of(const BearingNominal& nominal, MeasuredSize size) {
    return size == MeasuredSize::journal ? nominal.journal_mm
           : size == MeasuredSize::bore  ? nominal.bore_mm
                                         : nominal.housing_mm;
}

/// The slip that a difference is, within `within_mm`, with its sign; nothing if it is none.
std::optional<double> slip_in(double difference_mm, SlipOf slip, double within_mm) {
    const std::vector<double> steps_mm =
        slip == SlipOf::metric_micrometer
            ? std::vector<double>{0.5}
            : std::vector<double>{Length::inches(0.025).in_mm(), Length::inches(0.100).in_mm()};
    for (const double step_mm : steps_mm) {
        if (std::abs(std::abs(difference_mm) - step_mm) <= within_mm) {
            return std::copysign(step_mm, difference_mm);
        }
    }
    return std::nullopt;
}

double median_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

/// Readings of one size fall into two heaps a slip apart, or stand together.
struct Heaps {
    std::vector<std::size_t> low;
    std::vector<std::size_t> high;
    double slip_mm = 0.0; ///< 0: one heap, `low`
};

Heaps heaps_of(const std::vector<double>& values, SlipOf slip) {
    std::vector<std::size_t> order(values.size());
    for (std::size_t at = 0; at < order.size(); ++at) {
        order[at] = at;
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    const auto width = [&](std::size_t from, std::size_t to) {
        return values[order[to - 1]] - values[order[from]];
    };
    for (std::size_t cut = 1; cut < order.size(); ++cut) {
        const auto slipped =
            slip_in(values[order[cut]] - values[order[cut - 1]], slip, slip_within_mm);
        if (slipped && width(0, cut) <= slip_within_mm &&
            width(cut, order.size()) <= slip_within_mm) {
            const auto middle = order.begin() + static_cast<std::ptrdiff_t>(cut);
            return {{order.begin(), middle}, {middle, order.end()}, *slipped};
        }
    }
    return {std::move(order), {}, 0.0};
}

/// What is known of one size of one bearing while the search goes on.
struct SizeState {
    std::vector<double> values;
    std::optional<double> settled_mm; ///< the size, slipped readings left out
    bool confirmed = false;           ///< nominal or mates agree with it
    std::optional<std::size_t> finding;
};

class SlipSearch {
  public:
    SlipSearch(const std::vector<BearingReadings>& bearings, const BearingNominal& nominal,
               SlipOf slip)
        : bearings_(bearings), nominal_(nominal), slip_(slip) {}

    std::vector<SlipFinding> findings() {
        for (const MeasuredSize size : all_sizes) {
            auto& states = states_[static_cast<std::size_t>(size)];
            states.resize(bearings_.size());
            for (std::size_t bearing = 0; bearing < bearings_.size(); ++bearing) {
                for (const DiameterReading& reading : readings_of(bearings_[bearing], size)) {
                    states[bearing].values.push_back(reading.diameter_mm.middle());
                }
            }
            split_readings(size);
            if (!other_nominal(size)) {
                compare_sizes(size);
            }
        }
        for (std::size_t bearing = 0; bearing < bearings_.size(); ++bearing) {
            look_at_clearance(bearing);
        }
        return std::move(findings_);
    }

  private:
    SizeState& state(MeasuredSize size, std::size_t bearing) {
        return states_[static_cast<std::size_t>(size)][bearing];
    }

    /// What the size should be by what isn't this bearing: nominal, else the middle of the others.
    std::optional<double> reference_mm(MeasuredSize size, std::size_t bearing) {
        if (const auto nominal = nominal_of(nominal_, size)) {
            return nominal;
        }
        return mates_mm(size, bearing);
    }
    /// The middle of the other bearings, if there are two at least.
    std::optional<double> mates_mm(MeasuredSize size, std::size_t bearing) {
        std::vector<double> others;
        for (std::size_t other = 0; other < bearings_.size(); ++other) {
            if (other != bearing && state(size, other).settled_mm) {
                others.push_back(*state(size, other).settled_mm);
            }
        }
        return others.size() >= 2 ? std::optional(median_of(std::move(others))) : std::nullopt;
    }

    void add(std::size_t bearing, MeasuredSize size, SlipFinding finding) {
        finding.bearing = bearings_[bearing].bearing;
        finding.size = size;
        state(size, bearing).finding = findings_.size();
        findings_.push_back(std::move(finding));
    }

    /// Readings of one size against each other: the smaller heap is suspected; of equal heaps the
    /// one that is a slip from where the size should be.
    void split_readings(MeasuredSize size) {
        std::vector<std::pair<std::size_t, Heaps>> undecided;
        for (std::size_t bearing = 0; bearing < bearings_.size(); ++bearing) {
            const Heaps heaps = heaps_of(state(size, bearing).values, slip_);
            if (heaps.slip_mm == 0.0) {
                settle(size, bearing, heaps.low);
            } else if (heaps.low.size() != heaps.high.size()) {
                suspect(size, bearing, heaps, heaps.low.size() < heaps.high.size(),
                        {SlipAgainst::mates});
            } else {
                undecided.emplace_back(bearing, heaps);
            }
        }
        for (const auto& [bearing, heaps] : undecided) {
            const auto reference = reference_mm(size, bearing);
            const double from_low =
                reference ? std::abs(middle_of(size, bearing, heaps.low) - *reference) : 0.0;
            const double from_high =
                reference ? std::abs(middle_of(size, bearing, heaps.high) - *reference) : 0.0;
            if (reference && std::min(from_low, from_high) <= slip_within_mm) {
                const bool by_nominal = nominal_of(nominal_, size).has_value();
                suspect(size, bearing, heaps, from_high < from_low,
                        {by_nominal ? SlipAgainst::nominal : SlipAgainst::mates});
            } else {
                SlipFinding finding;
                finding.suspect = SlipSuspect::some_readings;
                finding.readings = heaps.high;
                finding.too_large_mm = heaps.slip_mm;
                finding.against = {SlipAgainst::mates};
                add(bearing, size, std::move(finding));
            }
        }
    }

    double middle_of(MeasuredSize size, std::size_t bearing,
                     const std::vector<std::size_t>& readings) {
        std::vector<double> values;
        values.reserve(readings.size());
        for (const std::size_t reading : readings) {
            values.push_back(state(size, bearing).values[reading]);
        }
        return median_of(std::move(values));
    }
    void settle(MeasuredSize size, std::size_t bearing, const std::vector<std::size_t>& readings) {
        if (!readings.empty()) {
            state(size, bearing).settled_mm = middle_of(size, bearing, readings);
        }
    }
    void suspect(MeasuredSize size, std::size_t bearing, const Heaps& heaps, bool low_heap,
                 std::vector<SlipAgainst> against) {
        SlipFinding finding;
        finding.suspect = SlipSuspect::readings;
        finding.readings = low_heap ? heaps.low : heaps.high;
        std::sort(finding.readings.begin(), finding.readings.end());
        finding.too_large_mm = low_heap ? -heaps.slip_mm : heaps.slip_mm;
        finding.against = std::move(against);
        add(bearing, size, std::move(finding));
        settle(size, bearing, low_heap ? heaps.high : heaps.low);
    }

    /// All bearings, two at least, are off from nominal by one and the same slip.
    bool other_nominal(MeasuredSize size) {
        const auto nominal = nominal_of(nominal_, size);
        std::optional<double> slip_mm;
        int counted = 0;
        for (std::size_t bearing = 0; nominal && bearing < bearings_.size(); ++bearing) {
            const auto settled = state(size, bearing).settled_mm;
            if (!settled) {
                continue;
            }
            const auto here = slip_in(*settled - *nominal, slip_, slip_within_mm);
            if (!here || (slip_mm && *slip_mm != *here)) {
                return false;
            }
            slip_mm = here;
            ++counted;
        }
        if (counted < 2) {
            return false;
        }
        SlipFinding finding;
        finding.suspect = SlipSuspect::nominal;
        finding.size = size;
        finding.too_large_mm = *slip_mm;
        finding.against = {SlipAgainst::nominal};
        findings_.push_back(std::move(finding));
        for (std::size_t bearing = 0; bearing < bearings_.size(); ++bearing) {
            state(size, bearing).confirmed = state(size, bearing).settled_mm.has_value();
        }
        return true;
    }

    /// Whole sizes against nominal and against the other bearings.
    void compare_sizes(MeasuredSize size) {
        for (std::size_t bearing = 0; bearing < bearings_.size(); ++bearing) {
            SizeState& here = state(size, bearing);
            if (!here.settled_mm) {
                continue;
            }
            SlipFinding finding;
            finding.suspect = SlipSuspect::whole_size;
            const auto look = [&](std::optional<double> should_be, SlipAgainst against) {
                if (!should_be) {
                    return;
                }
                const double off_mm = *here.settled_mm - *should_be;
                here.confirmed = here.confirmed || std::abs(off_mm) <= slip_within_mm;
                if (const auto slip_mm = slip_in(off_mm, slip_, slip_within_mm)) {
                    finding.too_large_mm = *slip_mm;
                    finding.against.push_back(against);
                }
            };
            look(mates_mm(size, bearing), SlipAgainst::mates);
            look(nominal_of(nominal_, size), SlipAgainst::nominal);
            // Nominal rules: what agrees with it is right, whatever the others are.
            const bool by_nominal = std::count(finding.against.begin(), finding.against.end(),
                                               SlipAgainst::nominal) > 0;
            if (!finding.against.empty() && (by_nominal || !here.confirmed)) {
                here.confirmed = false;
                for (std::size_t reading = 0; reading < here.values.size(); ++reading) {
                    finding.readings.push_back(reading);
                }
                add(bearing, size, std::move(finding));
            }
        }
    }

    /// Bore less journal by settled sizes, and which bore it is.
    std::optional<std::pair<double, MeasuredSize>> clearance_mm(std::size_t bearing) {
        const auto journal = state(MeasuredSize::journal, bearing).settled_mm;
        const auto bore = state(MeasuredSize::bore, bearing).settled_mm;
        const auto housing = state(MeasuredSize::housing, bearing).settled_mm;
        const auto& shell = bearings_[bearing].shell_mm;
        if (journal && bore) {
            return std::pair{*bore - *journal, MeasuredSize::bore};
        }
        if (journal && housing && shell) {
            return std::pair{*housing - 2.0 * shell->middle() - *journal, MeasuredSize::housing};
        }
        return std::nullopt;
    }

    /// What the clearance should be: as stated, as in the other bearings, or by common practice,
    /// which leaves it open from none to twice as much.
    std::pair<double, double> expected_clearance_mm(std::size_t bearing) {
        if (nominal_.clearance_mm) {
            return {*nominal_.clearance_mm, slip_within_mm};
        }
        std::vector<double> others;
        for (std::size_t other = 0; other < bearings_.size(); ++other) {
            const auto there = clearance_mm(other);
            if (other != bearing && there) {
                others.push_back(there->first);
            }
        }
        if (others.size() >= 2) {
            return {median_of(std::move(others)), slip_within_mm};
        }
        const double usual_mm = 0.001 * *state(MeasuredSize::journal, bearing).settled_mm;
        return {usual_mm, usual_mm + slip_within_mm};
    }

    void look_at_clearance(std::size_t bearing) {
        const auto clearance = clearance_mm(bearing);
        if (!clearance) {
            return;
        }
        const auto [expected_mm, within_mm] = expected_clearance_mm(bearing);
        const auto slip_mm = slip_in(clearance->first - expected_mm, slip_, within_mm);
        SizeState& journal = state(MeasuredSize::journal, bearing);
        SizeState& bore = state(clearance->second, bearing);
        if (!slip_mm) {
            if (std::abs(clearance->first - expected_mm) <= within_mm) {
                clear(journal);
                clear(bore);
            }
            return;
        }
        if (supports(journal, -*slip_mm) || supports(bore, *slip_mm)) {
            return;
        }
        SlipFinding finding;
        finding.bearing = bearings_[bearing].bearing;
        finding.too_large_mm = *slip_mm;
        finding.against = {SlipAgainst::clearance};
        if (journal.confirmed == bore.confirmed) {
            finding.suspect = SlipSuspect::either;
        } else {
            finding.suspect = SlipSuspect::whole_size;
            finding.size = bore.confirmed ? MeasuredSize::journal : clearance->second;
            finding.too_large_mm = bore.confirmed ? -*slip_mm : *slip_mm;
            const std::size_t count = bore.confirmed ? journal.values.size() : bore.values.size();
            for (std::size_t reading = 0; reading < count; ++reading) {
                finding.readings.push_back(reading);
            }
        }
        findings_.push_back(std::move(finding));
    }

    /// Whether the clearance bears out what a size is suspected of already; then it is added to it.
    bool supports(const SizeState& size, double too_large_mm) {
        if (!size.finding) {
            return false;
        }
        SlipFinding& finding = findings_[*size.finding];
        if (finding.suspect != SlipSuspect::whole_size || finding.too_large_mm != too_large_mm) {
            return false;
        }
        finding.against.push_back(SlipAgainst::clearance);
        return true;
    }

    /// A size that only its nominal speaks against, with a clearance as it should be: it is made
    /// so.
    void clear(const SizeState& size) {
        if (size.finding && findings_[*size.finding].suspect == SlipSuspect::whole_size &&
            findings_[*size.finding].against == std::vector{SlipAgainst::nominal}) {
            findings_[*size.finding].suspect = SlipSuspect::nominal;
            findings_[*size.finding].readings.clear();
        }
    }

    const std::vector<BearingReadings>& bearings_;
    const BearingNominal& nominal_;
    SlipOf slip_;
    std::array<std::vector<SizeState>, all_sizes.size()> states_;
    std::vector<SlipFinding> findings_;
};

std::optional<Error> wrong_nominal(const BearingNominal& nominal) {
    const Limits sizes{5.0, 1000.0, "mm"};
    const std::pair<const char*, std::optional<double>> all[] = {
        {"nominal/journal", nominal.journal_mm},
        {"nominal/bore", nominal.bore_mm},
        {"nominal/housing", nominal.housing_mm}};
    for (const auto& [field, size_mm] : all) {
        if (size_mm) {
            if (auto bad = outside(field, *size_mm, sizes)) {
                return bad;
            }
        }
    }
    return nominal.clearance_mm
               ? outside("nominal/clearance", *nominal.clearance_mm, {0.0, 1.0, "mm"})
               : std::nullopt;
}

} // namespace

Result<std::vector<SlipFinding>> find_slips(const std::vector<BearingReadings>& bearings,
                                            const BearingNominal& nominal, SlipOf slip) {
    if (const auto bad = wrong_nominal(nominal)) {
        return *bad;
    }
    for (const BearingReadings& bearing : bearings) {
        const auto good = bearing_clearance(bearing, {});
        if (!good) {
            return good.error();
        }
    }
    return SlipSearch(bearings, nominal, slip).findings();
}

} // namespace rodway
