#pragma once

#include <optional>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/hold.h"

namespace rodway {

/// What is said when a hold is waived.
struct WaiverWords {
    std::string reason;
    bool customer_told = false;
    std::optional<std::string> until = {}; ///< ISO day, the last on which it is waived
    std::string by = {};                   ///< who answers for it; empty: who works here
};

/// Waives one hold of a build in the name of who works here, now: one act. `holds`: those of the
/// build or of the stage, as it stands now; `key`: the hold's.
/// Errors: those of `waiver_of`, so that contact is refused; not_a_date "until"; those of
/// `ShopSession::create`.
Result<std::int64_t> waive(ShopSession& session, std::int64_t build_id, const Holds& holds,
                           const std::string& key, const WaiverWords& words);

} // namespace rodway
