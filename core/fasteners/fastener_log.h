#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/fasteners/bolt_condition.h"
#include "core/fasteners/tightening_steps.h"
#include "core/sheets/reading_interval.h"
#include "core/units/figure_band.h"

namespace rodway {

/// How far what a bolt was brought to may be from its step before it differs. A torque wrench's 4 %
/// is ISO 6789's class (from memory); the rest is common practice, no source.
struct TighteningTolerance {
    double torque_share = 0.04; ///< 0 to 0.3
    double angle_deg = 5.0;     ///< 0 to 90
    double stretch_mm = 0.0127; ///< .0005 in; 0 to 1
    FigureSource source = FigureSource::common_practice;
};

/// How a joint is to be tightened: every step is a pass over all bolts in one order.
struct JointPlan {
    std::vector<int> order; ///< each bolt once
    std::vector<TighteningStep> steps;
    /// A pass more, with the engine run in: the last one. Empty: none is asked for.
    std::optional<TighteningStep> after_run;
    bool has_run = false; ///< whether it is due
    TighteningTolerance tolerance;
    /// A bolt that needs less than this to be turned through its last angle has turned too easily:
    /// some makers reject it. N m; empty: nobody asks.
    std::optional<double> least_end_torque_Nm;

    [[nodiscard]] std::size_t passes() const { return steps.size() + (after_run ? 1 : 0); }
    /// `pass` 1 to `passes`.
    [[nodiscard]] const TighteningStep& step_of(int pass) const;
};

/// One line of the log, in the order in which it was written.
struct TighteningEntry {
    int bolt = 0;
    int pass = 0; ///< counted from 1
    /// N m, degrees or mm, as the step has it; empty: ticked, no number written.
    std::optional<Interval> reached;
    std::optional<Interval> end_torque_Nm; ///< with an angle: the torque at its end
};

enum class BoltPassState {
    waiting, ///< its turn hasn't come
    missed,  ///< left out: a later bolt of this pass, or a later pass, is written down
    ticked,  ///< done, no number written
    done,    ///< done, and the number agrees with the step
    differs, ///< done, but to another number than the step's
    easy,    ///< done, but it turned too easily at the end
};

/// One bolt in one pass.
struct BoltPass {
    int bolt = 0;
    int pass = 0;
    BoltPassState state = BoltPassState::waiting;
    std::optional<std::size_t> entry; ///< the last one: it counts
};

enum class LogFindingKind {
    missed,           ///< see `BoltPassState`
    doubled,          ///< a second line for a bolt in one pass
    out_of_order,     ///< after a bolt that comes later in the order
    pass_begun_early, ///< while a bolt of an earlier pass was open
    differs,          ///< see `BoltPassState`
    turned_easily,
    no_such_bolt,
    no_such_pass,
    retorque_before_run, ///< the pass after the run, with the engine not run yet
    refused_bolt,        ///< a bolt that isn't fit to be used was tightened
};

struct LogFinding {
    LogFindingKind kind = LogFindingKind::missed;
    int bolt = 0;
    int pass = 0;                     ///< 0 of a refused bolt
    std::optional<std::size_t> entry; ///< of the log; empty for what isn't in it
};

enum class Retorque { not_asked, after_the_run, due, done };

struct NextBolt {
    int bolt = 0;
    int pass = 0;
};

/// What the log of a joint says.
struct FastenerLogReview {
    std::vector<BoltPass> passes; ///< pass by pass, each in the joint's order
    std::vector<LogFinding> findings;
    /// The first bolt of the first pass that isn't done; empty when all that is due is done.
    std::optional<NextBolt> next;
    bool complete = false; ///< every pass before the run is done on every bolt, none differs
    Retorque retorque = Retorque::not_asked;
};

/// Sets the log beside the plan. `bolts` are those judged before they went in; a missing one wasn't
/// judged.
/// Errors: too_few_rows ("order", "steps": none); duplicate_field ("order"); not_a_number,
/// out_of_range ("tolerance", "least_end_torque", 0 to 2000 N m; "reached", "end_torque", `line` of
/// the entry counted from 1).
Result<FastenerLogReview> review_log(const JointPlan& plan, const std::vector<TighteningEntry>& log,
                                     const std::vector<BoltStanding>& bolts = {});

enum class Tightened {
    yes,          ///< every pass that is due
    partly,       ///< some pass is open
    no,           ///< no pass at all
    not_as_meant, ///< every pass, but not to the step's number, or it turned too easily
    no_such_bolt,
};

/// The answer to "did we tighten bolt 7?".
struct BoltAnswer {
    Tightened tightened = Tightened::no_such_bolt;
    std::vector<int> open_passes; ///< due and not written down
    std::vector<int> differing_passes;
    std::vector<std::size_t> entries; ///< the lines that count, pass by pass
};
[[nodiscard]] BoltAnswer did_we_tighten(const FastenerLogReview& review, int bolt);

} // namespace rodway
