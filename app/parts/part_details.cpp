#include "app/parts/part_details.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/parts/buy_list.h"
#include "app/words/account_words.h"
#include "app/words/part_state_words.h"
#include "app/words/part_words.h"

namespace rodway {
namespace {

struct PartDetails {
    Q_DECLARE_TR_FUNCTIONS(PartDetails)
};

void add(QStringList& lines, const QString& what, const std::optional<std::string>& text) {
    if (text) {
        lines << PartDetails::tr("%1: %2").arg(what, QString::fromStdString(*text));
    }
}

void add_replacements(QStringList& lines, const PartRecord& part, const PlanAndParts& plan,
                      const std::string& today) {
    for (const PartRecord& other : plan.parts) {
        if (other.id == part.replaces_id) {
            lines << PartDetails::tr("Takes the place of “%1” (%2)")
                         .arg(words::part_title(other), words::part_day(other, today));
        }
        if (other.replaces_id == part.id) {
            lines << PartDetails::tr("“%1” takes its place (%2)")
                         .arg(words::part_title(other), words::part_day(other, today));
        }
    }
}

void add_waiting(QStringList& lines, const PartRecord& part, const PlanAndParts& plan,
                 const std::string& today) {
    for (const Unblocked& one : unblocked(plan, part, today)) {
        const QString title = QString::fromStdString(one.title);
        const QString stage = QString::fromStdString(one.stage);
        const QString waits = one.gate ? PartDetails::tr("The gate “%1” of %2 waits for it")
                                       : PartDetails::tr("The step “%1” of %2 waits for it");
        lines << (one.others > 0 ? PartDetails::tr("%1, and for %2 more")
                                       .arg(waits.arg(title, stage))
                                       .arg(one.others)
                                 : waits.arg(title, stage));
    }
}

} // namespace

QStringList part_details(const PartRecord& part, const PlanAndParts& plan,
                         const std::string& today) {
    QStringList lines(words::part_standing(part, today));
    if (part.temporary) {
        lines << PartDetails::tr("Temporary: another must replace it");
    }
    if (part.owner == PartOwner::customer) {
        lines << PartDetails::tr("The customer's own");
    }
    if (part.role) {
        lines << words::part_role(*part.role);
    }
    add(lines, PartDetails::tr("Where"), part.position);
    add(lines, PartDetails::tr("Marking"), part.marking);
    add(lines, PartDetails::tr("Weight"), part.weight);
    add(lines, PartDetails::tr("Supplier"), part.supplier);
    add(lines, PartDetails::tr("Order number"), part.order_number);
    if (part.cost) {
        lines << PartDetails::tr("Cost: %1").arg(words::money(*part.cost));
    }
    add(lines, PartDetails::tr("Drive"), part.drive);
    add(lines, PartDetails::tr("Lubricant"), part.lubricant);
    add(lines, PartDetails::tr("Tightening"), part.tightening);
    add(lines, PartDetails::tr("Came as"), part.condition);
    add(lines, PartDetails::tr("Failed"), part.failed);
    add(lines, PartDetails::tr("Kept until"), part.kept_until);
    add(lines, PartDetails::tr("Note"), part.note);
    add_replacements(lines, part, plan, today);
    add_waiting(lines, part, plan, today);
    return lines;
}

} // namespace rodway
