#include "app/work/waivers.h"

#include "app/work/typed_day.h"
#include "core/build/stage_sign_off.h"
#include "core/build/word_list.h"
#include "db/record_fields.h"

namespace rodway {

Result<std::int64_t> waive(ShopSession& session, std::int64_t build_id, const Holds& holds,
                           const std::string& key, const WaiverWords& words) {
    auto begun = waiver_of(holds, key, words.reason);
    if (!begun) {
        return begun.error();
    }
    Waiver waiver = std::move(begun).value();
    const auto until = typed_day(words.until, "until");
    if (!until) {
        return until.error();
    }
    waiver.build_id = build_id;
    waiver.customer_told = words.customer_told;
    waiver.until = *until;
    const std::string by = without_blanks(words.by);
    waiver.waived_by = by.empty() ? session.who().toStdString() : by;
    waiver.waived_at = session.now();
    return session.create(
        RecordKind::waiver,
        [&](std::int64_t id) {
            waiver.id = id;
            return edits_to_create(waiver);
        },
        QObject::tr("waiver"));
}

} // namespace rodway
