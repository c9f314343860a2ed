#include <QCoreApplication>
#include <memory>
#include <optional>

#include "app/command_line/commands.h"
#include "app/command_line/work_commands.h"
#include "app/work/cure_acts.h"
#include "app/work/open_item_acts.h"
#include "core/build/need.h"
#include "core/build/utc_time.h"
#include "db/build_records.h"

namespace rodway {
namespace {

struct CureCommands {
    Q_DECLARE_TR_FUNCTIONS(CureCommands)
};

struct CureOptions {
    WorkOptions work;
    Product product;
    std::string purpose;
    std::string product_named;
    std::string place;
    std::string step;
    std::string applied;
    std::string note;
    std::optional<int> handling;
    std::optional<int> full;
    std::int64_t id = 0;
    std::string title;
    std::string kind = "other";
    std::string detail;
    std::string position;
    std::string risk;
    std::string due;
    std::string outcome;
    bool customer_told = false;
    std::string stage;
};

/// What is to be changed of an open item; nothing: as it is.
struct ItemChange {
    WorkOptions work;
    std::int64_t id = 0;
    std::optional<std::string> title;
    std::optional<std::string> kind;
    std::optional<std::string> detail;
    std::optional<std::string> position;
    std::optional<std::string> risk;
    std::optional<std::string> due;
    std::optional<std::string> stage;
    bool customer_told = false;
    bool customer_not_told = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

ExitCode add_one_product(const CureOptions& options) {
    auto opened = ShopFile::open(options.work.build.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.work.build.shop));
    }
    ShopSession session(std::move(opened).value(), text(options.work.who));
    Product product = options.product;
    product.purpose = given(options.purpose);
    product.note = given(options.note);
    product.handling_minutes = options.handling;
    product.full_minutes = options.full;
    const auto id = add_product(session, product);
    if (!id) {
        return refuse(id.error(), text(options.work.build.shop));
    }
    return say_done(options.work.build, "rodway-add-product",
                    {{"product", static_cast<qint64>(*id)}},
                    CureCommands::tr("Added product %1: %2").arg(*id).arg(text(product.name)));
}

/// By its number, or its name without regard to capitals.
Result<std::optional<Product>> find_product(ShopFile& shop, const std::string& named) {
    if (named.empty()) {
        return std::optional<Product>();
    }
    const auto products = load_records<Product>(shop, shop_wide);
    if (!products) {
        return products.error();
    }
    for (const Product& product : *products) {
        if (std::to_string(product.id) == named ||
            text(product.name).compare(text(named), Qt::CaseInsensitive) == 0) {
            return std::optional(product);
        }
    }
    return Error{ErrorCode::no_such_record, "product", named, {}, {}, {}};
}

Result<std::optional<std::int64_t>> step_id_of(const BuildState& state, const std::string& named) {
    if (named.empty()) {
        return std::optional<std::int64_t>();
    }
    const auto step = find_step(state, named);
    if (!step) {
        return step.error();
    }
    return std::optional((*step)->id);
}

ExitCode start_one(const CureOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto product = find_product(at_work.session.shop(), options.product_named);
        const auto step = step_id_of(at_work.state, options.step);
        if (!product || !step) {
            return !product ? product.error() : step.error();
        }
        if (!options.applied.empty() && !utc_seconds(options.applied)) {
            return Error{ErrorCode::not_a_date, "applied", options.applied, {}, {}, {}};
        }
        Cure cure;
        cure.build_id = at_work.build.id;
        cure.place = options.place;
        cure.step_id = *step;
        cure.handling_minutes = options.handling;
        cure.full_minutes = options.full;
        cure.applied_at = options.applied;
        cure.note = given(options.note);
        const auto id = start_cure(at_work.session, cure, *product);
        if (!id) {
            return id.error();
        }
        return say_done(options.work.build, "rodway-start-cure",
                        {{"cure", static_cast<qint64>(*id)}},
                        CureCommands::tr("Cure %1 begins: %2").arg(*id).arg(text(options.place)));
    });
}

ExitCode end_one(const CureOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto cure = find_record(at_work.state.facts.records.cures, options.id, "cure");
        if (!cure) {
            return cure.error();
        }
        const auto act = end_cure(at_work.session, **cure, given(options.note));
        if (!act) {
            return act.error();
        }
        return say_done(
            options.work.build, "rodway-end-cure", {{"cure", static_cast<qint64>(options.id)}},
            CureCommands::tr("Cure %1 has ended: %2").arg(options.id).arg(text((*cure)->place)));
    });
}

Result<OpenItemKind> item_kind_called(const std::string& word) {
    std::string all;
    for (const OpenItemKind kind :
         {OpenItemKind::temporary_part, OpenItemKind::watch, OpenItemKind::decision,
          OpenItemKind::risk, OpenItemKind::question, OpenItemKind::other}) {
        if (open_item_word(kind) == word) {
            return kind;
        }
        all += (all.empty() ? "" : " ") + std::string(open_item_word(kind));
    }
    return Error{ErrorCode::not_a_choice, "kind", word, all, {}, {}};
}

