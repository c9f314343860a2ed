#include <QCoreApplication>
#include <QFileInfo>

#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/first_run/new_build.h"
#include "app/valvetrain/lobe_import.h"
#include "app/words/lengths.h"
#include "app/work/build_in_hand.h"
#include "app/work/file_bytes.h"
#include "app/work/output_file.h"
#include "core/files/lift_table_file.h"
#include "core/files/set_up_file.h"

namespace rodway {
namespace {

struct SetUpCommands {
    Q_DECLARE_TR_FUNCTIONS(SetUpCommands)
};

struct Options {
    std::string shop;
    std::string build;
    std::string file;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    std::string valves;
    std::string separator;
    std::string decimal;
    std::string unit;
    std::string degrees;
    bool replace = false;
};

ExitCode import_set_up(const Options& options) {
    const QString file = QString::fromStdString(options.file);
    const auto bytes = read_file(file);
    const auto fields = bytes ? read_set_up_file(*bytes) : Result<SetUpFields>(bytes.error());
    if (!fields) {
        return refuse(fields.error(), file);
    }
    auto shop = ShopFile::open(options.shop);
    if (!shop) {
        return refuse(shop.error(), QString::fromStdString(options.shop));
    }
    ShopSession session(std::move(shop).value(), QString::fromStdString(options.who));
    const auto build = find_build(session.shop(), QString::fromStdString(options.build));
    if (!build) {
        return refuse(build.error());
    }
    const auto id = add_set_up(session, build->id, QFileInfo(file).completeBaseName(), *fields);
    if (!id) {
        return refuse(id.error());
    }
    print(SetUpCommands::tr("%1 is now the set-up in hand of %2; the ones before are kept.")
              .arg(QFileInfo(file).fileName(), QString::fromStdString(build->name)));
    return ExitCode::done;
}

ExitCode export_set_up(const Options& options) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) {
        return refuse(opened.error(), QString::fromStdString(options.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, QString::fromStdString(options.build));
    if (!build) {
        return refuse(build.error());
    }
    const auto set_up = newest_set_up(shop, build->id);
    if (!set_up) {
        return refuse(set_up.error());
    }
    if (!*set_up) {
        return refuse(Error{ErrorCode::missing_field, "set_up", {}, {}, {}, {}});
    }
    if (!options.replace && QFileInfo::exists(QString::fromStdString(options.file))) {
        complain(
            SetUpCommands::tr("rodway: %1 stands there already. Say --replace to write over it.")
                .arg(QString::fromStdString(options.file)));
        return ExitCode::cannot_read_or_write;
    }
    const auto written =
        write_output(QString::fromStdString(options.file), write_set_up_file((*set_up)->fields));
    if (!written) {
        return refuse(written.error(), QString::fromStdString(options.file));
    }
    print(SetUpCommands::tr("Wrote %1.").arg(QString::fromStdString(options.file)));
    return ExitCode::done;
}

LiftTableHints hints_of(const Options& options) {
    LiftTableHints hints;
    if (!options.separator.empty()) {
        hints.separator = options.separator == "tab"     ? '\t'
                          : options.separator == "space" ? ' '
                          : options.separator == "comma" ? ','
                                                         : ';';
    }
    if (!options.decimal.empty()) {
        hints.decimal_mark = options.decimal == "comma" ? ',' : '.';
    }
    if (!options.unit.empty()) {
        hints.inches = options.unit == "in";
    }
    if (!options.degrees.empty()) {
        hints.crank_degrees = options.degrees == "crank";
    }
    return hints;
}

ExitCode import_lift_table(const Options& options) {
    const QString file = QString::fromStdString(options.file);
    const auto bytes = read_file(file);
    const auto table =
        bytes ? read_lift_table_file(*bytes, hints_of(options)) : Result<TypedValue>(bytes.error());
    if (!table) {
        const ExitCode code = refuse(table.error(), file);
        switch (table.error().code) {
            case ErrorCode::unit_unclear:
                complain(SetUpCommands::tr("Say it with --unit in or --unit mm."));
                break;
            case ErrorCode::angle_kind_unclear:
                complain(SetUpCommands::tr("Say it with --degrees crank or --degrees cam."));
                break;
            case ErrorCode::separator_unclear:
                complain(SetUpCommands::tr("Say it with --separator and --decimal-mark."));
                break;
            default:
                break;
        }
        return code;
    }
    auto shop = ShopFile::open(options.shop);
    if (!shop) {
        return refuse(shop.error(), QString::fromStdString(options.shop));
    }
    ShopSession session(std::move(shop).value(), QString::fromStdString(options.who));
    const auto build = find_build(session.shop(), QString::fromStdString(options.build));
    if (!build) {
        return refuse(build.error());
    }
    const ValveKind kind = options.valves == "intake" ? ValveKind::intake : ValveKind::exhaust;
    const auto done = put_lobe(session, build->id, {kind}, *table);
    if (!done) {
        return refuse(done.error(), file);
    }
    print(SetUpCommands::tr("The %1 lobes of %2 now follow %3, read as %4.")
              .arg(QString::fromStdString(options.valves), QString::fromStdString(build->name),
                   QFileInfo(file).fileName(), words::lift_table_unit(table->unit)));
    return ExitCode::done;
}

} // namespace

void add_set_up_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto begin = [&](const char* name, const QString& what) {
        auto* command = program.add_subcommand(name, what.toStdString());
        command->add_option("shop", options->shop, word(SetUpCommands::tr("Shop file")))
            ->required();
        command
            ->add_option("build", options->build, word(SetUpCommands::tr("Build's number or name")))
            ->required();
        return command;
    };

