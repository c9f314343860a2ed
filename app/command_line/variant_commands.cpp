#include <QCoreApplication>
#include <algorithm>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/variant_options.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/variant_words.h"

namespace rodway {
namespace {

struct VariantCommands {
    Q_DECLARE_TR_FUNCTIONS(VariantCommands)
};

struct Options : BuildOptions {
    std::vector<std::string> variants;
};

QString name_of(const VariantOutcome& outcome) {
    return QString::fromStdString(outcome.name);
}

Result<std::vector<NamedVariant>> typed_variants(const Options& options, const Engine& engine) {
    std::vector<NamedVariant> variants;
    for (const std::string& text : options.variants) {
        const auto typed = typed_variant(text, engine);
        if (!typed) {
            return typed.error();
        }
        const bool twice =
            std::any_of(variants.begin(), variants.end(),
                        [&](const NamedVariant& before) { return before.name == typed->name; });
        if (twice) {
            return Error{ErrorCode::duplicate_field, typed->name, {}, {}, {}, {}};
        }
        variants.push_back(*typed);
    }
    return variants;
}

/// One valve in one column: the keys that both the engine as it stands and a variant have.
QJsonObject line_json(const ValveClearance& line) {
    QJsonObject answer{
        {"status", words::token(line.found.status)},
        {"minimum_in", QJsonValue()},
        {"doubt_in", inches_or_null(line.doubt_mm)},
        {"lobe_lift_in", QJsonValue()},
        {"feature", QJsonValue()},
        {"wall", QJsonValue()},
        {"end", QJsonValue()},
        {"verdict", line.verdict ? QJsonValue(words::token(*line.verdict)) : QJsonValue()}};
    if (!line.found.minimum) {
        return answer;
    }
    const RodClearance& minimum = *line.found.minimum;
    answer["minimum_in"] = inches_of(minimum.clearance_mm);
    answer["lobe_lift_in"] = inches_of(minimum.lobe_lift_mm);
    answer["feature"] = words::feature_token(line.found);
    if (minimum.in_passage) {
        answer["wall"] = words::token(minimum.in_passage->wall);
        answer["end"] = words::token(minimum.in_passage->end);
    }
    return answer;
}

QJsonObject gaskets_json(const std::vector<double>& thicker_mm, const EngineLayout& layout) {
    QJsonObject gaskets;
    for (std::size_t bank = 0; bank < layout.banks.size(); ++bank) {
        gaskets[QString::fromStdString(layout.banks[bank].name)] =
            inches_of(bank < thicker_mm.size() ? thicker_mm[bank] : 0.0);
    }
    return gaskets;
}

QJsonObject what_if_json(const Variant& variant, const EngineLayout& layout) {
    return {{"lifter_taller_in", inches_of(variant.lifter_taller_mm)},
            {"rod_thicker_in", inches_of(variant.rod_thicker_mm)},
            {"rod_longer_in", inches_of(variant.rod_longer_mm)},
            {"ball_arm_longer_in", inches_of(variant.ball_arm_longer_mm)},
            {"lash_more_in", inches_of(variant.lash_more_mm)},
            {"lobe_lift_more_in", inches_of(variant.lobe_lift_more_mm)},
            {"ratio_more", variant.ratio_more},
            {"adjuster_in_more_in", inches_of(variant.adjuster_in_more_mm)},
            {"gasket_thicker_in", gaskets_json(variant.gasket_thicker_mm, layout)},
            {"head_gasket_thicker_in", gaskets_json(variant.head_gasket_thicker_mm, layout)}};
}

QJsonArray names_json(const std::vector<ValvePosition>& valves) {
    QJsonArray names;
    for (const ValvePosition& valve : valves) {
        names.append(words::valve(valve));
    }
    return names;
}

QJsonObject outcome_json(const VariantOutcome& outcome, const EngineLayout& layout) {
    return {
        {"name", name_of(outcome)},
        {"what_if", what_if_json(outcome.variant, layout)},
        {"below_limit", names_json(outcome.below_limit)},
        {"falls_below_limit", names_json(outcome.falls_below_limit)},
        {"without_answer", names_json(outcome.without_answer)},
        {"tightest", outcome.tightest ? QJsonValue(words::valve(*outcome.tightest)) : QJsonValue()},
        {"least_in", inches_or_null(outcome.least_mm)}};
}

QJsonObject valve_json(const ValveVariants& valve, const VariantTable& table) {
    QJsonArray by_variant;
    for (std::size_t at = 0; at < valve.by_variant.size(); ++at) {
        const TriedClearance& tried = valve.by_variant[at];
        QJsonObject cell = line_json(tried.line);
        cell["name"] = name_of(table.variants[at]);
        cell["change_in"] = inches_or_null(tried.change_mm);
        cell["falls_below_limit"] = tried.falls_below_limit;
        by_variant.append(cell);
    }
    return {{"valve", words::valve(valve.as_it_stands.position)},
            {"as_it_stands", line_json(valve.as_it_stands)},
            {"by_variant", by_variant}};
}

void print_answer_json(const BuildInHand& hand, const VariantTable& table) {
    QJsonObject answer = head_json("rodway-compare", hand);
    answer["limit_in"] = inches_of(hand.engine.rod_clearance_limit_mm);
    answer["not_in_set_up"] = names_json(hand.engine.valves_without_train());
    QJsonArray variants;
    for (const VariantOutcome& outcome : table.variants) {
        variants.append(outcome_json(outcome, hand.engine.layout));
    }
    QJsonObject stands = outcome_json(table.as_it_stands, hand.engine.layout);
    for (const char* key : {"name", "what_if", "falls_below_limit"}) {
        stands.remove(key);
    }
    QJsonArray valves;
    for (const ValveVariants& valve : table.valves) {
        valves.append(valve_json(valve, table));
    }
    answer["as_it_stands"] = stands;
    answer["variants"] = variants;
    answer["valves"] = valves;
    print_json(answer);
}

/// Prints lines whose second column is as wide as the longest name in it.
class TablePrinter {
  public:
    explicit TablePrinter(const VariantTable& table) : wide_(as_it_stands().size()) {
        for (const VariantOutcome& outcome : table.variants) {
            wide_ = std::max(wide_, name_of(outcome).size());
        }
    }
    static QString as_it_stands() { return VariantCommands::tr("as it stands"); }

