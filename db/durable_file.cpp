#include "db/durable_file.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QString>
#include <cerrno>
#include <cstdio>
#include <utility>

#include "db/temporary_files.h"

#ifdef _WIN32
#define WIN32_LEAN_AND_MEAN
#include <windows.h>
#else
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>
#endif

namespace rodway {
namespace {

#ifdef _WIN32
using Handle = HANDLE;
const Handle no_handle = INVALID_HANDLE_VALUE;

const wchar_t* wide(const QString& path) {
    return reinterpret_cast<const wchar_t*>(path.utf16());
}

std::string failure_token() {
    switch (GetLastError()) {
        case ERROR_ACCESS_DENIED:
        case ERROR_SHARING_VIOLATION:
            return "no_permission";
        case ERROR_WRITE_PROTECT:
            return "read_only";
        case ERROR_DISK_FULL:
        case ERROR_HANDLE_DISK_FULL:
            return "disk_full";
        case ERROR_FILE_NOT_FOUND:
        case ERROR_PATH_NOT_FOUND:
            return "no_folder";
        case ERROR_ALREADY_EXISTS:
        case ERROR_FILE_EXISTS:
            return "exists";
        default:
            return "other";
    }
}

Handle create_file(const QString& path) {
    return CreateFileW(wide(path), GENERIC_WRITE, 0, nullptr, CREATE_NEW, FILE_ATTRIBUTE_NORMAL,
                       nullptr);
}

bool write_some(Handle handle, std::string_view& bytes) {
    constexpr std::size_t most = 1U << 20U;
    DWORD written = 0;
    const DWORD wanted = static_cast<DWORD>(bytes.size() < most ? bytes.size() : most);
    if (!WriteFile(handle, bytes.data(), wanted, &written, nullptr)) return false;
    bytes.remove_prefix(written);
    return true;
}

bool sync_handle(Handle handle) {
    return FlushFileBuffers(handle) != 0;
}
bool close_handle(Handle handle) {
    return CloseHandle(handle) != 0;
}

Handle open_for_sync(const QString& path) {
    return CreateFileW(wide(path), GENERIC_WRITE, FILE_SHARE_READ | FILE_SHARE_WRITE, nullptr,
                       OPEN_EXISTING, FILE_ATTRIBUTE_NORMAL, nullptr);
}

bool rename_over(const QString& from, const QString& to) {
    return MoveFileExW(wide(from), wide(to), MOVEFILE_REPLACE_EXISTING | MOVEFILE_WRITE_THROUGH) !=
           0;
}

bool rename_if_free(const QString& from, const QString& to) {
    return MoveFileExW(wide(from), wide(to), MOVEFILE_WRITE_THROUGH) != 0;
}

void keep_permissions(Handle, const QString&) {} // inherited from the folder
#else
using Handle = int;
constexpr Handle no_handle = -1;

std::string failure_token() {
    switch (errno) {
        case EACCES:
        case EPERM:
            return "no_permission";
        case EROFS:
            return "read_only";
        case ENOSPC:
        case EDQUOT:
            return "disk_full";
        case ENOENT:
        case ENOTDIR:
            return "no_folder";
        case ENAMETOOLONG:
            return "name_too_long";
        case EEXIST:
            return "exists";
        default:
            return "other";
    }
}

Handle create_file(const QString& path) {
    return ::open(QFile::encodeName(path).constData(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
                  0666);
}

bool write_some(Handle handle, std::string_view& bytes) {
    const ssize_t written = ::write(handle, bytes.data(), bytes.size());
    if (written < 0) return errno == EINTR;
    bytes.remove_prefix(static_cast<std::size_t>(written));
    return true;
}

bool sync_handle(Handle handle) {
#ifdef F_FULLFSYNC
    // On macOS fsync stops at the disk's own cache.
    if (::fcntl(handle, F_FULLFSYNC) == 0) return true;
#endif
    // EINVAL: a file system that has nothing to sync here, such as some that keep no folders on
    // disk.
    return ::fsync(handle) == 0 || errno == EINVAL;
}

bool close_handle(Handle handle) {
    return ::close(handle) == 0;
}

Handle open_for_sync(const QString& path) {
    return ::open(QFile::encodeName(path).constData(), O_RDONLY | O_CLOEXEC);
}

bool rename_over(const QString& from, const QString& to) {
    return ::rename(QFile::encodeName(from).constData(), QFile::encodeName(to).constData()) == 0;
}

bool rename_if_free(const QString& from, const QString& to) {
    const QByteArray old_name = QFile::encodeName(from);
    const QByteArray new_name = QFile::encodeName(to);
#ifdef RENAME_NOREPLACE
    if (::renameat2(AT_FDCWD, old_name.constData(), AT_FDCWD, new_name.constData(),
                    RENAME_NOREPLACE) == 0) {
        return true;
    }
    if (errno != EINVAL && errno != ENOSYS) return false;
#endif
    // Some file systems can't be asked not to replace: there we look before.
    struct stat status = {};
    if (::lstat(new_name.constData(), &status) == 0) {
        errno = EEXIST;
        return false;
    }
    return ::rename(old_name.constData(), new_name.constData()) == 0;
}

/// A replaced file keeps who may read and write it, as far as the system lets us.
void keep_permissions(Handle handle, const QString& replaced) {
    struct stat status = {};
    if (::stat(QFile::encodeName(replaced).constData(), &status) == 0) {
        static_cast<void>(::fchmod(handle, status.st_mode & 07777));
    }
}
#endif

Error write_error(const QString& path) {
    std::string token = failure_token(); // first, while the system's error number still stands
    return Error{ErrorCode::cannot_write, path.toStdString(), std::move(token), {}, {}, {}};
}

Result<Done> sync_path(const QString& path) {
    const Handle handle = open_for_sync(path);
    if (handle == no_handle) return write_error(path);
    const bool synced = sync_handle(handle);
    Result<Done> answer = Done{};
    if (!synced) answer = write_error(path);
    close_handle(handle);
    return answer;
}

} // namespace

struct DurableFile::State {
    QString temporary;
    Handle handle = no_handle;

