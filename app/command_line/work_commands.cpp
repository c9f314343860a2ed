#include "app/command_line/work_commands.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/build/utc_time.h"

namespace rodway {
namespace {

struct WorkCommands {
    Q_DECLARE_TR_FUNCTIONS(WorkCommands)
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

bool same_title(const std::string& title, const std::string& named) {
    return text(title).compare(text(named), Qt::CaseInsensitive) == 0;
}

/// Steps of a stage in their order.
std::vector<const Step*> steps_of(const BuildState& state, std::int64_t stage_id) {
    std::vector<const Step*> steps;
    for (const Step& step : state.facts.records.steps) {
        if (step.stage_id == stage_id) {
            steps.push_back(&step);
        }
    }
    return steps;
}

} // namespace

void add_who_option(CLI::App& command, std::string& who) {
    command.add_option("--who", who, WorkCommands::tr("Initials").toStdString());
}

void add_now_option(CLI::App& command, std::string& now) {
    command.add_option(
        "--now", now,
        WorkCommands::tr("Judge as of this UTC time, such as 2026-03-01T14:05:00Z").toStdString());
}

Result<Moment> moment_of(const std::string& now) {
    if (now.empty()) {
        return Moment::present();
    }
    if (!utc_seconds(now)) {
        return Error{ErrorCode::not_a_date, "now", now, {}, {}, {}};
    }
    return Moment::at(now);
}

Result<std::unique_ptr<BuildAtWork>> open_build(const WorkOptions& options) {
    const auto moment = moment_of(options.now);
    if (!moment) {
        return moment.error();
    }
    auto opened = ShopFile::open_to_look(options.build.shop);
    if (!opened) {
        return opened.error();
    }
    ShopFile shop = std::move(opened).value();
    auto build = find_build(shop, text(options.build.build));
    if (!build) {
        return build.error();
    }
    auto state = load_build_state(shop, build->id, *moment);
    if (!state) {
        return state.error();
    }
    return std::unique_ptr<BuildAtWork>(new BuildAtWork{
        {std::move(shop), text(options.who)}, std::move(build).value(), std::move(state).value()});
}

ExitCode with_build_at_work(const WorkOptions& options,
                            const std::function<Shown(BuildAtWork&)>& work) {
    const auto opened = open_build(options);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const auto shown = work(**opened);
    return shown ? *shown : refuse(shown.error());
}

Result<const Stage*> find_stage(const BuildState& state, const std::string& named) {
    const auto& stages = state.facts.records.stages;
    bool is_number = false;
    const int place = text(named).toInt(&is_number);
    if (is_number && place >= 1 && place <= static_cast<int>(stages.size())) {
        return &stages[static_cast<std::size_t>(place - 1)];
    }
    const auto found = std::find_if(stages.begin(), stages.end(), [&](const Stage& stage) {
        return same_title(stage.title, named);
    });
    if (found == stages.end()) {
        return Error{ErrorCode::no_such_record, "stage", named, {}, {}, {}};
    }
    return &*found;
}

Result<const Step*> find_step(const BuildState& state, const std::string& named) {
    const QStringList places = text(named).split('.');
    if (places.size() == 2) {
        const auto stage = find_stage(state, places[0].toStdString());
        const auto steps = stage ? steps_of(state, (*stage)->id) : std::vector<const Step*>();
        const int place = places[1].toInt();
        if (place >= 1 && place <= static_cast<int>(steps.size())) {
            return steps[static_cast<std::size_t>(place - 1)];
        }
    }
    std::vector<const Step*> called;
    for (const Step& step : state.facts.records.steps) {
        if (same_title(step.title, named)) {
            called.push_back(&step);
        }
    }
    if (called.size() != 1) {
        return Error{ErrorCode::no_such_record, "step", named, {}, {}, {}};
    }
    return called.front();
}

QString step_number(const BuildState& state, const Step& step) {
    const auto& stages = state.facts.records.stages;
    const auto stage = std::find_if(stages.begin(), stages.end(),
                                    [&](const Stage& one) { return one.id == step.stage_id; });
    const auto steps = steps_of(state, step.stage_id);
    const auto place = std::find_if(steps.begin(), steps.end(),
                                    [&](const Step* one) { return one->id == step.id; });
    return QStringLiteral("%1.%2").arg(stage - stages.begin() + 1).arg(place - steps.begin() + 1);
}

QJsonValue text_or_null(const std::optional<std::string>& value) {
    return value ? QJsonValue(text(*value)) : QJsonValue();
}

QJsonValue number_or_null(const std::optional<std::int64_t>& number) {
    return number ? QJsonValue(static_cast<qint64>(*number)) : QJsonValue();
}

QJsonArray json_list(const std::vector<std::string>& texts) {
    QJsonArray list;
    for (const std::string& one : texts) {
        list.append(text(one));
    }
    return list;
}

ExitCode say_done(const BuildOptions& options, const char* format, const QJsonObject& json,
                  const QString& line) {
    if (options.json) {
        QJsonObject answer{{"format", format}, {"version", 1}};
        for (auto one = json.begin(); one != json.end(); ++one) {
            answer[one.key()] = one.value();
        }
        print_json(answer);
    } else {
        print(line);
    }
    return ExitCode::done;
}

} // namespace rodway
