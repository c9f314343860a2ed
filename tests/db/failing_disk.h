#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>

#include "tests/db/disk_journal.h"

namespace rodway {

/// How a disk lets the program down.
enum class Mishap {
    none,
    fails_once,    ///< one call answers an I/O error
    fails_from_on, ///< that call and all later ones do
    full,          ///< from that call on there is no room for writes, new files and new folders
};

/// What a program would have left out: the harness must see the loss, else it sees nothing.
enum class Neglect {
    nothing,
    file_syncs,   ///< `fsync` of a file does nothing, outside of SQLite
    folder_syncs, ///< `fsync` of a folder does nothing, outside of SQLite
};

/// Stands beneath everything the program does below one folder, and numbers each call that writes,
/// syncs, creates, renames or removes: SQLite's come through a VFS that is the default while the
/// disk is mounted, all others (`db/durable_file`, Qt's files and folders) through the system calls
/// that this test program puts before the C library's. The files are real ones, so that locks,
/// shared memory and reading work as ever; only syncs go nowhere, for the journal plays the disk.
///
/// One disk at a time, and all files on it must be closed before it goes. What maps memory or
/// copies inside the kernel isn't seen; files written that way would be lost at every power cut.
class FailingDisk {
  public:
    /// All that stands in `folder` (absolute, no links) is safe.
    explicit FailingDisk(const std::string& folder, Neglect neglect = Neglect::nothing);
    FailingDisk(const FailingDisk&) = delete;
    FailingDisk& operator=(const FailingDisk&) = delete;
    ~FailingDisk();

    /// Something goes wrong at the call of this number, counted from 0.
    void strike(Mishap mishap, std::size_t at_call);
    /// From now on all calls succeed.
    void mend();
    /// Whether a call has failed.
    [[nodiscard]] bool has_struck() const { return struck_; }

    /// Number of calls so far.
    [[nodiscard]] std::size_t calls() const { return journal_.calls.size(); }
    [[nodiscard]] const DiskJournal& journal() const { return journal_; }

    // What follows is for the VFS and the system calls.

    /// The mounted disk if `path` lies on it and is kept: shared memory isn't.
    [[nodiscard]] static FailingDisk* of(std::string_view path);
    [[nodiscard]] static FailingDisk* of_descriptor(int descriptor);

    enum class Verdict { succeeds, io_error, no_room };
    /// Enters a call in the journal and says whether it succeeds. Of a write that fails, the first
    /// half reaches the file.
    Verdict call(DiskCall call);
    [[nodiscard]] bool overlooks_sync(int file) const;

    /// Number of the file that has this name now; 0 for a folder.
    [[nodiscard]] int file_at(const std::string& path) const;
    [[nodiscard]] bool has(const std::string& path) const;
    [[nodiscard]] int next_file() { return ++last_file_; }

    struct Open {
        int file;
        std::string path; ///< as it was opened
    };
    std::map<int, Open> descriptors; ///< files opened by system calls, but for SQLite's

  private:
    [[nodiscard]] Verdict verdict_on(DiskAct act);

    DiskJournal journal_;
    std::map<std::string, int> names_; ///< as the program sees them
    int last_file_ = 0;
    std::string root_;
    Neglect neglect_;
    Mishap mishap_ = Mishap::none;
    std::size_t at_call_ = 0;
    bool struck_ = false;
};

/// While one lives, system calls go to the system unseen: the VFS has already told the disk.
class UnseenCalls {
  public:
    UnseenCalls();
    UnseenCalls(const UnseenCalls&) = delete;
    UnseenCalls& operator=(const UnseenCalls&) = delete;
    ~UnseenCalls();
    [[nodiscard]] static bool now();
};

/// While one lives, syncs of what isn't on the disk return at once: nobody pulls the plug there.
class IdleSyncs {
  public:
    IdleSyncs();
    IdleSyncs(const IdleSyncs&) = delete;
    IdleSyncs& operator=(const IdleSyncs&) = delete;
    ~IdleSyncs();
    [[nodiscard]] static bool now();
};

/// Makes SQLite open files through the failing disk, and no longer.
void put_disk_beneath_sqlite();
void take_disk_from_beneath_sqlite();

/// Writes `contents` below `to` in place of the folder `from`; what is there goes.
void lay_out(const DiskContents& contents, const std::string& from, const std::string& to);

} // namespace rodway