/// The last gate of a stage: what is open there holds the stage.
Result<std::optional<std::int64_t>> gate_of(const BuildState& state, const std::string& stage) {
    if (stage.empty()) {
        return std::optional<std::int64_t>();
    }
    const auto found = find_stage(state, stage);
    if (!found) {
        return found.error();
    }
    std::optional<std::int64_t> gate_id;
    for (const Gate& gate : state.facts.records.gates) {
        if (gate.stage_id == (*found)->id) {
            gate_id = gate.id;
        }
    }
    if (!gate_id) {
        return Error{ErrorCode::no_such_record, "gate", stage, {}, {}, {}};
    }
    return gate_id;
}

ExitCode open_one(const CureOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto kind = item_kind_called(options.kind);
        const auto step = step_id_of(at_work.state, options.step);
        const auto gate = gate_of(at_work.state, options.stage);
        if (!kind || !step || !gate) {
            return !kind ? kind.error() : !step ? step.error() : gate.error();
        }
        OpenItem item;
        item.build_id = at_work.build.id;
        item.kind = *kind;
        item.step_id = *step;
        item.gate_id = *gate;
        item.title = options.title;
        item.detail = given(options.detail);
        item.position = given(options.position);
        item.if_it_goes_wrong = given(options.risk);
        item.due = given(options.due);
        item.customer_told = options.customer_told;
        const auto id = add_open_item(at_work.session, item);
        if (!id) {
            return id.error();
        }
        return say_done(options.work.build, "rodway-add-open-item",
                        {{"open_item", static_cast<qint64>(*id)}},
                        CureCommands::tr("Open item %1: %2").arg(*id).arg(text(options.title)));
    });
}

Result<OpenItem> changed(const BuildState& state, OpenItem item, const ItemChange& change) {
    if (change.kind) {
        const auto kind = item_kind_called(*change.kind);
        if (!kind) {
            return kind.error();
        }
        item.kind = *kind;
    }
    if (change.stage) {
        const auto gate = gate_of(state, *change.stage);
        if (!gate) {
            return gate.error();
        }
        item.gate_id = *gate;
    }
    item.title = change.title.value_or(item.title);
    const auto put = [](const std::optional<std::string>& typed, std::optional<std::string>& kept) {
        if (typed) {
            kept = given(*typed);
        }
    };
    put(change.detail, item.detail);
    put(change.position, item.position);
    put(change.risk, item.if_it_goes_wrong);
    put(change.due, item.due);
    item.customer_told = (item.customer_told || change.customer_told) && !change.customer_not_told;
    return item;
}

ExitCode change_one(const ItemChange& change) {
    return with_build_at_work(change.work, [&](BuildAtWork& at_work) -> Shown {
        const auto item =
            find_record(at_work.state.facts.records.open_items, change.id, "open_item");
        if (!item) {
            return item.error();
        }
        const auto after = changed(at_work.state, **item, change);
        if (!after) {
            return after.error();
        }
        const auto done = change_open_item(at_work.session, **item, *after);
        if (!done) {
            return done.error();
        }
        return say_done(
            change.work.build, "rodway-change-open-item",
            {{"open_item", static_cast<qint64>(change.id)}},
            CureCommands::tr("Open item %1: %2").arg(change.id).arg(text(after->title)));
    });
}

ExitCode close_one(const CureOptions& options) {
    return with_build_at_work(options.work, [&](BuildAtWork& at_work) -> Shown {
        const auto item =
            find_record(at_work.state.facts.records.open_items, options.id, "open_item");
        if (!item) {
            return item.error();
        }
        const auto act = close_open_item(at_work.session, **item, options.outcome);
        if (!act) {
            return act.error();
        }
        return say_done(options.work.build, "rodway-close-open-item",
                        {{"open_item", static_cast<qint64>(options.id)}},
                        CureCommands::tr("Closed: %1").arg(text((*item)->title)));
    });
}

std::string word(const QString& text) {
    return text.toStdString();
}

using Options = std::shared_ptr<CureOptions>;

void add_label_options(CLI::App& command, const Options& options) {
    command
        .add_option("--handling", options->handling,
                    word(CureCommands::tr("Minutes until it may be handled, by its label")))
        ->check(CLI::NonNegativeNumber);
    command
        .add_option("--full", options->full,
                    word(CureCommands::tr("Minutes until it has cured fully, by its label")))
        ->check(CLI::NonNegativeNumber);
    command.add_option("--note", options->note, word(CureCommands::tr("Note")));
}

