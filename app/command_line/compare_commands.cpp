#include <QCoreApplication>
#include <QFileInfo>
#include <QJsonArray>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/compare/build_comparison.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct CompareCommands {
    Q_DECLARE_TR_FUNCTIONS(CompareCommands)
};

/// What the options of this command are read into; it lives as long as the program's parser.
struct CompareOptions {
    std::string shop;
    std::string first;
    std::string second;
    std::string csv;
    bool all = false;
    bool json = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

const char* part_token(ComparedPart part) {
    switch (part) {
        case ComparedPart::readings:
            return "readings";
        case ComparedPart::set_up:
            return "set_up";
        case ComparedPart::parts:
            return "parts";
    }
    return "";
}

bool differs(const ComparedLine& line) {
    return line.difference != Difference::none && line.difference != Difference::within_doubt;
}

QJsonObject line_json(const ComparedLine& line) {
    const auto or_null = [](const std::optional<std::string>& value) {
        return value ? QJsonValue(text(*value)) : QJsonValue();
    };
    const QJsonValue by =
        line.by ? QJsonValue(QJsonObject{{"low", line.by->low}, {"high", line.by->high}})
                : QJsonValue();
    return {{"part", part_token(line.part)},
            {"sheet", line.sheet.empty() ? QJsonValue() : QJsonValue(text(line.sheet))},
            {"what", text(line.what)},
            {"position", text(line.position)},
            {"first", or_null(line.first)},
            {"second", or_null(line.second)},
            {"difference", difference_token(line.difference)},
            {"by", by}};
}

void print_comparison(const BuildComparison& both, bool all) {
    print(CompareCommands::tr("%1 beside %2").arg(text(both.first.name), text(both.second.name)));
    QString heading;
    int shown = 0;
    for (const ComparedLine& line : both.lines) {
        if (!all && !differs(line)) continue;
        ++shown;
        if (const QString here = compared_heading(line, both.own_titles); here != heading) {
            heading = here;
            print(heading);
        }
        const QString what = compared_what(line, both.own_titles);
        print(CompareCommands::tr("   %1 %2: %3 | %4   %5")
                  .arg(difference_sign(line.difference),
                       line.position.empty()
                           ? what
                           : CompareCommands::tr("%1, %2").arg(what, text(line.position)),
                       text(line.first.value_or("-")), text(line.second.value_or("-")),
                       difference_text(line)));
    }
    if (shown == 0) print(CompareCommands::tr("Nothing differs."));
}

ExitCode compare(const CompareOptions& options) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) return refuse(opened.error(), text(options.shop));
    ShopFile shop = std::move(opened).value();
    const auto first = find_build(shop, text(options.first));
    const auto second = find_build(shop, text(options.second));
    if (!first || !second) return refuse(!first ? first.error() : second.error());
    const auto both = compare_builds(shop, first->id, second->id);
    if (!both) return refuse(both.error(), text(options.shop));
    if (!options.csv.empty()) {
        const auto written = write_output(text(options.csv), comparison_csv(*both));
        if (!written) return refuse(written.error(), text(options.csv));
    }
    if (!options.json) {
        print_comparison(*both, options.all);
        return ExitCode::done;
    }
    QJsonArray lines;
    for (const ComparedLine& line : both->lines) {
        if (options.all || differs(line)) lines.append(line_json(line));
    }
    print_json({{"format", "rodway-compare-builds"},
                {"version", 1},
                {"first", text(both->first.name)},
                {"second", text(both->second.name)},
                {"lines", lines}});
    return ExitCode::done;
}

} // namespace

void add_compare_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<CompareOptions>();
    const auto word = [](const QString& of) { return of.toStdString(); };
    auto* command = program.add_subcommand(
        "compare-builds",
        word(CompareCommands::tr("Put two builds side by side: readings, set-up, parts")));
    command->add_option("shop", options->shop, word(CompareCommands::tr("Shop file")))->required();
    command
        ->add_option("first", options->first,
                     word(CompareCommands::tr("First build's number or name")))
        ->required();
    command
        ->add_option("second", options->second,
                     word(CompareCommands::tr("Second build's number or name")))
        ->required();
    command->add_flag("--all", options->all,
                      word(CompareCommands::tr("Also what is the same in both")));
    command->add_option("--csv", options->csv,
                        word(CompareCommands::tr("Also write it all to this file")));
    add_json_option(*command, options->json);
    command->callback([=, &outcome] { outcome.code = compare(*options); });
}

} // namespace rodway
