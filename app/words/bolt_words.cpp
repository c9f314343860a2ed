#include "app/words/bolt_words.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/words/counted.h"
#include "app/words/lengths.h"
#include "core/fasteners/bolt_reach.h"

namespace rodway::words {
namespace {

struct Bolts {
    Q_DECLARE_TR_FUNCTIONS(Bolts)
};

QString holes(int number) {
    return counted(number, Bolts::tr("1 hole"), Bolts::tr("%1 holes"));
}

enum class Gravity { sure, perhaps, no };

Gravity below_zero(const std::optional<Interval>& left_mm) {
    return !left_mm || left_mm->low >= 0.0 ? Gravity::no
           : left_mm->high < 0.0           ? Gravity::sure
                                           : Gravity::perhaps;
}

Gravity too_little_thread(const BoltInPlace& bolt) {
    if (!bolt.engaged_mm || !bolt.diameter_mm) {
        return Gravity::no;
    }
    const double least_mm = least_engagement_iron * *bolt.diameter_mm;
    return bolt.engaged_mm->high < least_mm  ? Gravity::sure
           : bolt.engaged_mm->low < least_mm ? Gravity::perhaps
                                             : Gravity::no;
}

Gravity worst(const BoltInPlace& bolt) {
    return std::min(
        {below_zero(bolt.to_bottom_mm), below_zero(bolt.to_passage_mm), too_little_thread(bolt)});
}

QString too_little_text(const BoltInPlace& bolt) {
    return Bolts::tr(
               "%1 of thread holds it, less than its diameter of %2. Common practice asks for one "
               "diameter in iron, one and a half to two in aluminium; the maker's figure goes "
               "first")
        .arg(inches(bolt.engaged_mm->middle()), inches(*bolt.diameter_mm));
}

QStringList troubles(const BoltInPlace& bolt) {
    QStringList lines;
    switch (below_zero(bolt.to_bottom_mm)) {
        case Gravity::sure:
            lines << Bolts::tr("it bottoms %1 before it clamps")
                         .arg(both_units(-bolt.to_bottom_mm->middle()));
            break;
        case Gravity::perhaps:
            lines << Bolts::tr("it may bottom before it clamps: too close to call");
            break;
        case Gravity::no:
            break;
    }
    switch (below_zero(bolt.to_passage_mm)) {
        case Gravity::sure:
            lines << Bolts::tr("%1 of it stands in a pushrod's passage")
                         .arg(both_units(-bolt.to_passage_mm->middle()));
            break;
        case Gravity::perhaps:
            lines << Bolts::tr("it may stand in a pushrod's passage: too close to call");
            break;
        case Gravity::no:
            break;
    }
    if (too_little_thread(bolt) == Gravity::sure) {
        lines << too_little_text(bolt);
    } else if (too_little_thread(bolt) == Gravity::perhaps) {
        lines << Bolts::tr("perhaps less thread than its diameter holds it");
    }
    return lines;
}

/// The least of one length among the good ones.
std::optional<double> least(const std::vector<BoltInPlace>& bolts,
                            std::optional<Interval> BoltInPlace::*length) {
    std::optional<double> found;
    for (const BoltInPlace& bolt : bolts) {
        if (worst(bolt) == Gravity::no && bolt.*length) {
            found = std::min(found.value_or((bolt.*length)->low), (bolt.*length)->low);
        }
    }
    return found;
}

QString good_line(const std::vector<BoltInPlace>& bolts, int good) {
    QStringList left;
    if (const auto mm = least(bolts, &BoltInPlace::to_bottom_mm)) {
        left << Bolts::tr("%1 left before the bottom").arg(inches(*mm));
    }
    if (const auto mm = least(bolts, &BoltInPlace::to_passage_mm)) {
        left << Bolts::tr("%1 before a pushrod's passage").arg(inches(*mm));
    }
    if (const auto mm = least(bolts, &BoltInPlace::engaged_mm)) {
        left << Bolts::tr("%1 of thread engaged").arg(inches(*mm));
    }
    if (left.isEmpty()) {
        left << Bolts::tr("neither its bottom nor a passage was measured");
    }
    return Bolts::tr("%1: at least %2.").arg(holes(good), left.join(QStringLiteral(", ")));
}

/// Of head bolts only the hole is known.
QString grip_line(const std::vector<BoltInPlace>& bolts) {
    const auto shallowest = std::max_element(
        bolts.begin(), bolts.end(), [](const BoltInPlace& a, const BoltInPlace& b) {
            return a.least_grip_mm->high < b.least_grip_mm->high;
        });
    const QString all = holes(static_cast<int>(bolts.size()));
    return shallowest->least_grip_mm->high < 0.0
               ? Bolts::tr("%1: too short to bottom in any.").arg(all)
               : Bolts::tr(
                     "%1: it bottoms unless head, gasket and washer are together at least %2 "
                     "thick. The shallowest is %3.")
                     .arg(all, both_units(shallowest->least_grip_mm->high),
                          QString::fromStdString(shallowest->position));
}

} // namespace

QStringList bolt_lines(const std::vector<BoltInPlace>& bolts) {
    std::vector<BoltInPlace> reached;
    std::vector<BoltInPlace> gripping;
    for (const BoltInPlace& bolt : bolts) {
        (bolt.least_grip_mm ? gripping : reached).push_back(bolt);
    }
    std::stable_sort(
        reached.begin(), reached.end(),
        [](const BoltInPlace& a, const BoltInPlace& b) { return worst(a) < worst(b); });
    QStringList lines;
    int good = 0;
    for (const BoltInPlace& bolt : reached) {
        if (worst(bolt) == Gravity::no) {
            ++good;
            continue;
        }
        lines << Bolts::tr("%1: %2.").arg(QString::fromStdString(bolt.position),
                                          troubles(bolt).join(QStringLiteral("; ")));
    }
    if (good > 0) {
        lines << good_line(reached, good);
    }
    if (!gripping.empty()) {
        lines << grip_line(gripping);
    }
    return lines;
}

bool bolts_need_a_look(const std::vector<BoltInPlace>& bolts) {
    return std::any_of(bolts.begin(), bolts.end(),
                       [](const BoltInPlace& bolt) { return worst(bolt) != Gravity::no; });
}

} // namespace rodway::words
