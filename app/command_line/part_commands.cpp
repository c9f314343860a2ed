#include <QCoreApplication>

#include "app/command_line/commands.h"
#include "app/command_line/work_commands.h"
#include "app/words/typed_words.h"
#include "app/work/part_acts.h"

namespace rodway {
namespace {

struct PartCommands {
    Q_DECLARE_TR_FUNCTIONS(PartCommands)
};

/// What the options of these commands are read into; an empty text is an option that wasn't given.
struct PartOptions {
    WorkOptions work;
    std::string item;
    std::string role;
    std::string step;
    std::string size;
    std::string length;
    std::string thread;
    std::string marking;
    std::string position;
    std::string supplier;
    std::string order_number;
    std::string needed;
    std::string ordered;
    std::string promised;
    std::string received;
    std::string measured;
    std::string fitted;
    std::string note;
    int count = 0;
    std::int64_t replaces = 0;
    bool of_customer = false;
    bool temporary = false;
    std::int64_t part = 0;
    std::string mark;
    std::string value;
    bool take_off = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// Why what was typed can't be taken, with the option or word it stands in.
Shown refuse_typed_part(const Error& error) {
    if (error.code != ErrorCode::wrong_type) {
        return error;
    }
    complain(PartCommands::tr("rodway: %1").arg(words::typed_error(error, text(error.field))));
    return exit_code(error.code);
}

Result<PartRecord> part_of(const PartOptions& options, const BuildAtWork& at_work) {
    PartRecord part;
    part.build_id = at_work.build.id;
    part.item = options.item;
    part.role = given(options.role);
    part.size = given(options.size);
    part.length = given(options.length);
    part.thread = given(options.thread);
    part.marking = given(options.marking);
    part.position = given(options.position);
    part.supplier = given(options.supplier);
    part.order_number = given(options.order_number);
    part.needed = given(options.needed);
    part.ordered = given(options.ordered);
    part.promised = given(options.promised);
    part.received = given(options.received);
    part.measured = given(options.measured);
    part.fitted = given(options.fitted);
    part.note = given(options.note);
    part.temporary = options.temporary;
    part.owner = options.of_customer ? PartOwner::customer : PartOwner::shop;
    if (options.count > 0) {
        part.count = options.count;
    }
    if (!options.step.empty()) {
        const auto step = find_step(at_work.state, options.step);
        if (!step) {
            return step.error();
        }
        part.step_id = (*step)->id;
    }
    if (options.replaces > 0) {
        const auto replaced =
            find_record(at_work.state.facts.records.parts, options.replaces, "replaces");
        if (!replaced) {
            return replaced.error();
        }
        part.replaces_id = options.replaces;
    }
    return part;
}

ExitCode add_one(const PartOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto part = part_of(options, at_work);
        const auto id =
            part ? add_part(at_work.session, *part) : Result<std::int64_t>(part.error());
        if (!id) {
            return refuse_typed_part(id.error());
        }
        return say_done(options.work.build, "rodway-add-part", {{"part", static_cast<qint64>(*id)}},
                        PartCommands::tr("Added part %1: %2").arg(*id).arg(text(options.item)));
    });
}

/// The day of a mark is today unless it is given; how a part failed must be.
std::optional<std::string> text_of_mark(const PartOptions& options, PartMark mark,
                                        const BuildAtWork& at_work) {
    if (options.take_off) {
        return std::nullopt;
    }
    return options.value.empty() && mark != PartMark::failed ? at_work.state.facts.today
                                                             : options.value;
}

ExitCode mark_one(const PartOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto part = find_record(at_work.state.facts.records.parts, options.part, "part");
        if (!part) {
            return part.error();
        }
        const auto mark = part_mark_called(options.mark);
        if (!mark) {
            std::string marks;
            for (const PartMark one : part_marks()) {
                marks += (marks.empty() ? "" : " ") + part_mark_word(one);
            }
            return Error{ErrorCode::not_a_choice, "mark", options.mark, marks, {}, {}};
        }
        const auto value = text_of_mark(options, *mark, at_work);
        const auto done =
            mark_part(at_work.session, **part, *mark, value,
                      {given(options.length), given(options.size), given(options.thread)});
        if (!done) {
            return refuse_typed_part(done.error());
        }
        return say_done(
            options.work.build, "rodway-mark-part",
            {{"part", static_cast<qint64>(options.part)},
             {"mark", text(options.mark)},
             {"value", text_or_null(value)}},
            options.take_off
                ? PartCommands::tr("%1: no longer %2").arg(text((*part)->item), text(options.mark))
                : PartCommands::tr("%1: %2 %3")
                      .arg(text((*part)->item), text(options.mark), text(*value)));
    });
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_part_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<PartOptions>();
    const auto add_sizes = [&](CLI::App* command) {
        command->add_option("--length", options->length,
                            word(PartCommands::tr("Length, of a bolt under its head: 1.25in")));
        command->add_option("--size", options->size, word(PartCommands::tr("Size, as typed")));
        command->add_option("--thread", options->thread, word(PartCommands::tr("Thread: 3/8-16")));
    };
    auto* added = program.add_subcommand(
        "add-part", word(PartCommands::tr("Add a part or fastener to a build")));
    add_build_options(*added, options->work.build);
    add_who_option(*added, options->work.who);
    added->add_option("item", options->item, word(PartCommands::tr("What it is called")))
        ->required();
    added->add_option("--role", options->role,
                      word(PartCommands::tr("What it is in the engine: intake_bolt, head_gasket")));
    added->add_option("--step", options->step, word(PartCommands::tr("Step that waits for it")));
    added->add_option("--replaces", options->replaces,
                      word(PartCommands::tr("Number of the part in whose place it comes")));
    added->add_option("--position", options->position,
                      word(PartCommands::tr("Where: 3I, left; nothing if everywhere")));
    added->add_option("--count", options->count, word(PartCommands::tr("How many")))
        ->check(CLI::PositiveNumber);
    added->add_option("--marking", options->marking, word(PartCommands::tr("Marking on it")));
    added->add_option("--supplier", options->supplier, word(PartCommands::tr("Supplier")));
    added->add_option("--order", options->order_number, word(PartCommands::tr("Order number")));
    added->add_option("--note", options->note, word(PartCommands::tr("Note")));
    added->add_flag("--customers", options->of_customer,
                    word(PartCommands::tr("It is the customer's own")));
    added->add_flag("--temporary", options->temporary,
                    word(PartCommands::tr("It stands in for another")));
    add_sizes(added);
    const std::pair<const char*, std::string*> days[] = {
        {"--needed", &options->needed},     {"--ordered", &options->ordered},
        {"--promised", &options->promised}, {"--received", &options->received},
        {"--measured", &options->measured}, {"--fitted", &options->fitted}};
    for (const auto& [name, day] : days) {
        added->add_option(name, *day, word(PartCommands::tr("Day, 2026-03-01")));
    }
    added->callback([=, &outcome] { outcome.code = add_one(*options); });

    auto* marked = program.add_subcommand(
        "mark-part", word(PartCommands::tr("Mark a part needed, ordered, promised, received, "
                                           "measured, fitted, returned, kept_until or failed")));
    add_build_options(*marked, options->work.build);
    add_who_option(*marked, options->work.who);
    marked->add_option("part", options->part, word(PartCommands::tr("Number of the part")))
        ->required();
    marked->add_option("mark", options->mark, word(PartCommands::tr("Mark")))->required();
    marked->add_option("value", options->value,
                       word(PartCommands::tr("Day, today without it; of failed, how")));
    marked->add_flag("--take-off", options->take_off,
                     word(PartCommands::tr("Take the mark off again")));
    add_sizes(marked);
    marked->callback([=, &outcome] { outcome.code = mark_one(*options); });
}

} // namespace rodway
