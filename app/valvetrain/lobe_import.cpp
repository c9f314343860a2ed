#include "app/valvetrain/lobe_import.h"

#include "core/describe/description.h"
#include "core/engine/set_up.h"
#include "db/set_up_store.h"

namespace rodway {

Result<Act> put_lobe(ShopSession& session, std::int64_t build_id,
                     const std::vector<ValveKind>& kinds, const TypedValue& table) {
    const auto set_up = newest_set_up(session.shop(), build_id);
    if (!set_up) {
        return set_up.error();
    }
    if (!*set_up) {
        return Error{ErrorCode::missing_field, "set_up", {}, {}, {}, {}};
    }
    std::vector<Edit> edits;
    SetUpFields changed = (*set_up)->fields;
    const auto change = [&](const std::string& path, const std::optional<TypedValue>& after) {
        edits.push_back(edit_to_change(**set_up, path, after));
        if (after) {
            changed[path] = *after;
        } else {
            changed.erase(path);
        }
    };
    for (const ValveKind kind : kinds) {
        const std::string lobe = kind == ValveKind::intake ? "lobes/intake" : "lobes/exhaust";
        for (const char* card : {"/card/peak_lift", "/card/durations"}) {
            if (changed.count(lobe + card) > 0) {
                change(lobe + card, std::nullopt);
            }
        }
        change(lobe + "/lift_table", table);
    }
    const auto engine = make_engine(changed);
    const bool unfinished =
        is_described(changed) && !engine && engine.error().code == ErrorCode::missing_field;
    if (!engine && !unfinished) {
        return engine.error();
    }
    return session.act(std::move(edits), QObject::tr("lift table"));
}

} // namespace rodway
