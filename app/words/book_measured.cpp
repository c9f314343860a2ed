#include <QCoreApplication>
#include <algorithm>
#include <set>

#include "app/book/sheet_blocks.h"
#include "app/words/account_words.h"
#include "app/words/book_words.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/hold_words.h"
#include "app/words/part_words.h"
#include "app/words/record_words.h"
#include "core/build/caution.h"

// Every sheet that was filled, parts, photos; cautions and the glossary.

namespace rodway::words {
namespace {

struct Measured {
    Q_DECLARE_TR_FUNCTIONS(BookMeasured)
};

/// Readings that count on a sheet.
std::vector<const Taken*> taken_on(const AssessedSheet& sheet) {
    std::vector<const Taken*> all;
    for (const SheetLine& line : sheet.lines) {
        for (const SheetBox& box : line.boxes) {
            if (box.taken) all.push_back(&*box.taken);
        }
    }
    return all;
}

QString instrument_of(const BookFacts& facts, std::int64_t id) {
    for (const Instrument& one : facts.instruments) {
        if (one.id == id) {
            return one.serial_number ? Measured::tr("%1 (number %2)")
                                           .arg(printable(one.name), printable(*one.serial_number))
                                     : printable(one.name);
        }
    }
    return {};
}

/// By whom, when and with what the readings of a sheet were taken.
QString provenance(const BookFacts& facts, const std::vector<const Taken*>& taken) {
    std::set<std::string> who;
    std::set<std::int64_t> instruments;
    std::string first;
    std::string last;
    std::size_t retaken = 0;
    for (const Taken* one : taken) {
        const Reading& reading = one->reading;
        who.insert(reading.taken_by);
        if (reading.instrument_id) instruments.insert(*reading.instrument_id);
        if (first.empty() || reading.taken_at < first) first = reading.taken_at;
        if (last.empty() || reading.taken_at > last) last = reading.taken_at;
        retaken += one->retaken.size();
    }
    QStringList names;
    for (const std::string& one : who) names << person(facts, one);
    const QString days = day_of(first) == day_of(last)
                             ? day_of(first)
                             : Measured::tr("%1 to %2").arg(day_of(first), day_of(last));
    QStringList said{Measured::tr("Written down by %1, %2.").arg(names.join(", "), days)};
    QStringList with;
    for (const std::int64_t id : instruments) with << instrument_of(facts, id);
    with.removeAll(QString());
    if (!with.isEmpty()) said << Measured::tr("With: %1.").arg(with.join(", "));
    if (retaken > 0) {
        said << Measured::tr("Values taken before these, and kept: %1.").arg(retaken);
    }
    return said.join(u' ');
}

bool any_figure(const AssessedSheet& sheet) {
    return std::any_of(sheet.lines.begin(), sheet.lines.end(), [](const SheetLine& line) {
        return std::any_of(line.boxes.begin(), line.boxes.end(),
                           [](const SheetBox& box) { return box.figure.has_value(); });
    });
}

void add_row_notes(const std::vector<const Taken*>& taken, const AssessedSheet& sheet,
                   BookBlocks& blocks) {
    for (const Taken* one : taken) {
        if (one->reading.note) {
            const auto line = std::find_if(
                sheet.lines.begin(), sheet.lines.end(),
                [&](const SheetLine& here) { return here.quantity.id == one->reading.quantity; });
            blocks.push_back(BookText{
                Measured::tr("%1, %2: %3")
                    .arg(printable(sheet_title(one->reading.quantity)),
                         printable(sheet_position(one->reading.position, line->quantity.place)),
                         printable(*one->reading.note)),
                BookText::Look::small});
        }
    }
}

QString part_story(const BookFacts& facts, const PartRecord& part) {
    QStringList said;
    if (part.owner == PartOwner::customer) said << Measured::tr("the customer's own");
    if (part.condition) said << Measured::tr("came %1").arg(printable(*part.condition));
    if (part.supplier) said << Measured::tr("from %1").arg(printable(*part.supplier));
    if (part.measured) said << Measured::tr("measured %1").arg(day(*part.measured));
    if (part.fitted) said << Measured::tr("fitted %1").arg(day(*part.fitted));
    if (part.returned) said << Measured::tr("given back %1").arg(day(*part.returned));
    if (part.kept_until) said << Measured::tr("kept until %1").arg(day(*part.kept_until));
    if (part.failed) said << Measured::tr("failed: %1").arg(printable(*part.failed));
    if (part.temporary) said << Measured::tr("stands in for another: must be replaced");
    for (const PartRecord& before : facts.state.facts.records.parts) {
        if (part.replaces_id == before.id) {
            said << Measured::tr("takes the place of %1").arg(printable(before.item));
        }
    }
    if (part.note) said << printable(*part.note);
    return said.join("; ");
}

QString part_size(const PartRecord& part) {
    QStringList said;
    for (const auto* one :
         {&part.size, &part.marking, &part.thread, &part.length, &part.drive, &part.weight}) {
        if (*one) said << printable(**one);
    }
    if (part.lubricant) said << Measured::tr("lubricant: %1").arg(printable(*part.lubricant));
    if (part.tightening) said << Measured::tr("tightened: %1").arg(printable(*part.tightening));
    return said.join("; ");
}

QString caption_of(const BookFacts& facts, const Photo& photo) {
    QStringList said{photo.caption ? printable(*photo.caption) : printable(photo.file_name)};
    if (photo.position) said << printable(*photo.position);
    if (photo.taken_at) said << day_of(*photo.taken_at);
    for (const Stage& stage : facts.state.facts.records.stages) {
        if (photo.stage_id == stage.id) said << printable(stage.title);
    }
    return said.join(", ");
}

} // namespace

BookBlocks book_sheets(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks;
    for (const AssessedSheet& sheet : facts.assessed) {
        const auto taken = taken_on(sheet);
        if ((taken.empty() && !any_figure(sheet)) || sheet.kind == "dyno_pull") {
            continue;
        }
        blocks.push_back(
            BookHeading{printable(sheet_title(sheet.kind, facts.sheets->own_titles())), 2});
        if (!taken.empty()) {
            blocks.push_back(BookText{provenance(facts, taken), BookText::Look::small});
        }
        const SheetPaper paper{facts.build(),
                               sheet,
                               facts.sheets->own_titles(),
                               false,
                               &facts.sheets->taken(),
                               facts.sheets->places(),
                               true};
        for (BookBlock& block : sheet_blocks(paper, source.width)) {
            blocks.push_back(std::move(block));
        }
        add_row_notes(taken, sheet, blocks);
    }
    return blocks;
}

BookBlocks book_parts(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookTable table{{{Measured::tr("Part"), 0.24},
                     {Measured::tr("Pieces"), 0.08, true},
                     {Measured::tr("Where"), 0.12},
                     {Measured::tr("Size and marking"), 0.26},
                     {Measured::tr("What is known"), 0.3}},
                    {},
                    15.0,
                    8.5};
    for (const PartRecord& part : facts.state.facts.records.parts) {
        QString name = printable(part.item);
        if (part.role) {
            const QString role = part_role(*part.role);
            if (!name.startsWith(role, Qt::CaseInsensitive)) name += u'\n' + role;
        }
        table.rows.push_back({name, part.count ? QString::number(*part.count) : QString(),
                              part.position ? printable(*part.position) : QString(),
                              part_size(part), part_story(facts, part)});
    }
    return table.rows.empty() ? BookBlocks() : BookBlocks{std::move(table)};
}

BookBlocks book_photos(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookPhotos photos;
    for (const Photo& photo : facts.photos) {
        if (!photo.in_book) {
            continue;
        }
        const auto file = facts.photo_files.find(photo.id);
        photos.photos.push_back(
            {file == facts.photo_files.end() ? QString() : file->second, caption_of(facts, photo)});
    }
    return photos.photos.empty() ? BookBlocks() : BookBlocks{std::move(photos)};
}

BookBlocks book_cautions(const BookSource& source) {
    BookBlocks blocks{paragraph(clearance_caution())};
    // Those of the work that an owner does himself, then those of the work done here.
    std::set<std::string> keys{"torque",  "springs",      "fuel",           "ignition",
                               "lifting", "barring_over", "running_engine", "first_start"};
    for (const Stage& stage : source.facts->state.facts.records.stages) {
        if (stage.caution) keys.insert(*stage.caution);
    }
    for (const std::string_view key : cautions()) {
        if (keys.count(std::string(key)) > 0) {
            blocks.push_back(paragraph(
                caution(QString::fromUtf8(key.data(), static_cast<qsizetype>(key.size())))));
        }
    }
    return blocks;
}

BookBlocks book_glossary() {
    FactTable table;
    const auto add = [&](const QString& word, const QString& meaning) { table.add(word, meaning); };
    add(Measured::tr("Barring over"), Measured::tr("Turning the crank by hand."));
    add(Measured::tr("Break-in"),
        Measured::tr("The first minutes and hours, in which new surfaces wear to each other."));
    add(Measured::tr("Coil bind"),
        Measured::tr("A spring pressed so far that its coils touch. It must never get there."));
    add(Measured::tr("Deck"), Measured::tr("The block's face on which the head stands."));
    add(Measured::tr("Degreeing"),
        Measured::tr("Finding out at which crank angle the cam really opens and closes valves."));
    add(Measured::tr("Doubt, ±"),
        Measured::tr("By how much a figure may be off, by what it was measured with."));
    add(Measured::tr("Full lift"), Measured::tr("The valve as far open as its lobe opens it."));
    add(Measured::tr("Heel"),
        Measured::tr("The round part of a cam lobe, on which the valve stays shut."));
    add(Measured::tr("I and E"),
        Measured::tr("Intake and exhaust valve: 3I is the intake valve of cylinder 3."));
    add(Measured::tr("Lash"),
        Measured::tr(
            "The play left between rocker and valve, cold or hot, so that the valve shuts."));
    add(Measured::tr("Lifter"),
        Measured::tr("What rides on the cam's lobe and carries the pushrod."));
    add(Measured::tr("Lobe"), Measured::tr("The part of the camshaft that opens one valve."));
    add(Measured::tr("Port tube"),
        Measured::tr("The tube in which a pushrod goes through the head past a port."));
    add(Measured::tr("Preload"),
        Measured::tr("How far a hydraulic lifter's plunger is pressed in at rest; of a bolt, the "
                     "force with which it clamps."));
    add(Measured::tr("Pushrod"), Measured::tr("The rod between lifter and rocker."));
    add(Measured::tr("Serviceable"),
        Measured::tr("Not as new, and within what a used part may have."));
    add(Measured::tr("Signed off"),
        Measured::tr("Somebody answers by name for what a stage's checks came to."));
    add(Measured::tr("Standard factor"),
        Measured::tr("By what a dyno's figure is multiplied to be what the engine would make in "
                     "the air that a standard names."));
    add(Measured::tr("TDC"), Measured::tr("Top dead centre: a piston at the top of its stroke."));
    add(Measured::tr("Thou"), Measured::tr("A thousandth of an inch, 0.0254 mm."));
    add(Measured::tr("Too close to call"),
        Measured::tr("The doubt of the figure reaches over the limit: not to be decided with the "
                     "instrument it was taken with."));
    add(Measured::tr("Waived"),
        Measured::tr("The work went on past a check that didn't pass, on purpose, with a reason."));
    return {table.take()};
}

} // namespace rodway::words
