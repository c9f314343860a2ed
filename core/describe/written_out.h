#pragma once

#include <map>
#include <string>

#include "core/base/result.h"
#include "core/build/records.h"

namespace rodway {

/// A described set-up as fields of places.
struct WrittenOut {
    SetUpFields fields; ///< without what is described
    /// Of a field that was made, the path of the size it stands for: what is wrong with the one is
    /// to be told of the other.
    std::map<std::string, std::string> made_from;
};

/// Works out from what a builder measured (`core/describe/dimension.h`) where everything sits.
/// Nothing of it is stored: a set-up keeps what was typed. A field of places that stands in the
/// set-up itself goes before the one worked out, so that a part of an engine may be told otherwise
/// (a fitted tube, one valve's odd rod).
///
/// The lifter's axis goes through the camshaft's; the rocker turns about the crank's direction; the
/// ball stands as far along it as its offset says, and across it where arm and rod meet, towards
/// the rods; the tip as high above the
/// shaft as measured, on the other side; the adjuster along the rod on the heel; the tube where its
/// gaps put it.
///
/// Errors, `field` a path: missing_field for a dimension that has to be given; those of
/// `Description`; out_of_range for a rod that can't reach from seat to arm, an arm shorter than it
/// stands high, a camshaft in the cylinders' plane, gaps larger than the room in the tube.
Result<WrittenOut> written_out(const SetUpFields& fields);

} // namespace rodway
