#include <QCoreApplication>
#include <algorithm>
#include <cctype>
#include <map>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/spring_options.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/spring_words.h"
#include "app/work/spring_line.h"
#include "core/loads/spring_shims.h"
#include "core/units/force.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct ShimCommands {
    Q_DECLARE_TR_FUNCTIONS(ShimCommands)
};

struct Options : BuildOptions {
    std::string to_bind = usual_to_bind;
    std::string band;
    std::string stock;
    std::string stack;
    int most_in_a_stack = ShimStock().most_in_a_stack;
};

Error no_band(const std::string& text) {
    return {ErrorCode::wrong_type, "--band", text, "spring_band", {}, {}};
}

/// A typed load without its unit, and what one of that unit is.
struct TypedForce {
    std::string number;
    double unit_N = 1.0;
};

/// Nothing if no unit of force stands at the end.
std::optional<TypedForce> typed_force(std::string text) {
    std::erase(text, ' '); // "118 - 124 lbf"
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    for (const auto& [unit, newtons] : {std::pair<std::string, double>{"lbf", Force::N_per_lbf},
                                        {"lbs", Force::N_per_lbf},
                                        {"lb", Force::N_per_lbf},
                                        {"pounds", Force::N_per_lbf},
                                        {"n", 1.0}}) {
        if (text.size() > unit.size() && text.ends_with(unit)) {
            const std::string number = text.substr(0, text.size() - unit.size());
            if (!std::isalpha(static_cast<unsigned char>(number.back()))) {
                return TypedForce{number, newtons};
            }
        }
    }
    return std::nullopt;
}

/// A band of seat load if it is typed in pounds or newtons, else of installed height.
Result<ShimAim> typed_aim(const std::string& text) {
    const auto force = typed_force(text);
    const bool other_unit =
        force && std::any_of(force->number.begin(), force->number.end(), [](unsigned char c) {
            return std::isalpha(c) && c != 't' && c != 'o'; // "118 to 124"
        });
    // An interval reads alike whether of lengths or of loads.
    const auto typed = force ? parse_length(force->number + " mm", BareNumber::millimetres)
                             : parse_length(text, BareNumber::inches);
    if (!typed || typed->firmness != Firmness::plain || other_unit) {
        return no_band(text);
    }
    ShimAim aim;
    aim.of = force ? ShimAim::Of::seat_load : ShimAim::Of::installed_height;
    const double unit = force ? force->unit_N : 1.0;
    aim.low = typed->low.in_mm() * unit;
    aim.high = typed->high.in_mm() * unit;
    return aim;
}

/// Thicknesses with commas between them, or semicolons where the comma is a decimal one.
Result<std::vector<double>> typed_thicknesses(const std::string& text) {
    const char between = text.find(';') == std::string::npos ? ',' : ';';
    std::vector<double> thicknesses_mm;
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t to = std::min(text.find(between, from), text.size());
        const auto thickness = option_mm(text.substr(from, to - from), "--stock");
        if (!thickness) {
            return thickness.error();
        }
        thicknesses_mm.push_back(*thickness);
        from = to + 1;
    }
    return thicknesses_mm;
}

Result<ShimStock> typed_stock(const Options& options) {
    ShimStock stock;
    stock.most_in_a_stack = options.most_in_a_stack;
    if (!options.stock.empty()) {
        const auto thicknesses = typed_thicknesses(options.stock);
        if (!thicknesses) {
            return thicknesses.error();
        }
        stock.thicknesses_mm = *thicknesses;
    }
    if (!options.stack.empty()) {
        const auto stack = option_mm(options.stack, "--stack");
        if (!stack) {
            return stack.error();
        }
        stock.greatest_stack_mm = *stack;
    }
    const auto to_bind = option_mm(options.to_bind, "--to-bind");
    if (!to_bind) {
        return to_bind.error();
    }
    stock.least_to_bind_mm = *to_bind;
    return stock;
}

/// The same error, about the option that the field was typed as.
Error about_option(Error error) {
    error.line.reset();
    for (const auto& [field, option] : {std::pair<std::string, std::string>{"aim/low", "--band"},
                                        {"aim/high", "--band"},
                                        {"thicknesses", "--stock"},
                                        {"greatest_stack", "--stack"},
                                        {"most_in_a_stack", "--most"},
                                        {"least_to_bind", "--to-bind"}}) {
        if (error.field == field) {
            return in_field(error, option);
        }
    }
    return error;
}

/// One valve's shims; no choice where its spring or its lift isn't known.
struct ShimLine {
    SpringLine spring;
    std::optional<ShimChoice> choice;
};

