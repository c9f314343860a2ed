#include "core/sheets/kinds/joint_log.h"

#include <algorithm>
#include <map>

#include "core/fasteners/fastener_log.h"
#include "core/fasteners/tightening_order.h"
#include "core/sheets/sheet_kinds.h"
#include "core/units/typed_amount.h"

namespace rodway {
namespace {

constexpr std::string_view torque_read = "fastener_torque";
constexpr std::string_view angle_read = "fastener_angle";
constexpr std::string_view stretch_read = "fastener_stretch";
constexpr std::string_view after_run_read = "retorque";

std::string_view quantity_of(TighteningKind kind) {
    return kind == TighteningKind::angle     ? angle_read
           : kind == TighteningKind::stretch ? stretch_read
                                             : torque_read;
}

/// Written to, be it only a tick.
bool is_done(const Taken* taken) {
    return taken != nullptr && taken->value.said != Said::blank &&
           taken->value.said != Said::not_measured && taken->value.said != Said::same;
}

/// A step without a number, if none was written.
TighteningStep middle_step(TighteningKind kind, std::vector<double> values) {
    if (values.empty()) {
        return {TighteningKind::snug, 0.0, 0.0, {}};
    }
    // The middle one, not the mean: one bolt that is off doesn't move it.
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
    std::nth_element(values.begin(), middle, values.end());
    return {kind, *middle, *middle, {}};
}

class LogReader {
  public:
    LogReader(const TakenReadings& readings, const LoggedJoint& joint)
        : readings_(readings), joint_(joint) {
        find_passes();
    }

    JointLog read() {
        plan_steps();
        JointPlan plan;
        for (std::size_t at = 0; at < joint_.bolts.size(); ++at) {
            plan.order.push_back(static_cast<int>(at) + 1);
        }
        const bool ordered = put_in_order(plan.order);
        log_.ordered = ordered;
        for (const int bolt : plan.order) {
            log_.order.push_back(static_cast<std::size_t>(bolt) - 1);
        }
        log_.marks.resize(joint_.bolts.size(), std::vector<JointMark>(steps_.size()));
        if (steps_.empty()) {
            log_.end_torque_Nm.resize(joint_.bolts.size());
            return std::move(log_);
        }
        for (const LoggedStep& each : steps_) {
            plan.steps.push_back(each.step);
        }
        const auto review = review_log(plan, entries());
        if (review) {
            mark(*review, ordered);
            tell_missed(*review);
            tell_others(*review);
        }
        for (const LoggedBolt& bolt : joint_.bolts) {
            log_.end_torque_Nm.push_back(end_torque(bolt));
        }
        log_.steps = steps_;
        return std::move(log_);
    }

  private:
    [[nodiscard]] const Taken* at(const LoggedBolt& bolt, std::string_view quantity,
                                  int pass) const {
        return readings_.at(quantity, pass == 0 ? bolt.position() : bolt.position_in(pass));
    }
    [[nodiscard]] std::vector<double> numbers(std::string_view quantity, int pass) const {
        std::vector<double> values;
        for (const LoggedBolt& bolt : joint_.bolts) {
            const Taken* taken = at(bolt, quantity, pass);
            if (const auto range = taken != nullptr ? taken->range() : std::nullopt) {
                values.push_back(range->middle());
            }
        }
        return values;
    }

    void find_passes() {
        for (const LoggedBolt& bolt : joint_.bolts) {
            std::map<int, int> numbers_in_pass;
            for (const std::string_view quantity : {torque_read, angle_read}) {
                for (const Taken& taken : readings_.of(quantity)) {
                    SheetPosition place = taken.place;
                    place.place = Place::bolt;
                    if (place.parts.erase(PlacePart::pass) == 0 || !is_done(&taken) ||
                        sheet_position_text(place) != bolt.position()) {
                        continue;
                    }
                    const int pass = std::stoi(*taken.place.part(PlacePart::pass));
                    passes_ = std::max(passes_, pass);
                    numbers_in_pass[pass] += taken.range() ? 1 : 0;
                    torque_and_angle_ = torque_and_angle_ || numbers_in_pass[pass] > 1;
                }
            }
        }
    }

    /// The unit in which the joint's torques are typed, if bare numbers are in the quantity's.
    [[nodiscard]] std::string torque_unit() const {
        const Quantity* quantity = find_quantity(torque_read);
        for (const LoggedBolt& bolt : joint_.bolts) {
            for (int pass = 1; pass <= passes_; ++pass) {
                const Taken* taken = at(bolt, torque_read, pass);
                if (taken == nullptr || !taken->value.is_number()) {
                    continue;
                }
                const std::string& unit = taken->reading.unit;
                const auto typed = parse_amount(taken->reading.text, Dimension::torque,
                                                unit.empty() ? quantity->unit : unit);
                return typed ? typed->unit : quantity->unit;
            }
        }
        return quantity->unit;
    }

    void not_understood(const Taken& taken, std::string_view quantity) {
        log_.findings.push_back({PointedOut::not_understood,
                                 std::string(quantity),
                                 {sheet_position_text(taken.place)},
                                 {},
                                 Dimension::none,
                                 taken.value.words});
    }

