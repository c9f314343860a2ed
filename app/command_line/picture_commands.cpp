#include <QBuffer>
#include <QCoreApplication>
#include <QImage>

#include "app/book/bench_sheet.h"
#include "app/book/clearance_document.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/words/error_text.h"
#include "app/work/build_in_hand.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct PictureCommands {
    Q_DECLARE_TR_FUNCTIONS(PictureCommands)
};

struct Options {
    std::string shop;
    std::string build;
    std::string file;
    std::string valve;
    int width = 1280;
    int height = 800;
};

/// Everything a picture or a paper is made from.
Result<ClearanceDocument> subject_of(const Options& options) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) {
        return opened.error();
    }
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, QString::fromStdString(options.build));
    return build ? gather_document(shop, *build) : Result<ClearanceDocument>(build.error());
}

/// The line of the valve asked for, or the tightest.
Result<const ValveClearance*> line_of(const Options& options, const ClearanceDocument& subject) {
    if (options.valve.empty()) {
        return tightest(subject.lines);
    }
    const auto position = parse_position(options.valve);
    if (!position) {
        return position.error();
    }
    for (const ValveClearance& line : subject.lines) {
        if (line.position == *position) {
            return &line;
        }
    }
    return Error{ErrorCode::valve_unknown, "--valve", options.valve, {}, {}, {}};
}

/// Writes what was made, saying so.
ExitCode keep_file(const Options& options, const QByteArray& bytes) {
    const auto written = write_output(QString::fromStdString(options.file), bytes);
    if (!written) {
        return refuse(written.error(), QString::fromStdString(options.file));
    }
    print(PictureCommands::tr("Wrote %1.").arg(QString::fromStdString(options.file)));
    return ExitCode::done;
}

QByteArray png(const QImage& image) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "PNG");
    return bytes;
}

ExitCode make_picture(const Options& options) {
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    const auto line = line_of(options, *subject);
    if (!line) {
        return refuse(line.error());
    }
    const auto renderer = Renderer::create();
    if (!renderer) {
        return refuse(renderer.error());
    }
    PictureRequest request = survey_picture(
        subject->hand.engine, *line, {options.width, options.height}, palette_for(Theme::light));
    request.font.setPixelSize(std::max(12, options.height / 45));
    const auto picture = offscreen_picture(**renderer, request);
    return picture ? keep_file(options, png(*picture)) : refuse(picture.error());
}

ExitCode make_curve(const Options& options) {
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    const auto line = line_of(options, *subject);
    if (!line) {
        return refuse(line.error());
    }
    std::vector<ValvePosition> valves;
    if (*line) {
        valves.push_back((*line)->position);
    }
    const ClearanceCurveContent content =
        survey_curves(subject->hand.engine, subject->lines, valves);
    const Palette palette = palette_for(Theme::light);
    const QSize size(options.width, options.height);
    const bool svg = QString::fromStdString(options.file).endsWith(".svg", Qt::CaseInsensitive);
    return keep_file(options, svg ? clearance_curve_svg(content, palette, size)
                                  : png(clearance_curve_image(content, palette, size)));
}

ExitCode make_document(const Options& options) {
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    const auto renderer = Renderer::create();
    if (!renderer) {
        complain(PictureCommands::tr("rodway: %1").arg(words::error_text(renderer.error())));
    }
    const QString file = QString::fromStdString(options.file);
    const auto written =
        write_clearance_document(*subject, renderer ? renderer->get() : nullptr, file);
    if (!written) {
        return refuse(written.error(), file);
    }
    print(PictureCommands::tr("Wrote %1.").arg(file));
    return ExitCode::done;
}

ExitCode make_bench_sheet(const Options& options) {
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    const QString file = QString::fromStdString(options.file);
    const auto written = write_bench_sheet(subject->hand.build, subject->hand.engine, file);
    if (!written) {
        return refuse(written.error(), file);
    }
    print(PictureCommands::tr("Wrote %1.").arg(file));
    return ExitCode::done;
}

} // namespace

void add_picture_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto begin = [&](const char* name, const QString& what,
                           ExitCode (*make)(const Options&)) {
        auto* command = program.add_subcommand(name, what.toStdString());
        command->add_option("shop", options->shop, word(PictureCommands::tr("Shop file")))
            ->required();
        command
            ->add_option("build", options->build,
                         word(PictureCommands::tr("Build's number or name")))
            ->required();
        command->add_option("file", options->file, word(PictureCommands::tr("File to write")))
            ->required();
        command->callback([=, &outcome] { outcome.code = make(*options); });
        return command;
    };
    const auto sized = [&](CLI::App* command) {
        command->add_option("--valve", options->valve,
                            word(PictureCommands::tr("Valve, like 3I; left out: the tightest")));
        command->add_option("--width", options->width, word(PictureCommands::tr("Pixels across")))
            ->check(CLI::Range(64, 8000));
        command->add_option("--height", options->height, word(PictureCommands::tr("Pixels down")))
            ->check(CLI::Range(64, 8000));
    };
    sized(begin("picture",
                PictureCommands::tr("Write a 3D picture (PNG) of a train at its tightest"),
                make_picture));
    sized(begin("curve", PictureCommands::tr("Write a clearance curve (PNG or SVG)"), make_curve));
    begin("document", PictureCommands::tr("Write the one-page clearance document (PDF)"),
          make_document);
    begin("bench-sheet", PictureCommands::tr("Write a blank sheet for a clearance walk (PDF)"),
          make_bench_sheet);
}

} // namespace rodway
