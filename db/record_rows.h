#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <map>
#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/connection.h"

namespace rodway {

/// The fields of one record as Edits write them. A record that is there has "exists" = "1"; one
/// that is not there has no fields at all. An absent field is not in the map.
using FieldTexts = std::map<std::string, std::string>;

Result<FieldTexts> stored_fields(Connection& connection, const RecordRef& record);

/// All records of one kind, by id.
Result<std::map<std::int64_t, FieldTexts>> all_stored_fields(Connection& connection,
                                                             RecordKind kind);

/// Brings the stored record from `before` to `after`, which have passed all checks.
Result<Done> insert_record(Connection& connection, const RecordRef& record,
                           const FieldTexts& after);
Result<Done> update_record(Connection& connection, const RecordRef& record,
                           const FieldTexts& before, const FieldTexts& after);
Result<Done> remove_record(Connection& connection, const RecordRef& record);

/// A record that refers to this one, if any does.
Result<std::optional<RecordRef>> dependant_of(Connection& connection, const RecordRef& record);

} // namespace rodway
