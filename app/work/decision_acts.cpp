#include "app/work/decision_acts.h"

#include "core/build/part_check.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

Result<std::string> needed_line(const std::string& text, const char* field) {
    auto line = kept_line(text, field);
    if (line && line->empty()) {
        return Error{ErrorCode::empty_text, field, {}, {}, {}, {}};
    }
    return line;
}

} // namespace

Result<std::int64_t> add_decision(ShopSession& session, Decision decision) {
    const auto question = needed_line(decision.question, "question");
    const auto choice = needed_line(decision.choice, "choice");
    const auto reason = kept_line(decision.reason.value_or(std::string()), "reason");
    for (const auto* typed : {&question, &choice, &reason}) {
        if (!*typed) {
            return typed->error();
        }
    }
    decision.question = *question;
    decision.choice = *choice;
    decision.reason = reason->empty() ? std::nullopt : std::optional(*reason);
    decision.decided_by = session.who().toStdString();
    decision.decided_at = session.now();
    return session.create(
        RecordKind::decision,
        [&](std::int64_t id) {
            decision.id = id;
            return edits_to_create(decision);
        },
        QObject::tr("decision"));
}

} // namespace rodway
