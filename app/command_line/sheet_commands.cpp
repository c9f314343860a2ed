#include <QCoreApplication>
#include <QFileInfo>
#include <QJsonArray>
#include <algorithm>
#include <map>

#include "app/book/sheet_paper.h"
#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/opened_sheets.h"
#include "app/command_line/output.h"
#include "app/edit_stack/shop_session.h"
#include "app/words/sheet_words.h"
#include "app/work/build_sheets.h"
#include "app/work/clock.h"
#include "app/work/own_sheet.h"

namespace rodway {
namespace {

struct SheetCommands {
    Q_DECLARE_TR_FUNCTIONS(SheetCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct SheetOptions {
    BuildOptions build;
    std::string who = person_at_this_computer();
    std::string kind;
    std::string order = "cylinder";
    std::string target;
    bool blank = false;
    bool both = false;
    bool written = false;
    bool replace = false;
    std::string title;
    std::vector<std::string> lines;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

const std::map<std::string, EntryOrder> orders{{"cylinder", EntryOrder::by_number},
                                               {"front", EntryOrder::front_to_rear},
                                               {"firing", EntryOrder::firing_order},
                                               {"full-lift", EntryOrder::full_lift}};

Result<const SheetKind*> find_kind(const BuildSheets& sheets, const std::string& id) {
    if (const SheetKind* kind = sheets.kind(id)) {
        return kind;
    }
    std::vector<std::string> there;
    for (const SheetKind& kind : sheets.kinds()) {
        there.push_back(kind.id);
    }
    return no_such("sheet", id, there);
}

QJsonValue range_json(const std::optional<Interval>& range) {
    if (!range) {
        return {};
    }
    return QJsonObject{{"low", range->low}, {"high", range->high}};
}

/// What numbers of this quantity are in: the unit in which its dimension is held.
QString held_unit(const Quantity& quantity) {
    const auto units = units_of(dimension_of(quantity.form));
    return units.empty() || dimension_of(quantity.form) == Dimension::none
               ? text(quantity.unit)
               : QString::fromUtf8(units.front().id.data(),
                                   static_cast<int>(units.front().id.size()));
}

QJsonObject limit_json(const SheetLimit& limit) {
    const auto side = [](const std::optional<double>& value) {
        return value ? QJsonValue(*value) : QJsonValue();
    };
    return {{"low", side(limit.low)},
            {"high", side(limit.high)},
            {"serviceable", limit.holds_for == LimitFor::serviceable},
            {"common_practice", limit.usual == UsualSource::common_practice},
            {"source", text(limit.source)}};
}

QJsonObject box_json(const SheetBox& box) {
    QJsonObject json{{"position", text(box.position)},
                     {"text", box.taken ? QJsonValue(text(box.taken->reading.text)) : QJsonValue()},
                     {"value", range_json(box.taken ? box.taken->range() : std::nullopt)},
                     {"worked_out", range_json(box.figure)},
                     {"verdict", words::token(box.verdict)}};
    if (box.limit) {
        json["limit"] = limit_json(*box.limit);
    }
    if (box.used_limit) {
        json["serviceable_limit"] = limit_json(*box.used_limit);
    }
    return json;
}

QJsonArray findings_json(const AssessedSheet& sheet) {
    QJsonArray findings;
    for (const SheetFinding& one : sheet.findings) {
        QJsonArray positions;
        for (const std::string& position : one.positions) {
            positions.append(text(position));
        }
        QJsonArray numbers;
        for (const double number : one.numbers) {
            numbers.append(number);
        }
        findings.append(QJsonObject{{"finding", words::token(one.what)},
                                    {"quantity", text(one.quantity)},
                                    {"positions", positions},
                                    {"numbers", numbers},
                                    {"other", text(one.other)}});
    }
    return findings;
}

QJsonObject sheet_json(const OpenedSheets& opened, const AssessedSheet& sheet) {
    QJsonArray lines;
    for (const SheetLine& line : sheet.lines) {
        QJsonArray boxes;
        for (const SheetBox& box : line.boxes) {
            boxes.append(box_json(box));
        }
        lines.append(
            QJsonObject{{"quantity", text(line.quantity.id)},
                        {"title", words::sheet_title(line.quantity.id, opened.sheets.own_titles())},
                        {"unit", held_unit(line.quantity)},
                        {"boxes", boxes}});
    }
    return {{"format", "rodway-sheet"},
            {"version", 1},
            {"build", text(opened.build.name)},
            {"sheet", text(sheet.kind)},
            {"to_fill", sheet.boxes_to_fill},
            {"filled", sheet.boxes_filled},
            {"lines", lines},
            {"findings", findings_json(sheet)}};
}

void print_box(const SheetLine& line, const SheetBox& box, bool both) {
    QStringList parts{words::sheet_position(box.position, line.quantity.place)};
    if (box.taken) {
        const auto range = box.taken->range();
        parts << text(box.taken->reading.text);
        if (range) {
            parts << QStringLiteral("(%1)").arg(words::amount(*range, line.quantity));
        }
        const QString other =
            both ? words::in_other_unit(box.taken->value, line.quantity) : QString();
        parts << (other.isEmpty() ? other : QStringLiteral("= %1").arg(other));
    }
    if (box.figure) {
        parts << SheetCommands::tr("worked out: %1").arg(words::amount(*box.figure, line.quantity));
    }
    if (box.limit) {
        parts << words::sheet_verdict(box.verdict) << words::limit(*box.limit, line.quantity);
    }
    parts.removeAll(QString());
    print("    " + parts.join("  "));
}

void print_sheet(const OpenedSheets& opened, const AssessedSheet& sheet,
                 const SheetOptions& options) {
    print(SheetCommands::tr("%1: %2, %3 of %4 filled")
              .arg(text(opened.build.name),
                   words::sheet_title(sheet.kind, opened.sheets.own_titles()))
              .arg(sheet.boxes_filled)
              .arg(sheet.boxes_to_fill));
    for (const SheetLine& line : sheet.lines) {
        const bool any = std::any_of(line.boxes.begin(), line.boxes.end(),
                                     [](const SheetBox& box) { return box.taken || box.figure; });
        if (!any && options.written) {
            continue;
        }
        print(QStringLiteral("%1  [%2]%3")
                  .arg(words::sheet_title(line.quantity.id, opened.sheets.own_titles()),
                       text(line.quantity.id), any ? QString() : QStringLiteral("  –")));
        for (const SheetBox& box : line.boxes) {
            if (box.taken || box.figure) {
                print_box(line, box, options.both);
            }
        }
    }
    for (const SheetFinding& one : sheet.findings) {
        const auto line =
            std::find_if(sheet.lines.begin(), sheet.lines.end(),
                         [&](const SheetLine& here) { return here.quantity.id == one.quantity; });
        if (line != sheet.lines.end()) {
            print("! " + words::finding(one, line->quantity, opened.sheets.own_titles()));
        }
    }
}

ExitCode show_sheet(const SheetOptions& options) {
    const auto opened = open_sheets(options.build, options.who);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const auto kind = find_kind((*opened)->sheets, options.kind);
    if (!kind) {
        return refuse(kind.error());
    }
    const AssessedSheet sheet = (*opened)->sheets.assess(**kind, orders.at(options.order));
    if (options.build.json) {
        print_json(sheet_json(**opened, sheet));
    } else {
        print_sheet(**opened, sheet, options);
    }
    return ExitCode::done;
}

ExitCode list_sheets(const SheetOptions& options) {
    const auto opened = open_sheets(options.build, options.who);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const BuildSheets& sheets = (*opened)->sheets;
    QJsonArray rows;
    for (const SheetKind& kind : sheets.kinds()) {
        const AssessedSheet sheet = sheets.assess(kind, EntryOrder::by_number);
        const QString title = words::sheet_title(kind.id, sheets.own_titles());
        rows.append(QJsonObject{{"sheet", text(kind.id)},
                                {"title", title},
                                {"to_fill", sheet.boxes_to_fill},
                                {"filled", sheet.boxes_filled},
                                {"failed", sheet.failed},
                                {"too_close", sheet.too_close},
                                {"findings", static_cast<int>(sheet.findings.size())}});
        if (!options.build.json) {
            print(SheetCommands::tr("%1  %2: %3 of %4 filled, %5 outside, %6 too close, %7 to see")
                      .arg(text(kind.id), -24)
                      .arg(title)
                      .arg(sheet.boxes_filled)
                      .arg(sheet.boxes_to_fill)
                      .arg(sheet.failed)
                      .arg(sheet.too_close)
                      .arg(sheet.findings.size()));
        }
    }
    if (options.build.json) {
        print_json({{"format", "rodway-sheets"},
                    {"version", 1},
                    {"build", text((*opened)->build.name)},
                    {"sheets", rows}});
    }
    return ExitCode::done;
}

ExitCode print_on_paper(const SheetOptions& options) {
    const QString target = text(options.target);
    if (QFileInfo::exists(target) && !options.replace) {
        return refuse(Error{ErrorCode::cannot_write, options.target, "exists", {}, {}, {}});
    }
    const auto opened = open_sheets(options.build, options.who);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    const BuildSheets& sheets = (*opened)->sheets;
    const auto kind = find_kind(sheets, options.kind);
    if (!kind) {
        return refuse(kind.error());
    }
    const AssessedSheet sheet = sheets.assess(**kind, orders.at(options.order));
    const auto written = write_sheet_paper({(*opened)->build, sheet, sheets.own_titles(),
                                            options.blank, &sheets.taken(), sheets.places()},
                                           target);
    if (!written) {
        return refuse(written.error(), target);
    }
    if (options.build.json) {
        print_json({{"format", "rodway-print-sheet"}, {"version", 1}, {"file", target}});
    } else {
        print(SheetCommands::tr("Wrote %1.").arg(target));
    }
    return ExitCode::done;
}

/// "Tip height; length; in; valve": title, form, unit (may be empty), place.
Result<OwnLine> own_line(const std::string& typed, std::size_t number) {
    const QStringList parts = text(typed).split(';');
    const std::string path = "line/" + std::to_string(number);
    if (parts.size() != 4) {
        return Error{ErrorCode::wrong_type, path, typed, "title;form;unit;place", {}, {}};
    }
    const auto part = [&](int which) { return parts[which].trimmed().toStdString(); };
    const auto form = form_called(part(1));
    const auto place = place_called(part(3));
    if (!form) {
        std::vector<std::string> names;
        for (const Form one : own_forms()) {
            names.emplace_back(form_name(one));
        }
        return no_such((path + "/form").c_str(), part(1), names);
    }
    if (!place) {
        std::vector<std::string> names;
        for (const PlaceShape& shape : place_shapes()) {
            names.emplace_back(shape.id);
        }
        return no_such((path + "/place").c_str(), part(3), names);
    }
    OwnLine line;
    line.title = part(0);
    line.form = *form;
    line.unit = part(2);
    line.place = *place;
    return line;
}

ExitCode add_own_sheet(const SheetOptions& options) {
    OwnSheet sheet{options.title, {}};
    for (std::size_t which = 0; which < options.lines.size(); ++which) {
        auto line = own_line(options.lines[which], which + 1);
        if (!line) {
            return refuse(line.error());
        }
        sheet.lines.push_back(std::move(line).value());
    }
    auto opened = ShopFile::open(options.build.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    ShopSession session(std::move(opened).value(), text(options.who));
    const auto id = keep_own_sheet(session, sheet);
    if (!id) {
        return refuse(id.error(), text(options.build.shop));
    }
    if (options.build.json) {
        print_json({{"format", "rodway-add-sheet"},
                    {"version", 1},
                    {"sheet_kind", static_cast<qint64>(*id)}});
    } else {
        print(SheetCommands::tr("The sheet “%1” is now among the shop's own.")
                  .arg(text(options.title)));
    }
    return ExitCode::done;
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_sheet_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<SheetOptions>();
    std::vector<std::string> order_words;
    for (const auto& [name, order] : orders) {
        order_words.push_back(name);
    }
    const auto add_order = [=](CLI::App* command) {
        command
            ->add_option("--order", options->order,
                         word(SheetCommands::tr("Order of positions: cylinder, front, firing, "
                                                "full-lift")))
            ->check(CLI::IsMember(order_words));
    };
    const auto add_who = [=](CLI::App* command) {
        command->add_option("--who", options->who, word(SheetCommands::tr("Initials")));
    };

    auto* list = program.add_subcommand(
        "sheets", word(SheetCommands::tr("List a build's measurement sheets and how each stands")));
    add_build_options(*list, options->build);
    list->callback([=, &outcome] { outcome.code = list_sheets(*options); });

    auto* show = program.add_subcommand(
        "sheet", word(SheetCommands::tr("Show one measurement sheet: readings, what follows from "
                                        "them, limits, and what is pointed out")));
    add_build_options(*show, options->build);
    show->add_option("sheet", options->kind, word(SheetCommands::tr("Kind, as sheets lists it")))
        ->required();
    show->add_flag("--written", options->written,
                   word(SheetCommands::tr("Leave out lines of which nothing is known yet")));
    show->add_flag(
        "--both", options->both,
        word(SheetCommands::tr("What was read in the other unit as well: mm and inches")));
    add_order(show);
    show->callback([=, &outcome] { outcome.code = show_sheet(*options); });

    auto* paper = program.add_subcommand(
        "print-sheet", word(SheetCommands::tr("Write a measurement sheet as a PDF, blank for the "
                                              "bench or as it stands")));
    add_build_options(*paper, options->build);
    paper->add_option("sheet", options->kind, word(SheetCommands::tr("Kind of sheet")))->required();
    paper->add_option("file", options->target, word(SheetCommands::tr("File to write")))
        ->required();
    paper->add_flag("--blank", options->blank, word(SheetCommands::tr("Leave the boxes empty")));
    paper->add_flag("--replace", options->replace,
                    word(SheetCommands::tr("Write over a file that is there")));
    add_order(paper);
    paper->callback([=, &outcome] { outcome.code = print_on_paper(*options); });

    auto* own = program.add_subcommand(
        "add-sheet", word(SheetCommands::tr("Add a kind of sheet of the shop's own")));
    own->add_option("shop", options->build.shop, word(SheetCommands::tr("Shop file")))->required();
    own->add_option("title", options->title, word(SheetCommands::tr("Title")))->required();
    own->add_option("--line", options->lines,
                    word(SheetCommands::tr("A line: \"title; form; unit; place\", such as \"Tip "
                                           "height; length; in; valve\"")))
        ->required();
    add_json_option(*own, options->build.json);
    add_who(own);
    own->callback([=, &outcome] { outcome.code = add_own_sheet(*options); });
}

} // namespace rodway
