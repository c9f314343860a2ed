#include <QCoreApplication>
#include <QFileInfo>
#include <QJsonArray>
#include <map>

#include "app/book/bench_prints.h"
#include "app/book/book_templates.h"
#include "app/book/customer_book.h"
#include "app/command_line/commands.h"
#include "app/command_line/opened_sheets.h"
#include "app/command_line/work_commands.h"
#include "app/words/book_words.h"
#include "app/words/error_text.h"
#include "app/work/hand_over.h"
#include "app/work/output_file.h"
#include "app/work/templates_folder.h"
#include "db/attachments.h"
#include "db/build_records.h"
#include "render/renderer.h"

namespace rodway {
namespace {

struct BookCommands {
    Q_DECLARE_TR_FUNCTIONS(BookCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct BookOptions {
    BuildOptions build;
    std::string to;
    std::string paper = "a4";
    std::string pattern = "complete";
    bool replace = false;
    std::string folder;
    std::string who = person_at_this_computer();
    std::string given_to;
    std::string service;
    std::string signature;
    std::string note;
};

const std::map<std::string, QPageSize::PageSizeId> papers{{"a4", QPageSize::A4},
                                                          {"letter", QPageSize::Letter}};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

Result<BookFacts> facts_of(const BookOptions& options) {
    auto opened = ShopFile::open_to_look(options.build.shop);
    if (!opened) {
        return opened.error();
    }
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, text(options.build.build));
    if (!build) {
        return build.error();
    }
    return gather_book(shop, build->id, Moment::present());
}

ExitCode write_book(const BookOptions& options) {
    const QString target = text(options.to);
    if (QFileInfo::exists(target) && !options.replace) {
        return refuse(Error{ErrorCode::cannot_write, options.to, "exists", {}, {}, {}});
    }
    auto facts = facts_of(options);
    if (!facts) {
        return refuse(facts.error(), text(options.build.shop));
    }
    const auto pattern =
        find_book_template(text(options.pattern), text(facts->shop_detail(templates_folder_name)));
    if (!pattern) {
        return refuse(pattern.error(), text(options.pattern));
    }
    const auto renderer = Renderer::create();
    if (!renderer) {
        complain(BookCommands::tr("rodway: %1").arg(words::error_text(renderer.error())));
    }
    const auto shared = std::make_shared<const BookFacts>(std::move(facts).value());
    const auto pictures = std::make_shared<const BookPictures>(
        draw_book_pictures(*shared, renderer ? renderer->get() : nullptr));
    const CustomerBook book =
        customer_book(*pattern, {shared, pictures, 0.0}, papers.at(options.paper));
    const auto pdf = book_pdf(book.layout, book.title);
    if (!pdf) {
        return refuse(pdf.error(), target);
    }
    if (const auto written = write_output(target, **pdf); !written) {
        return refuse(written.error(), target);
    }
    const int missing = static_cast<int>(shared->missing().size());
    return say_done(options.build, "rodway-book",
                    {{"file", target}, {"pages", book.layout.page_count()}, {"missing", missing}},
                    missing == 0 ? BookCommands::tr("Wrote %1, %2 pages.")
                                       .arg(target, QString::number(book.layout.page_count()))
                                 : BookCommands::tr("Wrote %1, %2 pages. Missing: %3; see "
                                                    "book-missing.")
                                       .arg(target, QString::number(book.layout.page_count()),
                                            QString::number(missing)));
}

ExitCode show_missing(const BookOptions& options) {
    const auto facts = facts_of(options);
    if (!facts) {
        return refuse(facts.error(), text(options.build.shop));
    }
    QJsonArray rows;
    const auto missing = facts->missing();
    for (const MissingFact& fact : missing) {
        rows.append(QJsonObject{
            {"missing", words::token(fact.kind)},
            {"record",
             fact.record ? QJsonValue(static_cast<qint64>(fact.record->id)) : QJsonValue()},
            {"subject", fact.subject.empty() ? QJsonValue() : QJsonValue(text(fact.subject))},
            {"count", fact.count == 0 ? QJsonValue() : QJsonValue(fact.count)}});
        if (!options.build.json) {
            print(BookCommands::tr("%1  (%2)")
                      .arg(words::missing_fact(fact, *facts), words::missing_place(fact)));
        }
    }
    if (options.build.json) {
        print_json({{"format", "rodway-book-missing"},
                    {"version", 1},
                    {"build", text(facts->build().name)},
                    {"missing", rows}});
    } else if (missing.empty()) {
        print(BookCommands::tr("Nothing that a whole book would want is missing."));
    }
    return ExitCode::done;
}

std::optional<std::string> if_given(const std::string& typed) {
    return typed.empty() ? std::nullopt : std::optional(typed);
}

ExitCode hand_build_over(const BookOptions& options) {
    auto opened = ShopFile::open(options.build.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    ShopSession session(std::move(opened).value(), text(options.who));
    const auto pattern =
        find_book_template(text(options.pattern), templates_folder_of(session.shop()));
    if (!pattern) {
        return refuse(pattern.error(), text(options.pattern));
    }
    const auto build = find_build(session.shop(), text(options.build.build));
    if (!build) {
        return refuse(build.error(), text(options.build.shop));
    }
    const auto done =
        hand_over(session, build->id,
                  {{if_given(options.given_to), if_given(options.service), if_given(options.note)},
                   if_given(options.signature),
                   *pattern,
                   papers.at(options.paper)},
                  text(options.folder));
    if (!done) {
        return refuse(done.error(), text(options.folder));
    }
    const HandedOver& over = **done; // nobody could stop it
    QJsonArray rods;
    for (const MissingFact& fact : over.rods) {
        rods.append(words::token(fact.kind));
        complain(BookCommands::tr("rodway: %1").arg(words::rods_not_passed(fact)));
    }
    for (const std::string& digest : over.photos_missing) {
        complain(BookCommands::tr("rodway: a photo chosen for the book isn't whole or isn't there: "
                                  "%1")
                     .arg(text(digest)));
    }
    return say_done(options.build, "rodway-hand-over",
                    {{"hand_off", static_cast<qint64>(over.hand_off_id)},
                     {"number", over.version},
                     {"folder", over.folder},
                     {"pages", over.pages},
                     {"files", array_of(over.files)},
                     {"photos_missing", array_of(over.photos_missing)},
                     {"rods", rods}},
                    BookCommands::tr("Handed over as number %1: %2, %3 pages, %4 photos.")
                        .arg(QString::number(over.version), over.folder,
                             QString::number(over.pages), QString::number(over.photos)));
}

ExitCode list_hand_overs(const BookOptions& options) {
    auto opened = ShopFile::open_to_look(options.build.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, text(options.build.build));
    if (!build) {
        return refuse(build.error(), text(options.build.shop));
    }
    const auto records = load_records<HandOff>(shop, build->id);
    if (!records) {
        return refuse(records.error(), text(options.build.shop));
    }
    QJsonArray rows;
    for (const HandOff& one : *records) {
        const auto kept = one.book_digest ? path_of(shop, *one.book_digest) : std::nullopt;
        rows.append(QJsonObject{{"number", one.version},
                                {"given_at", text(one.given_at)},
                                {"given_to", text_or_null(one.given_to)},
                                {"service_dates", text_or_null(one.service_dates)},
                                {"book_digest", text_or_null(one.book_digest)},
                                {"book_kept_at", text_or_null(kept)},
                                {"history_head", text(one.history_head)}});
        if (!options.build.json) {
            print(BookCommands::tr("%1  %2  %3  %4")
                      .arg(QString::number(one.version), text(one.given_at),
                           text(one.given_to.value_or("")), text(kept.value_or(""))));
        }
    }
    if (options.build.json) {
        print_json({{"format", "rodway-hand-overs"},
                    {"version", 1},
                    {"build", text(build->name)},
                    {"hand_overs", rows}});
    } else if (records->empty()) {
        print(BookCommands::tr("Nothing was handed over yet."));
    }
    return ExitCode::done;
}

/// Writes one of the bench's papers.
ExitCode write_bench_print(const BookOptions& options, BookBlocks (*make)(const BookFacts&),
                           const QString& title) {
    const QString target = text(options.to);
    if (QFileInfo::exists(target) && !options.replace) {
        return refuse(Error{ErrorCode::cannot_write, options.to, "exists", {}, {}, {}});
    }
    const auto facts = facts_of(options);
    if (!facts) {
        return refuse(facts.error(), text(options.build.shop));
    }
    const auto written =
        write_bench_paper(make(*facts), title, facts->build(), papers.at(options.paper), target);
    if (!written) {
        return refuse(written.error(), target);
    }
    return say_done(options.build, "rodway-bench-print", {{"file", target}},
                    BookCommands::tr("Wrote %1.").arg(target));
}

ExitCode write_buy_list(const BookOptions& options) {
    const QString target = text(options.to);
    if (QFileInfo::exists(target) && !options.replace) {
        return refuse(Error{ErrorCode::cannot_write, options.to, "exists", {}, {}, {}});
    }
    auto opened = ShopFile::open_to_look(options.build.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    ShopFile shop = std::move(opened).value();
    const Moment now = Moment::present();
    const auto lines = load_buy_list(shop, now.today);
    if (!lines) {
        return refuse(lines.error(), text(options.build.shop));
    }
    const auto written =
        write_bench_paper(buy_list_paper(*lines, now.today), BookCommands::tr("To buy"),
                          std::nullopt, papers.at(options.paper), target);
    return written ? say_done(options.build, "rodway-bench-print", {{"file", target}},
                              BookCommands::tr("Wrote %1.").arg(target))
                   : refuse(written.error(), target);
}

} // namespace

namespace {

using Shared = std::shared_ptr<BookOptions>;

std::string word(const QString& of) {
    return of.toStdString();
}

void add_paper(CLI::App& command, const Shared& options) {
    std::vector<std::string> paper_words;
    for (const auto& [name, size] : papers) {
        paper_words.push_back(name);
    }
    command.add_option("--paper", options->paper, word(BookCommands::tr("Paper: a4, letter")))
        ->check(CLI::IsMember(paper_words));
}

void add_target(CLI::App& command, const Shared& options) {
    command.add_option("--to", options->to, word(BookCommands::tr("File to write")))->required();
    command.add_flag("--replace", options->replace,
                     word(BookCommands::tr("Write over a file that is there")));
    add_paper(command, options);
}

void add_template(CLI::App& command, const Shared& options) {
    command.add_option("--template", options->pattern,
                       word(BookCommands::tr("What stands in it: complete, short, settings_card, "
                                             "a template's file, or its name in the shop's own "
                                             "folder")));
}

void add_hand_over_commands(CLI::App& program, CommandOutcome& outcome, const Shared& options) {
    auto* over = program.add_subcommand(
        "hand-over",
        word(BookCommands::tr("Write the customer's folder: book, settings card, photos, readings, "
                              "set-up, digests; and keep what was given")));
    add_build_options(*over, options->build);
    over->add_option("folder", options->folder,
                     word(BookCommands::tr("Folder to make; it must not be there yet")))
        ->required();
    over->add_option("--given-to", options->given_to, word(BookCommands::tr("Who gets it")));
    over->add_option("--service", options->service,
                     word(BookCommands::tr("When the engine is to be seen again, and for what")));
    over->add_option("--signed", options->signature, word(BookCommands::tr("Who signs for it")));
    over->add_option("--note", options->note, word(BookCommands::tr("Words in the book")));
    over->add_option("--who", options->who, word(BookCommands::tr("Initials")));
    add_template(*over, options);
    add_paper(*over, options);
    over->callback([=, &outcome] { outcome.code = hand_build_over(*options); });

    auto* list = program.add_subcommand(
        "hand-overs", word(BookCommands::tr("List what was handed over of a build")));
    add_build_options(*list, options->build);
    list->callback([=, &outcome] { outcome.code = list_hand_overs(*options); });
}

void add_bench_print_commands(CLI::App& program, CommandOutcome& outcome, const Shared& options) {
    auto* plan = program.add_subcommand(
        "print-plan",
        word(BookCommands::tr("Write the engine's plan with its numbering for the bench (PDF)")));
    add_build_options(*plan, options->build);
    add_target(*plan, options);
    plan->callback([=, &outcome] {
        outcome.code =
            write_bench_print(*options, plan_paper, BookCommands::tr("Cylinders and valves"));
    });

    auto* torque = program.add_subcommand(
        "print-torque-order",
        word(BookCommands::tr("Write the joints with the order in which their bolts are tightened "
                              "(PDF)")));
    add_build_options(*torque, options->build);
    add_target(*torque, options);
    torque->callback([=, &outcome] {
        outcome.code =
            write_bench_print(*options, torque_order_paper, BookCommands::tr("Torque order"));
    });

    auto* buy = program.add_subcommand(
        "print-buy-list", word(BookCommands::tr("Write what all builds wait for (PDF)")));
    buy->add_option("shop", options->build.shop, word(BookCommands::tr("Shop file")))->required();
    add_json_option(*buy, options->build.json);
    add_target(*buy, options);
    buy->callback([=, &outcome] { outcome.code = write_buy_list(*options); });
}

} // namespace

void add_book_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<BookOptions>();
    auto* book = program.add_subcommand(
        "book", word(BookCommands::tr("Write a build's book for its customer (PDF)")));
    add_build_options(*book, options->build);
    add_target(*book, options);
    add_template(*book, options);
    book->callback([=, &outcome] { outcome.code = write_book(*options); });

    auto* missing = program.add_subcommand(
        "book-missing",
        word(BookCommands::tr("List what a whole book would want and this build lacks")));
    add_build_options(*missing, options->build);
    missing->callback([=, &outcome] { outcome.code = show_missing(*options); });
    add_hand_over_commands(program, outcome, options);
    add_bench_print_commands(program, outcome, options);
}

} // namespace rodway
