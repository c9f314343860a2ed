#pragma once

#include <QStringList>
#include <string>

namespace rodway {

/// What the program answers to whoever called it. Documented in the man page and by --help.
enum class ExitCode {
    done = 0,
    bad_usage = 2,    ///< the call's words are off
    bad_input = 3,    ///< a file, field or value is wrong
    damaged_file = 4, ///< a shop file that is damaged, foreign or newer
    no_answer = 5,    ///< a train can't close, or its rod doesn't go through its tube
    cannot_read_or_write = 6,
    no_graphics = 7, ///< a picture was wanted, and there is no OpenGL
};

/// Runs one command and prints its answer; `window` is set if a window was asked for instead.
struct CommandOutcome {
    ExitCode code = ExitCode::done;
    bool window = false;
    QString shop;    ///< file to open in the window, may be empty
    std::string now; ///< UTC as of which the window's Bench begins; empty: now
};
CommandOutcome run_command_line(const QStringList& arguments);

} // namespace rodway
