#include <QCoreApplication>
#include <QImage>
#include <array>
#include <cmath>

#include "app/book/bench_sheet.h"
#include "app/book/clearance_document.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/valvetrain/picture_files.h"
#include "app/valvetrain/survey_csv.h"
#include "app/valvetrain/tube_pictures.h"
#include "app/valvetrain/view_picture.h"
#include "app/words/error_text.h"
#include "app/work/build_in_hand.h"
#include "app/work/output_file.h"
#include "core/units/typed_text.h"

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
    bool dark = false;
    std::string crank;
    // Of 3D pictures.
    std::string look = "corner";
    std::string yaw, pitch;
    std::string others = "faded";
    std::string rockers; ///< left out: as glass where one looks down the rod, else shown
    std::string section = "none";
    std::string section_by;
    bool engine = false;
    bool sweep = false;
    bool states = false;
    bool no_pistons = false;
    bool no_closest = false;
    bool no_lens = false;
    // Of the view down a tube.
    std::string passage;
    std::string depth;
};

constexpr std::array looks{"corner", "front", "rear", "left", "right", "above", "rod"};
constexpr std::array others_words{"shown", "faded", "hidden"};
constexpr std::array rocker_words{"shown", "glass", "hidden"};
constexpr std::array sections{"none", "across-crank", "along-crank", "across-rod"};
static_assert(looks.size() == look_count && sections.size() == cut_count);

/// The place of a word that CLI11 has checked.
template <typename Choice, std::size_t count>
Choice chosen(const std::array<const char*, count>& words, const std::string& word) {
    const auto found = std::find(words.begin(), words.end(), word);
    return static_cast<Choice>(std::distance(words.begin(), found));
}

/// An angle outside -most to most degrees, or none at all.
Error not_within(ErrorCode code, const std::string& option, const std::string& text, double most) {
    Error error{code, option, text, {}, {}, {}};
    error.limits = Limits{-most, most, "deg"};
    return error;
}

/// An angle typed in degrees, nothing where none was typed.
Result<std::optional<double>> typed_degrees(const std::string& option, const std::string& text) {
    if (text.empty()) {
        return std::optional<double>();
    }
    const auto number = parse_number(text);
    if (!number || !(std::abs(*number) <= 7200.0)) {
        return not_within(ErrorCode::not_an_angle, option, text, 7200.0);
    }
    return std::optional<double>(*number);
}

/// A length typed in either unit, inches where none is named.
Result<std::optional<double>> typed_mm(const std::string& option, const std::string& text) {
    if (text.empty()) {
        return std::optional<double>();
    }
    const auto length = parse_length(text, BareNumber::inches);
    if (!length) {
        Error error = length.error();
        error.field = option;
        return error;
    }
    return std::optional<double>(length->middle().in_mm());
}

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

Result<ViewChoice> view_choice(const Options& options) {
    ViewChoice choice;
    choice.look = chosen<Look>(looks, options.look);
    choice.others = chosen<Others>(others_words, options.others);
    choice.rockers = !options.rockers.empty() ? chosen<Rockers>(rocker_words, options.rockers)
                     : choice.look == Look::along_rod ? Rockers::glass
                                                      : Rockers::shown;
    choice.cut = chosen<Cut>(sections, options.section);
    choice.whole_engine = options.engine;
    choice.sweep = options.sweep;
    choice.states = options.states;
    choice.pistons = !options.no_pistons;
    choice.closest = !options.no_closest;
    choice.lens = !options.no_lens;
    const auto yaw = typed_degrees("--yaw", options.yaw);
    const auto pitch = typed_degrees("--pitch", options.pitch);
    const auto crank = typed_degrees("--crank", options.crank);
    const auto by = typed_mm("--section-by", options.section_by);
    for (const auto* each : {&yaw, &pitch, &crank, &by}) {
        if (!*each) {
            return each->error();
        }
    }
    if (*pitch && std::abs(**pitch) > 90.0) {
        return not_within(ErrorCode::out_of_range, "--pitch", options.pitch, 90.0);
    }
    choice.yaw_deg = *yaw;
    choice.pitch_deg = *pitch;
    choice.cut_by_mm = by->value_or(0.0);
    if (*crank) {
        choice.crank = CrankAngle::deg(**crank).in_cycle();
    }
    return choice;
}

Palette palette_of(const Options& options) {
    return palette_for(options.dark ? Theme::dark : Theme::light);
}

