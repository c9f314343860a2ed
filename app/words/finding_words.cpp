#include <QCoreApplication>
#include <QStringList>

#include "app/words/pull_words.h"
#include "app/words/sheet_words.h"
#include "core/sheets/sheet_kinds.h"

// What a sheet points out, in words.

namespace rodway::words {
namespace {

struct Findings {
    Q_DECLARE_TR_FUNCTIONS(Findings)
};

QString positions_text(const SheetFinding& finding, const Quantity& quantity) {
    QStringList names;
    for (const std::string& position : finding.positions) {
        names << sheet_position(position, quantity.place);
    }
    return names.join(", ");
}

/// A finding and the quantity that its numbers are of.
class FindingText {
  public:
    FindingText(const SheetFinding& finding, const Quantity& quantity)
        : finding_(finding), quantity_(quantity) {}

    /// What it says after naming its quantity and positions.
    [[nodiscard]] QString text() const {
        switch (finding_.what) {
            case PointedOut::stated_differs:
            case PointedOut::misread_by_a_turn:
            case PointedOut::methods_differ:
            case PointedOut::odd_one_out:
            case PointedOut::columns_contradict:
            case PointedOut::likely_slip:
                return of_figures();
            case PointedOut::factor_not_of_standard:
            case PointedOut::factor_outside_standard:
                return of_factors();
            case PointedOut::bolts_missed:
            case PointedOut::bolts_twice:
            case PointedOut::torque_off_step:
                return of_bolts();
            case PointedOut::stop_rule:
            case PointedOut::worse_than_before:
            case PointedOut::low_together:
                return of_engine();
            case PointedOut::needs_reading:
            case PointedOut::out_of_range:
            case PointedOut::too_small_beside:
            case PointedOut::out_of_reach:
            case PointedOut::least_at_end:
                return of_work();
            case PointedOut::cannot_be:
            case PointedOut::differs_from_set_up:
            case PointedOut::not_understood:
                return of_what_is_written();
        }
        return {};
    }

  private:
    [[nodiscard]] QString number(std::size_t which) const {
        return which < finding_.numbers.size() ? amount(finding_.numbers[which], quantity_)
                                               : QString(u'\u2013');
    }
    /// One of its numbers that is of its second quantity.
    [[nodiscard]] QString of_other(std::size_t which) const {
        const Quantity* other = find_quantity(finding_.other);
        return other == nullptr || which >= finding_.numbers.size()
                   ? QString(u'\u2013')
                   : amount(finding_.numbers[which], *other);
    }
    [[nodiscard]] QString other() const { return QString::fromStdString(finding_.other); }
    [[nodiscard]] QString other_title() const { return sheet_title(finding_.other); }

    /// A figure beside what the readings, or another way, make of it.
    [[nodiscard]] QString of_figures() const {
        if (finding_.what == PointedOut::stated_differs) {
            return Findings::tr(
                       "%1 is written down, but the readings make it %2 to %3. Check the "
                       "sum, or measure again.")
                .arg(number(0), number(1), number(2));
        }
        if (finding_.what == PointedOut::misread_by_a_turn) {
            return Findings::tr(
                       "%1 where %2 was to be expected: that is off by %3, one turn or mark of "
                       "the micrometer. Measure it again.")
                .arg(number(0), number(1), number(2));
        }
        if (finding_.what == PointedOut::methods_differ) {
            return Findings::tr(
                       "One way of measuring says %1, the other %2 to %3. Both are kept; "
                       "find out which is right before assembly.")
                .arg(number(0), number(1), number(2));
        }
        if (finding_.what == PointedOut::odd_one_out && quantity_.form == Form::clearance &&
            finding_.numbers[0] <= 0.0) {
            return Findings::tr(
                       "it touches, where the middle of the row is %1. Cure it, and "
                       "measure it again.")
                .arg(number(1));
        }
        if (finding_.what == PointedOut::odd_one_out) {
            return Findings::tr(
                       "%1 stands apart from the row, whose middle is %2. Measure it again.")
                .arg(number(0), number(1));
        }
        if (finding_.what == PointedOut::likely_slip) {
            return Findings::tr(
                       "%1 may be a slip for %2: then the figure given for \"%3\" would be right. "
                       "Look it up where it was first written.")
                .arg(number(0), number(1), other_title());
        }
        return finding_.numbers.size() > 2
                   ? Findings::tr("%1 and %2 are given for the same thing. %3 goes with the rest.")
                         .arg(number(0), number(1), number(2))
                   : Findings::tr("%1 and %2 are given for the same thing. One of them is wrong.")
                         .arg(number(0), number(1));
    }

    [[nodiscard]] QString of_factors() const {
        return finding_.what == PointedOut::factor_not_of_standard
                   ? Findings::tr(
                         "%1 is written down for %2, which gives %3 in this weather. It is "
                         "not that standard's factor.")
                         .arg(number(0), standard_title(finding_.other), number(1))
                   : Findings::tr(
                         "%1 lies outside what %2 allows a correction for: the corrected "
                         "figures are not to be compared.")
                         .arg(number(0), standard_title(finding_.other));
    }

