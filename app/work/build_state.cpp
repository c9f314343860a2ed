#include "app/work/build_state.h"

#include <algorithm>

#include "app/work/clock.h"
#include "app/work/shop_day.h"
#include "core/clearance/survey.h"
#include "db/build_facts.h"

namespace rodway {
namespace {

template <typename Record>
const Record* with_id(const std::vector<Record>& records, std::int64_t id) {
    const auto found = std::find_if(records.begin(), records.end(),
                                    [id](const Record& record) { return record.id == id; });
    return found == records.end() ? nullptr : &*found;
}

/// Nothing where there is no engine, or its castings don't fit together.
std::optional<std::vector<ClearanceStanding>> clearances_of(const Engine* engine) {
    if (engine == nullptr) {
        return std::nullopt;
    }
    const auto lines = survey(*engine);
    if (!lines) {
        return std::nullopt;
    }
    return clearance_standings(*lines, engine->rod_clearance_limit_mm);
}

} // namespace

Moment Moment::present() {
    return at(rodway::now_utc());
}

Moment Moment::at(const std::string& utc) {
    return {utc, shop_day(utc).day};
}

const Stage* BuildState::stage(std::int64_t id) const {
    return with_id(facts.records.stages, id);
}

const Step* BuildState::step(std::int64_t id) const {
    return with_id(facts.records.steps, id);
}

const PartRecord* BuildState::part(std::int64_t id) const {
    return with_id(facts.records.parts, id);
}

Result<BuildState> load_build_state(ShopFile& shop, std::int64_t build_id, const Moment& moment) {
    auto records = load_build_facts(shop, build_id);
    if (!records) {
        return records.error();
    }
    const auto sheets = BuildSheets::load(shop, build_id);
    if (!sheets) {
        return sheets.error();
    }
    std::vector<SheetStanding> standings;
    for (const SheetKind& kind : sheets->kinds()) {
        standings.push_back(sheet_standing(sheets->assess(kind, EntryOrder::by_number)));
    }
    BuildState state;
    state.facts = hold_facts(std::move(records).value(), std::move(standings),
                             clearances_of(sheets->engine()), moment.now_utc, moment.today);
    state.holds = holds_of_build(state.facts);
    state.stages = stage_states(state.facts);
    state.next = next_thing(state.facts);
    state.own_titles = sheets->own_titles();
    return state;
}

} // namespace rodway
