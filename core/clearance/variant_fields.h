#pragma once

#include "core/build/set_up_record.h"
#include "core/clearance/variant.h"

namespace rodway {

/// The set-up that `engine` was made of, with a variant made: new texts for the sizes that it
/// changes, all else untouched. Lengths keep their unit, and are written to 0.0001 mm or
/// 0.00001 in.
/// Errors: as `with_variant` and `make_engine`; not_of_this_kind for what no size of the set-up
/// says: more lash or lobe lift (the rocker stands as it was found, a lobe as it was measured), the
/// thickness of a rod that is given by its profile, a head gasket that nobody stated.
Result<SetUpFields> fields_with_variant(const SetUpFields& fields, const Engine& engine,
                                        const Variant& variant);

} // namespace rodway
