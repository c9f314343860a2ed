#pragma once

#include <QProcess>
#include <QString>
#include <QStringList>

namespace rodway::tests {

struct Ran {
    int exit_code = -1;
    QString output;
    QString complaints;
};

/// Runs the program itself, as a person would from a terminal, with no display.
inline Ran run(const QStringList& arguments) {
    QProcess process;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.remove("DISPLAY");
    environment.remove("QT_QPA_PLATFORM");
    process.setProcessEnvironment(environment);
    process.start(RODWAY_PROGRAM, arguments);
    process.waitForFinished(60000);
    return {process.exitStatus() == QProcess::NormalExit ? process.exitCode() : -1,
            QString::fromUtf8(process.readAllStandardOutput()),
            QString::fromUtf8(process.readAllStandardError())};
}

} // namespace rodway::tests
