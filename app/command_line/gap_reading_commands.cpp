#include <QCoreApplication>
#include <QJsonArray>
#include <algorithm>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/edit_stack/shop_session.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/gap_words.h"
#include "app/work/clock.h"
#include "core/clearance/passage_place.h"
#include "core/units/typed_text.h"
#include "db/reading_store.h"

namespace rodway {
namespace {

struct GapReadingCommands {
    Q_DECLARE_TR_FUNCTIONS(GapReadingCommands)
};

struct GapReadingOptions : BuildOptions {
    std::string valve;
    std::string text;
    std::string passage = "tube";
    std::string end;
    std::string clock;
    std::string at;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    bool mm = false;
};

/// "heel", "full" or crank degrees, into a position.
Result<Done> read_turn_place(const std::string& text, RodGapPosition& position) {
    if (text == "heel" || text == "full") {
        position.place = text == "heel" ? TurnPlace::on_heel : TurnPlace::at_full_lift;
        return Done{};
    }
    constexpr double most_deg = 7200.0;
    const auto deg = parse_number(text);
    if (!deg) {
        return Error{ErrorCode::wrong_type, "--at", text, "turn_place", {}, {}};
    }
    if (!(std::abs(*deg) <= most_deg)) {
        const Limits limits{-most_deg, most_deg, "deg"};
        return Error{ErrorCode::out_of_range, "--at", text, {}, {}, limits};
    }
    position.place = TurnPlace::at_crank_angle;
    position.crank = CrankAngle::deg(*deg);
    return Done{};
}

/// Refuses a passage that the train doesn't have, and says which it has.
Result<Done> check_passage_name(const Train& train, const std::string& name) {
    if (find_passage(train, name)) {
        return Done{};
    }
    std::string names = train.tube.name;
    for (const Passage& passage : train.further_passages) {
        names += ' ' + passage.name;
    }
    return Error{ErrorCode::not_a_choice, "--passage", name, names, {}, {}};
}

Result<RodGapPosition> typed_position(const GapReadingOptions& options, const Engine& engine) {
    const auto valve = parse_position(options.valve);
    if (!valve) {
        return in_field(valve.error(), "valve");
    }
    const Train* train = engine.train(*valve);
    if (!train) {
        return Error{ErrorCode::valve_unknown, "valve", options.valve, {}, {}, {}};
    }
    if (const auto checked = check_passage_name(*train, options.passage); !checked) {
        return checked.error();
    }
    const auto clock = parse_clock(options.clock);
    if (!clock) {
        return in_field(clock.error(), "--clock");
    }
    RodGapPosition position;
    position.valve = *valve;
    position.passage = options.passage;
    position.end = options.end == "rocker" ? BoreEnd::top : BoreEnd::bottom;
    position.clock_minutes = *clock;
    if (const auto read = read_turn_place(options.at, position); !read) {
        return read.error();
    }
    return position;
}

QJsonArray fields_json(const std::vector<std::string>& fields) {
    QJsonArray names;
    for (const std::string& field : fields) {
        names.append(QString::fromStdString(field));
    }
    return names;
}

QString name_of_set_up(const std::vector<SetUpRecord>& set_ups,
                       const std::optional<std::int64_t>& id) {
    for (const SetUpRecord& set_up : set_ups) {
        if (id == set_up.id) {
            return QString::fromStdString(set_up.name);
        }
    }
    return {};
}

/// One reading; the keys are documented in the guide.
QJsonObject kept_gap_json(const KeptGap& kept, const std::vector<SetUpRecord>& set_ups) {
    const Reading& reading = kept.reading;
    const QString set_up = name_of_set_up(set_ups, reading.set_up_id);
    QJsonObject object{
        {"reading", static_cast<qint64>(reading.id)},
        {"position", QString::fromStdString(reading.position)},
        {"text", QString::fromStdString(reading.text)},
        {"unit", QString::fromStdString(reading.unit)},
        {"taken_by", QString::fromStdString(reading.taken_by)},
        {"taken_at", QString::fromStdString(reading.taken_at)},
        {"set_up", reading.set_up_id ? QJsonValue(set_up) : QJsonValue()},
        {"set_up_number",
         reading.set_up_id ? QJsonValue(static_cast<qint64>(*reading.set_up_id)) : QJsonValue()},
        {"standing", words::token(kept.standing)},
        {"stale_fields", fields_json(kept.stale_fields)},
        {"taken_again_in", kept.taken_again_in
                               ? QJsonValue(static_cast<qint64>(*kept.taken_again_in))
                               : QJsonValue()},
        {"trouble", kept.error ? QJsonValue(words::error_text(*kept.error)) : QJsonValue()}};
    for (const char* key :
         {"valve", "passage", "end", "clock_hours", "at", "crank_deg", "low_in", "high_in"}) {
        object[key] = QJsonValue();
    }
    if (kept.gap) {
        const GapReading& gap = *kept.gap;
        object["valve"] = words::valve(gap.valve);
        object["passage"] = QString::fromStdString(gap.passage);
        object["end"] = words::token(gap.end);
        object["clock_hours"] = number_or_null(gap.clock_hours);
        object["at"] = words::token(gap.place);
        if (gap.place == TurnPlace::at_crank_angle) {
            object["crank_deg"] = gap.crank.in_deg();
        }
        object["low_in"] = inches_or_null(gap.low_mm);
        object["high_in"] = inches_or_null(gap.high_mm);
    }
    return object;
}

/// "Reading 4: 3I, tube, rocker end, 3 o'clock, at full lift: .008-.010 (0.008 in to 0.010 in)".
QString kept_gap_line(const KeptGap& kept) {
    const QString text = QString::fromStdString(kept.reading.text);
    if (!kept.gap) {
        return GapReadingCommands::tr("Reading %1: %2: %3")
            .arg(QString::number(kept.reading.id), QString::fromStdString(kept.reading.position),
                 text);
    }
    return GapReadingCommands::tr("Reading %1: %2, %3, %4: %5 (%6)")
        .arg(QString::number(kept.reading.id), words::valve(kept.gap->valve),
             QString::fromStdString(kept.gap->passage), words::gap_place(*kept.gap), text,
             words::gap_limits(*kept.gap));
}

/// What is kept of one build, newest set-up and all.
struct BuildGaps {
    std::vector<SetUpRecord> set_ups;
    std::vector<KeptGap> gaps;
};

Result<BuildGaps> gaps_of_build(ShopFile& shop, std::int64_t build_id) {
    const auto set_ups = load_set_ups(shop, build_id);
    const auto found =
        set_ups ? readings(shop, build_id) : Result<std::vector<Reading>>(set_ups.error());
    if (!found) {
        return found.error();
    }
    return BuildGaps{*set_ups, kept_gaps(*found, *set_ups)};
}

Result<std::int64_t> keep_reading(ShopSession& session, Reading reading) {
    return session.create(
        RecordKind::reading,
        [&](std::int64_t id) {
            reading.id = id;
            return edits_to_create(reading);
        },
        GapReadingCommands::tr("gap reading"));
}

/// Says what was kept, and which reading at the same place no longer counts.
void print_added(const GapReadingOptions& options, const BuildInHand& hand, const BuildGaps& after,
                 std::int64_t id) {
    for (const KeptGap& kept : after.gaps) {
        if (kept.reading.id == id && options.json) {
            QJsonObject answer = head_json("rodway-add-gap-reading", hand);
            answer["reading"] = kept_gap_json(kept, after.set_ups);
            print_json(answer);
        } else if (kept.reading.id == id) {
            print(GapReadingCommands::tr("Kept. %1").arg(kept_gap_line(kept)));
        }
    }
    for (const KeptGap& kept : after.gaps) {
        if (kept.taken_again_in == id && !options.json) {
            print(GapReadingCommands::tr("It counts in place of reading %1 there (%2); that one is "
                                         "kept as well. Two gauges at one place belong in one "
                                         "reading: “.008 goes .010 no”.")
                      .arg(QString::number(kept.reading.id),
                           QString::fromStdString(kept.reading.text)));
        }
    }
}

/// `rodway add-gap-reading`: one gap felt, tied to the set-up in hand.
Shown add_gap_reading(ShopSession& session, const GapReadingOptions& options) {
    const auto build = find_build(session.shop(), QString::fromStdString(options.build));
    const auto hand =
        build ? build_in_hand(session.shop(), *build) : Result<BuildInHand>(build.error());
    const auto position =
        hand ? typed_position(options, hand->engine) : Result<RodGapPosition>(hand.error());
    const auto text =
        position ? rod_gap_position_text(*position) : Result<std::string>(position.error());
    if (!text) {
        return text.error();
    }
    Reading reading;
    reading.build_id = hand->build.id;
    reading.set_up_id = hand->set_up.id;
    reading.quantity = std::string(rod_gap_quantity);
    reading.position = *text;
    reading.text = options.text;
    reading.unit = options.mm ? "mm" : "in";
    reading.taken_by = options.who;
    reading.taken_at = now_utc();
    if (const auto read = read_rod_gap(reading); !read) {
        return read.error();
    }
    const auto id = keep_reading(session, reading);
    const auto after =
        id ? gaps_of_build(session.shop(), hand->build.id) : Result<BuildGaps>(id.error());
    if (!after) {
        return after.error();
    }
    print_added(options, *hand, *after, *id);
    return ExitCode::done;
}

/// Whether a reading belongs in a list of one valve's; one at no readable place may be anybody's.
bool may_be_of(const KeptGap& kept, const std::optional<ValvePosition>& valve) {
    const auto position = parse_rod_gap_position(kept.reading.position);
    return !valve || !position || position->valve == *valve;
}

void print_kept_gap(const KeptGap& kept, const std::vector<SetUpRecord>& set_ups) {
    const Reading& reading = kept.reading;
    print(kept_gap_line(kept));
    const QString set_up = reading.set_up_id ? name_of_set_up(set_ups, reading.set_up_id)
                                             : GapReadingCommands::tr("not known");
    print(GapReadingCommands::tr("   %1, %2, set-up “%3”: %4")
              .arg(QString::fromStdString(reading.taken_by),
                   QString::fromStdString(reading.taken_at.substr(0, 10)), set_up,
                   words::standing(kept)));
}

/// `rodway gap-readings`: all of a build's, and which of them still hold.
Shown list_gap_readings(ShopFile& shop, const GapReadingOptions& options) {
    std::optional<ValvePosition> valve;
    if (!options.valve.empty()) {
        const auto read = parse_position(options.valve);
        if (!read) {
            return in_field(read.error(), "valve");
        }
        valve = *read;
    }
    const auto build = find_build(shop, QString::fromStdString(options.build));
    const auto kept = build ? gaps_of_build(shop, build->id) : Result<BuildGaps>(build.error());
    if (!kept) {
        return kept.error();
    }
    QJsonArray rows;
    for (const KeptGap& each : kept->gaps) {
        if (!may_be_of(each, valve)) {
            continue;
        }
        rows.append(kept_gap_json(each, kept->set_ups));
        if (!options.json) {
            print_kept_gap(each, kept->set_ups);
        }
    }
    if (options.json) {
        const bool any = !kept->set_ups.empty();
        print_json({{"format", "rodway-gap-readings"},
                    {"version", 1},
                    {"build", QString::fromStdString(build->name)},
                    {"set_up", any ? QJsonValue(QString::fromStdString(kept->set_ups.back().name))
                                   : QJsonValue()},
                    {"readings", rows}});
    } else if (rows.isEmpty()) {
        print(GapReadingCommands::tr("No gap readings yet. Add one with: rodway add-gap-reading"));
    }
    return ExitCode::done;
}

ExitCode answer_of(const Shown& shown) {
    return shown ? *shown : refuse(shown.error());
}

} // namespace

void add_gap_reading_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<GapReadingOptions>();
    const auto word = [](const QString& text) { return text.toStdString(); };

