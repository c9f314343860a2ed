#include <QCoreApplication>

#include "app/command_line/commands.h"
#include "app/command_line/opened_sheets.h"
#include "app/command_line/output.h"
#include "app/words/sheet_words.h"
#include "app/work/given.h"
#include "app/work/kept_readings.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

struct ReadingCommands {
    Q_DECLARE_TR_FUNCTIONS(ReadingCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct ReadingOptions {
    BuildOptions build;
    std::string who = person_at_this_computer();
    std::string quantity;
    std::vector<std::string> boxes;
    std::string unit;
    std::string method;
    std::string note;
    std::string position;
    std::string low;
    std::string high;
    std::string source;
    bool whole_shop = false;
    bool serviceable = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// Position and text, again and again.
Result<std::vector<Reading>> readings_of(const ReadingOptions& options, const Quantity& quantity) {
    std::vector<Reading> all;
    for (std::size_t at = 0; at < options.boxes.size(); at += 2) {
        if (at + 1 == options.boxes.size()) {
            return Error{ErrorCode::missing_field, "text", {}, {}, {}, {}};
        }
        auto readings =
            readings_to_keep(quantity, options.boxes[at], options.boxes[at + 1], options.unit);
        if (!readings) {
            return readings.error();
        }
        for (Reading reading : *readings) {
            reading.method = given(options.method);
            reading.note = given(options.note);
            all.push_back(std::move(reading));
        }
    }
    return all;
}

void print_kept(const OpenedSheets& shop, const Quantity& quantity,
                const std::vector<Reading>& readings) {
    QStringList where;
    QStringList texts;
    for (const Reading& reading : readings) {
        where << words::sheet_position(reading.position, quantity.place);
        texts << text(reading.text);
    }
    print(ReadingCommands::tr("Kept %1 for %2, %3.")
              .arg(texts.join(", "), words::sheet_title(quantity.id, shop.sheets.own_titles()),
                   where.join(", ")));
}

ExitCode take_readings(const ReadingOptions& options) {
    auto opened = open_sheets(options.build, options.who);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    OpenedSheets& shop = **opened;
    const auto quantity = find_quantity_in(shop.sheets, options.quantity);
    if (!quantity) {
        return refuse(quantity.error());
    }
    const auto readings = readings_of(options, **quantity);
    if (!readings) {
        return refuse(readings.error());
    }
    const auto ids = keep_readings(shop.session, shop.build.id, shop.sheets, *readings,
                                   ReadingCommands::tr("reading"));
    if (!ids) {
        return refuse(ids.error(), text(options.build.shop));
    }
    if (!options.build.json) {
        print_kept(shop, **quantity, *readings);
        return ExitCode::done;
    }
    QJsonArray kept;
    for (std::size_t at = 0; at < ids->size(); ++at) {
        kept.append(QJsonObject{{"reading", static_cast<qint64>((*ids)[at])},
                                {"position", text((*readings)[at].position)},
                                {"text", text((*readings)[at].text)}});
    }
    print_json({{"format", "rodway-read"}, {"version", 1}, {"readings", kept}});
    return ExitCode::done;
}

/// As typed; errors as `kept_position` and `read_limit`.
Result<LimitRecord> limit_of(const ReadingOptions& options, const Quantity& quantity) {
    LimitRecord limit;
    limit.quantity = quantity.id;
    if (!options.position.empty()) {
        const auto kept = kept_position(options.position, quantity.place);
        if (!kept) {
            return kept.error();
        }
        limit.position = *kept;
    }
    limit.low = given(options.low);
    limit.high = given(options.high);
    limit.unit = given(options.unit.empty() ? quantity.unit : options.unit);
    limit.source = options.source;
    limit.serviceable = options.serviceable;
    if (const auto read = read_limit(limit, quantity); !read) {
        return read.error();
    }
    return limit;
}

ExitCode set_limit(const ReadingOptions& options) {
    auto opened = open_sheets(options.build, options.who);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    OpenedSheets& shop = **opened;
    const auto quantity = find_quantity_in(shop.sheets, options.quantity);
    if (!quantity) {
        return refuse(quantity.error());
    }
    const auto made = limit_of(options, **quantity);
    if (!made) {
        return refuse(made.error());
    }
    LimitRecord limit = *made;
    if (!options.whole_shop) {
        limit.build_id = shop.build.id;
    }
    const auto id = shop.session.create(
        RecordKind::limit,
        [&](std::int64_t limit_id) {
            limit.id = limit_id;
            return edits_to_create(limit);
        },
        ReadingCommands::tr("limit"));
    if (!id) {
        return refuse(id.error(), text(options.build.shop));
    }
    if (options.build.json) {
        print_json(
            {{"format", "rodway-set-limit"}, {"version", 1}, {"limit", static_cast<qint64>(*id)}});
    } else {
        print(ReadingCommands::tr("Kept the limit of %1.")
                  .arg(words::sheet_title(options.quantity, shop.sheets.own_titles())));
    }
    return ExitCode::done;
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_reading_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<ReadingOptions>();
    const auto add_who = [=](CLI::App* command) {
        command->add_option("--who", options->who, word(ReadingCommands::tr("Initials")));
    };

    auto* read = program.add_subcommand(
        "read", word(ReadingCommands::tr("Keep readings, as typed, on a build's sheet")));
    add_build_options(*read, options->build);
    read->add_option("quantity", options->quantity,
                     word(ReadingCommands::tr("Quantity, as sheet shows it in brackets")))
        ->required();
    read->add_option("boxes", options->boxes,
                     word(ReadingCommands::tr("Where and what was read, again and again: 3I .018 "
                                              "3E .020; \"\" for the engine; 3 \"18/20 thou\" for "
                                              "both valves")))
        ->required()
        ->expected(2, -1);
    read->add_option("--unit", options->unit, word(ReadingCommands::tr("Unit of bare numbers")));
    read->add_option("--method", options->method, word(ReadingCommands::tr("How it was measured")));
    read->add_option("--note", options->note, word(ReadingCommands::tr("Note on each reading")));
    add_who(read);
    read->callback([=, &outcome] { outcome.code = take_readings(*options); });

    auto* limit = program.add_subcommand(
        "set-limit", word(ReadingCommands::tr("Set what a quantity may be, and who says so")));
    add_build_options(*limit, options->build);
    limit->add_option("quantity", options->quantity, word(ReadingCommands::tr("Quantity")))
        ->required();
    limit->add_option("--low", options->low, word(ReadingCommands::tr("Least allowed, as typed")));
    limit->add_option("--high", options->high, word(ReadingCommands::tr("Most allowed, as typed")));
    limit->add_option("--unit", options->unit, word(ReadingCommands::tr("Unit of bare numbers")));
    limit->add_option("--position", options->position,
                      word(ReadingCommands::tr("At this position only")));
    limit
        ->add_option("--source", options->source,
                     word(ReadingCommands::tr("Who says so: the maker, the shop …")))
        ->required();
    limit->add_flag("--whole-shop", options->whole_shop,
                    word(ReadingCommands::tr("For every build of the shop")));
    limit->add_flag("--serviceable", options->serviceable,
                    word(ReadingCommands::tr("For used parts, which may be worn further than new "
                                             "ones")));
    add_who(limit);
    limit->callback([=, &outcome] { outcome.code = set_limit(*options); });
}

} // namespace rodway
