#pragma once

#include <gtest/gtest.h>

#include <set>

#include "app/edit_stack/shop_session.h"
#include "db/build_records.h"

namespace rodway {

/// Makes every name and title of the first build and of the shop longer than anybody expects, some
/// with a word that can't be broken.
inline void give_long_names(ShopSession& session) {
    const std::set<std::string> texts{
        "name",     "title", "customer", "engine", "detail",           "reason", "caption",
        "supplier", "text",  "caution",  "note",   "if_it_goes_wrong", "subject"};
    const std::set<RecordKind> kept{RecordKind::shop_detail, RecordKind::shop_plan,
                                    RecordKind::shop_sheet_kind, RecordKind::shop_quantity};
    for (const std::int64_t build : {std::int64_t{1}, shop_wide}) {
        const auto records = records_of_build(session.shop(), build);
        ASSERT_TRUE(records.ok());
        std::vector<Edit> edits;
        for (const auto& [record, fields] : *records) {
            if (kept.contains(record.kind)) continue;
            for (const auto& [field, text] : fields) {
                if (!texts.contains(field)) continue;
                edits.push_back({record, field, text,
                                 text + " of the old harbour master's second, larger workboat, "
                                        "Donaudampfschifffahrtsgesellschaftskapitänspatent"});
            }
        }
        if (edits.empty()) continue;
        const auto done = session.act(std::move(edits), "long names");
        ASSERT_TRUE(done.ok()) << static_cast<int>(done.error().code) << done.error().field;
    }
}

} // namespace rodway