    auto* taken_in = begin("import-set-up",
                           SetUpCommands::tr("Take an engine's set-up from a file into a build"));
    taken_in->add_option("file", options->file, word(SetUpCommands::tr("Set-up file (JSON)")))
        ->required();
    taken_in->add_option("--by", options->who, word(SetUpCommands::tr("Who does this (initials)")));
    taken_in->callback([=, &outcome] { outcome.code = import_set_up(*options); });

    auto* out =
        begin("export-set-up", SetUpCommands::tr("Write a build's set-up in hand to a file"));
    out->add_option("file", options->file, word(SetUpCommands::tr("File to write")))->required();
    out->add_flag("--replace", options->replace,
                  word(SetUpCommands::tr("Write over a file that stands there")));
    out->callback([=, &outcome] { outcome.code = export_set_up(*options); });

    auto* lift = begin("import-lift-table",
                       SetUpCommands::tr("Take a lobe's lift table (CSV) into a build's set-up"));
    lift->add_option("file", options->file,
                     word(SetUpCommands::tr("Lift table: angle and lobe lift")))
        ->required();
    lift->add_option("--valves", options->valves, word(SetUpCommands::tr("Whose lobes these are")))
        ->required()
        ->check(CLI::IsMember({"intake", "exhaust"}));
    lift->add_option("--separator", options->separator,
                     word(SetUpCommands::tr("Sign between columns")))
        ->check(CLI::IsMember({"semicolon", "comma", "tab", "space"}));
    lift->add_option("--decimal-mark", options->decimal, word(SetUpCommands::tr("Decimal mark")))
        ->check(CLI::IsMember({"point", "comma"}));
    lift->add_option("--unit", options->unit, word(SetUpCommands::tr("Unit of the lift")))
        ->check(CLI::IsMember({"in", "mm"}));
    lift->add_option("--degrees", options->degrees,
                     word(SetUpCommands::tr("Whose degrees the angles are")))
        ->check(CLI::IsMember({"crank", "cam"}));
    lift->add_option("--by", options->who, word(SetUpCommands::tr("Who does this (initials)")));
    lift->callback([=, &outcome] { outcome.code = import_lift_table(*options); });
} // namespace rodway

} // namespace rodway
