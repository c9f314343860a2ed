#include <QCoreApplication>
#include <QJsonArray>
#include <algorithm>

#include "app/command_line/commands.h"
#include "app/command_line/opened_sheets.h"
#include "app/command_line/output.h"
#include "app/command_line/spring_options.h"
#include "app/words/lengths.h"
#include "app/words/sheet_words.h"
#include "core/sheets/kinds/set_up_lift.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/units/typed_text.h"
#include "core/valvetrain/dry_clearance.h"

namespace rodway {
namespace {

struct DryRodCommands {
    Q_DECLARE_TR_FUNCTIONS(DryRodCommands)
};

/// What the options of this command are read into; it lives as long as the program's parser.
struct DryRodOptions {
    BuildOptions build;
    std::vector<std::string> rods;
    std::string ratio;
    std::string seat_cut;
    std::string tip_ground;
    std::string valve_longer;
    std::string pivot_raised;
};

/// One valve's answer, and what its tip stands wrong by that was found in the stack.
struct DryRod {
    DryAnswer answer;
    std::optional<TipAccount> account;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// What was measured in the stack; each of the three sizes is an option's. Errors: as
/// `parse_length`, `field` the option.
Result<TipStack> stack_of(const DryRodOptions& options) {
    TipStack stack;
    struct Typed {
        const std::string& text;
        const char* option;
        std::optional<Interval>& size_mm;
    };
    for (const Typed& typed :
         {Typed{options.seat_cut, "seat-cut", stack.seat_cut_mm},
          Typed{options.tip_ground, "tip-ground", stack.tip_ground_mm},
          Typed{options.valve_longer, "valve-longer", stack.valve_longer_mm},
          Typed{options.pivot_raised, "pivot-raised", stack.pivot_raised_mm}}) {
        if (typed.text.empty()) {
            continue;
        }
        const auto mm = option_mm(typed.text, typed.option);
        if (!mm) {
            return mm.error();
        }
        typed.size_mm = Interval::exactly(*mm);
    }
    return stack;
}

bool looked_at(const TipStack& stack) {
    return stack.seat_cut_mm || stack.tip_ground_mm || stack.valve_longer_mm ||
           stack.pivot_raised_mm;
}

Result<double> ratio_at(const DryRodOptions& options, const SheetFacts& facts,
                        const std::string& valve) {
    if (!options.ratio.empty()) {
        const auto typed = parse_number(options.ratio);
        return typed ? *typed : Result<double>(in_field(typed.error(), "ratio"));
    }
    const auto read = rocker_ratio(facts, valve);
    if (!read) {
        return Error{ErrorCode::missing_field, "ratio", {}, {}, {}, {}};
    }
    return read->middle();
}

/// A valve's request: its ratio, the limits set for its dry clearance, the rods to be had.
Result<DryRequest> request_for(const DryRodOptions& options, const SheetFacts& facts,
                               const std::string& valve) {
    const SheetLimit* limit =
        ruling_limit(facts.limits, "dry_clearance", valve, LimitFor::new_parts);
    if (limit == nullptr || !limit->low || !limit->high) {
        return Error{ErrorCode::missing_field, "dry_clearance_limits", {}, {}, {}, {}};
    }
    const auto ratio = ratio_at(options, facts, valve);
    if (!ratio) {
        return ratio.error();
    }
    DryRequest request{*limit->low, *limit->high, {}, *ratio};
    for (const std::string& rod : options.rods) {
        const auto longer_mm = option_mm(rod, "rod");
        if (!longer_mm) {
            return longer_mm.error();
        }
        request.rods_longer_mm.push_back(*longer_mm);
    }
    return request;
}

Result<std::vector<DryRod>> choose(const DryRodOptions& options, const SheetFacts& facts) {
    const auto stack = stack_of(options);
    if (!stack) {
        return stack.error();
    }
    std::vector<DryRod> rods;
    for (const Taken& taken : facts.readings.of("dry_clearance")) {
        const auto dry_mm = taken.range();
        if (!dry_mm) {
            continue;
        }
        const std::string valve = sheet_position_text(taken.place);
        const auto request = request_for(options, facts, valve);
        if (!request) {
            return request.error();
        }
        const auto found =
            choose_rods_for_dry_clearance({{valve_called(valve), *dry_mm}}, *request);
        if (!found) {
            return found.error();
        }
        DryRod rod{found->front(), {}};
        if (rod.answer.tip_too_high_mm && looked_at(*stack)) {
            const auto account = account_for_tip(*rod.answer.tip_too_high_mm, *stack);
            if (!account) {
                return account.error();
            }
            rod.account = *account;
        }
        rods.push_back(rod);
    }
    return rods;
}

QString finding_text(const DryAnswer& answer) {
    switch (answer.finding) {
        case DryFinding::good_as_is:
            return DryRodCommands::tr("good with the rod fitted");
        case DryFinding::good_with_rod:
            return DryRodCommands::tr("good with a rod %1, %2 then")
                .arg(words::signed_inches(answer.rod_longer_mm),
                     words::inches(answer.dry_then_mm.middle()));
        case DryFinding::too_tight_for_shortest:
            return DryRodCommands::tr(
                       "%1 with the shortest rod (%2): the valve's tip stands too "
                       "high by %3 or more")
                .arg(words::inches(answer.dry_then_mm.middle()),
                     words::signed_inches(answer.rod_longer_mm),
                     words::inches(answer.tip_too_high_mm->low));
        case DryFinding::too_wide_for_longest:
            return DryRodCommands::tr(
                       "%1 with the longest rod (%2): the valve's tip stands too "
                       "low by %3 or more")
                .arg(words::inches(answer.dry_then_mm.middle()),
                     words::signed_inches(answer.rod_longer_mm),
                     words::inches(answer.tip_too_low_mm->low));
        case DryFinding::between_rods:
            return DryRodCommands::tr("between two rods: nearest is one %1, %2 then")
                .arg(words::signed_inches(answer.rod_longer_mm),
                     words::inches(answer.dry_then_mm.middle()));
        case DryFinding::too_close_to_call:
            return DryRodCommands::tr("too close to call with a rod %1, %2 then: measure finer")
                .arg(words::signed_inches(answer.rod_longer_mm),
                     words::inches(answer.dry_then_mm.middle()));
    }
    return {};
}

QString token(DryFinding finding) {
    switch (finding) {
        case DryFinding::good_as_is:
            return "good_as_is";
        case DryFinding::good_with_rod:
            return "good_with_rod";
        case DryFinding::too_tight_for_shortest:
            return "too_tight_for_shortest";
        case DryFinding::too_wide_for_longest:
            return "too_wide_for_longest";
        case DryFinding::between_rods:
            return "between_rods";
        case DryFinding::too_close_to_call:
            return "too_close_to_call";
    }
    return {};
}

void print_rods(const OpenedSheets& opened, const std::vector<DryRod>& rods) {
    print(DryRodCommands::tr("%1: rods for the dry clearance").arg(text(opened.build.name)));
    if (rods.empty()) {
        print(
            DryRodCommands::tr("No dry clearance is written down yet: read dry_clearance, valve "
                               "by valve, and set-limit dry_clearance."));
    }
    for (const DryRod& rod : rods) {
        print(DryRodCommands::tr("%1  %2")
                  .arg(text(position_name(rod.answer.valve)), -4)
                  .arg(finding_text(rod.answer)));
        if (rod.account) {
            print(rod.account->accounted_for
                      ? DryRodCommands::tr("      What was found in the stack accounts for it (%1 "
                                           "higher).")
                            .arg(words::inches(rod.account->stands_higher_mm.middle()))
                      : DryRodCommands::tr("      The stack accounts for %1; %2 is unexplained: "
                                           "measure seat depth and tip height again.")
                            .arg(words::inches(rod.account->stands_higher_mm.middle()),
                                 words::inches(rod.account->unexplained_mm.middle())));
        }
    }
    print(DryRodCommands::tr("The maker's limits and rods come first."));
}

QJsonObject rod_json(const DryRod& rod) {
    QJsonObject json{{"valve", text(position_name(rod.answer.valve))},
                     {"finding", token(rod.answer.finding)},
                     {"rod_longer_in", inches_of(rod.answer.rod_longer_mm)},
                     {"dry_then_low_in", inches_of(rod.answer.dry_then_mm.low)},
                     {"dry_then_high_in", inches_of(rod.answer.dry_then_mm.high)},
                     {"tip_too_high_low_in", QJsonValue()},
                     {"tip_too_low_low_in", QJsonValue()},
                     {"unexplained_in", QJsonValue()}};
    if (rod.answer.tip_too_high_mm) {
        json["tip_too_high_low_in"] = inches_of(rod.answer.tip_too_high_mm->low);
    }
    if (rod.answer.tip_too_low_mm) {
        json["tip_too_low_low_in"] = inches_of(rod.answer.tip_too_low_mm->low);
    }
    if (rod.account) {
        json["unexplained_in"] = inches_of(rod.account->unexplained_mm.middle());
    }
    return json;
}

ExitCode show_rods(const DryRodOptions& options) {
    const auto opened = open_sheets(options.build, person_at_this_computer());
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const auto rods = choose(options, (*opened)->sheets.facts());
    if (!rods) {
        return refuse(rods.error());
    }
    if (!options.build.json) {
        print_rods(**opened, *rods);
        return ExitCode::done;
    }
    QJsonArray valves;
    for (const DryRod& rod : *rods) {
        valves.append(rod_json(rod));
    }
    print_json({{"format", "rodway-dry-rods"},
                {"version", 1},
                {"build", text((*opened)->build.name)},
                {"valves", valves}});
    return ExitCode::done;
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_dry_rod_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<DryRodOptions>();
    auto* dry = program.add_subcommand(
        "dry-rods", word(DryRodCommands::tr("Which rod brings each hydraulic lifter's dry "
                                            "clearance within its limits, and what if none does")));
    add_build_options(*dry, options->build);
    dry->add_option("--rod", options->rods,
                    word(DryRodCommands::tr("A rod to be had, by how much longer: --rod=-.030")))
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    dry->add_option("--ratio", options->ratio,
                    word(DryRodCommands::tr("Rocker ratio, if the sheet doesn't have it")));
    dry->add_option("--seat-cut", options->seat_cut,
                    word(DryRodCommands::tr("Found in the stack: seat and face cut by so much")));
    dry->add_option("--tip-ground", options->tip_ground,
                    word(DryRodCommands::tr("Found in the stack: ground off the tip")));
    dry->add_option("--valve-longer", options->valve_longer,
                    word(DryRodCommands::tr("Found in the stack: valve longer than drawn")));
    dry->add_option("--pivot-raised", options->pivot_raised,
                    word(DryRodCommands::tr("Found in the stack: pivot raised")));
    dry->callback([=, &outcome] { outcome.code = show_rods(*options); });
}

} // namespace rodway
