#include "core/sheets/kinds/pull_averages.h"

#include <algorithm>

#include "core/sheets/sheet_kinds.h"
#include "core/sheets/stated_total.h"

namespace rodway {
namespace {

const std::vector<ReadingOfField>& band_readings() {
    static const std::vector<ReadingOfField> fields{{"band/low", "pull_band_low"},
                                                    {"band/high", "pull_band_high"}};
    return fields;
}

/// Torque and power of one kind, as quantities.
struct Pair {
    const char* torque;
    const char* power;
};
constexpr Pair averages{"pull_average_torque", "pull_average_power"};
constexpr Pair corrected_averages{"pull_average_torque_corrected", "pull_average_power_corrected"};
constexpr Pair mean_of_pulls{"pulls_average_torque", "pulls_average_power"};

/// One pull at work: figures go where the pull is.
class Averager {
  public:
    Averager(const SheetFacts& facts, const std::string& pull,
             const std::optional<PullCorrection>& correction, SheetOutcome& outcome)
        : facts_(facts), pull_(pull), correction_(correction), outcome_(outcome) {}

    void put(const std::string& quantity, const Interval& value) {
        outcome_.figures.push_back({quantity, pull_, value});
    }
    /// Puts a figure, and beside it the corrected one.
    void put_both(const std::string& quantity, const Interval& value) {
        put(quantity, value);
        if (correction_) {
            put(quantity + "_corrected", product(value, correction_->factor));
        }
    }

    void put_peaks(const std::vector<ReadRow>& rows) {
        const auto low = pull_figures(lowest(rows));
        const auto high = pull_figures(highest(rows));
        const Interval torque{low->peak_torque.torque.in_Nm(), high->peak_torque.torque.in_Nm()};
        const Interval power{low->peak_power.power.in_kW(), high->peak_power.power.in_kW()};
        put_both("pull_peak_torque", torque);
        put_both("pull_peak_power", power);
        put("pull_peak_torque_speed", speeds_at(rows, &ReadRow::torque_Nm, torque.low));
        put("pull_peak_power_speed", speeds_at(rows, &ReadRow::power_kW, power.low));
    }

    void put_averages(const std::vector<ReadRow>& rows) {
        const Pull low_pull = lowest(rows);
        const SpeedBand whole = whole_band(low_pull);
        const SpeedBand band{speed("pull_band_low").value_or(whole.low_rpm),
                             speed("pull_band_high").value_or(whole.high_rpm)};
        const auto low = band_averages(low_pull, band);
        if (!low) {
            point_out_refused(low.error(), averages.torque, pull_, band_readings(), outcome_);
            return;
        }
        const auto high = band_averages(highest(rows), band);
        put("pull_area_torque", {low->torque_by_area.in_Nm(), high->torque_by_area.in_Nm()});
        put("pull_area_power", {low->power_by_area.in_kW(), high->power_by_area.in_kW()});
        if (low->torque_of_rows && high->torque_of_rows) {
            torque_Nm_ = Interval{low->torque_of_rows->in_Nm(), high->torque_of_rows->in_Nm()};
            power_kW_ = Interval{low->power_of_rows->in_kW(), high->power_of_rows->in_kW()};
            put(averages.torque, *torque_Nm_);
            put(averages.power, *power_kW_);
        }
    }

    PullMeans means() {
        const auto raw_torque_Nm = written_or(averages.torque, torque_Nm_);
        const auto raw_power_kW = written_or(averages.power, power_kW_);
        const auto torque_Nm = corrected(corrected_averages.torque, raw_torque_Nm);
        const auto power_kW = corrected(corrected_averages.power, raw_power_kW);
        const auto word = facts_.readings.word("pull_correction", pull_).value_or("none");
        if (word != "none" && (torque_Nm || power_kW)) {
            return {word, torque_Nm, power_kW};
        }
        return {"none", raw_torque_Nm, raw_power_kW};
    }

