#include <QCoreApplication>
#include <QFileInfo>
#include <QJsonArray>
#include <algorithm>
#include <map>

#include "app/command_line/commands.h"
#include "app/command_line/opened_sheets.h"
#include "app/command_line/output.h"
#include "app/words/pull_words.h"
#include "app/words/sheet_words.h"
#include "app/work/file_bytes.h"
#include "app/work/pull_import.h"
#include "core/dyno/pull_comparison.h"
#include "core/sheets/kinds/pull_factors.h"
#include "core/sheets/kinds/sheet_pulls.h"

namespace rodway {
namespace {

struct PullCommands {
    Q_DECLARE_TR_FUNCTIONS(PullCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct PullOptions {
    BuildOptions build;
    std::string who = person_at_this_computer();
    std::string file;
    bool keep = false;
    int number = 0;
    std::string barometer;
    std::string altitude;
    std::string correction;
    std::string separator;
    std::string decimal;
    std::string standard;
};

const std::map<std::string, char> separators{{"semicolon", ';'}, {"comma", ','}, {"tab", '\t'}};
const std::map<std::string, char> decimal_marks{{"point", '.'}, {"comma", ','}};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString title_of(const std::string& quantity) {
    return words::sheet_title(quantity);
}

PullSaid said_by(const PullOptions& options) {
    const auto if_given = [](const std::string& typed) {
        return typed.empty() ? std::optional<std::string>() : typed;
    };
    PullSaid said;
    if (options.number != 0) {
        said.number = options.number;
    }
    if (!options.barometer.empty()) {
        said.barometer = options.barometer == "sea-level" ? "sea_level" : options.barometer;
    }
    said.altitude = if_given(options.altitude);
    said.correction = if_given(options.correction);
    if (!options.separator.empty()) {
        said.hints.separator = separators.at(options.separator);
    }
    if (!options.decimal.empty()) {
        said.hints.decimal_mark = decimal_marks.at(options.decimal);
    }
    return said;
}

QJsonObject point_json(const PullPoint& point) {
    return {{"speed_rpm", point.speed_rpm},
            {"torque_lbf_ft", point.torque.in_lbf_ft()},
            {"power_hp", point.power.in_hp()}};
}

void print_import_json(const PullToKeep& pull, const PullFigures& figures, bool kept) {
    QJsonArray columns;
    for (const PullColumn& column : pull.table.columns) {
        const std::string_view name = pull_quantity_name(column.heading.quantity);
        columns.append(QJsonObject{
            {"heading", text(column.written)},
            {"holds", QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()))},
            {"unit", text(column.heading.unit.id)}});
    }
    QJsonArray leftovers;
    for (const std::string& heading : pull.table.leftovers) {
        leftovers.append(text(heading));
    }
    QJsonArray contradictions;
    for (const PowerContradiction& one : pull.table.contradictions) {
        contradictions.append(QJsonObject{{"line", one.line},
                                          {"corrected", one.corrected},
                                          {"stated_hp", one.stated.in_hp()},
                                          {"own_hp", one.own.in_hp()}});
    }
    print_json({{"format", "rodway-import-pull"},
                {"version", 1},
                {"pull", pull.number},
                {"kept", kept},
                {"rows", static_cast<int>(pull.table.rows.size())},
                {"columns", columns},
                {"in_notes", leftovers},
                {"contradictions", contradictions},
                {"peak_torque", point_json(figures.peak_torque)},
                {"peak_power", point_json(figures.peak_power)},
                {"readings", static_cast<int>(pull.readings.size())}});
}

void print_import(const PullToKeep& pull, bool kept) {
    for (const QString& line : words::pull_read(pull)) {
        print(line);
    }
    print(kept ? PullCommands::tr("Kept as pull %1: %2 readings, one act.")
                     .arg(pull.number)
                     .arg(pull.readings.size())
               : PullCommands::tr("Nothing is kept yet. With --keep it becomes pull %1: %2 "
                                  "readings, one act.")
                     .arg(pull.number)
                     .arg(pull.readings.size()));
}

ExitCode import_pull(const PullOptions& options) {
    const auto bytes = read_file(text(options.file));
    if (!bytes) {
        return refuse(bytes.error());
    }
    const auto opened = open_sheets(options.build, options.who);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const auto pull =
        pull_to_keep((*opened)->sheets, *bytes,
                     QFileInfo(text(options.file)).fileName().toStdString(), said_by(options));
    if (!pull) {
        return refuse(pull.error(), text(options.file));
    }
    if (options.keep) {
        const auto kept =
            keep_pull((*opened)->session, (*opened)->build.id, (*opened)->sheets, *pull);
        if (!kept) {
            return refuse(kept.error(), text(options.build.shop));
        }
    }
    if (options.build.json) {
        print_import_json(*pull, *pull_figures(pull->raw), options.keep);
    } else {
        print_import(*pull, options.keep);
    }
    return ExitCode::done;
}

/// One pull under the standard asked for; nothing corrected where its air isn't known.
struct ShownPull {
    SheetPull read;
    std::optional<PullFigures> raw;
    std::optional<PowerCorrection> correction;
};

std::vector<ShownPull> shown_pulls(const BuildSheets& sheets, PowerStandard standard) {
    std::vector<ShownPull> shown;
    for (SheetPull& pull : sheet_pulls(sheets.facts())) {
        ShownPull one{std::move(pull), {}, {}};
        if (one.read.raw) {
            one.raw = *pull_figures(*one.read.raw);
        }
        if (one.read.air) {
            one.correction = *power_correction(standard, one.read.air->airs.front());
        }
        shown.push_back(std::move(one));
    }
    return shown;
}

QString air_text(const PullAir& air) {
    const WeatherAir& as_read = air.airs.front();
    return PullCommands::tr("%1 inHg at the station, %2 °F, %3 % humidity, %4 inHg dry")
        .arg(as_read.total.in_inHg(), 0, 'f', 2)
        .arg(as_read.dry_bulb.in_degF(), 0, 'f', 0)
        .arg(as_read.relative_humidity_percent, 0, 'f', 0)
        .arg(as_read.dry.in_inHg(), 0, 'f', 2);
}

void print_pull(const ShownPull& pull, PowerStandard standard) {
    if (!pull.raw) {
        print(PullCommands::tr("%1: its rows make no pull, see the sheet.")
                  .arg(text(pull.read.position)));
        return;
    }
    print(
        PullCommands::tr("%1: raw %2").arg(text(pull.read.position), words::pull_peaks(*pull.raw)));
    if (!pull.correction) {
        QStringList needs;
        for (const std::string& quantity : pull.read.air_needs) {
            needs << title_of(quantity);
        }
        print(PullCommands::tr("    No factor by %1 without: %2.")
                  .arg(words::standard_title(standard), needs.join(", ")));
        return;
    }
    print(PullCommands::tr("    Air: %1").arg(air_text(*pull.read.air)));
    print(PullCommands::tr("    By %1, × %2: %3")
              .arg(words::standard_title(standard))
              .arg(pull.correction->factor, 0, 'f', 3)
              .arg(words::pull_peaks(*pull.raw, pull.correction->factor)));
    if (pull.correction->outside_limits()) {
        print(
            PullCommands::tr("    ! Outside what the standard allows a correction for: not to be "
                             "compared."));
    } else if (pull.correction->unusual) {
        print(PullCommands::tr("    ! An unusual factor: check the weather."));
    }
}

/// What one pull gained on the first; nothing where either lacks rows or air.
std::optional<Result<PullComparison>> compared(const ShownPull& first, const ShownPull& second,
                                               PowerStandard standard) {
    if (!first.raw || !second.raw || !first.read.air || !second.read.air) {
        return std::nullopt;
    }
    return compare_pulls({*first.read.raw, first.read.air->airs.front()},
                         {*second.read.raw, second.read.air->airs.front()}, standard);
}

void print_comparison(const ShownPull& first, const ShownPull& second,
                      const Result<PullComparison>& found, PowerStandard standard) {
    const QString pair =
        PullCommands::tr("%1 beside %2").arg(text(second.read.position), text(first.read.position));
    if (!found) {
        print(PullCommands::tr("%1: they have no speeds in common.").arg(pair));
        return;
    }
    print(PullCommands::tr("%1, averages from %2 to %3 rpm:")
              .arg(pair)
              .arg(found->band.low_rpm)
              .arg(found->band.high_rpm));
    print(PullCommands::tr("    raw %1, %2; by %3 %4, %5")
              .arg(words::pull_torque_gained(found->raw_torque_gained),
                   words::pull_power_gained(found->raw_power_gained),
                   words::standard_title(standard), words::pull_torque_gained(found->torque_gained),
                   words::pull_power_gained(found->power_gained)));
    if (found->air_turned_it) {
        print(PullCommands::tr("    The air turned it: raw, the other pull looks the better."));
    }
}

QJsonObject pull_json(const ShownPull& pull) {
    QJsonObject json{
        {"pull", text(pull.read.position)}, {"peak_torque", QJsonValue()},
        {"peak_power", QJsonValue()},       {"dry_pressure_kPa", QJsonValue()},
        {"dry_bulb_degC", QJsonValue()},    {"relative_humidity_percent", QJsonValue()},
        {"factor", QJsonValue()},           {"outside_standard", QJsonValue()}};
    if (pull.raw) {
        json["peak_torque"] = point_json(pull.raw->peak_torque);
        json["peak_power"] = point_json(pull.raw->peak_power);
    }
    if (pull.correction) {
        const WeatherAir& air = pull.read.air->airs.front();
        json["dry_pressure_kPa"] = air.dry.in_kPa();
        json["dry_bulb_degC"] = air.dry_bulb.in_degC();
        json["relative_humidity_percent"] = air.relative_humidity_percent;
        json["factor"] = pull.correction->factor;
        json["outside_standard"] = pull.correction->outside_limits();
    }
    QJsonArray needs;
    for (const std::string& quantity : pull.read.air_needs) {
        needs.append(text(quantity));
    }
    json["air_needs"] = needs;
    return json;
}

QJsonObject comparison_json(const ShownPull& first, const ShownPull& second,
                            const PullComparison& found) {
    return {{"first", text(first.read.position)},
            {"second", text(second.read.position)},
            {"low_rpm", found.band.low_rpm},
            {"high_rpm", found.band.high_rpm},
            {"raw_torque_gained_lbf_ft", found.raw_torque_gained.in_lbf_ft()},
            {"raw_power_gained_hp", found.raw_power_gained.in_hp()},
            {"torque_gained_lbf_ft", found.torque_gained.in_lbf_ft()},
            {"power_gained_hp", found.power_gained.in_hp()},
            {"air_turned_it", found.air_turned_it}};
}

void print_pulls(const OpenedSheets& opened, const std::vector<ShownPull>& pulls,
                 PowerStandard standard) {
    print(PullCommands::tr("%1: pulls by %2")
              .arg(text(opened.build.name), words::standard_title(standard)));
    if (pulls.empty()) {
        print(
            PullCommands::tr("No pull is written down yet: import-pull takes one from a file, "
                             "read pull_torque one row at a time."));
    }
    for (const ShownPull& pull : pulls) {
        print_pull(pull, standard);
    }
    for (std::size_t other = 1; other < pulls.size(); ++other) {
        if (const auto found = compared(pulls[0], pulls[other], standard)) {
            print_comparison(pulls[0], pulls[other], *found, standard);
        }
    }
}

ExitCode show_pulls(const PullOptions& options) {
    const auto opened = open_sheets(options.build, options.who);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const PowerStandard standard = *standard_called(options.standard);
    const auto pulls = shown_pulls((*opened)->sheets, standard);
    if (!options.build.json) {
        print_pulls(**opened, pulls, standard);
        return ExitCode::done;
    }
    QJsonArray rows;
    for (const ShownPull& pull : pulls) {
        rows.append(pull_json(pull));
    }
    QJsonArray comparisons;
    for (std::size_t other = 1; other < pulls.size(); ++other) {
        const auto found = compared(pulls[0], pulls[other], standard);
        if (found && found->ok()) {
            comparisons.append(comparison_json(pulls[0], pulls[other], **found));
        }
    }
    print_json({{"format", "rodway-pulls"},
                {"version", 1},
                {"build", text((*opened)->build.name)},
                {"standard", text(options.standard)},
                {"pulls", rows},
                {"compared", comparisons}});
    return ExitCode::done;
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_pull_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<PullOptions>();
    const std::vector<std::string> standards{"j607", "j1349", "iso_1585", "din_70020"};

    auto* import = program.add_subcommand(
        "import-pull", word(PullCommands::tr("Show what a dyno pull's file (CSV) holds; with "
                                             "--keep, take it onto the dyno sheet")));
    add_build_options(*import, options->build);
    import->add_option("file", options->file, word(PullCommands::tr("Table: a row for each speed")))
        ->required();
    import->add_flag("--keep", options->keep, word(PullCommands::tr("Keep it")));
    import->add_option("--pull", options->number,
                       word(PullCommands::tr("Its number, if not the next one")));
    import
        ->add_option("--barometer", options->barometer,
                     word(PullCommands::tr("Where the barometer's figure belongs")))
        ->check(CLI::IsMember({"station", "sea-level"}));
    import->add_option("--altitude", options->altitude,
                       word(PullCommands::tr("Of the dyno's room, with sea-level: 1200, in feet")));
    import
        ->add_option("--correction", options->correction,
                     word(PullCommands::tr("Standard of the file's corrected columns")))
        ->check(CLI::IsMember({"none", "j607", "j1349", "iso_1585", "din_70020"}));
    import
        ->add_option("--separator", options->separator,
                     word(PullCommands::tr("Sign between columns")))
        ->check(CLI::IsMember({"semicolon", "comma", "tab"}));
    import->add_option("--decimal-mark", options->decimal, word(PullCommands::tr("Decimal mark")))
        ->check(CLI::IsMember({"point", "comma"}));
    import->add_option("--who", options->who, word(PullCommands::tr("Initials")));
    import->callback([=, &outcome] { outcome.code = import_pull(*options);
});

auto* pulls = program.add_subcommand(
    "pulls", word(PullCommands::tr("Set a build's dyno pulls side by side under one standard, "
                                   "raw figures and weather beside")));
add_build_options(*pulls, options->build);
pulls->add_option("--standard", options->standard, word(PullCommands::tr("By which standard")))
    ->required()
    ->check(CLI::IsMember(standards));
pulls->callback([=, &outcome] { outcome.code = show_pulls(*options); });
} // namespace rodway

} // namespace rodway
