#include "app/command_line/build_commands.h"

#include <QCoreApplication>

#include "core/units/length.h"

namespace rodway {
namespace {

struct BuildCommands {
    Q_DECLARE_TR_FUNCTIONS(BuildCommands)
};

} // namespace

void add_json_option(CLI::App& command, bool& json) {
    command.add_flag("--json", json, BuildCommands::tr("Answer as JSON").toStdString());
}

void add_build_options(CLI::App& command, BuildOptions& options) {
    command.add_option("shop", options.shop, BuildCommands::tr("Shop file").toStdString())
        ->required();
    command
        .add_option("build", options.build,
                    BuildCommands::tr("Build's number or name").toStdString())
        ->required();
    add_json_option(command, options.json);
}

ExitCode with_build(const BuildOptions& options,
                    const std::function<Shown(const BuildInHand&)>& show) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) {
        return refuse(opened.error(), QString::fromStdString(options.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, QString::fromStdString(options.build));
    const auto hand = build ? build_in_hand(shop, *build) : Result<BuildInHand>(build.error());
    const auto shown = hand ? show(*hand) : Shown(hand.error());
    return shown ? *shown : refuse(shown.error());
}

QJsonObject head_json(const char* format, const BuildInHand& hand) {
    return {{"format", format},
            {"version", 1},
            {"build", QString::fromStdString(hand.build.name)},
            {"set_up", QString::fromStdString(hand.set_up.name)},
            {"engine", QString::fromStdString(hand.engine.layout.name)}};
}

void print_head(const BuildInHand& hand) {
    print(BuildCommands::tr("%1: %2, set-up “%3”")
              .arg(QString::fromStdString(hand.build.name),
                   QString::fromStdString(hand.engine.layout.name),
                   QString::fromStdString(hand.set_up.name)));
}

double inches_of(double mm) {
    return Length::mm(mm).in_inches();
}

QJsonValue inches_or_null(const std::optional<double>& mm) {
    return mm ? QJsonValue(inches_of(*mm)) : QJsonValue();
}

QJsonValue number_or_null(const std::optional<double>& value) {
    return value ? QJsonValue(*value) : QJsonValue();
}

QJsonValue degrees_or_null(const std::optional<CrankAngle>& angle) {
    return angle ? QJsonValue(angle->in_deg()) : QJsonValue();
}

Error in_field(Error error, const std::string& field) {
    error.field = field;
    return error;
}

} // namespace rodway
