#include <QCoreApplication>
#include <map>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/spring_options.h"
#include "app/words/barring_words.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/spring_words.h"
#include "app/work/spring_line.h"
#include "core/units/force.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct SpringCommands {
    Q_DECLARE_TR_FUNCTIONS(SpringCommands)
};

struct Options : BuildOptions {
    std::string rpm;
    std::string to_bind = usual_to_bind;
};

constexpr double greatest_engine_rpm = 20000.0; // choice of this project

double rate_in_lbf(double rate_N_per_mm) {
    return spring_rate_lbf_per_inch(rate_N_per_mm);
}

/// How fast the camshaft turns, if a speed was asked about.
struct CamSpeed {
    std::optional<double> engine_rpm;

    [[nodiscard]] std::optional<double> cam_Hz() const {
        constexpr double engine_turns_a_cam_turn = 2.0;
        constexpr double seconds = 60.0;
        return engine_rpm ? std::optional(*engine_rpm / engine_turns_a_cam_turn / seconds)
                          : std::nullopt;
    }
    /// How often the spring surges to and fro in one turn of its cam.
    [[nodiscard]] std::optional<double> surges_a_turn(const std::optional<double>& surge_Hz) const {
        return cam_Hz() && surge_Hz ? std::optional(*surge_Hz / *cam_Hz()) : std::nullopt;
    }
};

Result<CamSpeed> typed_speed(const std::string& text) {
    if (text.empty()) {
        return CamSpeed{};
    }
    const auto rpm = parse_number(text);
    if (!rpm) {
        return in_field(rpm.error(), "--rpm");
    }
    if (!(*rpm >= 1.0 && *rpm <= greatest_engine_rpm)) {
        return Error{ErrorCode::out_of_range,
                     "--rpm",
                     text,
                     {},
                     {},
                     Limits{1.0, greatest_engine_rpm, "rpm"}};
    }
    return CamSpeed{*rpm};
}

QJsonObject spring_json(const SpringLine& line, const CamSpeed& speed, double least_to_bind_mm) {
    const ValveSpring* spring = line.spring;
    const auto& open = line.open;
    const auto of_spring = [&](double value) { return spring ? QJsonValue(value) : QJsonValue(); };
    const auto of_open = [&](double value) { return open ? QJsonValue(value) : QJsonValue(); };
    const ValveSpring known = spring ? *spring : ValveSpring{};
    const SpringAtFullLift lifted = open.value_or(SpringAtFullLift());
    const auto surge = spring ? spring->surge_Hz() : std::nullopt;
    const bool no_close = line.status == SpringStatus::train_does_not_close;
    QJsonObject valve{
        {"valve", words::valve(line.valve)},
        {"status", words::token(line.status)},
        {"train_status", no_close ? QJsonValue(words::token(line.train)) : QJsonValue()},
        {"lobe_estimated", line.lobe_estimated},
        {"installed_height_in", of_spring(inches_of(known.installed_height_mm))},
        {"seat_load_lbf", QJsonValue()},
        {"rate_on_seat_lbf_per_in", QJsonValue()},
        {"net_lift_in", inches_or_null(line.full_valve_lift_mm)},
        {"height_at_full_lift_in", of_open(inches_of(lifted.height_mm))},
        {"load_at_full_lift_lbf", of_open(Force::N(lifted.load_N).in_lbf())},
        {"rate_at_full_lift_lbf_per_in", of_open(rate_in_lbf(lifted.rate_N_per_mm))},
        {"to_bind_in", inches_or_null(lifted.to_bind_mm)},
        {"below_bind_limit",
         lifted.to_bind_mm ? QJsonValue(*lifted.to_bind_mm < least_to_bind_mm) : QJsonValue()},
        {"retainer_to_seal_in", inches_or_null(lifted.retainer_to_seal_mm)},
        {"beyond_listed_loads", spring ? QJsonValue(line.beyond_loads()) : QJsonValue()},
        {"surge_estimated_Hz", number_or_null(surge)},
        {"surges_a_cam_turn", number_or_null(speed.surges_a_turn(surge))}};
    if (spring) {
        valve["seat_load_lbf"] = Force::N(spring->seat_load_N()).in_lbf();
        valve["rate_on_seat_lbf_per_in"] =
            rate_in_lbf(spring->rate_N_per_mm(spring->installed_height_mm));
    }
    return valve;
}

void print_spring_row(const QString& valve, const QStringList& columns) {
    QString row = QString("%1").arg(valve, -5);
    for (const QString& column : columns) {
        row += QString(" %1").arg(column, 10);
    }
    print(row);
}

