#pragma once

#include <QString>
#include <string>

#include "core/build/edit.h"
#include "db/record_fields.h"

namespace rodway::words {

/// What a kind of record is called: "open item".
[[nodiscard]] QString record_kind(RecordKind kind);

/// What a record is called by: a part's item, a reading's quantity with its position, a step's
/// title. Empty if nothing names it.
[[nodiscard]] QString record_title(RecordKind kind, const FieldTexts& fields);

/// A field's name as words: "handling minutes".
[[nodiscard]] QString field_name(const std::string& field);

} // namespace rodway::words
