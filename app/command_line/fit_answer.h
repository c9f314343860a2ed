#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/command_line/build_commands.h"
#include "app/edit_stack/shop_session.h"
#include "app/words/gap_words.h"
#include "core/clearance/passage_place.h"

namespace rodway {

struct FitOptions : BuildOptions {
    std::string valve;
    std::string passage = "tube";
    std::string sideways;
    std::string lean;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    bool keep = false;
};

/// What was fitted, and all that it takes to say what came of it.
struct FitAnswer {
    BuildInHand hand;
    std::vector<SetUpRecord> set_ups;
    FitRequest request;
    std::vector<KeptGap> used;
    std::vector<KeptGap> left_out; ///< of this valve, or of none that can be read
    ReadingFit fit;
    std::optional<QString> kept_as; ///< the set-up into which the place was written

    [[nodiscard]] const Train& train() const { return *hand.engine.train(request.valve); }
    [[nodiscard]] const Passage& passage() const { return *find_passage(train(), request.passage); }
};

/// A ± that holds 19 times in 20 is two standard deviations.
inline constexpr double two_sided_95 = 2.0;

/// All that a fit needs, read from the shop; `fit` is still empty.
/// Errors: those of reading the shop, no_such_record, and what is wrong with an option, by its
/// name.
Result<FitAnswer> prepared_fit(ShopFile& shop, const FitOptions& options);

/// The same with the fit worked out: it reads nothing but what it is given. Errors: as
/// `fit_readings`.
Result<FitAnswer> with_fit(FitAnswer prepared);

/// Whether a place fits, and may be kept.
[[nodiscard]] bool has_fitted_place(const ReadingFit& fit);

/// Writes the first place that fits into a new set-up, which becomes the one in hand, as one act.
/// The set-up's name. Errors: as `fields_at_pose`, and those of writing the shop.
Result<QString> keep_fitted_place(ShopSession& session, const FitAnswer& answer);

/// Fits the passage to what is kept of its valve.
/// Errors: those of reading the shop, no_such_record, and what is wrong with an option, by its
/// name.
Result<FitAnswer> fitted_answer(ShopFile& shop, const FitOptions& options);

/// ± of what is in doubt beside the passage's own place, which the readings fix.
struct RestOfEngine {
    std::optional<double> doubt_mm;
    bool worked_out = false; ///< from what the set-up states; else as it assumes
};

[[nodiscard]] RestOfEngine rest_of_engine(const FitAnswer& answer, const FittedPose& pose);

/// The ± of a predicted minimum: the place's and that of the rest, combined by squares (JCGM 100,
/// 5.1.2: they have nothing to do with each other). Nothing if either isn't known.
[[nodiscard]] std::optional<double> whole_doubt_mm(const FitAnswer& answer, const FittedPose& pose);

/// What the least clearance can't be more than, by the tightest gap that was felt and the hand's
/// own ±: no gap is less than the clearance. Empty if every reading only says that a gauge goes.
[[nodiscard]] std::optional<double> felt_at_most_mm(const FitAnswer& answer);

/// Of a pose that fits. A reading 'touch' is contact whatever is computed, and a gap felt to be
/// under the limit fails.
[[nodiscard]] std::optional<Verdict> verdict_of(const FitAnswer& answer, const FittedPose& pose);

/// How the passage's two mouths move with a pose, towards 12 and towards 3 o'clock.
struct MouthsMoved {
    Vec2 top_mm;
    Vec2 bottom_mm;
};

[[nodiscard]] MouthsMoved mouths_moved(const PassagePose& pose, const Bore& bore);

} // namespace rodway
