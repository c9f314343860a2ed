#include <QCoreApplication>
#include <algorithm>

#include "app/words/book_words.h"
#include "app/words/box_words.h"
#include "app/words/hold_words.h"
#include "app/words/part_state_words.h"
#include "app/words/part_words.h"
#include "app/words/sheet_words.h"
#include "core/sheets/position.h"
#include "core/sheets/sheet_rows.h"

// The settings card: what the engine is set to and filled with, and when it must be seen again.

namespace rodway::words {
namespace {

struct Settings {
    Q_DECLARE_TR_FUNCTIONS(BookSettings)
};

/// As written, and the same in both units, where there are two.
QString value_of(const SheetBox& box, const Quantity& quantity) {
    if (!box.taken) {
        return box.figure ? Settings::tr("%1 (worked out)").arg(amount(*box.figure, quantity))
                          : QString();
    }
    const QString both = both_units(box.taken->value, quantity);
    return both.isEmpty() ? as_written(*box.taken, quantity)
                          : Settings::tr("%1 (%2)").arg(printable(box.taken->reading.text), both);
}

/// What, where, and the value there.
class SettingsTable {
  public:
    void add(const QString& what, const QString& where, const QString& value) {
        if (!value.isEmpty()) table_.rows.push_back({what, where, value});
    }
    [[nodiscard]] bool empty() const { return table_.rows.empty(); }
    [[nodiscard]] BookTable take() { return std::move(table_); }

  private:
    BookTable table_{{{{}, 0.28}, {{}, 0.27}, {{}, 0.45}}, {}, 16.0, 9.0};
};

/// A row of a line, and all places of it; rows in the order of their first place.
using PlaceRows = std::vector<std::pair<QString, QStringList>>;

/// Places with the same value: by their row where all of it has it, else each by itself.
QString places_text(const QStringList& places, const PlaceRows& rows) {
    QStringList said;
    for (const auto& [row, all] : rows) {
        const bool every =
            all.size() > 1 && std::all_of(all.begin(), all.end(),
                                          [&](const QString& one) { return places.contains(one); });
        if (every) {
            said << Settings::tr("%1, every one").arg(row);
            continue;
        }
        for (const QString& one : all) {
            if (places.contains(one)) said << one;
        }
    }
    return said.join(", ");
}

QStringList& places_of(const QString& row, PlaceRows& rows) {
    const auto found =
        std::find_if(rows.begin(), rows.end(), [&](const auto& one) { return one.first == row; });
    return found == rows.end() ? rows.emplace_back(row, QStringList()).second : found->second;
}

/// Places whose value is the same stand together.
void add_line(const SheetLine& line, const QString& title, SettingsTable& table) {
    std::vector<std::pair<QString, QStringList>> by_value; ///< value, where
    PlaceRows rows;
    for (const SheetBox& box : line.boxes) {
        const QString value = value_of(box, line.quantity);
        if (value.isEmpty()) {
            continue;
        }
        const QString where = printable(sheet_position(box.position, line.quantity.place));
        const auto position = parse_sheet_position(box.position, line.quantity.place);
        places_of(position ? row_title(row_name(*position)) : QString(), rows) << where;
        auto found = std::find_if(by_value.begin(), by_value.end(),
                                  [&](const auto& one) { return one.first == value; });
        if (found == by_value.end()) {
            by_value.push_back({value, {}});
            found = by_value.end() - 1;
        }
        found->second << where;
    }
    for (const auto& [value, places] : by_value) {
        const bool once = line.quantity.place == Place::engine;
        table.add(title, once ? QString() : places_text(places, rows), value);
    }
}

const SheetLine* line_of(const BookFacts& facts, std::string_view quantity) {
    for (const AssessedSheet& sheet : facts.assessed) {
        for (const SheetLine& line : sheet.lines) {
            if (line.quantity.id == quantity) return &line;
        }
    }
    return nullptr;
}

void add_parts(const BookFacts& facts, std::string_view role, SettingsTable& table) {
    for (const PartRecord& part : facts.state.facts.records.parts) {
        if (part.role != role || part.returned || part.failed) {
            continue;
        }
        QStringList said{printable(part_title(part))};
        if (part.marking) said << printable(*part.marking);
        if (part.lubricant) said << Settings::tr("lubricant: %1").arg(printable(*part.lubricant));
        if (part.tightening) said << Settings::tr("tightened: %1").arg(printable(*part.tightening));
        table.add(part_role(std::string(role)),
                  part.position ? printable(*part.position) : QString(), said.join("; "));
    }
}

BookBlocks service(const BookFacts& facts) {
    FactTable table;
    table.add(Settings::tr("To be seen again"), facts.service_dates());
    for (const OpenItem& item : facts.state.facts.records.open_items) {
        if (item.due && !item.closed_at) {
            table.add(day(*item.due), printable(item.title));
        }
    }
    BookBlocks blocks{BookHeading{Settings::tr("Service"), 2}};
    if (table.empty()) {
        blocks.push_back(paragraph(Settings::tr(
            "No day for a first look was written down. Ask the builder when lash and bolts are to "
            "be gone over and the oil is to be changed.")));
    } else {
        blocks.push_back(table.take());
    }
    return blocks;
}

} // namespace

QString settings_topic(SettingsTopic topic) {
    switch (topic) {
        case SettingsTopic::lash:
            return Settings::tr("Lash");
        case SettingsTopic::ignition:
            return Settings::tr("Ignition, timing, plugs");
        case SettingsTopic::fuel:
            return Settings::tr("Fuel");
        case SettingsTopic::oil:
            return Settings::tr("Oil");
        case SettingsTopic::cooling:
            return Settings::tr("Cooling");
        case SettingsTopic::torque:
            return Settings::tr("Bolts to go over");
        case SettingsTopic::break_in:
            return Settings::tr("Break-in");
    }
    return {};
}

BookBlocks book_settings(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks;
    for (const SettingsGroup& group : settings_groups()) {
        SettingsTable table;
        if (group.topic == SettingsTopic::fuel && facts.build().fuel) {
            table.add(Settings::tr("Fuel"), {}, printable(*facts.build().fuel));
        }
        for (const std::string_view quantity : group.quantities) {
            if (const SheetLine* line = line_of(facts, quantity)) {
                add_line(*line, printable(sheet_title(std::string(quantity))), table);
            }
        }
        for (const std::string_view role : group.part_roles) {
            add_parts(facts, role, table);
        }
        if (table.empty() && group.wanted.empty()) {
            continue;
        }
        blocks.push_back(BookHeading{settings_topic(group.topic), 2});
        if (table.empty()) {
            blocks.push_back(paragraph(Settings::tr("Nothing was recorded. Ask the builder.")));
        } else {
            blocks.push_back(table.take());
        }
    }
    for (BookBlock& block : service(facts)) {
        blocks.push_back(std::move(block));
    }
    return blocks;
}

} // namespace rodway::words
