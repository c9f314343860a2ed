#include "app/words/variant_words.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"

namespace rodway::words {
namespace {

struct Variants {
    Q_DECLARE_TR_FUNCTIONS(Variants)
};

void add_gaskets(QStringList& parts, const std::vector<double>& thicker_mm,
                 const EngineLayout& layout, const QString& pattern) {
    for (std::size_t bank = 0; bank < std::min(thicker_mm.size(), layout.banks.size()); ++bank) {
        if (thicker_mm[bank] != 0.0) {
            parts << pattern.arg(QString::fromStdString(layout.banks[bank].name),
                                 signed_inches(thicker_mm[bank]));
        }
    }
}

QString list_of(const std::vector<ValvePosition>& valves) {
    QStringList names;
    for (const ValvePosition& position : valves) {
        names << valve(position);
    }
    return names.join(", ");
}

} // namespace

QString variant(const Variant& variant, const EngineLayout& layout) {
    QStringList parts;
    const auto add = [&](const QString& pattern, double mm) {
        if (mm != 0.0) {
            parts << pattern.arg(signed_inches(mm));
        }
    };
    add(Variants::tr("lifters %1"), variant.lifter_taller_mm);
    add(Variants::tr("rods %1"), variant.rod_thicker_mm);
    add(Variants::tr("rods' length %1"), variant.rod_longer_mm);
    add(Variants::tr("rockers' ball arms %1"), variant.ball_arm_longer_mm);
    add(Variants::tr("lash %1"), variant.lash_more_mm);
    add(Variants::tr("lobe lift %1"), variant.lobe_lift_more_mm);
    if (variant.ratio_more != 0.0) {
        parts << Variants::tr("rockers' ratio %1%2")
                     .arg(variant.ratio_more > 0.0 ? "+" : "-")
                     .arg(std::abs(variant.ratio_more), 0, 'f', 3);
    }
    add(Variants::tr("adjusters in %1, rods to suit"), variant.adjuster_in_more_mm);
    add_gaskets(parts, variant.gasket_thicker_mm, layout, Variants::tr("%1 intake gasket %2"));
    add_gaskets(parts, variant.head_gasket_thicker_mm, layout, Variants::tr("%1 head gasket %2"));
    return parts.join(", ");
}

QString outcome(const VariantOutcome& outcome, double limit_mm) {
    QStringList sentences;
    if (!outcome.below_limit.empty()) {
        sentences << Variants::tr("Under the limit of %1: %2.")
                         .arg(inches(limit_mm), list_of(outcome.below_limit));
    } else if (outcome.tightest) {
        sentences << Variants::tr("None under the limit of %1.").arg(inches(limit_mm));
    }
    if (!outcome.falls_below_limit.empty()) {
        sentences << Variants::tr("Not under it as it stands: %1.")
                         .arg(list_of(outcome.falls_below_limit));
    }
    if (!outcome.without_answer.empty()) {
        sentences << Variants::tr("No answer: %1.").arg(list_of(outcome.without_answer));
    }
    if (outcome.tightest) {
        sentences << Variants::tr("Tightest: %1, %2.")
                         .arg(valve(*outcome.tightest), inches(*outcome.least_mm));
    }
    return sentences.join(' ');
}

} // namespace rodway::words
