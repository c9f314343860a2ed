#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/sheets/kinds/degreed_lobes.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// One lobe's centreline by both methods, which differ on an asymmetric lobe.
struct LobeCentrelines {
    std::string lobe; ///< as kept ("3I")
    std::optional<DoubtedCentreline> from_heel;
    std::optional<DoubtedCentreline> from_peak;
};

/// How far up the lobe a pair of marks stands: nearer to its heel or to its nose. Without the
/// lobe's lift only the customary heights above the heel, up to .100 in, can be told.
[[nodiscard]] std::optional<CentrelineMethod> method_of(const SheetFacts& facts,
                                                        const DegreedLobe& lobe);

/// Every lobe that was degreed, in the order first written. By either method the pair of marks
/// nearest to .050 in counts, else the lift table there; nothing without the wheel's zero.
[[nodiscard]] std::vector<LobeCentrelines> lobe_centrelines(const SheetFacts& facts,
                                                            const std::vector<DegreedLobe>& pairs,
                                                            const std::optional<WheelZero>& zero);

/// The centreline that is compared with the card: as written, else from the heel, else from the
/// peak.
[[nodiscard]] std::optional<DoubtedCentreline> to_compare(const TakenReadings& readings,
                                                          const LobeCentrelines& lobe);

} // namespace rodway
