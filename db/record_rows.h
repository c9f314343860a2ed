#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <map>
#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/build_records.h"
#include "db/connection.h"

namespace rodway {

/// Which rows of a table: a condition in SQL and the number that is bound to its "?".
struct Selection {
    QString condition;
    std::optional<std::int64_t> number;
};

/// Records of one kind by id.
Result<std::map<std::int64_t, FieldTexts>> stored_fields_where(Connection& connection,
                                                               RecordKind kind,
                                                               const Selection& selection);

Result<FieldTexts> stored_fields(Connection& connection, const RecordRef& record);

/// The records of one kind that belong to a build, or to the shop as a whole, by id.
Result<std::map<std::int64_t, FieldTexts>> stored_fields_of_build(Connection& connection,
                                                                  RecordKind kind,
                                                                  std::int64_t build_id);

/// Brings the stored record from `before` to `after`, which have passed all checks.
Result<Done> insert_record(Connection& connection, const RecordRef& record,
                           const FieldTexts& after);
Result<Done> update_record(Connection& connection, const RecordRef& record,
                           const FieldTexts& before, const FieldTexts& after);
Result<Done> remove_record(Connection& connection, const RecordRef& record);

/// A record that refers to this one, if any does.
Result<std::optional<RecordRef>> dependant_of(Connection& connection, const RecordRef& record);

} // namespace rodway