    auto* add = program.add_subcommand(
        "add-gap-reading",
        word(GapReadingCommands::tr("Keep a gap felt between a rod and its tube's wall")));
    add_build_options(*add, *options);
    add->add_option("valve", options->valve, word(GapReadingCommands::tr("Valve, such as 3I")))
        ->required();
    add->add_option("text", options->text,
                    word(GapReadingCommands::tr("What was felt: .008, .008-.010, “.008 goes .010 "
                                                "no”, touch, “tape .006 survived”")))
        ->required();
    add->add_option("--end", options->end,
                    word(GapReadingCommands::tr("At which mouth of the tube")))
        ->required()
        ->check(CLI::IsMember({"rocker", "lifter"}));
    add->add_option("--clock", options->clock,
                    word(GapReadingCommands::tr("Direction seen from the rocker down, 12 to the "
                                                "front: 3, 3:30, or tightest")))
        ->required();
    add->add_option("--at", options->at,
                    word(GapReadingCommands::tr("heel, full (lift), or crank degrees from cylinder "
                                                "1 firing")))
        ->required();
    add->add_option("--passage", options->passage,
                    word(GapReadingCommands::tr("Passage, if not the port tube")));
    add->add_option("--by", options->who, word(GapReadingCommands::tr("Who does this (initials)")));
    add->add_flag("--mm", options->mm,
                  word(GapReadingCommands::tr("Numbers without a unit are millimetres")));
    add->callback([=, &outcome] {
        auto shop = ShopFile::open(options->shop);
        if (!shop) {
            outcome.code = refuse(shop.error(), QString::fromStdString(options->shop));
            return;
        }
        ShopSession session(std::move(shop).value(), QString::fromStdString(options->who));
        outcome.code = answer_of(add_gap_reading(session, *options));
    });

    auto* list = program.add_subcommand(
        "gap-readings",
        word(GapReadingCommands::tr("Gaps felt, and which of them hold in the set-up in hand")));
    add_build_options(*list, *options);
    list->add_option("valve", options->valve,
                     word(GapReadingCommands::tr("Only this valve's, such as 3I")));
    list->callback([=, &outcome] {
        auto shop = ShopFile::open_to_look(options->shop);
        if (!shop) {
            outcome.code = refuse(shop.error(), QString::fromStdString(options->shop));
            return;
        }
        ShopFile file = std::move(shop).value();
        outcome.code = answer_of(list_gap_readings(file, *options));
    });
}

} // namespace rodway
