#pragma once

#include <map>
#include <string>

#include "core/cam/lobe.h"

namespace rodway {

/// Lobes made before, by what they were made of. Smoothing a lift table takes milliseconds, more
/// than all the rest of an engine, and most changes to a set-up leave its lobes alone. For one
/// thread at a time.
class LobesMade {
  public:
    /// Nothing if none was made of this.
    [[nodiscard]] const Lobe* find(const std::string& made_of) const {
        const auto found = kept_.find(made_of);
        return found == kept_.end() ? nullptr : &found->second;
    }
    void keep(const std::string& made_of, const Lobe& lobe) {
        // An engine has a few; many edits of one table shouldn't pile up.
        constexpr std::size_t most = 64;
        if (kept_.size() >= most) {
            kept_.clear();
        }
        kept_.emplace(made_of, lobe);
    }

  private:
    std::map<std::string, Lobe> kept_;
};

} // namespace rodway
