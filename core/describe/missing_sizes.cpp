#include "core/describe/missing_sizes.h"

#include <set>

namespace rodway {

std::vector<MissingSize> missing_sizes(const Description& description, const SetUpFields& fields) {
    std::vector<MissingSize> missing;
    std::set<std::string> seen;
    for (const EngineDimension& dimension : dimensions()) {
        for (const DescribedValve& valve : description.valves()) {
            if (!description.has(dimension, valve)) {
                continue;
            }
            const auto size = description.size(dimension, valve);
            if (!size || size->stand != SizeStand::missing) {
                continue;
            }
            // Gaps stand of themselves as soon as bore and rod do; nobody has to give them.
            const std::string path = described_path(size->owner, dimension);
            if (dimension.owner != DimensionOwner::valve && seen.insert(path).second) {
                missing.push_back({&dimension, size->owner, path});
            }
        }
    }
    for (const std::string kind : {"intake", "exhaust"}) {
        const std::string lobe = "lobes/" + kind;
        for (const char* leaf : {"/lash", "/centreline"}) {
            if (!fields.contains(lobe + leaf)) {
                missing.push_back({nullptr, kind, lobe + leaf});
            }
        }
        const bool card =
            fields.contains(lobe + "/card/peak_lift") && fields.contains(lobe + "/card/durations");
        if (!card && !fields.contains(lobe + "/lift_table")) {
            missing.push_back({nullptr, kind, lobe + "/lift_table"});
        }
    }
    return missing;
}

} // namespace rodway