ExitCode make_picture(const Options& options) {
    const auto choice = view_choice(options);
    if (!choice) {
        return refuse(choice.error());
    }
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
    PictureRequest request =
        view_picture(Scene::build(subject->hand.engine), subject->lines, *line, *choice,
                     {options.width, options.height}, palette_of(options));
    request.font.setPixelSize(std::max(12, options.height / 45));
    const auto picture = offscreen_picture(**renderer, request);
    return picture ? keep_file(options, png_bytes(*picture)) : refuse(picture.error());
}

bool wants_svg(const Options& options) {
    return QString::fromStdString(options.file).endsWith(".svg", Qt::CaseInsensitive);
}

/// The number of the passage asked for by its name; the port tube where none was.
Result<std::size_t> passage_of(const Options& options, const Train& train) {
    if (options.passage.empty() || options.passage == train.tube.name) {
        return std::size_t{0};
    }
    std::string names = train.tube.name;
    for (std::size_t at = 0; at < train.further_passages.size(); ++at) {
        if (train.further_passages[at].name == options.passage) {
            return at + 1;
        }
        names += ", " + train.further_passages[at].name;
    }
    return Error{ErrorCode::not_a_choice, "--passage", options.passage, names, {}, {}};
}

ExitCode make_tube(const Options& options) {
    const auto depth = typed_mm("--depth", options.depth);
    const auto crank = typed_degrees("--crank", options.crank);
    if (!depth || !crank) {
        return refuse(depth ? crank.error() : depth.error());
    }
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    const Engine& engine = subject->hand.engine;
    const auto line = line_of(options, *subject);
    const Train* train = line && *line ? engine.train((*line)->position) : nullptr;
    if (train == nullptr) {
        return refuse(line ? Error{ErrorCode::valve_unknown, "--valve", options.valve, {}, {}, {}}
                           : line.error());
    }
    const auto passage = passage_of(options, *train);
    if (!passage) {
        return refuse(passage.error());
    }
    TubeChoice choice{train->position, *passage, angle_of_minimum(engine, **line), *depth};
    if (*crank) {
        choice.crank = CrankAngle::deg(**crank).in_cycle();
    }
    const TubeContent content = tube_content(engine, subject->lines, choice);
    TubeStyle style{palette_of(options), {}};
    style.font.setPixelSize(std::max(11, options.height / 40));
    const QSize size(options.width, options.height);
    return keep_file(options, wants_svg(options) ? tube_svg(content, style, size)
                                                 : png_bytes(tube_image(content, style, size)));
}

ExitCode make_plan(const Options& options) {
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    const Engine& engine = subject->hand.engine;
    const PlanContent content = survey_plan(
        engine, subject->lines, found_by_hand(subject->readings, subject->hand.set_up.id));
    PlanStyle style{palette_of(options), {}, false};
    style.font.setPixelSize(std::max(11, options.height / 40));
    const QSize size(options.width, options.height);
    return keep_file(options, wants_svg(options) ? plan_svg(content, style, size)
                                                 : png_bytes(plan_image(content, style, size)));
}

ExitCode make_survey_table(const Options& options) {
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    return keep_file(options,
                     survey_csv(subject->hand.engine, subject->lines,
                                found_by_hand(subject->readings, subject->hand.set_up.id)));
}