void add_change_command(CLI::App& program, CommandOutcome& outcome) {
    const auto change = std::make_shared<ItemChange>();
    auto* changed = program.add_subcommand(
        "change-open-item", word(CureCommands::tr("Write an open item anew; what isn't named stays "
                                                  "as it is, and an empty text empties")));
    add_build_options(*changed, change->work.build);
    add_who_option(*changed, change->work.who);
    changed->add_option("item", change->id, word(CureCommands::tr("Number of the item")))
        ->required();
    changed->add_option("--title", change->title, word(CureCommands::tr("What it is")));
    changed->add_option("--kind", change->kind,
                        word(CureCommands::tr("temporary_part, watch, decision, risk, question or "
                                              "other")));
    changed->add_option("--detail", change->detail, word(CureCommands::tr("More of it")));
    changed->add_option("--position", change->position, word(CureCommands::tr("Where: 3I")));
    changed->add_option("--if-it-goes-wrong", change->risk,
                        word(CureCommands::tr("What happens if it goes wrong")));
    changed->add_option("--due", change->due, word(CureCommands::tr("Day, 2026-03-01")));
    changed->add_option("--holds-stage", change->stage,
                        word(CureCommands::tr("Stage whose gate waits until it is closed")));
    auto* told = changed->add_flag("--customer-told", change->customer_told,
                                   word(CureCommands::tr("The customer knows of it")));
    changed
        ->add_flag("--customer-not-told", change->customer_not_told,
                   word(CureCommands::tr("The customer doesn't know of it")))
        ->excludes(told);
    changed->callback([=, &outcome] { outcome.code = change_one(*change); });
}

void add_item_commands(CLI::App& program, CommandOutcome& outcome, const Options& options) {
    auto* opened = program.add_subcommand(
        "add-open-item", word(CureCommands::tr("Add something to a build that must not be "
                                               "forgotten")));
    add_build_options(*opened, options->work.build);
    add_who_option(*opened, options->work.who);
    opened->add_option("title", options->title, word(CureCommands::tr("What it is")))->required();
    opened->add_option("--kind", options->kind,
                       word(CureCommands::tr("temporary_part, watch, decision, risk, question or "
                                             "other")));
    opened->add_option("--detail", options->detail, word(CureCommands::tr("More of it")));
    opened->add_option("--position", options->position, word(CureCommands::tr("Where: 3I")));
    opened->add_option("--if-it-goes-wrong", options->risk,
                       word(CureCommands::tr("What happens if it goes wrong")));
    opened->add_option("--due", options->due, word(CureCommands::tr("Day, 2026-03-01")));
    opened->add_option("--step", options->step, word(CureCommands::tr("Step where it came up")));
    opened->add_option("--holds-stage", options->stage,
                       word(CureCommands::tr("Stage whose gate waits until it is closed")));
    opened->add_flag("--customer-told", options->customer_told,
                     word(CureCommands::tr("The customer knows of it")));
    opened->callback([=, &outcome] { outcome.code = open_one(*options); });

    add_change_command(program, outcome);

    auto* closed = program.add_subcommand(
        "close-open-item", word(CureCommands::tr("Close an open item with what came of it")));
    add_build_options(*closed, options->work.build);
    add_who_option(*closed, options->work.who);
    closed->add_option("item", options->id, word(CureCommands::tr("Number of the item")))
        ->required();
    closed->add_option("--outcome", options->outcome, word(CureCommands::tr("What came of it")))
        ->required();
    closed->callback([=, &outcome] { outcome.code = close_one(*options); });
}

} // namespace

void add_cure_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<CureOptions>();
    auto* product = program.add_subcommand(
        "add-product",
        word(CureCommands::tr("Add a sealant, adhesive or paint as its label states it")));
    product->add_option("shop", options->work.build.shop, word(CureCommands::tr("Shop file")))
        ->required();
    product->add_option("name", options->product.name, word(CureCommands::tr("Name")))->required();
    product->add_option("--purpose", options->purpose, word(CureCommands::tr("What it is for")));
    add_label_options(*product, options);
    add_json_option(*product, options->work.build.json);
    add_who_option(*product, options->work.who);
    product->callback([=, &outcome] { outcome.code = add_one_product(*options); });

    auto* started = program.add_subcommand(
        "start-cure", word(CureCommands::tr("Say that something dries or cures on a build")));
    add_build_options(*started, options->work.build);
    add_who_option(*started, options->work.who);
    started->add_option("place", options->place, word(CureCommands::tr("What, and where")))
        ->required();
    started->add_option("--product", options->product_named,
                        word(CureCommands::tr("Product's number or name; its label's times hold")));
    started->add_option("--step", options->step, word(CureCommands::tr("Step it belongs to")));
    started->add_option("--applied", options->applied,
                        word(CureCommands::tr("UTC time at which it was applied; now without it")));
    add_label_options(*started, options);
    started->callback([=, &outcome] { outcome.code = start_one(*options); });

    auto* ended = program.add_subcommand(
        "end-cure", word(CureCommands::tr("Say that it was found cured, or taken off")));
    add_build_options(*ended, options->work.build);
    add_who_option(*ended, options->work.who);
    ended->add_option("cure", options->id, word(CureCommands::tr("Number of the cure")))
        ->required();
    ended->add_option("--note", options->note, word(CureCommands::tr("Note")));
    ended->callback([=, &outcome] { outcome.code = end_one(*options); });

    add_item_commands(program, outcome, options);
}

} // namespace rodway
