#include "app/work/temporary_parts.h"

#include <QCoreApplication>
#include <algorithm>

#include "db/build_records.h"
#include "db/edits.h"

namespace rodway {
namespace {

struct TemporaryParts {
    Q_DECLARE_TR_FUNCTIONS(TemporaryParts)
};

void append(std::vector<Edit>& all, const std::vector<Edit>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

/// By what a part's item was closed, and by which it is known again.
std::string replaced_outcome(const PartRecord& by) {
    return TemporaryParts::tr("Replaced by part %1: %2")
        .arg(by.id)
        .arg(QString::fromStdString(by.item))
        .toStdString();
}

std::string to_stay_outcome() {
    return TemporaryParts::tr("It stays").toStdString();
}

bool asks_for(const OpenItem& item, std::int64_t part_id) {
    return item.kind == OpenItemKind::temporary_part && item.part_id == part_id;
}

std::vector<Edit> close_all(const std::vector<OpenItem>& items, std::int64_t part_id,
                            const std::string& outcome, const ShopSession& session) {
    std::vector<Edit> edits;
    for (const OpenItem& item : items) {
        if (!asks_for(item, part_id) || item.closed_at) {
            continue;
        }
        OpenItem closed = item;
        closed.closed_by = session.who().toStdString();
        closed.closed_at = session.now();
        closed.outcome = outcome;
        append(edits, edits_to_change(item, closed));
    }
    return edits;
}

std::vector<Edit> reopen_all(const std::vector<OpenItem>& items, std::int64_t part_id,
                             const std::string& outcome) {
    std::vector<Edit> edits;
    for (const OpenItem& item : items) {
        if (!asks_for(item, part_id) || item.outcome != outcome) {
            continue;
        }
        OpenItem open = item;
        open.closed_by.reset();
        open.closed_at.reset();
        open.outcome.reset();
        append(edits, edits_to_change(item, open));
    }
    return edits;
}

Result<std::vector<Edit>> open_one(ShopSession& session, const PartRecord& part) {
    const auto id = new_id(session.shop(), RecordKind::open_item);
    if (!id) {
        return id.error();
    }
    OpenItem item;
    item.id = *id;
    item.build_id = part.build_id;
    item.step_id = part.step_id;
    item.kind = OpenItemKind::temporary_part;
    item.title = TemporaryParts::tr("%1, to be replaced")
                     .arg(QString::fromStdString(part.item))
                     .toStdString();
    item.position = part.position;
    item.opened_by = session.who().toStdString();
    item.opened_at = session.now();
    item.part_id = part.id;
    return edits_to_create(item);
}

/// Which part it has taken the place of, being in the engine.
std::optional<std::int64_t> stands_for(const std::optional<PartRecord>& part) {
    return part && part->fitted ? part->replaces_id : std::nullopt;
}

} // namespace

Result<std::vector<Edit>> temporary_part_edits(ShopSession& session,
                                               const std::optional<PartRecord>& before,
                                               const std::optional<PartRecord>& after) {
    const PartRecord& known = after ? *after : *before;
    const bool was = before && before->temporary;
    const bool is = after && after->temporary;
    const auto stood_for = stands_for(before);
    const auto stands_now = stands_for(after);
    if (was == is && stood_for == stands_now) {
        return std::vector<Edit>();
    }
    const auto items = load_records<OpenItem>(session.shop(), known.build_id);
    if (!items) {
        return items.error();
    }
    std::vector<Edit> edits;
    if (is && !was) {
        auto again = reopen_all(*items, known.id, to_stay_outcome());
        const auto opened = again.empty() ? open_one(session, known) : Result(std::move(again));
        if (!opened) {
            return opened.error();
        }
        append(edits, *opened);
    } else if (was && after && !is) {
        append(edits, close_all(*items, known.id, to_stay_outcome(), session));
    }
    if (stood_for && stood_for != stands_now) {
        append(edits, reopen_all(*items, *stood_for, replaced_outcome(*before)));
    }
    if (stands_now && stood_for != stands_now) {
        append(edits, close_all(*items, *stands_now, replaced_outcome(*after), session));
    }
    return edits;
}

} // namespace rodway
