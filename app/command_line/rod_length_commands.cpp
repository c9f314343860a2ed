#include <QCoreApplication>
#include <QJsonArray>
#include <algorithm>
#include <array>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "app/words/rod_length_words.h"
#include "app/work/build_in_hand.h"
#include "core/units/typed_text.h"
#include "core/valvetrain/adjuster_setting.h"
#include "core/valvetrain/rod_ends.h"

namespace rodway {
namespace {

struct RodLengthCommands {
    Q_DECLARE_TR_FUNCTIONS(RodLengthCommands)
};

struct LengthOptions : BuildOptions {
    std::string measured = "centres";
    std::string stocked = ".050";
    std::string length;
    std::string lower_ball;
    std::string upper_ball;
    std::string top_end = "ball";
    std::string cup_depth;
    std::string gauge_hole;
};

constexpr std::array definitions{LengthDefinition::between_centres, LengthDefinition::overall,
                                 LengthDefinition::effective, LengthDefinition::gauge};

std::size_t place(LengthDefinition definition) {
    const auto found = std::find(definitions.begin(), definitions.end(), definition);
    return static_cast<std::size_t>(found - definitions.begin());
}

/// The command line lets no other word through.
LengthDefinition definition_of(const std::string& word) {
    const auto found = std::find_if(
        definitions.begin(), definitions.end(),
        [&](LengthDefinition each) { return words::token(each).toStdString() == word; });
    RODWAY_ASSERT(found != definitions.end());
    return *found;
}

/// A length typed behind an option, mm.
Result<double> typed_mm(const std::string& text, const std::string& option) {
    const auto read = parse_length(text, BareNumber::inches);
    if (!read) {
        return in_field(read.error(), option);
    }
    if (read->is_interval()) {
        return Error{ErrorCode::not_a_length, option, text, {}, {}, {}};
    }
    return read->low.in_mm();
}

void print_caution() {
    print(
        RodLengthCommands::tr("Measure with a checker before ordering, and tell the maker how the "
                              "length is meant."));
}

/// What each definition adds to the length between centres, in the order of `definitions`, or the
/// size that is missing.
using BeyondCentres = std::vector<Result<double>>;

BeyondCentres beyond_centres(const Pushrod& rod) {
    BeyondCentres beyond;
    for (const LengthDefinition definition : definitions) {
        beyond.push_back(beyond_centres_mm(rod, definition));
    }
    return beyond;
}

/// The rod that one train wants.
struct WantedRod {
    ValvePosition valve;
    std::optional<RodLengths> lengths; ///< between centres; empty: it can't be worked out
    BeyondCentres beyond;

