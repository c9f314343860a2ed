#include "app/words/cautions.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct Cautions {
    Q_DECLARE_TR_FUNCTIONS(Cautions)
};

} // namespace

QString caution(const QString& key) {
    if (key == "barring_over") {
        return Cautions::tr(
            "Turn the crank by hand, never with the starter, while a shaft is loose. Back the "
            "adjusters off first; loosen and tighten shaft bolts evenly in small steps. Keep "
            "fingers "
            "clear of springs and rockers. The maker's instructions come first.");
    }
    if (key == "torque") {
        return Cautions::tr(
            "Torque, order and lubricant are the fastener maker's: follow his instructions above "
            "anything shown here.");
    }
    if (key == "lifting") {
        return Cautions::tr(
            "Lift blocks and heads with rated tackle, and never stand under a load.");
    }
    return {};
}

QString clearance_caution() {
    return Cautions::tr(
        "Computed from the set-up as typed: it is no better than those measurements. Confirm the "
        "tightest rods by hand on the engine as it will run, and again after any change of gasket, "
        "lifter, rod, rocker or manifold bolt. Makers' instructions come first.");
}

} // namespace rodway::words
