#include <QCoreApplication>
#include <QFileInfo>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/work/build_folder.h"
#include "app/work/clock.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct BuildFolderCommands {
    Q_DECLARE_TR_FUNCTIONS(BuildFolderCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct BuildFolderOptions {
    std::string shop;
    std::string build;
    std::string target; ///< folder or file
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    bool replace = false;
    bool json = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

void print_missing(const std::vector<std::string>& digests) {
    for (const std::string& digest : digests) {
        print(BuildFolderCommands::tr("A photo's file was missing or altered in the shop (%1).")
                  .arg(text(digest)));
    }
}

/// Opens the shop and finds the build; `show` gets both.
ExitCode with_shop_build(const BuildFolderOptions& options,
                         const std::function<ExitCode(ShopFile&, const Build&)>& show) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, text(options.build));
    return build ? show(shop, *build) : refuse(build.error());
}

ExitCode export_to_folder(const BuildFolderOptions& options) {
    return with_shop_build(options, [&](ShopFile& shop, const Build& build) {
        const auto out = export_build(shop, build.id, text(options.target));
        if (!out) {
            const bool writing = out.error().code == ErrorCode::cannot_write;
            return refuse(out.error(), writing ? text(options.target) : text(options.shop));
        }
        if (options.json) {
            print_json({{"format", "rodway-export-build"},
                        {"version", 1},
                        {"build", text(build.name)},
                        {"folder", out->folder},
                        {"acts", out->acts},
                        {"records", out->records},
                        {"readings", out->readings},
                        {"photos", out->photos},
                        {"photos_missing", array_of(out->photos_missing)}});
            return ExitCode::done;
        }
        print(BuildFolderCommands::tr("Wrote %1 to %2: %3 records, %4 acts, %5 photos.")
                  .arg(text(build.name), out->folder, QString::number(out->records),
                       QString::number(out->acts), QString::number(out->photos)));
        print_missing(out->photos_missing);
        return ExitCode::done;
    });
}

ExitCode import_from_folder(const BuildFolderOptions& options) {
    auto opened = ShopFile::open(options.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto put = import_build(shop, text(options.target), options.who, now_utc());
    if (!put) {
        return refuse(put.error(), text(options.target));
    }
    if (options.json) {
        print_json({{"format", "rodway-import-build"},
                    {"version", 1},
                    {"build_number", static_cast<qint64>(put->build_id)},
                    {"shop_records_made", put->shop_records_made},
                    {"photos_kept", put->photos_kept},
                    {"photos_missing", array_of(put->photos_missing)}});
        return ExitCode::done;
    }
    print(BuildFolderCommands::tr("%1 is now build %2 of %3.")
              .arg(text(options.target), QString::number(put->build_id), text(options.shop)));
    print_missing(put->photos_missing);
    return ExitCode::done;
}

ExitCode export_readings(const BuildFolderOptions& options) {
    return with_shop_build(options, [&](ShopFile& shop, const Build& build) {
        const auto bytes = readings_csv_of(shop, build.id);
        if (!bytes) {
            return refuse(bytes.error(), text(options.shop));
        }
        const QFileInfo there(text(options.target));
        if (!options.replace && (there.exists() || there.isSymLink())) {
            return refuse(Error{ErrorCode::cannot_write, options.target, "exists", {}, {}, {}},
                          text(options.target));
        }
        const auto written = write_output(text(options.target), *bytes);
        if (!written) {
            return refuse(written.error(), text(options.target));
        }
        print(BuildFolderCommands::tr("Wrote %1.").arg(text(options.target)));
        return ExitCode::done;
    });
}

} // namespace

void add_build_folder_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<BuildFolderOptions>();
    const auto word = [](const QString& of) { return of.toStdString(); };
    const auto add_shop = [&](CLI::App* command) {
        command->add_option("shop", options->shop, word(BuildFolderCommands::tr("Shop file")))
            ->required();
    };
    const auto add_build = [&](CLI::App* command) {
        command
            ->add_option("build", options->build,
                         word(BuildFolderCommands::tr("Build's number or name")))
            ->required();
    };
    auto* out = program.add_subcommand(
        "export-build",
        word(BuildFolderCommands::tr("Write a whole build, its history and photos to a folder")));
    add_shop(out);
    add_build(out);
    out->add_option("folder", options->target,
                    word(BuildFolderCommands::tr("Folder to make; it must not be there yet")))
        ->required();
    add_json_option(*out, options->json);
    out->callback([=, &outcome] { outcome.code = export_to_folder(*options); });

    auto* in = program.add_subcommand(
        "import-build",
        word(BuildFolderCommands::tr("Take in a whole build from a folder made by export-build")));
    add_shop(in);
    in->add_option("folder", options->target, word(BuildFolderCommands::tr("The build's folder")))
        ->required();
    in->add_option("--by", options->who, word(BuildFolderCommands::tr("Who does this (initials)")));
    add_json_option(*in, options->json);
    in->callback([=, &outcome] { outcome.code = import_from_folder(*options); });

    auto* readings = program.add_subcommand(
        "export-readings",
        word(BuildFolderCommands::tr("Write a build's readings as CSV for a spreadsheet")));
    add_shop(readings);
    add_build(readings);
    readings->add_option("file", options->target, word(BuildFolderCommands::tr("File to write")))
        ->required();
    readings->add_flag("--replace", options->replace,
                       word(BuildFolderCommands::tr("Replace a file that is there")));
    readings->callback([=, &outcome] { outcome.code = export_readings(*options); });
}

} // namespace rodway