ExitCode make_curve_table(const Options& options) {
    const auto subject = subject_of(options);
    if (!subject) {
        return refuse(subject.error(), QString::fromStdString(options.shop));
    }
    std::vector<ValvePosition> valves;
    for (const ValveClearance& line : subject->lines) {
        valves.push_back(line.position);
    }
    return keep_file(options,
                     curves_csv(survey_curves(subject->hand.engine, subject->lines, valves)));
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
    const Palette palette = palette_of(options);
    const QSize size(options.width, options.height);
    return keep_file(options, wants_svg(options)
                                  ? clearance_curve_svg(content, palette, size)
                                  : png_bytes(clearance_curve_image(content, palette, size)));
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

namespace {

std::string word(const QString& text) {
    return text.toStdString();
}

CLI::App* add_file_command(CLI::App& program, CommandOutcome& outcome,
                           const std::shared_ptr<Options>& options, const char* name,
                           const QString& what, ExitCode (*make)(const Options&)) {
    auto* command = program.add_subcommand(name, word(what));
    command->add_option("shop", options->shop, word(PictureCommands::tr("Shop file")))->required();
    command
        ->add_option("build", options->build, word(PictureCommands::tr("Build's number or name")))
        ->required();
    command->add_option("file", options->file, word(PictureCommands::tr("File to write")))
        ->required();
    command->callback([=, &outcome] { outcome.code = make(*options); });
    return command;
}

void add_size(CLI::App& command, const std::shared_ptr<Options>& options) {
    command.add_option("--width", options->width, word(PictureCommands::tr("Pixels across")))
        ->check(CLI::Range(64, 8000));
    command.add_option("--height", options->height, word(PictureCommands::tr("Pixels down")))
        ->check(CLI::Range(64, 8000));
    command.add_flag("--dark", options->dark, word(PictureCommands::tr("On a dark ground")));
}

void add_valve(CLI::App& command, const std::shared_ptr<Options>& options) {
    command.add_option("--valve", options->valve,
                       word(PictureCommands::tr("Valve, like 3I; left out: the tightest")));
}

void add_crank(CLI::App& command, const std::shared_ptr<Options>& options) {
    command.add_option("--crank", options->crank,
                       word(PictureCommands::tr("Crank degrees from cylinder 1 firing; left out: "
                                                "where the valve is tightest")));
}

template <std::size_t count>
void add_choice(CLI::App& command, const char* name, std::string& into,
                const std::array<const char*, count>& words, const QString& what) {
    command.add_option(name, into, word(what))
        ->check(CLI::IsMember(std::vector<std::string>(words.begin(), words.end())));
}

void add_view_options(CLI::App& command, const std::shared_ptr<Options>& options) {
    add_choice(command, "--look", options->look, looks,
               PictureCommands::tr("From where; rod: down along it from the rocker"));
    command.add_option("--yaw", options->yaw,
                       word(PictureCommands::tr("Degrees round the engine, 0 from the front")));
    command.add_option("--pitch", options->pitch,
                       word(PictureCommands::tr("Degrees from above, -90 to 90")));
    add_choice(command, "--others", options->others, others_words,
               PictureCommands::tr("The other trains"));
    add_choice(command, "--rockers", options->rockers, rocker_words,
               PictureCommands::tr("The rockers"));
    add_choice(command, "--section", options->section, sections,
               PictureCommands::tr("Cut the picture open, through the rod"));
    command.add_option("--section-by", options->section_by,
                       word(PictureCommands::tr("Move that cut by this much (.25, 5 mm)")));
    command.add_flag("--engine", options->engine,
                     word(PictureCommands::tr("The whole engine, not the train alone")));
    command.add_flag("--sweep", options->sweep,
                     word(PictureCommands::tr("The space the rod takes through a turn")));
    command.add_flag("--verdicts", options->states,
                     word(PictureCommands::tr("Rods by how their clearances stand")));
    command.add_flag("--no-pistons", options->no_pistons,
                     word(PictureCommands::tr("Leave the pistons out")));
    command.add_flag("--no-closest", options->no_closest,
                     word(PictureCommands::tr("Leave the closest point unmarked")));
    command.add_flag("--no-lens", options->no_lens,
                     word(PictureCommands::tr("Leave the magnified spot out")));
}

} // namespace

void add_picture_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto begin = [&](const char* name, const QString& what,
                           ExitCode (*make)(const Options&)) {
        return add_file_command(program, outcome, options, name, what, make);
    };
    auto* picture =
        begin("picture", PictureCommands::tr("Write a 3D picture (PNG) of a train, or of all"),
              make_picture);
    add_valve(*picture, options);
    add_crank(*picture, options);
    add_view_options(*picture, options);
    add_size(*picture, options);

    auto* tube =
        begin("tube", PictureCommands::tr("Write the view down a tube (PNG or SVG)"), make_tube);
    add_valve(*tube, options);
    add_crank(*tube, options);
    tube->add_option("--passage", options->passage,
                     word(PictureCommands::tr("Which passage, by its name; left out: the tube")));
    tube->add_option("--depth", options->depth,
                     word(PictureCommands::tr("Cut so far down from the rocker end (1.5, 38 mm)")));
    add_size(*tube, options);

    auto* curve =
        begin("curve", PictureCommands::tr("Write a clearance curve (PNG or SVG)"), make_curve);
    add_valve(*curve, options);
    add_size(*curve, options);

    auto* plan =
        begin("plan-picture",
              PictureCommands::tr("Write the plan with every clearance (PNG or SVG)"), make_plan);
    add_size(*plan, options);

    begin("clearance-table", PictureCommands::tr("Write every valve's clearance as CSV"),
          make_survey_table);
    begin("curve-table",
          PictureCommands::tr("Write every valve's clearance and lift through a turn as CSV"),
          make_curve_table);
    begin("document", PictureCommands::tr("Write the one-page clearance document (PDF)"),
          make_document);
    begin("bench-sheet", PictureCommands::tr("Write a blank sheet for a clearance walk (PDF)"),
          make_bench_sheet);
}

} // namespace rodway
