#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace rodway {

/// The calls by which anything on a disk changes or becomes safe.
enum class DiskAct { create, write, truncate, sync, move, remove, make_folder, sync_folder };

/// One such call, as it came. Paths are absolute. A file is known by a number of its own, for it
/// may change its name while it is open.
struct DiskCall {
    DiskAct act;
    int file = 0;            ///< of all acts on files
    std::string path{};      ///< the name in question; the old one of a move
    std::string target{};    ///< the new name of a move
    std::int64_t offset = 0; ///< where a write begins; the size after a truncate
    std::string bytes{};     ///< of a write; if it failed, what reached the file before
    bool folder_too = false; ///< a sync or removal that brings the names in its folder to the disk
    bool failed = false;     ///< answered an error
};

/// What stands on a disk.
struct DiskContents {
    static constexpr int folder = 0; ///< in place of a file's number

    std::map<std::string, int> names;
    std::map<int, std::string> bytes;
};

/// All that a disk was asked to do, in order.
struct DiskJournal {
    DiskContents start; ///< safely on the disk before the first call
    std::vector<DiskCall> calls;

    /// What the disk may hold when the power goes after `finished` calls, while the next one is
    /// under way: all that was synced, and of the rest what the seed decides. Seeds divisible by
    /// four lose everything unsynced; one above keeps all; two above keeps what came first; three
    /// above keeps, drops or tears each write by itself, so that later ones outlive earlier ones.
    ///
    /// - A sync makes safe what was written to that file, not its name. Names become safe when
    ///   their folder is synced; until then each may have its old meaning or a newer one. Moving a
    ///   name within one folder is never half done.
    /// - A write may be torn at each boundary of 512 bytes, and one of its sectors may hold
    ///   anything. Bytes outside the written range stay.
    /// - What a failed sync was to make safe stays in doubt for ever: the system may have given the
    ///   pages up as written, so that a later sync no longer sees them.
    [[nodiscard]] DiskContents after_power_cut(std::size_t finished, unsigned seed) const;
};

} // namespace rodway
