// System calls that the linker takes before the C library's, for this program and for Qt. Each
// tells the mounted disk what comes and then calls the C library; without a mounted disk, and for
// files elsewhere, they do nothing of their own.

#undef _FORTIFY_SOURCE

#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <string>
#include <utility>

#include "tests/db/failing_disk.h"

namespace rodway {
namespace {

/// The next function of this name: the C library's, or a sanitizer's before it.
template <typename Function>
Function next(const char* name) {
    return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name));
}

/// False with `errno` set if the call fails.
bool succeeds(FailingDisk& disk, DiskCall call) {
    const auto verdict = disk.call(std::move(call));
    if (verdict == FailingDisk::Verdict::succeeds) return true;
    errno = verdict == FailingDisk::Verdict::no_room ? ENOSPC : EIO;
    return false;
}

DiskCall call_on(DiskAct act, int file, const char* path) {
    DiskCall call{act, file};
    call.path = path;
    return call;
}

using OpenFunction = int (*)(const char*, int, mode_t);

int open_seen(OpenFunction open_next, const char* path, int flags, mode_t mode) {
    FailingDisk* disk = FailingDisk::of(path);
    if (disk == nullptr) return open_next(path, flags, mode);
    const bool exists = disk->has(path);
    if (!exists && (flags & O_CREAT) != 0) {
        if (!succeeds(*disk, call_on(DiskAct::create, disk->next_file(), path))) return -1;
    } else if (exists && (flags & O_TRUNC) != 0) {
        if (!succeeds(*disk, call_on(DiskAct::truncate, disk->file_at(path), path))) return -1;
    }
    const int descriptor = open_next(path, flags, mode);
    if (descriptor >= 0) disk->descriptors[descriptor] = {disk->file_at(path), path};
    return descriptor;
}

mode_t mode_behind(int flags, va_list arguments) {
    return (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(arguments, mode_t) : 0;
}

ssize_t write_seen(int descriptor, const void* bytes, std::size_t count) {
    static const auto write_next = next<ssize_t (*)(int, const void*, std::size_t)>("write");
    FailingDisk* disk = FailingDisk::of_descriptor(descriptor);
    if (disk == nullptr) return write_next(descriptor, bytes, count);
    DiskCall call{DiskAct::write, disk->descriptors.at(descriptor).file};
    call.offset = ::lseek(descriptor, 0, SEEK_CUR);
    call.bytes.assign(static_cast<const char*>(bytes), count);
    if (succeeds(*disk, std::move(call))) return write_next(descriptor, bytes, count);
    const int why = errno;
    static_cast<void>(write_next(descriptor, bytes, count / 2));
    errno = why;
    return -1;
}

int sync_seen(int (*sync_next)(int), int descriptor) {
    FailingDisk* disk = FailingDisk::of_descriptor(descriptor);
    if (disk == nullptr) return IdleSyncs::now() ? 0 : sync_next(descriptor);
    const auto& [file, path] = disk->descriptors.at(descriptor);
    if (disk->overlooks_sync(file)) return 0;
    const DiskAct act = file == DiskContents::folder ? DiskAct::sync_folder : DiskAct::sync;
    return succeeds(*disk, call_on(act, file, path.c_str())) ? 0 : -1;
}

bool may_move(const char* from, const char* to) {
    FailingDisk* disk = FailingDisk::of(from);
    if (disk == nullptr || !disk->has(from)) return true;
    DiskCall call = call_on(DiskAct::move, disk->file_at(from), from);
    call.target = to;
    return succeeds(*disk, std::move(call));
}

bool may_remove(const char* path) {
    FailingDisk* disk = FailingDisk::of(path);
    if (disk == nullptr || !disk->has(path)) return true;
    return succeeds(*disk, call_on(DiskAct::remove, disk->file_at(path), path));
}

} // namespace
} // namespace rodway

extern "C" {

int open(const char* path, int flags, ...) {
    static const auto open_next = rodway::next<rodway::OpenFunction>("open");
    va_list arguments;
    va_start(arguments, flags);
    const mode_t mode = rodway::mode_behind(flags, arguments);
    va_end(arguments);
    return rodway::open_seen(open_next, path, flags, mode);
}

int open64(const char* path, int flags, ...) {
    static const auto open_next = rodway::next<rodway::OpenFunction>("open64");
    va_list arguments;
    va_start(arguments, flags);
    const mode_t mode = rodway::mode_behind(flags, arguments);
    va_end(arguments);
    return rodway::open_seen(open_next, path, flags, mode);
}

int close(int descriptor) {
    static const auto close_next = rodway::next<int (*)(int)>("close");
    if (rodway::FailingDisk* disk = rodway::FailingDisk::of_descriptor(descriptor)) {
        disk->descriptors.erase(descriptor);
    }
    return close_next(descriptor);
}

ssize_t write(int descriptor, const void* bytes, std::size_t count) {
    return rodway::write_seen(descriptor, bytes, count);
}

int fsync(int descriptor) {
    static const auto sync_next = rodway::next<int (*)(int)>("fsync");
    return rodway::sync_seen(sync_next, descriptor);
}

int fdatasync(int descriptor) {
    static const auto sync_next = rodway::next<int (*)(int)>("fdatasync");
    return rodway::sync_seen(sync_next, descriptor);
}

int rename(const char* from, const char* to) noexcept {
    static const auto rename_next = rodway::next<int (*)(const char*, const char*)>("rename");
    return rodway::may_move(from, to) ? rename_next(from, to) : -1;
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to,
              unsigned flags) noexcept {
    using Function = int (*)(int, const char*, int, const char*, unsigned);
    static const auto rename_next = rodway::next<Function>("renameat2");
    // Asked not to replace, the system refuses before anything reaches the disk.
    struct stat status = {};
    const bool refused = (flags & RENAME_NOREPLACE) != 0 && ::lstat(to, &status) == 0;
    if (!refused && !rodway::may_move(from, to)) return -1;
    return rename_next(from_folder, from, to_folder, to, flags);
}

int unlink(const char* path) noexcept {
    static const auto unlink_next = rodway::next<int (*)(const char*)>("unlink");
    return rodway::may_remove(path) ? unlink_next(path) : -1;
}

int rmdir(const char* path) noexcept {
    static const auto rmdir_next = rodway::next<int (*)(const char*)>("rmdir");
    return rodway::may_remove(path) ? rmdir_next(path) : -1;
}

int mkdir(const char* path, mode_t mode) noexcept {
    static const auto mkdir_next = rodway::next<int (*)(const char*, mode_t)>("mkdir");
    rodway::FailingDisk* disk = rodway::FailingDisk::of(path);
    const bool makes = disk != nullptr && !disk->has(path);
    const auto call =
        rodway::call_on(rodway::DiskAct::make_folder, rodway::DiskContents::folder, path);
    if (makes && !rodway::succeeds(*disk, call)) return -1;
    return mkdir_next(path, mode);
}

} // extern "C"