    [[nodiscard]] std::optional<double> wanted_mm(LengthDefinition definition) const {
        const auto& added = beyond[place(definition)];
        return lengths && added ? std::optional(lengths->as_found_mm + *added) : std::nullopt;
    }
};

QJsonObject wanted_json(const WantedRod& rod) {
    const auto& lengths = rod.lengths;
    return {{"valve", words::valve(rod.valve)},
            {"wanted_in", inches_or_null(rod.wanted_mm(LengthDefinition::between_centres))},
            {"wanted_overall_in", inches_or_null(rod.wanted_mm(LengthDefinition::overall))},
            {"wanted_effective_in", inches_or_null(rod.wanted_mm(LengthDefinition::effective))},
            {"wanted_gauge_in", inches_or_null(rod.wanted_mm(LengthDefinition::gauge))},
            {"shortest_in", lengths ? QJsonValue(inches_of(lengths->shortest_mm)) : QJsonValue()},
            {"longest_in", lengths ? QJsonValue(inches_of(lengths->longest_mm)) : QJsonValue()}};
}

void print_row(const QString& valve, const QStringList& lengths, const QString& would_do) {
    QString row = QString("%1").arg(valve, -6);
    for (const QString& length : lengths) {
        row += QString("%1 ").arg(length, -11);
    }
    print(row + would_do);
}

void print_wanted(const std::vector<WantedRod>& rods) {
    print_row(RodLengthCommands::tr("Valve"),
              {RodLengthCommands::tr("centres"), RodLengthCommands::tr("overall"),
               RodLengthCommands::tr("effective"), RodLengthCommands::tr("gauge")},
              RodLengthCommands::tr("would do, between centres"));
    for (const WantedRod& rod : rods) {
        if (!rod.lengths) {
            print_row(words::valve(rod.valve), {}, RodLengthCommands::tr("can't be worked out"));
            continue;
        }
        QStringList lengths;
        for (const LengthDefinition definition : definitions) {
            const auto wanted = rod.wanted_mm(definition);
            lengths << (wanted ? words::size(*wanted) : QString("-"));
        }
        print_row(
            words::valve(rod.valve), lengths,
            RodLengthCommands::tr("%1 to %2")
                .arg(words::size(rod.lengths->shortest_mm), words::size(rod.lengths->longest_mm)));
    }
}

Error of_train(Error error, const ValvePosition& valve) {
    error.field = "trains/" + position_name(valve) + "/rod/" + error.field;
    return error;
}

/// Why lengths stand empty, once: all rods of an engine mostly lack the same sizes.
void print_missing(const std::vector<WantedRod>& rods) {
    for (const WantedRod& rod : rods) {
        for (const auto& added : rod.beyond) {
            if (!added) {
                print(RodLengthCommands::tr("A length that isn't shown wants the sizes of the "
                                            "rod's ends. %1")
                          .arg(words::error_text(of_train(added.error(), rod.valve))));
                return;
            }
        }
    }
}

bool ends_differ(const std::vector<WantedRod>& rods, LengthDefinition definition) {
    return std::any_of(rods.begin(), rods.end(), [&](const WantedRod& rod) {
        return *rod.beyond[place(definition)] != *rods.front().beyond[place(definition)];
    });
}

void print_orders(const LengthSurvey& found, double step_mm, const QString& meant) {
    print({});
    print(RodLengthCommands::tr("To order, lengths %1, adjusters as found. Spread: %2.")
              .arg(meant, words::inches(found.spread_mm)));
    print(found.one_length_suits_all ? RodLengthCommands::tr("One length suits every valve: best "
                                                             "%1.")
                                           .arg(words::size(found.best_single.centres_mm))
                                     : RodLengthCommands::tr("No one length suits every valve."));
    for (const double length : found.lengths_mm) {
        QStringList takers;
        for (const FittedLength& valve : found.valves) {
            if (valve.centres_mm == length) {
                takers << words::valve(valve.valve);
            }
        }
        print(RodLengthCommands::tr("From stock in steps of %1: %2 %3 for %4")
                  .arg(words::inches(step_mm), words::size(length), meant, takers.join(", ")));
    }
    for (const ValvePosition& valve : found.no_stocked_length) {
        print(
            RodLengthCommands::tr("%1 lies between two stocked lengths.").arg(words::valve(valve)));
    }
}

QJsonObject orders_json(const LengthSurvey& found, double step_mm, LengthDefinition measured,
                        const std::vector<WantedRod>& rods) {
    QJsonArray orders;
    for (const FittedLength& fitted : found.valves) {
        const auto rod = std::find_if(rods.begin(), rods.end(), [&](const WantedRod& each) {
            return each.valve == fitted.valve;
        });
        const double centres_mm = fitted.centres_mm - *rod->beyond[place(measured)];
        orders.append(QJsonObject{{"valve", words::valve(fitted.valve)},
                                  {"length_in", inches_of(fitted.centres_mm)},
                                  {"centres_in", inches_of(centres_mm)},
                                  {"shorter_left_in", inches_of(fitted.shorter_left_mm)},
                                  {"longer_left_in", inches_of(fitted.longer_left_mm)}});
    }
    return {{"format", "rodway-rod-lengths"},
            {"version", 1},
            {"measured", words::token(measured)},
            {"ends_differ", ends_differ(rods, measured)},
            {"spread_in", inches_of(found.spread_mm)},
            {"one_length_suits_all", found.one_length_suits_all},
            {"best_single_in", inches_of(found.best_single.centres_mm)},
            {"stocked_step_in", inches_of(step_mm)},
            {"from_stock", orders}};
}

/// What the rods that can be worked out are to be ordered as. The survey is of lengths as ordered:
/// what is said of lengths between centres holds of those by any one definition.
Result<LengthSurvey> survey_as_ordered(const std::vector<WantedRod>& rods,
                                       LengthDefinition measured, double step_mm) {
    std::vector<RequiredLength> required;
    for (const WantedRod& rod : rods) {
        const auto& added = rod.beyond[place(measured)];
        if (!added) {
            return of_train(added.error(), rod.valve);
        }
        if (rod.lengths) {
            const RodLengths& lengths = *rod.lengths;
            required.push_back({rod.valve, lengths.as_found_mm + *added,
                                std::max(0.0, lengths.as_found_mm - lengths.shortest_mm),
                                std::max(0.0, lengths.longest_mm - lengths.as_found_mm)});
        }
    }
    auto found = survey_lengths(required, Stock{step_mm, 0.0});
    return found || found.error().field != "step" ? found
                                                  : in_field(found.error(), "--stocked-step");
}

/// `rodway rod-lengths`: what each valve needs, and what to order (questions 12 and 13).
Shown show_rod_lengths(const LengthOptions& options, const BuildInHand& hand) {
    const LengthDefinition measured = definition_of(options.measured);
    const auto step = typed_mm(options.stocked, "--stocked-step");
    if (!step) {
        return step.error();
    }
    std::vector<WantedRod> rods;
    QJsonArray valves;
    bool all_answered = true;
    for (const Train& train : hand.engine.trains) {
        rods.push_back({train.position, rod_lengths(train), beyond_centres(train.rod)});
        all_answered = all_answered && rods.back().lengths;
        valves.append(wanted_json(rods.back()));
    }
    const auto found = survey_as_ordered(rods, measured, *step);
    if (!found) {
        return found.error();
    }
    if (options.json) {
        QJsonObject answer = orders_json(*found, *step, measured, rods);
        answer["valves"] = valves;
        print_json(answer);
    } else {
        print_wanted(rods);
        print_missing(rods);
        print_orders(*found, *step, words::definition(measured));
        if (ends_differ(rods, measured)) {
            print(
                RodLengthCommands::tr("The rods' ends are not alike: rods of one length are still "
                                      "different rods."));
        }
        print_caution();
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

/// A rod of which only its ends are known, as options tell them.
Result<Pushrod> rod_of(const LengthOptions& options) {
    Pushrod rod;
    rod.cup_at_top = options.top_end == "cup";
    const auto read = [](const std::string& text, const char* option,
                         std::optional<double>& size_mm) -> std::optional<Error> {
        if (text.empty()) {
            return std::nullopt;
        }
        const auto typed = typed_mm(text, option);
        if (!typed) {
            return typed.error();
        }
        size_mm = *typed;
        return std::nullopt;
    };
    for (const auto& wrong : {read(options.lower_ball, "--lower-ball", rod.lower_ball_diameter_mm),
                              read(options.upper_ball, "--upper-ball", rod.upper_ball_diameter_mm),
                              read(options.cup_depth, "--cup-depth", rod.cup_depth_mm),
                              read(options.gauge_hole, "--gauge-hole", rod.gauge_hole_mm)}) {
        if (wrong) {
            return *wrong;
        }
    }
    if (rod.cup_depth_mm && !rod.cup_at_top) {
        return Error{
            ErrorCode::not_of_this_kind, "--cup-depth", options.cup_depth, "ball_end", {}, {}};
    }
    return rod;
}

/// A rod's field as the option that tells it.
Error of_option(Error error) {
    std::replace(error.field.begin(), error.field.end(), '_', '-');
    error.field = "--" + error.field;
    return error;
}

/// One length by one definition, and what is stocked next to it; or what it wants.
struct ConvertedLength {
    LengthDefinition definition;
    Result<double> length_mm;
    std::optional<SteppedLength> stocked;
};

Result<std::vector<ConvertedLength>> all_lengths(const Pushrod& rod, double centres_mm,
                                                 double step_mm) {
    std::vector<ConvertedLength> all;
    for (const LengthDefinition definition : definitions) {
        const auto beyond = beyond_centres_mm(rod, definition);
        if (!beyond && beyond.error().code == ErrorCode::out_of_range) {
            return of_option(beyond.error());
        }
        ConvertedLength converted{
            definition,
            beyond ? Result<double>(centres_mm + *beyond) : of_option(beyond.error()),
            {}};
        if (converted.length_mm) {
            const auto stocked = round_to_step(*converted.length_mm, step_mm);
            if (!stocked) {
                return in_field(stocked.error(),
                                stocked.error().field == "step" ? "--stocked-step" : "--length");
            }
            converted.stocked = *stocked;
        }
        all.push_back(converted);
    }
    return all;
}

QJsonObject converted_json(const ConvertedLength& converted) {
    const auto& stocked = converted.stocked;
    const auto inches = [&](double SteppedLength::*length_mm) {
        return stocked ? QJsonValue(inches_of((*stocked).*length_mm)) : QJsonValue();
    };
    return {{"measured", words::token(converted.definition)},
            {"length_in",
             converted.length_mm ? QJsonValue(inches_of(*converted.length_mm)) : QJsonValue()},
            {"stocked_shorter_in", inches(&SteppedLength::down_mm)},
            {"stocked_longer_in", inches(&SteppedLength::up_mm)},
            {"stocked_nearest_in", inches(&SteppedLength::nearest_mm)},
            {"nearest_longer_by_in", inches(&SteppedLength::left_mm)},
            {"wants", converted.length_mm
                          ? QJsonValue()
                          : QJsonValue(QString::fromStdString(converted.length_mm.error().field))}};
}

void print_converted(const ConvertedLength& converted) {
    const QString name = words::definition(converted.definition);
    if (!converted.length_mm) {
        print(RodLengthCommands::tr("  %1 - %2")
                  .arg(name, -20)
                  .arg(words::error_text(converted.length_mm.error())));
        return;
    }
    print(RodLengthCommands::tr("  %1 %2, nearest in stock %3 (%4)")
              .arg(name, -20)
              .arg(words::both_units(*converted.length_mm),
                   words::inches(converted.stocked->nearest_mm),
                   words::signed_inches(converted.stocked->left_mm)));
}

/// `rodway convert-rod-length`: one rod's length by every definition (question 12).
Shown show_converted(const LengthOptions& options) {
    const LengthDefinition measured = definition_of(options.measured);
    const auto rod = rod_of(options);
    if (!rod) {
        return rod.error();
    }
    const auto length = typed_mm(options.length, "--length");
    const auto step = typed_mm(options.stocked, "--stocked-step");
    if (!length || !step) {
        return !length ? length.error() : step.error();
    }
    const auto centres = centres_length_mm(*length, *rod, measured);
    if (!centres) {
        return of_option(centres.error());
    }
    const auto all = all_lengths(*rod, *centres, *step);
    if (!all) {
        return all.error();
    }
    if (options.json) {
        QJsonArray lengths;
        for (const ConvertedLength& converted : *all) {
            lengths.append(converted_json(converted));
        }
        print_json({{"format", "rodway-convert-rod-length"},
                    {"version", 1},
                    {"measured", words::token(measured)},
                    {"length_in", inches_of(*length)},
                    {"stocked_step_in", inches_of(*step)},
                    {"lengths", lengths}});
        return ExitCode::done;
    }
    print(RodLengthCommands::tr("A rod of %1 %2 is, in stock in steps of %3:")
              .arg(words::both_units(*length), words::definition(measured), words::inches(*step)));
    for (const ConvertedLength& converted : *all) {
        print_converted(converted);
    }
    print_caution();
    return ExitCode::done;
}

CLI::Option* add_measured_option(CLI::App& command, LengthOptions& options, const QString& what) {
    return command.add_option("--measured", options.measured, what.toStdString())
        ->check(CLI::IsMember({"centres", "overall", "effective", "gauge"}));
}

void add_stocked_option(CLI::App& command, LengthOptions& options) {
    command.add_option(
        "--stocked-step", options.stocked,
        RodLengthCommands::tr("Step in which rods are stocked (.050)").toStdString());
}

void add_convert_command(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<LengthOptions>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* convert = program.add_subcommand(
        "convert-rod-length",
        word(RodLengthCommands::tr("A rod's length between centres, overall, effective and by the "
                                   "gauge")));
    convert
        ->add_option("--length", options->length,
                     word(RodLengthCommands::tr("The length: 8.950, 227.3 mm")))
        ->required();
    add_measured_option(*convert, *options,
                        RodLengthCommands::tr("How that length was measured: centres, overall, "
                                              "effective, gauge"))
        ->required();
    convert->add_option("--lower-ball", options->lower_ball,
                        word(RodLengthCommands::tr("Diameter of the lower ball: 5/16")));
    convert->add_option("--upper-ball", options->upper_ball,
                        word(RodLengthCommands::tr("Diameter of the upper ball, or of the ball "
                                                   "that sits in the cup")));
    convert
        ->add_option("--top-end", options->top_end,
                     word(RodLengthCommands::tr("What the top end is: ball (left out), cup")))
        ->check(CLI::IsMember({"ball", "cup"}));
    convert->add_option("--cup-depth", options->cup_depth,
                        word(RodLengthCommands::tr("Depth of the cup, from its lip")));
    convert->add_option("--gauge-hole", options->gauge_hole,
                        word(RodLengthCommands::tr("Hole of the gauges: .140")));
    add_stocked_option(*convert, *options);
    add_json_option(*convert, options->json);
    convert->callback([=, &outcome] {
        const Shown shown = show_converted(*options);
        outcome.code = shown ? *shown : refuse(shown.error());
    });
}

} // namespace

void add_rod_length_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<LengthOptions>();
    auto* lengths = program.add_subcommand(
        "rod-lengths",
        RodLengthCommands::tr("Rod length that each valve needs, and what to order").toStdString());
    add_build_options(*lengths, *options);
    add_measured_option(*lengths, *options,
                        RodLengthCommands::tr("How ordered lengths are meant: centres (left out), "
                                              "overall, effective, gauge"));
    add_stocked_option(*lengths, *options);
    lengths->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_rod_lengths(*options, hand); });
    });
    add_convert_command(program, outcome);
}

} // namespace rodway
