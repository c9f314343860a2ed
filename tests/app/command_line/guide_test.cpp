#include <gtest/gtest.h>

#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <algorithm>
#include <map>

#include "app/words/sheet_words.h"
#include "core/sheets/sheet_kinds.h"

// The guide's pages are run as they stand there, and must print what stands there.

namespace rodway::tests {
namespace {

/// One command of a page, and what the page says it prints.
struct Shown {
    int line = 0;
    QStringList words;
    QStringList printed; ///< "…" stands for any lines
};

QString without_indent(const QString& line) {
    QString text = line.mid(4);
    while (text.endsWith(' ')) {
        text.chop(1);
    }
    return text;
}

/// The words of a line as a terminal parts them: `""` is an empty one, which
/// `QProcess::splitCommand` would drop.
QStringList words_of(const QString& line) {
    QStringList words;
    QString word;
    bool quoted = false;
    bool begun = false;
    for (const QChar letter : line + ' ') {
        if (letter == '"') {
            quoted = !quoted;
            begun = true;
        } else if (letter == ' ' && !quoted) {
            if (begun) {
                words << word;
            }
            word.clear();
            begun = false;
        } else {
            word += letter;
            begun = true;
        }
    }
    return words;
}

std::vector<Shown> shown_on(const QString& page) {
    QFile file(page);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    std::vector<Shown> all;
    const QStringList lines = QString::fromUtf8(file.readAll()).split('\n');
    bool printing = false;
    for (qsizetype at = 0; at < lines.size(); ++at) {
        const QString& line = lines[at];
        if (line.startsWith("    $ rodway ")) {
            QString command = line.mid(13);
            while (command.endsWith('\\')) {
                command.chop(1);
                command += lines[++at].trimmed();
            }
            all.push_back({static_cast<int>(at) + 1, words_of(command), {}});
            printing = true;
        } else if (printing && line.startsWith("    ")) {
            all.back().printed << without_indent(line);
        } else if (!line.isEmpty()) {
            printing = false;
        } else if (printing) {
            all.back().printed << QString();
        }
    }
    for (Shown& shown : all) {
        while (!shown.printed.isEmpty() && shown.printed.last().isEmpty()) {
            shown.printed.removeLast();
        }
    }
    return all;
}

/// Whether lines match, each "…" standing for any number of them.
bool matches(const QStringList& wanted, qsizetype from, const QStringList& found, qsizetype at) {
    if (from == wanted.size()) {
        return at == found.size();
    }
    if (wanted[from] == QString(u'…')) {
        for (qsizetype next = at; next <= found.size(); ++next) {
            if (matches(wanted, from + 1, found, next)) {
                return true;
            }
        }
        return false;
    }
    return at < found.size() && wanted[from] == found[at] &&
           matches(wanted, from + 1, found, at + 1);
}

/// What a command prints, as lines without blanks at their ends.
QStringList printed_by(const QStringList& words, const QString& folder) {
    QProcess process;
    process.setWorkingDirectory(folder);
    process.setProcessChannelMode(QProcess::MergedChannels);
    process.start(RODWAY_PROGRAM, words);
    EXPECT_TRUE(process.waitForFinished(60000));
    EXPECT_EQ(process.exitCode(), 0) << words.join(' ').toStdString();
    QStringList printed;
    for (const QString& line : QString::fromUtf8(process.readAllStandardOutput()).split('\n')) {
        printed << without_indent("    " + line);
    }
    while (!printed.isEmpty() && printed.last().isEmpty()) {
        printed.removeLast();
    }
    return printed;
}

void expect_as_shown(const std::vector<Shown>& commands, const QString& folder) {
    for (const Shown& shown : commands) {
        const QStringList printed = printed_by(shown.words, folder);
        EXPECT_TRUE(matches(shown.printed, 0, printed, 0))
            << "line " << shown.line << ": rodway " << shown.words.join(' ').toStdString()
            << "\nprinted:\n"
            << printed.join('\n').toStdString();
    }
}

TEST(Guide, TheBuildersHourPrintsWhatItSays) {
    const QTemporaryDir folder;
    ASSERT_TRUE(folder.isValid());
    const std::vector<Shown> commands = shown_on(RODWAY_RESOURCES "/guide/builders-hour.md");
    ASSERT_GE(commands.size(), 10u);
    expect_as_shown(commands, folder.path());
    // A page without numbers would show nothing.
    int figures = 0;
    for (const Shown& shown : commands) {
        figures += static_cast<int>(shown.printed.join(' ').count(" in"));
    }
    EXPECT_GE(figures, 30);
}

/// The page cut at its questions: number, and what stands under it.
std::map<int, QString> questions_on(const QString& page) {
    QFile file(page);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    std::map<int, QString> questions;
    for (const QString& part : QString::fromUtf8(file.readAll()).split("\n## ").mid(1)) {
        const int number = part.left(part.indexOf('.')).toInt();
        EXPECT_TRUE(questions.emplace(number, part).second) << number;
    }
    return questions;
}

/// A figure that a command prints, not one that stands in its words or its line's number.
bool shows_a_figure(const QString& question) {
    static const QRegularExpression figure(
        "[0-9](\u00a0| )?(in|cc|hp|lbf|\u00b0|:1)|Crank [0-9]|bolt 7");
    const QStringList lines = question.split('\n');
    return std::any_of(lines.begin(), lines.end(), [&](const QString& line) {
        const bool printed = line.startsWith("    ") && !line.startsWith("    $") &&
                             !line.startsWith("    Kept") && !line.startsWith("        \"");
        return printed && figure.match(line).hasMatch();
    });
}

// The numbers are those under which builders' questions are counted; those in between belong to
// other pages.
TEST(Guide, EveryQuestionIsAnsweredByACommandWithAFigure) {
    const QString page = RODWAY_RESOURCES "/guide/questions.md";
    const QTemporaryDir folder;
    ASSERT_TRUE(folder.isValid());
    for (const char* pull : {"v8-pull-1.csv", "v8-pull-2.csv"}) {
        ASSERT_TRUE(QFile::copy(QString(RODWAY_RESOURCES "/demo/") + pull, folder.filePath(pull)));
    }
    expect_as_shown(shown_on(page), folder.path());
    const auto questions = questions_on(page);
    std::vector<int> wanted{3, 11, 12, 13, 16, 17};
    for (int number = 19; number <= 36; ++number) {
        wanted.push_back(number);
    }
    ASSERT_EQ(questions.size(), wanted.size());
    for (const int number : wanted) {
        ASSERT_TRUE(questions.count(number) == 1) << number;
        EXPECT_TRUE(shows_a_figure(questions.at(number))) << number;
    }
}

TEST(Guide, EverySheetThatTheQuestionsNameIsThere) {
    QFile file(RODWAY_RESOURCES "/guide/questions.md");
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    QStringList titles;
    for (const SheetKind& kind : sheet_kinds()) {
        titles << words::sheet_title(kind.id);
    }
    static const QRegularExpression bold("\\*\\*([^*]+)\\*\\*");
    auto named = bold.globalMatch(QString::fromUtf8(file.readAll()));
    int count = 0;
    for (; named.hasNext(); ++count) {
        const QString title = named.next().captured(1);
        EXPECT_TRUE(titles.contains(title)) << title.toStdString();
    }
    EXPECT_GE(count, 15);
}

} // namespace
} // namespace rodway::tests