  private:
    [[nodiscard]] std::optional<double> speed(std::string_view quantity) const {
        const auto range = facts_.readings.number(quantity, pull_);
        return range ? std::optional(range->middle()) : std::nullopt;
    }
    [[nodiscard]] std::optional<Interval> written_or(std::string_view quantity,
                                                     const std::optional<Interval>& figure) const {
        const auto written = facts_.readings.number(quantity, pull_);
        return written ? written : figure;
    }
    /// Puts the corrected mean; what was written down of it goes before it.
    std::optional<Interval> corrected(const char* quantity, const std::optional<Interval>& raw) {
        std::optional<Interval> figure;
        if (raw && correction_) {
            figure = product(*raw, correction_->factor);
            put(quantity, *figure);
        }
        return written_or(quantity, figure);
    }
    /// From the first to the last speed that may have the peak.
    static Interval speeds_at(const std::vector<ReadRow>& rows, Interval ReadRow::*figure,
                              double least) {
        std::optional<Interval> speeds;
        for (const ReadRow& row : rows) {
            if ((row.*figure).high >= least) {
                const Interval here = Interval::exactly(row.speed_rpm);
                speeds = speeds ? hull(*speeds, here) : here;
            }
        }
        return *speeds;
    }

    const SheetFacts& facts_;
    const std::string& pull_;
    const std::optional<PullCorrection>& correction_;
    SheetOutcome& outcome_;
    std::optional<Interval> torque_Nm_;
    std::optional<Interval> power_kW_;
};

/// The figures over the pulls' printed means, checked digit by digit as they were typed.
void point_out_slip(const SheetFacts& facts, const std::vector<std::string>& pulls,
                    const std::string& part, const std::string& mean, SheetOutcome& outcome) {
    const Taken* stated = facts.readings.at(mean, "");
    const Quantity& quantity = *find_quantity(mean);
    std::vector<std::string> texts;
    std::vector<const Taken*> parts;
    for (const std::string& pull : pulls) {
        const Taken* taken = facts.readings.at(part, pull);
        if (stated == nullptr || taken == nullptr || taken->reading.unit != stated->reading.unit) {
            return;
        }
        texts.push_back(taken->reading.text);
        parts.push_back(taken);
    }
    const Dimension dimension = dimension_of(quantity.form);
    const auto checked =
        check_mean(texts, stated->reading.text, dimension,
                   stated->reading.unit.empty() ? quantity.unit : stated->reading.unit);
    if (!checked || checked->slips.empty()) {
        return;
    }
    const LikelySlip& slip = checked->slips.front();
    const bool in_part = slip.part.has_value();
    const Taken& meant = in_part ? *parts[*slip.part] : *stated;
    outcome.findings.push_back({PointedOut::likely_slip,
                                in_part ? part : mean,
                                {in_part ? pulls[*slip.part] : ""},
                                {meant.value.middle(), slip.value},
                                dimension,
                                mean});
}

} // namespace

PullMeans work_out_averages(const SheetFacts& facts, const std::string& pull,
                            const std::vector<ReadRow>& rows,
                            const std::optional<PullCorrection>& correction,
                            SheetOutcome& outcome) {
    Averager averager(facts, pull, correction, outcome);
    if (!rows.empty()) {
        averager.put_peaks(rows);
    }
    if (rows.size() > 1) {
        averager.put_averages(rows);
    }
    return averager.means();
}

void work_out_mean_of_pulls(const SheetFacts& facts, const std::vector<std::string>& pulls,
                            const std::vector<PullMeans>& means,
                            const std::optional<Interval>& displacement_cc, SheetOutcome& outcome) {
    std::vector<std::string> averaged;
    std::vector<Interval> torques_Nm;
    std::vector<Interval> powers_kW;
    const std::string* standard = nullptr;
    for (std::size_t at = 0; at < pulls.size(); ++at) {
        const PullMeans& one = means[at];
        if (!one.torque_Nm || !one.power_kW) {
            continue;
        }
        if (standard != nullptr && *standard != one.standard) {
            return;
        }
        standard = &one.standard;
        averaged.push_back(pulls[at]);
        torques_Nm.push_back(*one.torque_Nm);
        powers_kW.push_back(*one.power_kW);
    }
    if (averaged.size() < 2) {
        return;
    }
    outcome.figures.push_back({mean_of_pulls.torque, "", mean_of(torques_Nm)});
    outcome.figures.push_back({mean_of_pulls.power, "", mean_of(powers_kW)});
    if (displacement_cc) {
        outcome.figures.push_back(
            {"pulls_score", "", score(mean_of(torques_Nm), mean_of(powers_kW), *displacement_cc)});
    }
    const Pair& parts = *standard == "none" ? averages : corrected_averages;
    point_out_slip(facts, averaged, parts.torque, mean_of_pulls.torque, outcome);
    point_out_slip(facts, averaged, parts.power, mean_of_pulls.power, outcome);
}

} // namespace rodway