    [[nodiscard]] QString of_bolts() const {
        if (finding_.what == PointedOut::torque_off_step) {
            return Findings::tr("%1, where the step is %2.").arg(number(0), number(1));
        }
        return finding_.what == PointedOut::bolts_missed
                   ? Findings::tr("Not done (%1). Go back to them before going on.")
                         .arg(other_title())
                   : Findings::tr("Written down twice (%1). Was it done twice?").arg(other_title());
    }

    /// What the engine itself says.
    [[nodiscard]] QString of_engine() const {
        if (finding_.what == PointedOut::low_together) {
            return Findings::tr("Neighbours are low together: look at the gasket between them.");
        }
        if (finding_.what == PointedOut::worse_than_before) {
            return Findings::tr("%1 before the work, %2 after it: the work has opened something.")
                .arg(number(0), number(1));
        }
        return finding_.numbers.empty()
                   ? Findings::tr(
                         "Stop the engine and find out why. The maker's instructions go before "
                         "this rule.")
                   : Findings::tr(
                         "%1, where the rule is %2: stop the engine and find out why. The "
                         "maker's instructions go before this rule.")
                         .arg(number(0), number(1));
    }

    /// What stands in the way of working something out, or of what is wanted.
    [[nodiscard]] QString of_work() const {
        if (finding_.what == PointedOut::needs_reading) {
            return Findings::tr("Needs what isn't written down yet: %1.").arg(other_title());
        }
        if (finding_.what == PointedOut::out_of_range) {
            return Findings::tr(
                       "Can't be worked out with %1 for \"%2\": it should be from %3 to %4. Check "
                       "the number and its unit.")
                .arg(of_other(0), other_title(), of_other(1), of_other(2));
        }
        if (finding_.what == PointedOut::too_small_beside) {
            return Findings::tr("%1, where \"%2\" is %3: it must not be the smaller. Check both.")
                .arg(number(0), other_title(), of_other(1));
        }
        if (finding_.what == PointedOut::least_at_end) {
            return Findings::tr(
                       "%1 is the least of the row and stands at its end. Take more readings "
                       "beyond it: the true least may be smaller.")
                .arg(number(0));
        }
        const QString text = Findings::tr("%2 to %3 is wanted. %1 is the nearest that can be had.")
                                 .arg(number(0), number(1), number(2));
        return finding_.other.empty()
                   ? text
                   : Findings::tr("%1 What stands in the way: %2.").arg(text, other_title());
    }

    [[nodiscard]] QString of_what_is_written() const {
        if (finding_.what == PointedOut::cannot_be) {
            return Findings::tr("\u201c%1\u201d can't be so. Each cylinder must stand there once.")
                .arg(other());
        }
        return finding_.what == PointedOut::differs_from_set_up
                   ? Findings::tr("The set-up says %1. Find out which is right.").arg(other())
                   : Findings::tr(
                         "\u201c%1\u201d can't be used: it can't be read, or could mean two "
                         "things. Write it with its units.")
                         .arg(other());
    }

    const SheetFinding& finding_;
    const Quantity& quantity_;
};

} // namespace

QString finding(const SheetFinding& finding, const Quantity& quantity, const OwnTitles& own) {
    const QString where = positions_text(finding, quantity);
    const QString title = sheet_title(quantity.id, own);
    const QString head = where.isEmpty() ? title : Findings::tr("%1, %2").arg(title, where);
    return Findings::tr("%1: %2").arg(head, FindingText(finding, quantity).text());
}

QString token(PointedOut what) {
    switch (what) {
        case PointedOut::stated_differs:
            return "stated_differs";
        case PointedOut::misread_by_a_turn:
            return "misread_by_a_turn";
        case PointedOut::methods_differ:
            return "methods_differ";
        case PointedOut::odd_one_out:
            return "odd_one_out";
        case PointedOut::columns_contradict:
            return "columns_contradict";
        case PointedOut::factor_not_of_standard:
            return "factor_not_of_standard";
        case PointedOut::factor_outside_standard:
            return "factor_outside_standard";
        case PointedOut::bolts_missed:
            return "bolts_missed";
        case PointedOut::bolts_twice:
            return "bolts_twice";
        case PointedOut::torque_off_step:
            return "torque_off_step";
        case PointedOut::needs_reading:
            return "needs_reading";
        case PointedOut::stop_rule:
            return "stop_rule";
        case PointedOut::out_of_range:
            return "out_of_range";
        case PointedOut::too_small_beside:
            return "too_small_beside";
        case PointedOut::likely_slip:
            return "likely_slip";
        case PointedOut::out_of_reach:
            return "out_of_reach";
        case PointedOut::least_at_end:
            return "least_at_end";
        case PointedOut::worse_than_before:
            return "worse_than_before";
        case PointedOut::low_together:
            return "low_together";
        case PointedOut::cannot_be:
            return "cannot_be";
        case PointedOut::differs_from_set_up:
            return "differs_from_set_up";
        case PointedOut::not_understood:
            return "not_understood";
    }
    return {};
}

} // namespace rodway::words