    void row(const QString& valve, const QString& name, const QString& least, const QString& change,
             const QString& where, const QString& verdict) const {
        print(begin(valve, name) + least.rightJustified(9) + ' ' + change.rightJustified(10) +
              "  " + where.leftJustified(44) + ' ' + verdict);
    }
    void line(const QString& valve, const QString& name, const ValveClearance& line,
              const QString& change, const Engine& engine) const {
        if (!line.found.minimum) {
            print(begin(valve, name) + words::status(line));
            return;
        }
        row(valve, name, words::inches(line.found.minimum->clearance_mm), change,
            words::place(*line.found.minimum, engine),
            line.verdict ? words::verdict(*line.verdict) : QString());
    }

  private:
    [[nodiscard]] QString begin(const QString& valve, const QString& name) const {
        return valve.leftJustified(5) + ' ' + name.leftJustified(wide_) + ' ';
    }

    qsizetype wide_;
};

void print_table(const BuildInHand& hand, const VariantTable& table) {
    const Engine& engine = hand.engine;
    print_head(hand);
    print(
        VariantCommands::tr("WHAT IF: each variant by itself, from the engine as it stands; the "
                            "lash set again."));
    for (const VariantOutcome& outcome : table.variants) {
        const QString tried = words::variant(outcome.variant, engine.layout);
        print(VariantCommands::tr("%1: %2.").arg(
            name_of(outcome), tried.isEmpty() ? VariantCommands::tr("nothing changed") : tried));
    }
    print({});
    const TablePrinter printer(table);
    printer.row(VariantCommands::tr("Valve"), {}, VariantCommands::tr("least"),
                VariantCommands::tr("change"), VariantCommands::tr("nearest"),
                VariantCommands::tr("verdict"));
    for (const ValveVariants& valve : table.valves) {
        printer.line(words::valve(valve.as_it_stands.position), TablePrinter::as_it_stands(),
                     valve.as_it_stands, {}, engine);
        for (std::size_t at = 0; at < valve.by_variant.size(); ++at) {
            const TriedClearance& tried = valve.by_variant[at];
            printer.line({}, name_of(table.variants[at]), tried.line,
                         tried.change_mm ? words::signed_inches(*tried.change_mm) : QString(),
                         engine);
        }
    }
    print({});
    const double limit_mm = engine.rod_clearance_limit_mm;
    print(VariantCommands::tr("%1: %2").arg(TablePrinter::as_it_stands(),
                                            words::outcome(table.as_it_stands, limit_mm)));
    for (const VariantOutcome& outcome : table.variants) {
        print(
            VariantCommands::tr("%1: %2").arg(name_of(outcome), words::outcome(outcome, limit_mm)));
    }
    print({});
    print(words::clearance_caution());
}

/// `rodway compare`: variants side by side, valve by valve.
Shown show_variants(const Options& options, const BuildInHand& hand) {
    const auto variants = typed_variants(options, hand.engine);
    const auto table =
        variants ? variant_table(hand.engine, *variants) : Result<VariantTable>(variants.error());
    if (!table) {
        return table.error();
    }
    bool all_answered = table->as_it_stands.without_answer.empty();
    for (const VariantOutcome& outcome : table->variants) {
        all_answered = all_answered && outcome.without_answer.empty();
    }
    for (const ValvePosition& valve : hand.engine.valves_without_train()) {
        all_answered = false;
        complain(VariantCommands::tr("rodway: %1 is not in the set-up, so it is not checked.")
                     .arg(words::valve(valve)));
    }
    if (options.json) {
        print_answer_json(hand, *table);
    } else {
        print_table(hand, *table);
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_variant_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    auto* compare = program.add_subcommand(
        "compare",
        VariantCommands::tr("Variants side by side: every valve's least clearance by each")
            .toStdString());
    add_build_options(*compare, *options);
    compare
        ->add_option(
            "--variant", options->variants,
            VariantCommands::tr(
                "What to try, once for each: \"NAME: lifter=+.050, left-gasket=-.015\". A sign "
                "makes it a change, none the new size. Words: lifter, rod-diameter, rod-length, "
                "ball-arm, ratio, adjuster, lash, lobe-lift, gasket, head-gasket, and both with a "
                "bank's name and "
                "- before them")
                .toStdString())
        ->required()
        ->allow_extra_args(false);
    compare->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_variants(*options, hand); });
    });
}

} // namespace rodway
