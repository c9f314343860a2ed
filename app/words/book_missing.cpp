#include <QCoreApplication>
#include <algorithm>

#include "app/words/book_words.h"
#include "app/words/clearance_words.h"
#include "app/words/counted.h"
#include "app/words/hold_words.h"
#include "app/words/sheet_words.h"

// What a whole book would want and this one doesn't have, and what nobody checked.

namespace rodway::words {
namespace {

struct Missing {
    Q_DECLARE_TR_FUNCTIONS(BookMissing)
};

template <typename Record>
QString titled(const std::vector<Record>& records, const MissingFact& fact,
               std::string Record::*title) {
    for (const Record& one : records) {
        if (fact.record && one.id == fact.record->id) {
            return printable(one.*title);
        }
    }
    return {};
}

bool any_known(const AssessedSheet& sheet) {
    return std::any_of(sheet.lines.begin(), sheet.lines.end(), [](const SheetLine& line) {
        return std::any_of(line.boxes.begin(), line.boxes.end(),
                           [](const SheetBox& box) { return box.taken || box.figure; });
    });
}

/// Steps that were neither done nor left out, stage by stage.
BookTable steps_not_done(const BookFacts& facts) {
    BookTable table{{{Missing::tr("Stage"), 0.26}, {Missing::tr("Not done"), 0.74}}, {}, 15.0, 8.5};
    for (const Stage& stage : facts.state.facts.records.stages) {
        QStringList titles;
        for (const Step& step : facts.state.facts.records.steps) {
            if (step.stage_id == stage.id && !step.ticked_at && !step.not_needed) {
                titles << printable(step.title);
            }
        }
        if (!titles.isEmpty()) {
            table.rows.push_back({printable(stage.title), titles.join("; ")});
        }
    }
    return table;
}

/// Readings that say "not measured".
QStringList said_not_measured(const BookFacts& facts) {
    QStringList said;
    for (const AssessedSheet& sheet : facts.assessed) {
        for (const SheetLine& line : sheet.lines) {
            QStringList places;
            for (const SheetBox& box : line.boxes) {
                if (box.taken && box.taken->value.said == Said::not_measured) {
                    places << printable(sheet_position(box.position, line.quantity.place));
                }
            }
            if (!places.isEmpty()) {
                said << Missing::tr("%1: %2").arg(
                    printable(sheet_title(line.quantity.id, facts.sheets->own_titles())),
                    places.join(", "));
            }
        }
    }
    return said;
}

void add_list(BookBlocks& blocks, const QString& heading, const QStringList& lines) {
    if (lines.isEmpty()) {
        return;
    }
    blocks.push_back(BookHeading{heading, 2});
    BookTable table{{{{}, 1.0}}, {}, 14.0, 9.0};
    for (const QString& line : lines) {
        table.rows.push_back({line});
    }
    blocks.push_back(std::move(table));
}

} // namespace

QString rods_not_passed(const MissingFact& fact) {
    const QString valves = QString::fromStdString(fact.subject).replace(' ', ", ");
    switch (fact.kind) {
        case MissingKind::rod_touches:
            return Missing::tr("Pushrods touch what they pass: %1. They score, bend or break.")
                .arg(valves);
        case MissingKind::rod_fails:
            return Missing::tr("Pushrods stand under the clearance asked for: %1.").arg(valves);
        default:
            return Missing::tr("Pushrods without a verdict on their clearance: %1.").arg(valves);
    }
}

QString missing_fact(const MissingFact& fact, const BookFacts& facts) {
    const BuildFacts& work = facts.state.facts.records;
    switch (fact.kind) {
        case MissingKind::rod_touches:
        case MissingKind::rod_fails:
        case MissingKind::rod_undecided:
            return rods_not_passed(fact);
        case MissingKind::shop_name:
            return Missing::tr("The builder's own name for the cover.");
        case MissingKind::customer:
            return Missing::tr("The customer's record: address, telephone.");
        case MissingKind::engine:
            return Missing::tr(
                "A set-up of the valvetrain that makes an engine: no pictures, no "
                "clearances.");
        case MissingKind::settings:
            return Missing::tr("Settings: %1. Begin with “%2”.")
                .arg(settings_topic(fact.topic), printable(sheet_title(fact.subject)));
        case MissingKind::sheet_incomplete:
            return counted(fact.count, Missing::tr("The sheet “%1”: one box is empty."),
                           Missing::tr("The sheet “%2”: %1 boxes are empty."))
                .arg(printable(sheet_title(fact.subject, facts.state.own_titles)));
        case MissingKind::stage_unsigned:
            return Missing::tr("Nobody signed off the stage “%1”.")
                .arg(titled(work.stages, fact, &Stage::title));
        case MissingKind::sign_off_overtaken:
            return Missing::tr("Something has changed since the stage “%1” was signed off.")
                .arg(titled(work.stages, fact, &Stage::title));
        case MissingKind::part_without_size:
            return Missing::tr("Size or marking of the part “%1”.")
                .arg(titled(work.parts, fact, &PartRecord::item));
        case MissingKind::service_dates:
            return Missing::tr("When the engine is to be seen again, and for what.");
        case MissingKind::seals:
            return Missing::tr("Numbers of seals and heat tabs.");
        case MissingKind::no_pull:
            return Missing::tr("A pull on the dyno.");
        case MissingKind::no_photo:
            return Missing::tr("Photos: none is chosen for the book.");
        case MissingKind::photo_without_words:
            return Missing::tr("A caption of the photo “%1”.")
                .arg(titled(facts.photos, fact, &Photo::file_name));
        case MissingKind::photo_gone:
            return Missing::tr("The file of the photo “%1”: it isn't where the shop keeps them.")
                .arg(titled(facts.photos, fact, &Photo::file_name));
        case MissingKind::question_open:
            return Missing::tr("The customer's answer to “%1”.")
                .arg(titled(work.approvals, fact, &Approval::subject));
    }
    return {};
}

QString missing_place(const MissingFact& fact) {
    switch (fact.kind) {
        case MissingKind::shop_name:
            return Missing::tr("Shop");
        case MissingKind::customer:
        case MissingKind::stage_unsigned:
        case MissingKind::sign_off_overtaken:
        case MissingKind::photo_gone:
            return Missing::tr("Build");
        case MissingKind::rod_touches:
        case MissingKind::rod_fails:
        case MissingKind::rod_undecided:
        case MissingKind::engine:
            return Missing::tr("Valvetrain");
        case MissingKind::settings:
        case MissingKind::sheet_incomplete:
        case MissingKind::seals:
        case MissingKind::no_pull:
            return Missing::tr("Sheets");
        case MissingKind::part_without_size:
            return Missing::tr("Parts");
        case MissingKind::service_dates:
        case MissingKind::no_photo:
        case MissingKind::photo_without_words:
            return Missing::tr("Book");
        case MissingKind::question_open:
            return Missing::tr("Account");
    }
    return {};
}

QString token(MissingKind kind) {
    switch (kind) {
        case MissingKind::rod_touches:
            return QStringLiteral("rod_touches");
        case MissingKind::rod_fails:
            return QStringLiteral("rod_fails");
        case MissingKind::rod_undecided:
            return QStringLiteral("rod_undecided");
        case MissingKind::shop_name:
            return QStringLiteral("shop_name");
        case MissingKind::customer:
            return QStringLiteral("customer");
        case MissingKind::engine:
            return QStringLiteral("engine");
        case MissingKind::settings:
            return QStringLiteral("settings");
        case MissingKind::sheet_incomplete:
            return QStringLiteral("sheet_incomplete");
        case MissingKind::stage_unsigned:
            return QStringLiteral("stage_unsigned");
        case MissingKind::sign_off_overtaken:
            return QStringLiteral("sign_off_overtaken");
        case MissingKind::part_without_size:
            return QStringLiteral("part_without_size");
        case MissingKind::service_dates:
            return QStringLiteral("service_dates");
        case MissingKind::seals:
            return QStringLiteral("seals");
        case MissingKind::no_pull:
            return QStringLiteral("no_pull");
        case MissingKind::no_photo:
            return QStringLiteral("no_photo");
        case MissingKind::photo_without_words:
            return QStringLiteral("photo_without_words");
        case MissingKind::photo_gone:
            return QStringLiteral("photo_gone");
        case MissingKind::question_open:
            return QStringLiteral("question_open");
    }
    return {};
}

BookBlocks book_not_checked(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks;
    QStringList lacking;
    for (const MissingFact& fact : facts.missing()) {
        lacking << missing_fact(fact, facts);
    }
    add_list(blocks, Missing::tr("What this book lacks"), lacking);
    QStringList valves;
    if (facts.engine) {
        for (const ValvePosition& one : facts.engine->valves_without_train()) {
            valves << valve(one);
        }
    }
    if (!valves.isEmpty()) {
        add_list(blocks, Missing::tr("Pushrods that were not worked out"),
                 {Missing::tr("Not in the set-up: %1.").arg(valves.join(", "))});
    }
    add_list(blocks, Missing::tr("Written down as not measured"), said_not_measured(facts));
    QStringList sheets;
    for (const AssessedSheet& sheet : facts.assessed) {
        if (!any_known(sheet)) {
            sheets << printable(sheet_title(sheet.kind, facts.sheets->own_titles()));
        }
    }
    if (!sheets.isEmpty()) {
        blocks.push_back(BookHeading{Missing::tr("Sheets on which nothing stands"), 2});
        blocks.push_back(paragraph(sheets.join(", ") + u'.'));
    }
    if (BookTable steps = steps_not_done(facts); !steps.rows.empty()) {
        blocks.push_back(BookHeading{Missing::tr("Steps of the plan that were not done"), 2});
        blocks.push_back(std::move(steps));
    }
    return blocks;
}

} // namespace rodway::words
