#include "app/work/open_item_acts.h"

#include "app/work/typed_day.h"
#include "core/build/word_list.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

/// As it may be kept.
Result<OpenItem> kept(OpenItem item) {
    item.title = without_blanks(item.title);
    if (item.title.empty()) {
        return Error{ErrorCode::empty_text, "title", {}, {}, {}, {}};
    }
    const auto due = typed_day(item.due, "due");
    if (!due) {
        return due.error();
    }
    item.due = *due;
    return item;
}

Error closed_already(const OpenItem& item) {
    return {ErrorCode::not_of_this_kind, "open_item", std::to_string(item.id), "closed", {}, {}};
}

} // namespace

Result<std::int64_t> add_open_item(ShopSession& session, OpenItem typed) {
    const auto checked = kept(std::move(typed));
    if (!checked) {
        return checked.error();
    }
    OpenItem item = *checked;
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

Result<Done> change_open_item(ShopSession& session, const OpenItem& before, OpenItem after) {
    if (before.closed_at) {
        return closed_already(before);
    }
    const auto checked = kept(std::move(after));
    if (!checked) {
        return checked.error();
    }
    const auto edits = edits_to_change(before, *checked);
    if (edits.empty()) {
        return Done{};
    }
    const auto act = session.act(edits, QObject::tr("open item changed"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

Result<Act> close_open_item(ShopSession& session, const OpenItem& item,
                            const std::string& outcome) {
    if (item.closed_at) {
        return closed_already(item);
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
