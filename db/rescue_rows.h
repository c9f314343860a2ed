#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <QByteArray>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "db/build_records.h"
#include "db/rescue_copy.h"

namespace rodway {

/// Rows of the history as they stand in the file, salts and digests too.
struct RescuedAct {
    std::string who;
    std::string when_utc;
    std::optional<std::int64_t> undoes;
    QByteArray salt;
};
struct RescuedEdit {
    std::optional<std::int64_t> build_id;
    std::string record_kind;
    std::int64_t record_id = 0;
    std::string field;
    std::optional<std::string> before;
    std::optional<std::string> after;
    QByteArray salt;
    QByteArray erased_digest;
};

using NumberPair = std::pair<std::int64_t, std::int64_t>;

/// All that can be read of a damaged shop file, in no way judged.
struct RescuedRows {
    std::map<std::int64_t, RescuedAct> acts;
    std::map<NumberPair, RescuedEdit> edits; ///< by act and ordinal
    std::map<NumberPair, QByteArray> links;  ///< by build and act
    RecordTexts records;
    bool history_whole = true;   ///< whether acts, edits and links were read without damage
    std::set<RecordKind> whole;  ///< kinds whose table was read without damage
    bool geometry_whole = true;  ///< whether every field of every set-up was
    std::int64_t newest_act = 0; ///< as SQLite counts them; 0 if that can't be read
};

/// Reads each table from its beginning up to the damage, from its end back to it, and in between
/// what other tables name.
[[nodiscard]] RescuedRows read_rows(RescueCopy& copy);

} // namespace rodway
