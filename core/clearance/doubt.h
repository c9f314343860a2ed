#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/clearance/causes.h"
#include "core/clearance/engine_doubt.h"

namespace rodway {

enum class DoubtKind {
    lash_float,
    end_float,
    seat_off_axis,
    rod_bow,
    lifter_bore_slop,
    leak_down,
    input, ///< one input's standard uncertainty: twice it, combined with the others' by squares
    fit,   ///< of places that were fitted to readings
};

/// One thing's share: how much it may take from the clearance, and how much it may give; mm, both
/// not below 0. Of an input, what it would be if it were the only one.
struct DoubtContribution {
    DoubtKind kind = DoubtKind::input;
    std::optional<EngineParameter> input;
    double size = 0.0; ///< as stated, mm or rad
    DoubtSource source = DoubtSource::assumed;
    double takes_mm = 0.0;
    double gives_mm = 0.0;
};

/// The doubt of one minimum, at about 95 %. Intervals are added, inputs combined by squares and
/// doubled (JCGM 100, 6.2; the two sums are added).
struct ClearanceDoubt {
    double minus_mm = 0.0; ///< U-: the clearance may be less by so much
    double plus_mm = 0.0;  ///< U+: or more
    std::size_t place = 0; ///< which place U- is of
    /// Chance, 0 to 1, that the clearance reaches the engine's limit: for a minimum that is too
    /// close to call. See `chance_of_conformance`.
    double chance_of_limit = 0.0;
    std::vector<DoubtContribution> contributions; ///< at that place, largest first

    /// The larger: the ± that people are shown, and the guard band of the verdict.
    [[nodiscard]] double guard_band_mm() const;
};

/// An input's standard uncertainty and how the result goes with it.
struct UncertainInput {
    double sensitivity = 0.0;
    double standard_uncertainty = 0.0;
};
/// √Σ(cᵢ·uᵢ)², for inputs that have nothing to do with each other. Source: JCGM 100:2008, 5.1.2.
[[nodiscard]] double combined_standard_uncertainty(const std::vector<UncertainInput>& inputs);

/// The chance, 0 to 1, that a clearance reaches a limit, its doubt being twice a normal standard
/// uncertainty. Source: JCGM 106:2012, 7.3. Needs a doubt above 0.
[[nodiscard]] double chance_of_conformance(double clearance_mm, double limit_mm, double doubt_mm);

/// The ± of a minimum, mm: worked out of what is stated, else assumed as a whole; where the nearest
/// passage was fitted to readings, with what they leave open of its place (by squares). `near`: the
/// name of what is nearest. Empty if nobody has stated anything.
[[nodiscard]] std::optional<double> minimum_doubt_mm(const Engine& engine, const Train& train,
                                                     const std::optional<ClearanceDoubt>& doubt,
                                                     std::string_view near);

/// The doubt of a minimum at `places[0]`. A passage that was fitted to readings takes what they
/// leave open of its place instead of what is stated of places. The other places are of the same
/// rod, with more clearance: where their own doubt is so large that one of them may be the least,
/// it counts. `more` are contributions from elsewhere that act at every place, such as a fit's.
/// Empty if nothing that is stated acts on this train: then no doubt is known.
[[nodiscard]] std::optional<ClearanceDoubt> doubt_at(
    const Engine& engine, const Train& train, const Linkage& linkage,
    const std::vector<ClearancePlace>& places, const EngineDoubt& stated,
    const std::vector<DoubtContribution>& more = {});

/// The same of a train and everything beside its rod: at the minimum that decides, and on the heel,
/// at full lift and at the minimum beside all of it. `all` are the `certified_minima` of
/// `surroundings`. Empty as well if a minimum is missing.
[[nodiscard]] std::optional<ClearanceDoubt> doubt_of(
    const Engine& engine, const Train& train, const TrainSurroundings& surroundings,
    const std::vector<CertifiedMinimum>& all, const EngineDoubt& stated,
    const std::vector<DoubtContribution>& more = {});

} // namespace rodway