/// How many of each thickness are wanted, thinnest first.
std::map<double, int> to_fit(const std::vector<ShimLine>& lines) {
    std::map<double, int> counts;
    for (const ShimLine& line : lines) {
        for (const double shim_mm : line.choice ? line.choice->shims_mm : std::vector<double>()) {
            ++counts[shim_mm];
        }
    }
    return counts;
}

/// Least and greatest seat load of valves of one kind, as shimmed; nothing if none is known.
std::optional<std::pair<double, double>> seat_loads_N(const std::vector<ShimLine>& lines,
                                                      ValveKind kind) {
    std::optional<std::pair<double, double>> range;
    for (const ShimLine& line : lines) {
        if (line.choice && line.spring.valve.kind == kind) {
            const double load_N = line.choice->seat_load_N;
            range = range
                        ? std::pair(std::min(range->first, load_N), std::max(range->second, load_N))
                        : std::pair(load_N, load_N);
        }
    }
    return range;
}

QJsonArray inches_json(const std::vector<double>& lengths_mm) {
    QJsonArray array;
    for (const double length_mm : lengths_mm) {
        array.append(inches_of(length_mm));
    }
    return array;
}

QJsonObject shim_json(const ShimLine& line) {
    const auto& choice = line.choice;
    const bool no_close = line.spring.status == SpringStatus::train_does_not_close;
    const auto of_choice = [&](const QJsonValue& value) { return choice ? value : QJsonValue(); };
    const ShimChoice known = choice.value_or(ShimChoice());
    const ValveSpring* spring = line.spring.spring;
    return {
        {"valve", words::valve(line.spring.valve)},
        {"status", choice ? words::token(choice->status) : words::token(line.spring.status)},
        {"train_status", no_close ? QJsonValue(words::token(line.spring.train)) : QJsonValue()},
        {"found_height_in",
         spring ? QJsonValue(inches_of(spring->installed_height_mm)) : QJsonValue()},
        {"found_seat_load_lbf",
         spring ? QJsonValue(Force::N(spring->seat_load_N()).in_lbf()) : QJsonValue()},
        {"shims_in", of_choice(inches_json(known.shims_mm))},
        {"stack_in", of_choice(inches_of(known.stack_mm))},
        {"installed_height_in", of_choice(inches_of(known.installed_height_mm))},
        {"seat_load_lbf", of_choice(Force::N(known.seat_load_N).in_lbf())},
        {"net_lift_in", inches_or_null(line.spring.full_valve_lift_mm)},
        {"height_at_full_lift_in", of_choice(inches_of(known.open.height_mm))},
        {"load_at_full_lift_lbf", of_choice(Force::N(known.open.load_N).in_lbf())},
        {"bind_checked", of_choice(known.bind_checked)},
        {"to_bind_in", inches_or_null(known.open.to_bind_mm)},
        {"retainer_to_seal_in", inches_or_null(known.open.retainer_to_seal_mm)},
    };
}

QJsonObject shims_json(const BuildInHand& hand, const std::vector<ShimLine>& lines,
                       const ShimAim& aim, const ShimStock& stock) {
    const bool load = aim.of == ShimAim::Of::seat_load;
    const auto in_aim = [&](double value, bool is_load) {
        return load != is_load ? QJsonValue()
               : load          ? QJsonValue(Force::N(value).in_lbf())
                               : QJsonValue(inches_of(value));
    };
    QJsonArray valves;
    for (const ShimLine& line : lines) {
        valves.append(shim_json(line));
    }
    QJsonArray counts;
    for (const auto& [shim_mm, count] : to_fit(lines)) {
        counts.append(QJsonObject{{"thickness_in", inches_of(shim_mm)}, {"count", count}});
    }
    QJsonObject answer = head_json("rodway-spring-shims", hand);
    answer["band_of"] = words::token(aim.of);
    answer["low_lbf"] = in_aim(aim.low, true);
    answer["high_lbf"] = in_aim(aim.high, true);
    answer["low_in"] = in_aim(aim.low, false);
    answer["high_in"] = in_aim(aim.high, false);
    answer["stock_in"] = inches_json(stock.thicknesses_mm);
    answer["greatest_stack_in"] = inches_of(stock.greatest_stack_mm);
    answer["most_in_a_stack"] = stock.most_in_a_stack;
    answer["least_to_bind_in"] = inches_of(stock.least_to_bind_mm);
    answer["valves"] = valves;
    answer["to_fit"] = counts;
    return answer;
}

