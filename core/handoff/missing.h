#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/build/build_facts.h"
#include "core/build/records.h"
#include "core/clearance/verdict.h"
#include "core/engine/valve_position.h"
#include "core/handoff/settings_card.h"
#include "core/sheets/taken_readings.h"

namespace rodway {

/// What a whole book would want and a build's records don't have.
enum class MissingKind {
    rod_touches,         ///< `subject` the valves: a rod that touches what it passes
    rod_fails,           ///< `subject` the valves: under the limit
    rod_undecided,       ///< `subject` the valves: too close to call, or without a verdict
    shop_name,           ///< who built the engine
    customer,            ///< no record of the customer is tied to the build
    engine,              ///< no set-up, or one that makes no engine: no valvetrain in the book
    settings,            ///< nothing is known of a topic of the settings card
    sheet_incomplete,    ///< `subject` the kind: begun, and `count` boxes are empty
    stage_unsigned,      ///< `record` the stage: work was done in it, and nobody signed it off
    sign_off_overtaken,  ///< `record` the stage: something has changed since it was signed
    part_without_size,   ///< `record` the part: fitted, and nobody wrote its size or marking
    service_dates,       ///< when to come back, and for what
    seals,               ///< numbers of seals and heat tabs
    no_pull,             ///< the engine wasn't on a dyno, or nothing was written down
    no_photo,            ///< none is chosen for the book
    photo_without_words, ///< `record` the photo: chosen, without a caption
    photo_gone,          ///< `record` the photo: chosen, and its file isn't there
    question_open,       ///< `record` the approval: the customer hasn't answered
};

[[nodiscard]] inline bool is_of_rods(MissingKind kind) {
    return kind == MissingKind::rod_touches || kind == MissingKind::rod_fails ||
           kind == MissingKind::rod_undecided;
}

struct MissingFact {
    MissingKind kind = MissingKind::shop_name;
    std::optional<RecordRef> record = {};
    std::string subject = {};
    SettingsTopic topic = SettingsTopic::lash; ///< of `settings`
    int count = 0;
};

/// What is looked at.
struct HandoffRecords {
    const HoldFacts& work;
    const std::vector<ShopDetail>& shop;
    const std::vector<Photo>& photos;
    const std::vector<std::int64_t>& photos_gone; ///< ids of photos whose file isn't there
    const TakenReadings& readings;
    bool has_engine = false;
    /// How each valve's rod stands, by computation and by hand; empty where nothing can be said.
    const std::vector<std::pair<ValvePosition, std::optional<Verdict>>>& rods;
    std::optional<std::string> service_dates = {}; ///< as they are to be given
};

/// In the order of `MissingKind`, each with the records it is of by id.
[[nodiscard]] std::vector<MissingFact> missing_for_book(const HandoffRecords& records);

} // namespace rodway
