#pragma once

#include <sys/stat.h>
#include <unistd.h>

#include <QString>
#include <stdexcept>

namespace rodway::tests {

inline constexpr unsigned nobody = 65534;

/// As long as it lives this process has no administrator's rights, for whom read-only doesn't
/// count.
class PlainUser {
  public:
    PlainUser() {
        if (!administrator_) return;
        if (::setresgid(nobody, nobody, 0) != 0 || ::setresuid(nobody, nobody, 0) != 0) {
            throw std::runtime_error("can't become another user");
        }
    }
    PlainUser(const PlainUser&) = delete;
    PlainUser& operator=(const PlainUser&) = delete;
    ~PlainUser() {
        if (!administrator_) return;
        if (::setresuid(0, 0, 0) != 0 || ::setresgid(0, 0, 0) != 0) ::_exit(99);
    }

  private:
    bool administrator_ = ::getuid() == 0;
};

inline void set_mode(const QString& path, mode_t mode) {
    if (::chmod(path.toUtf8().constData(), mode) != 0) throw std::runtime_error("no such file");
}

} // namespace rodway::tests
