#include "app/book/book_templates.h"

#include <QDir>
#include <QFile>
#include <algorithm>

namespace rodway {
namespace {

constexpr const char* suffix = ".txt";

/// The file that is meant.
QString file_of(const QString& named, const QString& folder) {
    if (folder.isEmpty() || QFile::exists(named)) {
        return named;
    }
    for (const QString& name : {named, named + QLatin1String(suffix)}) {
        const QString file = QDir(folder).filePath(name);
        if (QFile::exists(file)) return file;
    }
    return named;
}

} // namespace

const std::vector<std::string>& book_template_words() {
    static const std::vector<std::string> words{"complete", "short", "settings_card"};
    return words;
}

std::vector<QString> own_templates(const QString& folder) {
    std::vector<QString> files;
    if (folder.isEmpty()) {
        return files;
    }
    const QDir dir(folder);
    for (const QString& name :
         dir.entryList({u'*' + QLatin1String(suffix)}, QDir::Files | QDir::Readable, QDir::Name)) {
        files.push_back(dir.absoluteFilePath(name));
    }
    return files;
}

Result<BookTemplate> find_book_template(const QString& word_or_file, const QString& folder) {
    const auto& words = book_template_words();
    const bool built_in =
        std::find(words.begin(), words.end(), word_or_file.toStdString()) != words.end();
    QFile file(built_in ? QStringLiteral(":/rodway/handoff/%1.txt").arg(word_or_file)
                        : file_of(word_or_file, folder));
    if (!file.open(QIODevice::ReadOnly)) {
        return Error{ErrorCode::cannot_read, word_or_file.toStdString(), {}, {}, {}, {}};
    }
    return read_book_template(file.readAll().toStdString());
}

} // namespace rodway
