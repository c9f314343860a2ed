#include <QCoreApplication>
#include <QJsonArray>

#include "app/command_line/commands.h"
#include "app/command_line/opened_sheets.h"
#include "app/command_line/output.h"
#include "app/command_line/spring_options.h"
#include "app/words/lengths.h"
#include "app/words/sheet_words.h"
#include "core/sheets/kinds/bounded_reading.h"
#include "core/sheets/kinds/cylinder_room.h"

namespace rodway {
namespace {

struct CompressionCommands {
    Q_DECLARE_TR_FUNCTIONS(CompressionCommands)
};

/// What the options of this command are read into; it lives as long as the program's parser.
struct CompressionOptions {
    BuildOptions build;
    std::string bore_over;
    std::string head_milled;
    std::string block_decked;
    std::string gasket_compressed;
    std::string gasket_bore;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// One cylinder: what it was and would be, or which readings it lacks.
struct TriedCylinder {
    std::string name;
    std::optional<CompressionWhatIf> found;
    std::vector<std::string_view> missing;
};

/// What milling takes of the chamber, as the compression sheet says.
ChamberLoss chamber_loss(const TakenReadings& readings) {
    ChamberLoss loss;
    const auto mm_per_cc = readings.number("head_cut_per_cc");
    if (mm_per_cc && mm_per_cc->middle() > 0.0) {
        loss.cc_per_mm = 1.0 / mm_per_cc->middle();
    }
    return loss;
}

/// Errors: as `option_mm`, `field` the option.
Result<CompressionChange> change_of(const CompressionOptions& options,
                                    const TakenReadings& readings) {
    CompressionChange change;
    change.loss = chamber_loss(readings);
    HeadGasket gasket;
    struct Typed {
        const std::string& text;
        const char* option;
        std::function<void(double)> take;
    };
    for (const Typed& typed :
         {Typed{options.bore_over, "bore-over", [&](double mm) { change.bore_over_mm = mm; }},
          Typed{options.head_milled, "head-milled", [&](double mm) { change.head_milled_mm = mm; }},
          Typed{options.block_decked, "block-decked",
                [&](double mm) { change.block_decked_mm = mm; }},
          Typed{options.gasket_compressed, "gasket-compressed",
                [&](double mm) { gasket.compressed_mm = Bounded::exactly(mm); }},
          Typed{options.gasket_bore, "gasket-bore",
                [&](double mm) { gasket.bore_mm = Bounded::exactly(mm); }}}) {
        if (typed.text.empty()) {
            continue;
        }
        const auto mm = option_mm(typed.text, typed.option);
        if (!mm) {
            return mm.error();
        }
        typed.take(*mm);
    }
    if (gasket.compressed_mm || gasket.bore_mm) {
        change.gasket = gasket;
    }
    return change;
}

/// Of another gasket what isn't said stays as it is.
CompressionChange for_cylinder(CompressionChange change, const CylinderAtTop& cylinder) {
    if (change.gasket) {
        change.gasket->compressed_mm = change.gasket->compressed_mm ? change.gasket->compressed_mm
                                                                    : cylinder.gasket.compressed_mm;
        change.gasket->bore_mm =
            change.gasket->bore_mm ? change.gasket->bore_mm : cylinder.gasket.bore_mm;
    }
    return change;
}

Result<std::vector<TriedCylinder>> try_cylinders(const SheetFacts& facts,
                                                 const CompressionChange& change) {
    std::vector<TriedCylinder> tried;
    for (const std::string& name : cylinders_with_room(facts)) {
        const CylinderRoom room = cylinder_room(facts, name);
        if (!room.cylinder) {
            tried.push_back({name, {}, room.missing});
            continue;
        }
        auto found = compression_if(*room.cylinder, for_cylinder(change, *room.cylinder));
        if (!found) {
            return found.error();
        }
        tried.push_back({name, std::move(found).value(), {}});
    }
    return tried;
}

QString ratio_text(const Bounded& ratio) {
    return CompressionCommands::tr("%1:1").arg(ratio.value, 0, 'f', 2);
}

void print_tried(const OpenedSheets& opened, const std::vector<TriedCylinder>& tried) {
    print(CompressionCommands::tr("%1: compression, cylinder by cylinder")
              .arg(text(opened.build.name)));
    if (tried.empty()) {
        print(
            CompressionCommands::tr("No cylinder is known yet: the compression sheet says what "
                                    "is wanted."));
    }
    for (const TriedCylinder& one : tried) {
        if (!one.found) {
            QStringList missing;
            for (const std::string_view quantity : one.missing) {
                missing << words::sheet_title(std::string(quantity));
            }
            print(CompressionCommands::tr("%1  needs: %2").arg(text(one.name), missing.join(", ")));
            continue;
        }
        const CompressionWhatIf& found = *one.found;
        QString line =
            CompressionCommands::tr("%1  %2, would be %3 (%4%5); chamber %6 cc")
                .arg(text(one.name), ratio_text(found.before.ratio), ratio_text(found.after.ratio),
                     found.ratio_gained < 0.0 ? QString() : QStringLiteral("+"))
                .arg(found.ratio_gained, 0, 'f', 2)
                .arg(found.cylinder.chamber_cc.value, 0, 'f', 1);
        if (found.after.quench_mm) {
            line += CompressionCommands::tr(", quench %1")
                        .arg(words::inches(found.after.quench_mm->value));
        }
        print(line);
        if (found.after.gasket_overhangs) {
            print(CompressionCommands::tr("    ! The gasket's bore is smaller than the cylinder."));
        }
        if (found.after.quench_mm && found.after.quench_mm->low <= 0.0) {
            print(CompressionCommands::tr("    ! The piston would reach the head."));
        }
    }
}

QJsonObject tried_json(const TriedCylinder& one) {
    QJsonObject json{{"cylinder", text(one.name)}, {"ratio", QJsonValue()},
                     {"would_be", QJsonValue()},   {"chamber_cc", QJsonValue()},
                     {"quench_in", QJsonValue()},  {"gasket_overhangs", QJsonValue()}};
    QJsonArray missing;
    for (const std::string_view quantity : one.missing) {
        missing.append(text(std::string(quantity)));
    }
    json["needs"] = missing;
    if (one.found) {
        const auto range = [](const Bounded& value) {
            return QJsonObject{{"value", value.value}, {"low", value.low}, {"high", value.high}};
        };
        json["ratio"] = range(one.found->before.ratio);
        json["would_be"] = range(one.found->after.ratio);
        json["chamber_cc"] = one.found->cylinder.chamber_cc.value;
        json["gasket_overhangs"] = one.found->after.gasket_overhangs;
        if (one.found->after.quench_mm) {
            json["quench_in"] = inches_of(one.found->after.quench_mm->value);
        }
    }
    return json;
}

ExitCode show_compression(const CompressionOptions& options) {
    const auto opened = open_sheets(options.build, person_at_this_computer());
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const BuildSheets& sheets = (*opened)->sheets;
    const auto change = change_of(options, sheets.taken());
    if (!change) {
        return refuse(change.error());
    }
    const auto tried = try_cylinders(sheets.facts(), *change);
    if (!tried) {
        return refuse(tried.error());
    }
    if (!options.build.json) {
        print_tried(**opened, *tried);
        return ExitCode::done;
    }
    QJsonArray cylinders;
    for (const TriedCylinder& one : *tried) {
        cylinders.append(tried_json(one));
    }
    print_json({{"format", "rodway-compression"},
                {"version", 1},
                {"build", text((*opened)->build.name)},
                {"cylinders", cylinders}});
    return ExitCode::done;
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_compression_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<CompressionOptions>();
    auto* compression = program.add_subcommand(
        "compression", word(CompressionCommands::tr("Compression of every cylinder, as it is and "
                                                    "after boring, milling or another gasket")));
    add_build_options(*compression, options->build);
    compression->add_option(
        "--bore-over", options->bore_over,
        word(CompressionCommands::tr("Bored by so much on the diameter: .060")));
    compression->add_option("--head-milled", options->head_milled,
                            word(CompressionCommands::tr("Off the heads' faces: .030")));
    compression->add_option("--block-decked", options->block_decked,
                            word(CompressionCommands::tr("Off the block's face: .010")));
    compression->add_option("--gasket-compressed", options->gasket_compressed,
                            word(CompressionCommands::tr("Another gasket's thickness: .027")));
    compression->add_option("--gasket-bore", options->gasket_bore,
                            word(CompressionCommands::tr("Another gasket's bore: 4.125")));
    compression->callback([=, &outcome] { outcome.code = show_compression(*options); });
}

} // namespace rodway
