#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/error.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// Which reading the field of a core error stands for, and how the error's numbers become the
/// reading's: times `factor`, plus `offset`.
struct ReadingOfField {
    std::string_view field;
    std::string_view reading; ///< quantity
    double factor = 1.0;
    double offset = 0.0;
};

/// Adds a finding; one that says the same already only takes over the new positions.
void point_out(SheetFinding finding, SheetOutcome& outcome);

/// Points out the reading for which core would not work out `figure`. Nothing if none of `fields`
/// is the error's, or if the error is not about how great a number is.
void point_out_refused(const Error& error, std::string_view figure, const std::string& position,
                       const std::vector<ReadingOfField>& fields, SheetOutcome& outcome);

/// Points out that `figure` can't be worked out for want of a reading.
void point_out_needed(std::string_view figure, const std::string& position,
                      std::string_view reading, SheetOutcome& outcome);

} // namespace rodway
