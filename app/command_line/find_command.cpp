#include <QCoreApplication>
#include <QJsonArray>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "db/record_tables.h"
#include "db/search.h"

namespace rodway {
namespace {

struct FindCommand {
    Q_DECLARE_TR_FUNCTIONS(FindCommand)
};

struct Options {
    std::string shop;
    std::vector<std::string> words;
    int most = 50;
    bool rebuild = false;
    bool json = false;
};

QString word_of(const Found& found) {
    return QString::fromStdString(std::string(table_of(found.record.kind).word));
}

QString without_underscores(const std::string& word) {
    return QString::fromStdString(word).replace('_', ' ');
}

/// One line, with what was found in brackets.
QString passage_text(const TextPassage& passage) {
    std::string text = passage.text;
    for (auto mark = passage.marks.rbegin(); mark != passage.marks.rend(); ++mark) {
        text.insert(mark->begin + mark->length, "]");
        text.insert(mark->begin, "[");
    }
    const QString line = QString::fromStdString(text).simplified();
    return FindCommand::tr("%1%2%3").arg(passage.cut_before ? QStringLiteral("…") : QString(), line,
                                         passage.cut_after ? QStringLiteral("…") : QString());
}

QJsonObject found_json(const Found& found) {
    QJsonArray marks;
    for (const TextMark& mark : found.passage.marks) {
        marks.append(QJsonObject{{"begin", static_cast<qint64>(mark.begin)},
                                 {"length", static_cast<qint64>(mark.length)}});
    }
    return {{"kind", word_of(found)},
            {"id", static_cast<qint64>(found.record.id)},
            {"build",
             found.build_id == 0 ? QJsonValue() : QJsonValue(static_cast<qint64>(found.build_id))},
            {"title",
             found.title.empty() ? QJsonValue() : QJsonValue(QString::fromStdString(found.title))},
            {"field", QString::fromStdString(found.field)},
            {"passage", QString::fromStdString(found.passage.text)},
            {"cut_before", found.passage.cut_before},
            {"cut_after", found.passage.cut_after},
            {"marks", marks}};
}

void print_found(const Found& found) {
    const QString kind = without_underscores(word_of(found).toStdString());
    const QString title =
        found.record.kind == RecordKind::reading || found.record.kind == RecordKind::limit
            ? without_underscores(found.title)
            : QString::fromStdString(found.title);
    const QString heading =
        FindCommand::tr("%1 %2").arg(kind).arg(found.record.id) +
        (title.isEmpty() ? QString() : FindCommand::tr(": %1").arg(title.simplified()));
    print(found.build_id == 0 || found.record.kind == RecordKind::build
              ? heading
              : FindCommand::tr("%1  (build %2)").arg(heading).arg(found.build_id));
    print(FindCommand::tr("   %1: %2")
              .arg(without_underscores(found.field), passage_text(found.passage)));
}

ExitCode find(const Options& options) {
    const QString path = QString::fromStdString(options.shop);
    auto shop = ShopFile::open_to_look(options.shop);
    if (!shop) {
        return refuse(shop.error(), path);
    }
    ShopFile file = std::move(shop).value();
    if (options.rebuild) {
        if (const auto made = rebuild_search(file); !made) {
            return refuse(made.error(), path);
        }
    }
    QStringList words;
    for (const std::string& word : options.words) {
        words << QString::fromStdString(word);
    }
    const QString typed = words.join(' ');
    const auto all = search(file, typed.toStdString(), options.most);
    if (!all) {
        return refuse(all.error(), path);
    }
    QJsonArray rows;
    for (const Found& found : all->found) {
        if (options.json) {
            rows.append(found_json(found));
        } else {
            print_found(found);
        }
    }
    if (options.json) {
        print_json({{"format", "rodway-find"},
                    {"version", 1},
                    {"words", typed},
                    {"newest_only", all->newest_only},
                    {"found", rows}});
    } else if (all->found.empty() && !words.isEmpty()) {
        print(FindCommand::tr("Nothing has all of these words."));
    } else if (all->newest_only) {
        print(
            FindCommand::tr("More records have these words than could be compared: of each kind "
                            "only the newest were. One word more would tell them apart."));
    }
    return ExitCode::done;
}

} // namespace

void add_find_command(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* command = program.add_subcommand(
        "find", word(FindCommand::tr("Find builds, customers, parts, notes, readings by words")));
    command->add_option("shop", options->shop, word(FindCommand::tr("Shop file")))->required();
    command->add_option("words", options->words,
                        word(FindCommand::tr("Words, or how they begin; all must be there")));
    command
        ->add_option("--most", options->most,
                     word(FindCommand::tr("How many to show: of readings, and of all else")))
        ->check(CLI::Range(1, 10000));
    command->add_flag("--rebuild", options->rebuild,
                      word(FindCommand::tr("First make the index of words again")));
    add_json_option(*command, options->json);
    command->callback([=, &outcome] { outcome.code = find(*options); });
}

} // namespace rodway
