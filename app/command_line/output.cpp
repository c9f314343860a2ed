#include "app/command_line/output.h"

#include <QCoreApplication>
#include <QJsonDocument>
#include <cstdio>

#include "app/words/error_text.h"

namespace rodway {

void print(const QString& line) {
    std::fprintf(stdout, "%s\n", line.toUtf8().constData());
}

void complain(const QString& line) {
    std::fprintf(stderr, "%s\n", line.toUtf8().constData());
}

void print_json(const QJsonObject& object) {
    std::fputs(QJsonDocument(object).toJson(QJsonDocument::Indented).constData(), stdout);
}

QJsonArray array_of(const std::vector<std::string>& texts) {
    QJsonArray array;
    for (const std::string& text : texts) {
        array.append(QString::fromStdString(text));
    }
    return array;
}

ExitCode refuse(const Error& error, const QString& file) {
    const QString text =
        file.isEmpty() ? words::error_text(error) : words::error_in_file(file, error);
    complain(QCoreApplication::translate("CommandLine", "rodway: %1").arg(text));
    if (!error.expected.empty() && error.code == ErrorCode::no_such_record) {
        complain(QCoreApplication::translate("CommandLine", "There are: %1")
                     .arg(QString::fromStdString(error.expected)));
    }
    return exit_code(error.code);
}

ExitCode exit_code(ErrorCode code) {
    switch (code) {
        case ErrorCode::foreign_file:
        case ErrorCode::damaged_file:
        case ErrorCode::newer_version:
            return ExitCode::damaged_file;
        case ErrorCode::cannot_read:
        case ErrorCode::cannot_write:
        case ErrorCode::locked_file:
            return ExitCode::cannot_read_or_write;
        case ErrorCode::no_graphics:
            return ExitCode::no_graphics;
        default:
            return ExitCode::bad_input;
    }
}

} // namespace rodway
