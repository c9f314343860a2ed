#include "core/sheets/kept_gaps.h"

#include <algorithm>
#include <map>

#include "core/clearance/stale_readings.h"

namespace rodway {
namespace {

KeptGap kept_gap(const Reading& reading, const std::vector<SetUpRecord>& set_ups,
                 const SetUpRecord* in_hand) {
    KeptGap kept;
    kept.reading = reading;
    const auto gap = read_rod_gap(reading);
    if (!gap) {
        kept.standing = GapStanding::not_readable;
        kept.error = gap.error();
        return kept;
    }
    kept.gap = *gap;
    const auto taken_in =
        std::find_if(set_ups.begin(), set_ups.end(),
                     [&](const SetUpRecord& set_up) { return set_up.id == reading.set_up_id; });
    if (!in_hand || taken_in == set_ups.end()) {
        kept.standing = GapStanding::set_up_not_known;
        return kept;
    }
    kept.stale_fields = stale_by(taken_in->fields, in_hand->fields, *gap);
    if (!kept.stale_fields.empty()) {
        kept.standing = GapStanding::stale;
    }
    return kept;
}

} // namespace

std::vector<KeptGap> kept_gaps(const std::vector<Reading>& readings,
                               const std::vector<SetUpRecord>& set_ups) {
    const auto newest =
        std::max_element(set_ups.begin(), set_ups.end(),
                         [](const SetUpRecord& a, const SetUpRecord& b) { return a.id < b.id; });
    const SetUpRecord* in_hand = newest == set_ups.end() ? nullptr : &*newest;
    std::vector<KeptGap> all;
    std::map<std::string, std::int64_t> last;
    for (const Reading& reading : readings) {
        if (reading.quantity != rod_gap_quantity) {
            continue;
        }
        all.push_back(kept_gap(reading, set_ups, in_hand));
        if (all.back().standing == GapStanding::holds) {
            last[reading.position] = reading.id;
        }
    }
    for (KeptGap& kept : all) {
        if (kept.standing == GapStanding::holds && last[kept.reading.position] != kept.reading.id) {
            kept.standing = GapStanding::taken_again;
            kept.taken_again_in = last[kept.reading.position];
        }
    }
    return all;
}

} // namespace rodway
