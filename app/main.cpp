#include <QApplication>
#include <QTemporaryDir>
#include <cstdio>
#include <string_view>

#include "app/command_line/command_line.h"
#include "app/window/main_window.h"

namespace {

/// A window needs a display; every command, and help, works without one.
bool opens_window(int argc, char** argv) {
    const std::string_view last = argc < 2 ? "" : argv[argc - 1];
    return argc < 2 || (std::string_view(argv[1]) == "window" && last != "--help" && last != "-h");
}

bool has_display() {
#ifdef Q_OS_LINUX
    return qEnvironmentVariableIsSet("DISPLAY") || qEnvironmentVariableIsSet("WAYLAND_DISPLAY") ||
           qEnvironmentVariableIsSet("QT_QPA_PLATFORM");
#else
    return true;
#endif
}

} // namespace

int main(int argc, char** argv) {
    if (opens_window(argc, argv) && !has_display()) {
        std::fputs(
            "rodway: there is no display for a window. Commands work without one: rodway --help\n",
            stderr);
        return static_cast<int>(rodway::ExitCode::bad_usage);
    }
    if (!opens_window(argc, argv) && !qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    // Qt wants a folder for sockets and says so on standard error where a log-in hasn't made one.
    const QTemporaryDir runtime;
    if (!qEnvironmentVariableIsSet("XDG_RUNTIME_DIR") && runtime.isValid()) {
        qputenv("XDG_RUNTIME_DIR", runtime.path().toUtf8());
    }
    QApplication application(argc, argv);
    QApplication::setApplicationName("rodway");
    QApplication::setApplicationDisplayName("Rodway");
    QApplication::setOrganizationName("rodway");
    QApplication::setApplicationVersion(RODWAY_VERSION);

    const rodway::CommandOutcome outcome = rodway::run_command_line(application.arguments().mid(1));
    if (!outcome.window) {
        return static_cast<int>(outcome.code);
    }
    rodway::MainWindow window(outcome.now.empty() ? rodway::Clock(rodway::now_utc)
                                                  : rodway::clock_from(outcome.now));
    window.show();
    window.begin(outcome.shop);
    return application.exec();
}
