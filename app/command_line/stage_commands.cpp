#include <QCoreApplication>

#include "app/command_line/commands.h"
#include "app/command_line/work_commands.h"
#include "app/words/hold_words.h"
#include "app/work/sign_offs.h"
#include "app/work/ticks.h"
#include "app/work/waivers.h"
#include "core/build/stage_sign_off.h"

namespace rodway {
namespace {

struct StageCommands {
    Q_DECLARE_TR_FUNCTIONS(StageCommands)
};

struct StageOptions {
    WorkOptions work;
    std::string step;
    std::string stage;
    std::string hold;
    std::string reason;
    std::string until;
    std::string note;
    bool customer_told = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

ExitCode tick_step(const StageOptions& options, bool on) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto step = find_step(at_work.state, options.step);
        if (!step) {
            return step.error();
        }
        const auto act = on ? tick(at_work.session, **step) : untick(at_work.session, **step);
        if (!act) {
            return act.error();
        }
        return say_done(options.work.build, on ? "rodway-tick" : "rodway-untick",
                        {{"step", static_cast<qint64>((*step)->id)},
                         {"number", step_number(at_work.state, **step)}},
                        on ? StageCommands::tr("Ticked: %1").arg(text((*step)->title))
                           : StageCommands::tr("Tick taken back: %1").arg(text((*step)->title)));
    });
}

/// What is in the way, each with the key by which it may be waived.
void complain_of(const std::vector<Hold>& standing, const words::OwnTitles& own) {
    for (const Hold& hold : standing) {
        complain(
            hold.may_be_waived()
                ? StageCommands::tr("%1\n   hold: %2").arg(words::hold(hold, own), text(hold.key))
                : words::hold(hold, own));
    }
}

ExitCode sign_stage_off(const StageOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto stage = find_stage(at_work.state, options.stage);
        if (!stage) {
            return stage.error();
        }
        const auto id =
            sign_off(at_work.session, at_work.state.facts, (*stage)->id, given(options.note));
        if (!id) {
            complain_of(may_sign_off(at_work.state.facts, (*stage)->id).standing,
                        at_work.state.own_titles);
            return id.error();
        }
        return say_done(
            options.work.build, "rodway-sign-off",
            {{"stage", static_cast<qint64>((*stage)->id)}, {"sign_off", static_cast<qint64>(*id)}},
            StageCommands::tr("Signed off: %1").arg(text((*stage)->title)));
    });
}

ExitCode take_back(const StageOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto stage = find_stage(at_work.state, options.stage);
        if (!stage) {
            return stage.error();
        }
        const auto act = take_back_sign_off(at_work.session, at_work.state.facts.records,
                                            (*stage)->id, options.reason);
        if (!act) {
            return act.error();
        }
        return say_done(options.work.build, "rodway-take-back-sign-off",
                        {{"stage", static_cast<qint64>((*stage)->id)}},
                        StageCommands::tr("Sign-off taken back: %1").arg(text((*stage)->title)));
    });
}

/// The holds of every stage: one of a later stage may be waived before its turn.
Holds all_stages_holds(const BuildState& state) {
    Holds all = state.holds;
    for (const Stage& stage : state.facts.records.stages) {
        for (Hold& hold : holds_of_stage(state.facts, stage.id).holds) {
            all.holds.push_back(std::move(hold));
        }
    }
    return all;
}

ExitCode waive_hold(const StageOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto id =
            waive(at_work.session, at_work.build.id, all_stages_holds(at_work.state), options.hold,
                  {options.reason, options.customer_told, given(options.until)});
        if (!id) {
            return id.error();
        }
        return say_done(options.work.build, "rodway-waive",
                        {{"waiver", static_cast<qint64>(*id)}, {"hold", text(options.hold)}},
                        StageCommands::tr("Waived: %1").arg(text(options.hold)));
    });
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_stage_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<StageOptions>();
    const auto add = [&](const char* name, const QString& about) {
        auto* command = program.add_subcommand(name, word(about));
        add_build_options(*command, options->work.build);
        add_who_option(*command, options->work.who);
        return command;
    };
    const QString which_step = StageCommands::tr("Step, as state numbers it (2.3), or its title");
    auto* ticked = add("tick", StageCommands::tr("Tick a step of a build's plan"));
    ticked->add_option("step", options->step, word(which_step))->required();
    ticked->callback([=, &outcome] { outcome.code = tick_step(*options, true); });

    auto* unticked = add("untick", StageCommands::tr("Take a tick back; the history keeps both"));
    unticked->add_option("step", options->step, word(which_step))->required();
    unticked->callback([=, &outcome] { outcome.code = tick_step(*options, false); });

    const QString which_stage = StageCommands::tr("Stage, its place in the plan or its title");
    auto* signed_off = add("sign-off", StageCommands::tr("Sign a stage off, if nothing holds it up "
                                                         "that isn't waived"));
    signed_off->add_option("stage", options->stage, word(which_stage))->required();
    signed_off->add_option("--note", options->note, word(StageCommands::tr("Note")));
    signed_off->callback([=, &outcome] { outcome.code = sign_stage_off(*options); });

    auto* withdrawn =
        add("take-back-sign-off", StageCommands::tr("Withdraw a stage's newest sign-off"));
    withdrawn->add_option("stage", options->stage, word(which_stage))->required();
    withdrawn->add_option("--reason", options->reason, word(StageCommands::tr("Why")))->required();
    withdrawn->callback([=, &outcome] { outcome.code = take_back(*options); });

    auto* waived = add("waive", StageCommands::tr("Go on past something that holds a build up, on "
                                                  "purpose; contact is never waived"));
    waived->add_option("hold", options->hold, word(StageCommands::tr("Hold, as holds names it")))
        ->required();
    waived->add_option("--reason", options->reason, word(StageCommands::tr("Why")))->required();
    waived->add_option("--until", options->until,
                       word(StageCommands::tr("Last day on which it is waived, 2026-03-01")));
    waived->add_flag("--customer-told", options->customer_told,
                     word(StageCommands::tr("The customer knows of it")));
    waived->callback([=, &outcome] { outcome.code = waive_hold(*options); });
}

} // namespace rodway
