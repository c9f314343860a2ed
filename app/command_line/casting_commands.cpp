#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/castings/intake_shift.h"
#include "core/castings/shift_against_lifter.h"

namespace rodway {
namespace {

struct CastingCommands {
    Q_DECLARE_TR_FUNCTIONS(CastingCommands)
};

using Options = BuildOptions;

QString name_of(const Bank& bank) {
    return QString::fromStdString(bank.name);
}

/// "-0.045 in"; nothing moved is said so.
QString moved(double mm) {
    return std::abs(mm) < 1e-9 ? CastingCommands::tr("0") : words::signed_inches(mm);
}

QJsonValue intake_json(const std::optional<IntakeShift>& shift) {
    if (!shift) {
        return {};
    }
    return QJsonObject{{"up_in", inches_of(shift->height_mm)},
                       {"sideways_in", inches_of(shift->sideways_mm)},
                       {"ports_up_the_face_in", inches_of(shift->ports.up_the_face_mm)},
                       {"ports_rearward_in", inches_of(shift->ports.rearward_mm)},
                       {"off_the_face_in", inches_of(shift->ports.off_the_face_mm)}};
}

void print_bank(const Engine& engine, std::size_t bank, const std::optional<IntakeShift>& shift) {
    print(CastingCommands::tr("%1 bank: head moved %2 along the cylinders, away from the crank.")
              .arg(name_of(engine.layout.banks[bank]), moved(engine.heads.of(bank).raised_mm())));
    if (!shift) {
        return;
    }
    print(CastingCommands::tr("    Intake moved %1 up and %2 sideways; its ports stand %3 up the "
                              "head's face, which it is %4 farther off.")
              .arg(moved(shift->height_mm), moved(shift->sideways_mm),
                   moved(shift->ports.up_the_face_mm), moved(shift->ports.off_the_face_mm)));
}

QJsonObject shift_json(const QString& what, const ShiftAgainstLifter& shift) {
    return {{"what", what},
            {"along_lifter_in", inches_of(shift.along_lifter_mm)},
            {"rearward_in", inches_of(shift.rearward_mm)},
            {"outboard_in", inches_of(shift.outboard_mm)},
            {"along_rod_in", inches_of(shift.along_rod_mm)},
            {"across_rod_in", inches_of(shift.across_rod_mm)}};
}

void print_shift(const QString& valve, const QString& what, const ShiftAgainstLifter& shift) {
    print(QString("%1 %2 %3 %4 %5 %6")
              .arg(valve, -5)
              .arg(what, -14)
              .arg(moved(shift.along_lifter_mm), 11)
              .arg(moved(shift.rearward_mm), 11)
              .arg(moved(shift.outboard_mm), 11)
              .arg(moved(shift.across_rod_mm), 11));
}

/// `rodway castings`: where head and intake went, and what that did to holes and ball seats
/// (question 7).
Shown show_castings(const Options& options, const BuildInHand& hand) {
    const Engine& engine = hand.engine;
    QJsonArray banks;
    if (!options.json) {
        print_head(hand);
        print(CastingCommands::tr(
            "What moved since the places were taken, by gaskets, spacers and milling."));
        print({});
    }
    for (std::size_t bank = 0; bank < engine.layout.banks.size(); ++bank) {
        const auto shift = intake_shift(engine, bank);
        if (!shift) {
            return shift.error();
        }
        banks.append(QJsonObject{{"bank", name_of(engine.layout.banks[bank])},
                                 {"head_raised_in", inches_of(engine.heads.of(bank).raised_mm())},
                                 {"intake", intake_json(*shift)}});
        if (!options.json) {
            print_bank(engine, bank, *shift);
        }
    }
    if (!options.json) {
        print({});
        print(CastingCommands::tr("Seen from each lifter, which stays with the block:"));
        print(QString("%1 %2 %3 %4 %5 %6")
                  .arg(CastingCommands::tr("Valve"), -5)
                  .arg(CastingCommands::tr("what"), -14)
                  .arg(CastingCommands::tr("up it"), 11)
                  .arg(CastingCommands::tr("rearward"), 11)
                  .arg(CastingCommands::tr("outboard"), 11)
                  .arg(CastingCommands::tr("across rod"), 11));
    }
    QJsonArray valves;
    for (const Train& train : engine.trains) {
        const auto shifts = shifts_against_lifter(engine, train);
        if (!shifts) {
            return shifts.error();
        }
        const QString valve = words::valve(train.position);
        QJsonArray seen;
        for (const PassageShift& passage : shifts->passages) {
            seen.append(shift_json(QString::fromStdString(passage.passage), passage.shift));
        }
        seen.append(shift_json("ball_seat", shifts->ball_seat));
        valves.append(QJsonObject{{"valve", valve}, {"shifts", seen}});
        if (options.json) {
            continue;
        }
        for (const PassageShift& passage : shifts->passages) {
            print_shift(valve, QString::fromStdString(passage.passage), passage.shift);
        }
        print_shift(valve, CastingCommands::tr("ball seat"), shifts->ball_seat);
    }
    if (options.json) {
        QJsonObject answer = head_json("rodway-castings", hand);
        answer["banks"] = banks;
        answer["valves"] = valves;
        print_json(answer);
    }
    return ExitCode::done;
}

} // namespace

void add_casting_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    auto* castings = program.add_subcommand(
        "castings",
        CastingCommands::tr("Where head and intake stand by gaskets and milling, and what that did "
                            "to holes and ball seats")
            .toStdString());
    add_build_options(*castings, *options);
    castings->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_castings(*options, hand); });
    });
}

} // namespace rodway