    [[nodiscard]] std::vector<TighteningStep> written_steps() {
        const Taken* said = said_of_joint(readings_, "joint_steps", joint_.bolts.front().place);
        if (said == nullptr || said->value.said != Said::words) {
            return {};
        }
        const auto steps = parse_tightening_steps(said->value.words, torque_unit());
        if (!steps) {
            not_understood(*said, "joint_steps");
            return {};
        }
        return *steps;
    }

    void plan_steps() {
        const std::vector<TighteningStep> written = written_steps();
        std::vector<int> pass_of; // of each step, if an angle goes with the torque before it
        for (std::size_t step = 0; step < written.size(); ++step) {
            const bool with_the_one_before = step > 0 &&
                                             written[step].kind == TighteningKind::angle &&
                                             written[step - 1].kind == TighteningKind::torque;
            const int before = pass_of.empty() ? 0 : pass_of.back();
            pass_of.push_back(with_the_one_before ? before : before + 1);
        }
        const bool together = torque_and_angle_ && !pass_of.empty() && passes_ <= pass_of.back();
        for (std::size_t step = 0; step < written.size(); ++step) {
            const bool by_bolt = written[step].kind == TighteningKind::stretch;
            const int pass = together ? pass_of[step] : static_cast<int>(step) + 1;
            steps_.push_back({written[step], by_bolt ? 0 : pass, quantity_of(written[step].kind)});
        }
        const int planned = written.empty() ? 0
                            : together      ? pass_of.back()
                                            : static_cast<int>(written.size());
        for (int pass = planned + 1; pass <= passes_; ++pass) {
            add_as_logged(pass);
        }
        add_after_run(written);
    }

    /// A pass that no step was written for.
    void add_as_logged(int pass) {
        const auto torques = numbers(torque_read, pass);
        const auto angles = numbers(angle_read, pass);
        if (!torques.empty() || angles.empty()) {
            steps_.push_back({middle_step(TighteningKind::torque, torques), pass, torque_read});
        }
        if (!angles.empty()) {
            steps_.push_back({middle_step(TighteningKind::angle, angles), pass, angle_read});
        }
    }

    /// The pass after the run, if it has been begun: to the last step's torque, if it is one.
    void add_after_run(const std::vector<TighteningStep>& written) {
        const bool begun = std::any_of(
            joint_.bolts.begin(), joint_.bolts.end(),
            [&](const LoggedBolt& bolt) { return is_done(at(bolt, after_run_read, 0)); });
        if (!begun) {
            return;
        }
        const bool to_torque = !written.empty() && written.back().kind == TighteningKind::torque;
        steps_.push_back({to_torque
                              ? written.back()
                              : middle_step(TighteningKind::torque, numbers(after_run_read, 0)),
                          0, after_run_read});
    }

    /// Whether an order was written; of caps the order within each says nothing of the joint's.
    bool put_in_order(std::vector<int>& order) {
        const Taken* said = said_of_joint(readings_, "joint_order", joint_.bolts.front().place);
        if (joint_.caps || said == nullptr || said->value.said != Said::words) {
            return false;
        }
        const auto written = parse_tightening_order(said->value.words, order);
        if (!written) {
            not_understood(*said, "joint_order");
            return false;
        }
        order = *written;
        return true;
    }

    /// Whether the plan has a step of its own for a quantity in a pass.
    [[nodiscard]] bool has_step(int pass, std::string_view quantity) const {
        return std::any_of(steps_.begin(), steps_.end(), [&](const LoggedStep& each) {
            return each.pass == pass && each.quantity == quantity;
        });
    }

    [[nodiscard]] std::optional<Interval> reached(const LoggedStep& step,
                                                  const LoggedBolt& bolt) const {
        if (step.quantity == stretch_read) {
            return stretch_by_lengths(readings_, bolt.position());
        }
        const Taken* taken = at(bolt, step.quantity, step.pass);
        return taken != nullptr ? taken->range() : std::nullopt;
    }

    [[nodiscard]] std::vector<TighteningEntry> entries() const {
        std::vector<TighteningEntry> log;
        for (std::size_t which = 0; which < steps_.size(); ++which) {
            const LoggedStep& step = steps_[which];
            const int number = static_cast<int>(which) + 1;
            for (std::size_t bolt = 0; bolt < joint_.bolts.size(); ++bolt) {
                const int name = static_cast<int>(bolt) + 1;
                const Taken* taken = at(joint_.bolts[bolt], step.quantity, step.pass);
                const auto number_reached = reached(step, joint_.bolts[bolt]);
                // An angle step that was only ticked among the torques, or the other way round.
                const std::string_view other =
                    step.quantity == torque_read ? angle_read : torque_read;
                const bool ticked = step.pass > 0 && !has_step(step.pass, other) &&
                                    is_done(at(joint_.bolts[bolt], other, step.pass));
                if (!is_done(taken) && !number_reached && !ticked) {
                    continue;
                }
                const std::size_t before = taken != nullptr ? taken->retaken.size() : 0;
                log.insert(log.end(), before, {name, number, {}, {}});
                log.push_back({name, number, number_reached, {}});
            }
        }
        return log;
    }