    State() = default;
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() {
        if (handle != no_handle) close_handle(handle);
        if (!temporary.isEmpty()) QFile::remove(temporary);
    }
};

DurableFile::DurableFile(std::unique_ptr<State> state) : state_(std::move(state)) {}
DurableFile::DurableFile(DurableFile&& other) noexcept = default;
DurableFile::~DurableFile() = default;

Result<DurableFile> DurableFile::begin(const std::string& folder) {
    const QString name = QString::fromStdString(temporary_path(folder));
    auto state = std::make_unique<State>();
    state->handle = create_file(name);
    if (state->handle == no_handle) return write_error(QString::fromStdString(folder));
    state->temporary = name;
    return DurableFile(std::move(state));
}

Result<Done> DurableFile::write(std::string_view bytes) {
    while (!bytes.empty()) {
        if (!write_some(state_->handle, bytes)) return write_error(state_->temporary);
    }
    return Done{};
}

Result<Done> DurableFile::commit(const std::string& target) {
    const QString name = QString::fromStdString(target);
    RODWAY_ASSERT(state_->handle != no_handle);
    keep_permissions(state_->handle, name);
    if (!sync_handle(state_->handle)) return write_error(name);
    if (!close_handle(std::exchange(state_->handle, no_handle))) return write_error(name);
    if (!rename_over(state_->temporary, name)) return write_error(name);
    state_->temporary.clear();
    return sync_folder(QFileInfo(name).absolutePath().toStdString());
}

Result<Done> write_durably(const std::string& path, std::string_view bytes) {
    QFileInfo info(QString::fromStdString(path));
    if (info.exists()) info.setFile(info.canonicalFilePath());
    auto file = DurableFile::begin(info.absolutePath().toStdString());
    if (!file) return file.error();
    DurableFile writer = std::move(file).value();
    if (const auto written = writer.write(bytes); !written) return written.error();
    return writer.commit(info.absoluteFilePath().toStdString());
}

Result<Done> rename_to_free_name(const std::string& from, const std::string& to) {
    const QString name = QString::fromStdString(to);
    if (!rename_if_free(QString::fromStdString(from), name)) return write_error(name);
    return sync_folder(QFileInfo(name).absolutePath().toStdString());
}

Result<Done> replace_durably(const std::string& from, const std::string& to) {
    const QString name = QString::fromStdString(to);
    if (!rename_over(QString::fromStdString(from), name)) return write_error(name);
    return sync_folder(QFileInfo(name).absolutePath().toStdString());
}

Result<Done> make_folder_durably(const std::string& parent, const std::string& name) {
    const QDir folder(QString::fromStdString(parent));
    const QString path = folder.filePath(QString::fromStdString(name));
    const auto is_there = [&path] { return QFileInfo(path).isDir(); };
    errno = 0;
    // Another program may have made it meanwhile, which is as good.
    if (!is_there() && !folder.mkdir(QString::fromStdString(name)) && !is_there()) {
        return write_error(path);
    }
    // One that was there too: who made it may have failed before its name was safe.
    return sync_folder(folder.absolutePath().toStdString());
}

Result<Done> sync_file(const std::string& path) {
    return sync_path(QString::fromStdString(path));
}

Result<Done> sync_folder(const std::string& folder) {
#ifdef _WIN32
    static_cast<void>(folder); // MOVEFILE_WRITE_THROUGH has already waited for the name
    return Done{};
#else
    return sync_path(QString::fromStdString(folder));
#endif
}

Result<std::string> file_identity(const std::string& path) {
#ifdef _WIN32
    const HANDLE handle = CreateFileW(wide(QString::fromStdString(path)), 0,
                                      FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE,
                                      nullptr, OPEN_EXISTING, FILE_FLAG_BACKUP_SEMANTICS, nullptr);
    BY_HANDLE_FILE_INFORMATION found{};
    const bool known =
        handle != INVALID_HANDLE_VALUE && GetFileInformationByHandle(handle, &found) != 0;
    if (handle != INVALID_HANDLE_VALUE) CloseHandle(handle);
    if (known) {
        return std::to_string(found.dwVolumeSerialNumber) + ':' +
               std::to_string(found.nFileIndexHigh) + ':' + std::to_string(found.nFileIndexLow);
    }
#else
    struct stat found {};
    if (::stat(QFile::encodeName(QString::fromStdString(path)).constData(), &found) == 0) {
        return std::to_string(found.st_dev) + ':' + std::to_string(found.st_ino);
    }
#endif
    return Error{ErrorCode::cannot_read, path, "gone", {}, {}, {}};
}

} // namespace rodway
