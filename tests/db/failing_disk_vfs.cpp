#include <sqlite3.h>
#include <unistd.h>

#include <cstring>
#include <string>

#include "core/base/assert.h"
#include "tests/db/failing_disk.h"

// The VFS that stands before SQLite's own: it tells the disk what comes, then hands on what
// succeeds. Files that don't lie on the disk are opened by SQLite's own VFS as if nothing were
// here.

namespace rodway {
namespace {

struct DiskFile {
    sqlite3_file base;
    FailingDisk* disk;
    int number;
    const char* path;         ///< SQLite keeps it until the file is closed
    bool folder_not_yet_safe; ///< a new journal or log: its first sync brings its name to the disk
};

sqlite3_vfs* real_vfs = nullptr;

DiskFile& disk_file(sqlite3_file* file) {
    return *reinterpret_cast<DiskFile*>(file);
}
/// SQLite's own file lies behind ours.
sqlite3_file* real(sqlite3_file* file) {
    return reinterpret_cast<sqlite3_file*>(reinterpret_cast<DiskFile*>(file) + 1);
}

int code_for(FailingDisk::Verdict verdict, int io_error) {
    if (verdict == FailingDisk::Verdict::succeeds) return SQLITE_OK;
    return verdict == FailingDisk::Verdict::no_room ? SQLITE_FULL : io_error;
}

int close_file(sqlite3_file* file) {
    const UnseenCalls unseen;
    return real(file)->pMethods->xClose(real(file));
}

int read_file(sqlite3_file* file, void* to, int count, sqlite3_int64 offset) {
    return real(file)->pMethods->xRead(real(file), to, count, offset);
}

int write_file(sqlite3_file* file, const void* from, int count, sqlite3_int64 offset) {
    DiskFile& written = disk_file(file);
    DiskCall call{DiskAct::write, written.number};
    call.offset = offset;
    call.bytes.assign(static_cast<const char*>(from), static_cast<std::size_t>(count));
    const auto verdict = written.disk->call(std::move(call));
    const UnseenCalls unseen;
    const bool whole = verdict == FailingDisk::Verdict::succeeds;
    const int done =
        real(file)->pMethods->xWrite(real(file), from, whole ? count : count / 2, offset);
    return whole ? done : code_for(verdict, SQLITE_IOERR_WRITE);
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
    DiskCall call{DiskAct::truncate, disk_file(file).number};
    call.offset = size;
    const auto verdict = disk_file(file).disk->call(std::move(call));
    if (verdict != FailingDisk::Verdict::succeeds) return code_for(verdict, SQLITE_IOERR_TRUNCATE);
    const UnseenCalls unseen;
    return real(file)->pMethods->xTruncate(real(file), size);
}

int sync_file_content(sqlite3_file* file, int) {
    DiskFile& synced = disk_file(file);
    DiskCall call{DiskAct::sync, synced.number};
    call.path = synced.path;
    call.folder_too = synced.folder_not_yet_safe;
    const auto verdict = synced.disk->call(std::move(call));
    // SQLite tries the folder once, whether it works or not.
    synced.folder_not_yet_safe = false;
    return code_for(verdict, SQLITE_IOERR_FSYNC);
}

int file_size(sqlite3_file* file, sqlite3_int64* size) {
    return real(file)->pMethods->xFileSize(real(file), size);
}
int lock_file(sqlite3_file* file, int lock) {
    return real(file)->pMethods->xLock(real(file), lock);
}
int unlock_file(sqlite3_file* file, int lock) {
    return real(file)->pMethods->xUnlock(real(file), lock);
}
int check_lock(sqlite3_file* file, int* held) {
    return real(file)->pMethods->xCheckReservedLock(real(file), held);
}
int control(sqlite3_file* file, int what, void* argument) {
    const UnseenCalls unseen;
    return real(file)->pMethods->xFileControl(real(file), what, argument);
}
int sector_size(sqlite3_file* file) {
    return real(file)->pMethods->xSectorSize(real(file));
}
int characteristics(sqlite3_file* file) {
    return real(file)->pMethods->xDeviceCharacteristics(real(file));
}
int map_memory(sqlite3_file* file, int page, int size, int extend, void volatile** at) {
    const UnseenCalls unseen;
    return real(file)->pMethods->xShmMap(real(file), page, size, extend, at);
}
int lock_memory(sqlite3_file* file, int offset, int count, int flags) {
    return real(file)->pMethods->xShmLock(real(file), offset, count, flags);
}
void memory_barrier(sqlite3_file* file) {
    real(file)->pMethods->xShmBarrier(real(file));
}
int unmap_memory(sqlite3_file* file, int remove) {
    const UnseenCalls unseen;
    return real(file)->pMethods->xShmUnmap(real(file), remove);
}

// Version 2: no xFetch, so that the file's pages are never written through mapped memory.
constexpr sqlite3_io_methods methods{2,
                                     close_file,
                                     read_file,
                                     write_file,
                                     truncate_file,
                                     sync_file_content,
                                     file_size,
                                     lock_file,
                                     unlock_file,
                                     check_lock,
                                     control,
                                     sector_size,
                                     characteristics,
                                     map_memory,
                                     lock_memory,
                                     memory_barrier,
                                     unmap_memory,
                                     nullptr,
                                     nullptr};

int open_on_disk(FailingDisk& disk, const char* path, sqlite3_file* file, int flags, int* granted) {
    DiskFile& opened = disk_file(file);
    const bool creates = ::access(path, F_OK) != 0 && (flags & SQLITE_OPEN_CREATE) != 0;
    if (creates) {
        DiskCall call{DiskAct::create, disk.next_file()};
        call.path = path;
        const auto verdict = disk.call(std::move(call));
        if (verdict != FailingDisk::Verdict::succeeds) return code_for(verdict, SQLITE_CANTOPEN);
    }
    const UnseenCalls unseen;
    const int done = real_vfs->xOpen(real_vfs, path, real(file), flags, granted);
    if (done != SQLITE_OK) return done;
    constexpr int journals = SQLITE_OPEN_MAIN_JOURNAL | SQLITE_OPEN_SUPER_JOURNAL | SQLITE_OPEN_WAL;
    opened =
        DiskFile{{&methods}, &disk, disk.file_at(path), path, creates && (flags & journals) != 0};
    return SQLITE_OK;
}

int open_file(sqlite3_vfs*, const char* path, sqlite3_file* file, int flags, int* granted) {
    FailingDisk* disk = path == nullptr ? nullptr : FailingDisk::of(path);
    file->pMethods = nullptr;
    if (disk != nullptr) return open_on_disk(*disk, path, file, flags, granted);
    return real_vfs->xOpen(real_vfs, path, file, flags, granted);
}

int delete_file(sqlite3_vfs*, const char* path, int sync_folder_too) {
    FailingDisk* disk = FailingDisk::of(path);
    if (disk == nullptr) return real_vfs->xDelete(real_vfs, path, sync_folder_too);
    if (::access(path, F_OK) != 0) return SQLITE_IOERR_DELETE_NOENT;
    DiskCall call{DiskAct::remove, disk->file_at(path)};
    call.path = path;
    call.folder_too = sync_folder_too != 0;
    const auto verdict = disk->call(std::move(call));
    if (verdict != FailingDisk::Verdict::succeeds) return code_for(verdict, SQLITE_IOERR_DELETE);
    const UnseenCalls unseen;
    return real_vfs->xDelete(real_vfs, path, 0);
}

sqlite3_vfs& failing_vfs() {
    static sqlite3_vfs vfs = [] {
        real_vfs = sqlite3_vfs_find(nullptr);
        RODWAY_ASSERT(real_vfs != nullptr);
        sqlite3_vfs made = *real_vfs;
        made.zName = "failing-disk";
        made.szOsFile = static_cast<int>(sizeof(DiskFile)) + real_vfs->szOsFile;
        made.pNext = nullptr;
        made.xOpen = open_file;
        made.xDelete = delete_file;
        return made;
    }();
    return vfs;
}

} // namespace

void put_disk_beneath_sqlite() {
    const int registered = sqlite3_vfs_register(&failing_vfs(), 1);
    RODWAY_ASSERT(registered == SQLITE_OK);
}

void take_disk_from_beneath_sqlite() {
    sqlite3_vfs_unregister(&failing_vfs());
}

} // namespace rodway