    [[nodiscard]] SheetFinding finding(PointedOut what, int step_number) const {
        const LoggedStep& step = steps_[static_cast<std::size_t>(step_number) - 1];
        const bool after_run = step.quantity == after_run_read;
        return {what,
                std::string(after_run ? torque_read : step.quantity),
                {},
                {},
                Dimension::none,
                after_run        ? std::string(after_run_read)
                : step.pass == 0 ? std::string(step.quantity)
                                 : "pass " + std::to_string(step.pass)};
    }
    [[nodiscard]] std::string position(int bolt, int step_number) const {
        const LoggedBolt& logged = joint_.bolts[static_cast<std::size_t>(bolt) - 1];
        const int pass = steps_[static_cast<std::size_t>(step_number) - 1].pass;
        return pass == 0 ? logged.position() : logged.position_in(pass);
    }

    [[nodiscard]] JointMark& mark_of(int bolt, int step) {
        return log_.marks[static_cast<std::size_t>(bolt) - 1][static_cast<std::size_t>(step) - 1];
    }

    void mark(const FastenerLogReview& review, bool ordered) {
        for (const BoltPass& each : review.passes) {
            const bool begun = std::any_of(
                review.passes.begin(), review.passes.end(),
                [&](const BoltPass& one) { return one.pass == each.pass && one.entry; });
            const bool left_out = each.state == BoltPassState::waiting && begun && !ordered;
            mark_of(each.bolt, each.pass).state = left_out ? BoltPassState::missed : each.state;
        }
        for (const LogFinding& found : review.findings) {
            if (found.kind == LogFindingKind::doubled) {
                mark_of(found.bolt, found.pass).twice = true;
            }
        }
    }

    void tell_missed(const FastenerLogReview& review) {
        for (int step = 1; step <= static_cast<int>(steps_.size()); ++step) {
            SheetFinding missed = finding(PointedOut::bolts_missed, step);
            for (const BoltPass& each : review.passes) {
                if (each.pass == step && mark_of(each.bolt, step).state == BoltPassState::missed) {
                    missed.positions.push_back(position(each.bolt, step));
                }
            }
            if (!missed.positions.empty()) {
                log_.findings.push_back(std::move(missed));
            }
        }
    }

    void tell_others(const FastenerLogReview& review) {
        std::map<int, SheetFinding> twice;
        for (const LogFinding& found : review.findings) {
            if (found.kind == LogFindingKind::doubled) {
                SheetFinding& one =
                    twice.try_emplace(found.pass, finding(PointedOut::bolts_twice, found.pass))
                        .first->second;
                const std::string where = position(found.bolt, found.pass);
                if (one.positions.empty() || one.positions.back() != where) {
                    one.positions.push_back(where);
                }
            }
            if (found.kind == LogFindingKind::differs) {
                log_.findings.push_back(off_step(found));
            }
        }
        for (auto& [step, one] : twice) {
            log_.findings.push_back(std::move(one));
        }
    }

    [[nodiscard]] SheetFinding off_step(const LogFinding& found) const {
        const LoggedStep& step = steps_[static_cast<std::size_t>(found.pass) - 1];
        const LoggedBolt& bolt = joint_.bolts[static_cast<std::size_t>(found.bolt) - 1];
        SheetFinding off = finding(PointedOut::torque_off_step, found.pass);
        off.positions = {position(found.bolt, found.pass)};
        off.numbers = {reached(step, bolt)->middle(), (step.step.low + step.step.high) / 2.0};
        off.dimension = step.step.kind == TighteningKind::angle     ? Dimension::angle
                        : step.step.kind == TighteningKind::stretch ? Dimension::length
                                                                    : Dimension::torque;
        return off;
    }

    [[nodiscard]] std::optional<Interval> end_torque(const LoggedBolt& bolt) const {
        for (auto step = steps_.rbegin(); step != steps_.rend(); ++step) {
            const auto there = reached(*step, bolt);
            if (step->step.kind == TighteningKind::torque && there) {
                return there;
            }
            if (there || is_done(at(bolt, step->quantity, step->pass))) {
                return std::nullopt;
            }
        }
        return std::nullopt;
    }

    const TakenReadings& readings_;
    const LoggedJoint& joint_;
    int passes_ = 0; ///< the last one written
    bool torque_and_angle_ = false;
    std::vector<LoggedStep> steps_;
    JointLog log_;
};

} // namespace

JointLog read_joint_log(const TakenReadings& readings, const LoggedJoint& joint) {
    return LogReader(readings, joint).read();
}

std::optional<Interval> stretch_by_lengths(const TakenReadings& readings, const std::string& bolt) {
    if (const auto written = readings.number("fastener_stretch", bolt)) {
        return written;
    }
    const auto free = readings.number("fastener_free_length", bolt);
    const auto tight = readings.number("fastener_tight_length", bolt);
    return free && tight ? std::optional(*tight - *free) : std::nullopt;
}

} // namespace rodway
