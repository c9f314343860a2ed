#include <QCoreApplication>
#include <QFileInfo>
#include <QJsonArray>
#include <map>

#include "app/book/customer_book.h"
#include "app/command_line/commands.h"
#include "app/command_line/work_commands.h"
#include "app/words/book_words.h"
#include "app/words/error_text.h"
#include "app/work/output_file.h"
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
    const auto pattern = find_book_template(text(options.pattern));
    if (!pattern) {
        return refuse(pattern.error(), text(options.pattern));
    }
    auto facts = facts_of(options);
    if (!facts) {
        return refuse(facts.error(), text(options.build.shop));
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
    return say_done(
        options.build, "rodway-book",
        {{"file", target}, {"pages", book.layout.page_count()}, {"missing", missing}},
        missing == 0
            ? BookCommands::tr("Wrote %1, %2 pages.").arg(target).arg(book.layout.page_count())
            : BookCommands::tr("Wrote %1, %2 pages. Missing: %3; see "
                               "book-missing.")
                  .arg(target)
                  .arg(book.layout.page_count())
                  .arg(missing));
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

} // namespace

void add_book_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<BookOptions>();
    const auto word = [](const QString& of) { return of.toStdString(); };
    std::vector<std::string> paper_words;
    for (const auto& [name, size] : papers) {
        paper_words.push_back(name);
    }
    auto* book = program.add_subcommand(
        "book", word(BookCommands::tr("Write a build's book for its customer (PDF)")));
    add_build_options(*book, options->build);
    book->add_option("--to", options->to, word(BookCommands::tr("File to write")))->required();
    book->add_option("--paper", options->paper, word(BookCommands::tr("Paper: a4, letter")))
        ->check(CLI::IsMember(paper_words));
    book->add_option("--template", options->pattern,
                     word(BookCommands::tr("What stands in it: complete, short, settings_card, or "
                                           "a template's file")));
    book->add_flag("--replace", options->replace,
                   word(BookCommands::tr("Write over a file that is there")));
    book->callback([=, &outcome] { outcome.code = write_book(*options); });

    auto* missing = program.add_subcommand(
        "book-missing",
        word(BookCommands::tr("List what a whole book would want and this build lacks")));
    add_build_options(*missing, options->build);
    missing->callback([=, &outcome] { outcome.code = show_missing(*options); });
}

} // namespace rodway