void print_shim_line(const ShimLine& line, const ShimAim& aim, double least_to_bind_mm) {
    const QString valve = words::valve(line.spring.valve);
    if (!line.choice) {
        print(QString("%1 %2").arg(valve, -5).arg(
            words::spring_status(line.spring.status, line.spring.train)));
        return;
    }
    const ShimChoice& choice = *line.choice;
    const ValveSpring& found = *line.spring.spring;
    print(ShimCommands::tr("%1 %2: %3 from %4, %5 from %6; at full lift %7, %8 to bind")
              .arg(valve, -5)
              .arg(words::shims(choice.shims_mm), words::inches(choice.installed_height_mm),
                   words::inches(found.installed_height_mm), words::spring_load(choice.seat_load_N),
                   words::spring_load(found.seat_load_N()), words::spring_load(choice.open.load_N),
                   words::room_left(choice.open.to_bind_mm)));
    const QString status = words::shim_status(choice, aim, found.seat_load_N(), least_to_bind_mm);
    if (!status.isEmpty()) {
        print("      " + status);
    }
}

void print_shims(const BuildInHand& hand, const std::vector<ShimLine>& lines, const ShimAim& aim,
                 const ShimStock& stock) {
    print_head(hand);
    print(ShimCommands::tr("Shims for %1; stack no more than %2, at least %3 left before the "
                           "coils touch. They go on top of what stood under the spring when its "
                           "height was measured.")
              .arg(words::shim_aim(aim), words::inches(stock.greatest_stack_mm),
                   words::inches(stock.least_to_bind_mm)));
    print({});
    bool bind_unknown = false;
    for (const ShimLine& line : lines) {
        print_shim_line(line, aim, stock.least_to_bind_mm);
        bind_unknown = bind_unknown || (line.choice && !line.choice->bind_checked);
    }
    print({});
    QStringList counts;
    for (const auto& [shim_mm, count] : to_fit(lines)) {
        counts << ShimCommands::tr("%1 of %2").arg(count).arg(words::size(shim_mm));
    }
    print(ShimCommands::tr("To fit: %1")
              .arg(counts.isEmpty() ? ShimCommands::tr("none") : counts.join(", ")));
    for (const auto& [kind, name] : {std::pair{ValveKind::intake, ShimCommands::tr("Intake")},
                                     std::pair{ValveKind::exhaust, ShimCommands::tr("Exhaust")}}) {
        if (const auto range = seat_loads_N(lines, kind)) {
            print(ShimCommands::tr("%1 seat loads then: %2 to %3")
                      .arg(name, words::spring_load(range->first),
                           words::spring_load(range->second)));
        }
    }
    if (bind_unknown) {
        print(ShimCommands::tr(
            "Where the bind height isn't in the set-up, coil bind was NOT CHECKED."));
    }
    print(words::spring_caution());
}

/// `rodway spring-shims`: which shim for each valve (question 25).
Shown show_shims(const Options& options, const BuildInHand& hand) {
    const auto aim = typed_aim(options.band);
    if (!aim) {
        return aim.error();
    }
    const auto stock = typed_stock(options);
    if (!stock) {
        return stock.error();
    }
    const std::vector<SpringLine> springs = spring_lines(hand.engine);
    std::vector<ShimLine> lines;
    for (const SpringLine& spring : springs) {
        ShimLine line{spring, {}};
        if (spring.status == SpringStatus::answered) {
            const auto choice =
                choose_shims(*spring.spring, *aim, *stock, *spring.full_valve_lift_mm);
            if (!choice) {
                return about_option(choice.error());
            }
            line.choice = *choice;
        }
        lines.push_back(line);
    }
    if (options.json) {
        print_json(shims_json(hand, lines, *aim, *stock));
    } else {
        print_shims(hand, lines, *aim, *stock);
    }
    return all_answered(springs) ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_spring_shim_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* shims = program.add_subcommand("spring-shims",
                                         word(ShimCommands::tr("Which shims under which spring")));
    add_build_options(*shims, *options);
    add_to_bind_option(*shims, options->to_bind);
    shims
        ->add_option("--band", options->band,
                     word(ShimCommands::tr("Seat load (118-124lbf, 525-550N) or installed height "
                                           "(1.875-1.885) wanted")))
        ->required();
    shims->add_option("--stock", options->stock,
                      word(ShimCommands::tr("Shims on the shelf (.015,.030,.060)")));
    shims->add_option("--stack", options->stack,
                      word(ShimCommands::tr("Thickest stack of shims (.060)")));
    shims->add_option("--most", options->most_in_a_stack,
                      word(ShimCommands::tr("Most shims in a stack (4)")));
    shims->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_shims(*options, hand); });
    });
}

} // namespace rodway
