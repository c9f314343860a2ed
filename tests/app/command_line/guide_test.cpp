#include <gtest/gtest.h>

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>

// The guide's worked example is run as it stands there, and must print what stands there.

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
            all.push_back({static_cast<int>(at) + 1, QProcess::splitCommand(command), {}});
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

TEST(Guide, TheBuildersHourPrintsWhatItSays) {
    const QTemporaryDir folder;
    ASSERT_TRUE(folder.isValid());
    const std::vector<Shown> commands = shown_on(RODWAY_RESOURCES "/guide/builders-hour.md");
    ASSERT_GE(commands.size(), 10u);
    int figures = 0;
    for (const Shown& shown : commands) {
        QProcess process;
        process.setWorkingDirectory(folder.path());
        process.setProcessChannelMode(QProcess::MergedChannels);
        process.start(RODWAY_PROGRAM, shown.words);
        ASSERT_TRUE(process.waitForFinished(60000));
        QStringList printed;
        for (const QString& line : QString::fromUtf8(process.readAllStandardOutput()).split('\n')) {
            printed << without_indent("    " + line);
        }
        while (!printed.isEmpty() && printed.last().isEmpty()) {
            printed.removeLast();
        }
        EXPECT_TRUE(matches(shown.printed, 0, printed, 0))
            << "line " << shown.line << ": rodway " << shown.words.join(' ').toStdString()
            << "\nprinted:\n"
            << printed.join('\n').toStdString();
        figures += static_cast<int>(shown.printed.join(' ').count(" in"));
    }
    // A page without numbers would show nothing.
    EXPECT_GE(figures, 30);
}

} // namespace
} // namespace rodway::tests