void print_spring(const SpringLine& line, double least_to_bind_mm) {
    const QString valve = words::valve(line.valve);
    if (line.status != SpringStatus::answered) {
        print(QString("%1 %2").arg(valve, -5).arg(words::spring_status(line.status, line.train)));
    }
    if (!line.spring) {
        return;
    }
    const ValveSpring& spring = *line.spring;
    QStringList columns{words::inches(spring.installed_height_mm),
                        words::spring_load(spring.seat_load_N()),
                        words::spring_rate(spring.rate_N_per_mm(spring.installed_height_mm))};
    if (line.open) {
        const SpringAtFullLift& open = *line.open;
        columns << words::inches(*line.full_valve_lift_mm) << words::inches(open.height_mm)
                << words::spring_load(open.load_N) << words::room_left(open.to_bind_mm)
                << words::room_left(open.retainer_to_seal_mm);
    }
    print_spring_row(valve, columns);
    if (!line.open) {
        return;
    }
    if (const auto& to_bind = line.open->to_bind_mm; to_bind && *to_bind < least_to_bind_mm) {
        print("      " + (*to_bind <= 0.0
                              ? SpringCommands::tr("THE COILS TOUCH before full lift.")
                              : SpringCommands::tr("LESS THAN %1 is left before the coils touch.")
                                    .arg(words::inches(least_to_bind_mm))));
    }
    if (const auto& to_seal = line.open->retainer_to_seal_mm; to_seal && *to_seal <= 0.0) {
        print("      " + SpringCommands::tr("THE RETAINER MEETS THE SEAL before full lift."));
    }
}

/// Surge by frequency, valves of one frequency together.
void print_surge(const std::vector<SpringLine>& lines, const CamSpeed& speed) {
    std::map<double, std::vector<ValvePosition>> surging;
    for (const SpringLine& line : lines) {
        if (const auto surge = line.spring ? line.spring->surge_Hz() : std::nullopt) {
            surging[*surge].push_back(line.valve);
        }
    }
    if (surging.empty()) {
        if (speed.engine_rpm) {
            print(SpringCommands::tr(
                "No spring's wire is in the set-up (springs/…/wire), so surge isn't known."));
        }
        return;
    }
    for (const auto& [surge_Hz, valves] : surging) {
        const QString surge = QString::number(surge_Hz, 'f', 0);
        const auto ratio = speed.surges_a_turn(surge_Hz);
        print(
            ratio
                ? SpringCommands::tr("Surge about %1 Hz: %2 times the camshaft's speed at %3 "
                                     "rpm of the engine (%4).")
                      .arg(surge, QString::number(*ratio, 'f', 1),
                           QString::number(*speed.engine_rpm, 'f', 0), words::valves(valves))
                : SpringCommands::tr("Surge about %1 Hz (%2).").arg(surge, words::valves(valves)));
    }
    print(words::surge_estimated());
}

void print_springs(const BuildInHand& hand, const std::vector<SpringLine>& lines,
                   const CamSpeed& speed, double least_to_bind_mm) {
    print_head(hand);
    print(
        SpringCommands::tr("Each spring with its valve shut, and at full lift with the lash off; "
                           "what is then left before the coils touch, and below the retainer."));
    print({});
    print_spring_row(
        SpringCommands::tr("Valve"),
        {SpringCommands::tr("height"), SpringCommands::tr("seat"), SpringCommands::tr("rate"),
         SpringCommands::tr("lift"), SpringCommands::tr("height"), SpringCommands::tr("load"),
         SpringCommands::tr("to bind"), SpringCommands::tr("to seal")});
    std::vector<ValvePosition> beyond;
    std::vector<ValvePosition> estimated;
    for (const SpringLine& line : lines) {
        print_spring(line, least_to_bind_mm);
        if (line.beyond_loads()) {
            beyond.push_back(line.valve);
        }
        if (line.open && line.lobe_estimated) {
            estimated.push_back(line.valve);
        }
    }
    print({});
    if (!beyond.empty()) {
        print(SpringCommands::tr("Estimated, beyond the heights at which loads are listed: %1")
                  .arg(words::valves(beyond)));
    }
    if (!estimated.empty()) {
        print(SpringCommands::tr("Lift from the peak that the cam's card states: %1")
                  .arg(words::valves(estimated)));
    }
    print_surge(lines, speed);
    print(words::spring_caution());
}

/// `rodway springs`: what each spring does, shut and at full lift.
Shown show_springs(const Options& options, const BuildInHand& hand) {
    const auto speed = typed_speed(options.rpm);
    if (!speed) {
        return speed.error();
    }
    const auto to_bind = option_mm(options.to_bind, "--to-bind");
    if (!to_bind) {
        return to_bind.error();
    }
    const std::vector<SpringLine> lines = spring_lines(hand.engine);
    if (options.json) {
        QJsonArray valves;
        for (const SpringLine& line : lines) {
            valves.append(spring_json(line, *speed, *to_bind));
        }
        QJsonObject answer = head_json("rodway-springs", hand);
        answer["least_to_bind_in"] = inches_of(*to_bind);
        answer["engine_rpm"] = number_or_null(speed->engine_rpm);
        answer["cam_Hz"] = number_or_null(speed->cam_Hz());
        answer["valves"] = valves;
        print_json(answer);
    } else {
        print_springs(hand, lines, *speed, *to_bind);
    }
    return all_answered(lines) ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_spring_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* springs = program.add_subcommand(
        "springs", word(SpringCommands::tr("Seat and open load, coil bind and surge")));
    add_build_options(*springs, *options);
    add_to_bind_option(*springs, options->to_bind);
    springs->add_option(
        "--rpm", options->rpm,
        word(SpringCommands::tr("Engine speed at which surge is compared with the camshaft's")));
    springs->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_springs(*options, hand); });
    });
}

} // namespace rodway
