#include "app/work/open_item_acts.h"

#include "app/work/typed_day.h"
#include "core/build/word_list.h"
#include "db/record_fields.h"

namespace rodway {

Result<std::int64_t> add_open_item(ShopSession& session, OpenItem item) {
    item.title = without_blanks(item.title);
    if (item.title.empty()) {
        return Error{ErrorCode::empty_text, "title", {}, {}, {}, {}};
    }
    const auto due = typed_day(item.due, "due");
    if (!due) {
        return due.error();
    }
    item.due = *due;
    item.opened_by = session.who().toStdString();
    item.opened_at = session.now();
    return session.create(
        RecordKind::open_item,
        [&](std::int64_t id) {
            item.id = id;
            return edits_to_create(item);
        },
        QObject::tr("open item"));
}

Result<Act> close_open_item(ShopSession& session, const OpenItem& item,
                            const std::string& outcome) {
    if (item.closed_at) {
        return Error{
            ErrorCode::not_of_this_kind, "open_item", std::to_string(item.id), "closed", {}, {}};
    }
    OpenItem after = item;
    after.outcome = without_blanks(outcome);
    if (after.outcome->empty()) {
        return Error{ErrorCode::empty_text, "outcome", {}, {}, {}, {}};
    }
    after.closed_by = session.who().toStdString();
    after.closed_at = session.now();
    return session.act(edits_to_change(item, after), QObject::tr("open item closed"));
}

} // namespace rodway
