#pragma once

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <functional>
#include <stdexcept>
#include <utility>

namespace rodway {

/// Starts a process that does `work` and ends with what it returns. The caller has no shop open:
/// SQLite's connections must not be carried into another process.
inline pid_t start_child(const std::function<int()>& work) {
    const pid_t child = ::fork();
    if (child < 0) throw std::runtime_error("no process");
    if (child > 0) return child;
    int answer = 99;
    try {
        answer = work();
    } catch (const std::exception&) {
        answer = 98;
    }
    ::_exit(answer);
}

/// What the child returned; -1 if it was killed.
inline int answer_of(pid_t child) {
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

inline int in_child(const std::function<int()>& work) {
    return answer_of(start_child(work));
}

/// One end tells, in the child, the other waits until it has told.
class Signal {
  public:
    Signal() {
        if (::pipe(ends_) != 0) throw std::runtime_error("no pipe");
    }
    Signal(const Signal&) = delete;
    Signal& operator=(const Signal&) = delete;
    ~Signal() {
        ::close(ends_[0]);
        if (ends_[1] >= 0) ::close(ends_[1]);
    }
    void tell() const {
        if (::write(ends_[1], "x", 1) != 1) throw std::runtime_error("nobody listens");
    }
    void wait() {
        // So that a child that ends without a word is noticed.
        ::close(std::exchange(ends_[1], -1));
        char told = 0;
        if (::read(ends_[0], &told, 1) != 1) throw std::runtime_error("nothing was told");
    }

  private:
    int ends_[2] = {};
};

/// Kills the child when a test ends before it does.
class ChildGuard {
  public:
    explicit ChildGuard(pid_t child) : child_(child) {}
    ChildGuard(const ChildGuard&) = delete;
    ChildGuard& operator=(const ChildGuard&) = delete;
    ~ChildGuard() { stop(); }
    void stop() const {
        if (stopped_) return;
        stopped_ = true;
        ::kill(child_, SIGKILL);
        static_cast<void>(answer_of(child_));
    }

  private:
    pid_t child_;
    mutable bool stopped_ = false;
};

/// From here on this process can write no file beyond so many bytes, as on a disk that is full.
inline void limit_file_size(unsigned long bytes) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, bytes};
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) throw std::runtime_error("no limit");
}

/// Gives up the administrator's rights, for whom read-only doesn't count.
inline void become_plain_user() {
    constexpr unsigned nobody = 65534;
    if (::getuid() != 0) return;
    if (::setgid(nobody) != 0 || ::setuid(nobody) != 0) throw std::runtime_error("not allowed");
}

} // namespace rodway
