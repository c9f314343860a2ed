#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace rodway {

// A whole build on its way from one shop to another. Kinds of record go by their words, and ids are
// the transfer's own: every kind counts from 1 in the order in which the history first names its
// records, so that one build gives one transfer whatever the numbers in its shop are. `line` is
// where something stood in the file it was read from, 0 if it was read from none.

/// A record as it is now.
struct TransferRecord {
    std::string kind;
    std::int64_t id = 0;
    std::map<std::string, std::string> fields; ///< as Edits write them, with "exists"
    /// A record of the shop that the history names and that is gone: as it was last.
    bool removed = false;
    int line = 0;
};

struct TransferEdit {
    std::string kind;
    std::int64_t id = 0;
    std::string field;
    std::optional<std::string> before;
    std::optional<std::string> after;
    int line = 0;
};

/// Acts are numbered from 1.
struct TransferAct {
    std::string who;
    std::string when_utc;
    std::optional<std::int64_t> undoes;
    std::vector<TransferEdit> edits;
    int line = 0;
};

struct TransferPhoto {
    std::string digest;              ///< SHA-256, 64 hexadecimal digits
    std::optional<std::string> file; ///< name in the folder's `photos`; nothing: it was lost before
    int line = 0;
};

struct BuildTransfer {
    std::vector<TransferRecord> shop; ///< records of the shop as a whole that the build refers to
    std::vector<TransferAct> history;
    std::vector<TransferRecord> records; ///< what the history leads to, by kind and id
    std::vector<TransferPhoto> photos;   ///< by digest
};

} // namespace rodway
