#include "app/work/sign_offs.h"

#include <QCoreApplication>

#include "core/build/stage_sign_off.h"
#include "core/build/word_list.h"
#include "db/record_fields.h"

namespace rodway {

Result<std::int64_t> sign_off(ShopSession& session, const HoldFacts& facts, std::int64_t stage_id,
                              const std::optional<std::string>& note, const std::string& at) {
    const Signature signature{session.who().toStdString(), at.empty() ? session.now() : at,
                              QCoreApplication::applicationVersion().toStdString(), note};
    auto kept = sign_offs_to_keep(facts, stage_id, signature);
    if (!kept) {
        return kept.error();
    }
    std::vector<SignOff> records = std::move(kept).value();
    const auto first = session.create(
        RecordKind::sign_off,
        [&](std::int64_t id) {
            std::vector<Edit> edits;
            for (SignOff& record : records) {
                record.id = id++;
                for (Edit& edit : edits_to_create(record)) {
                    edits.push_back(std::move(edit));
                }
            }
            return edits;
        },
        QObject::tr("sign-off"));
    if (!first) {
        return first.error();
    }
    return records.back().id;
}

Result<Act> take_back_sign_off(ShopSession& session, const BuildFacts& records,
                               std::int64_t stage_id, const std::string& reason) {
    const auto signed_off = sign_offs_of_stage(records, stage_id);
    if (signed_off.empty()) {
        return Error{ErrorCode::no_such_record, "sign_off", std::to_string(stage_id), {}, {}, {}};
    }
    if (without_blanks(reason).empty()) {
        return Error{ErrorCode::empty_text, "reason", {}, {}, {}, {}};
    }
    std::vector<Edit> edits;
    for (const SignOff& before : signed_off) {
        SignOff after = before;
        after.withdrawn_by = session.who().toStdString();
        after.withdrawn_at = session.now();
        after.withdrawn_reason = without_blanks(reason);
        for (Edit& edit : edits_to_change(before, after)) {
            edits.push_back(std::move(edit));
        }
    }
    return session.act(std::move(edits), QObject::tr("sign-off taken back"));
}

} // namespace rodway
