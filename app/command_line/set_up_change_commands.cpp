#include <QCoreApplication>

#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/first_run/new_build.h"
#include "app/work/build_in_hand.h"
#include "core/engine/field_reader.h"
#include "core/engine/set_up.h"
#include "core/engine/set_up_fields.h"

namespace rodway {
namespace {

struct SetUpChangeCommands {
    Q_DECLARE_TR_FUNCTIONS(SetUpChangeCommands)
};

struct Options {
    std::string shop;
    std::string build;
    std::string name;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    std::vector<std::string> changes;
};

/// A value as typed: the unit stands last, after a space, and may be left out where the field had
/// one before or has none. Errors: unknown_field, wrong_type for a unit that doesn't go with it.
Result<TypedValue> typed_value(const SetUpFields& fields, const std::string& path,
                               const std::string& text) {
    const FieldSpec* spec = field_spec(path);
    if (!spec) {
        return bad_field(ErrorCode::unknown_field, path, text);
    }
    const auto space = text.rfind(' ');
    if (space != std::string::npos && unit_fits(spec->kind, text.substr(space + 1))) {
        return TypedValue{text.substr(0, space), text.substr(space + 1)};
    }
    const auto before = fields.find(path);
    const std::string unit = before == fields.end() ? std::string() : before->second.unit;
    if (!unit_fits(spec->kind, unit)) {
        return bad_field(ErrorCode::wrong_type, path, text, unit);
    }
    return TypedValue{text, unit};
}

/// Makes one change, "PATH=VALUE"; nothing after the sign takes the field away.
std::optional<Error> make_change(SetUpFields& fields, const std::string& change) {
    const auto equals = change.find('=');
    const std::string path = change.substr(0, equals);
    if (equals == std::string::npos) {
        return bad_field(ErrorCode::missing_field, path, {});
    }
    const std::string text = change.substr(equals + 1);
    if (text.empty()) {
        return fields.erase(path) > 0
                   ? std::nullopt
                   : std::optional(bad_field(ErrorCode::missing_field, path, {}));
    }
    const auto value = typed_value(fields, path, text);
    if (!value) {
        return value.error();
    }
    fields[path] = *value;
    return std::nullopt;
}

ExitCode change_set_up(const Options& options) {
    auto opened = ShopFile::open(options.shop);
    if (!opened) {
        return refuse(opened.error(), QString::fromStdString(options.shop));
    }
    ShopSession session(std::move(opened).value(), QString::fromStdString(options.who));
    const auto build = find_build(session.shop(), QString::fromStdString(options.build));
    const auto hand =
        build ? build_in_hand(session.shop(), *build) : Result<BuildInHand>(build.error());
    if (!hand) {
        return refuse(hand.error());
    }
    SetUpFields fields = hand->set_up.fields;
    for (const std::string& change : options.changes) {
        if (const auto wrong = make_change(fields, change)) {
            return refuse(*wrong);
        }
    }
    if (const auto engine = make_engine(fields); !engine) {
        return refuse(engine.error());
    }
    const auto id = add_set_up(session, build->id, QString::fromStdString(options.name), fields);
    if (!id) {
        return refuse(id.error());
    }
    print(SetUpChangeCommands::tr(
              "“%1” is now the set-up in hand of %2, %3 fields changed; the ones before are kept.")
              .arg(QString::fromStdString(options.name), QString::fromStdString(build->name))
              .arg(options.changes.size()));
    return ExitCode::done;
}

} // namespace

void add_set_up_change_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* change = program.add_subcommand(
        "change-set-up",
        word(SetUpChangeCommands::tr("Change fields of a build's set-up, as a new set-up")));
    change->add_option("shop", options->shop, word(SetUpChangeCommands::tr("Shop file")))
        ->required();
    change
        ->add_option("build", options->build,
                     word(SetUpChangeCommands::tr("Build's number or name")))
        ->required();
    change
        ->add_option("changes", options->changes,
                     word(SetUpChangeCommands::tr(
                         "FIELD=VALUE UNIT, such as \"banks/left/flange/gasket=.075 in\"; "
                         "\"FIELD=\" takes it away")))
        ->required();
    change
        ->add_option("--name", options->name,
                     word(SetUpChangeCommands::tr("What the new set-up is called")))
        ->required();
    change->add_option("--by", options->who,
                       word(SetUpChangeCommands::tr("Who does this (initials)")));
    change->callback([=, &outcome] { outcome.code = change_set_up(*options); });
}

} // namespace rodway
