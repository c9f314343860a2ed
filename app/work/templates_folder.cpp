#include "app/work/templates_folder.h"

#include <QCoreApplication>

#include "app/book/book_templates.h"
#include "db/build_records.h"
#include "db/record_fields.h"
#include "db/record_shape.h"

namespace rodway {
namespace {

struct TemplatesFolder {
    Q_DECLARE_TR_FUNCTIONS(TemplatesFolder)
};

std::optional<ShopDetail> kept_folder(ShopFile& shop) {
    const auto details = load_records<ShopDetail>(shop, shop_wide);
    if (!details) {
        return std::nullopt;
    }
    for (const ShopDetail& one : *details) {
        if (one.name == templates_folder_name) return one;
    }
    return std::nullopt;
}

} // namespace

QString templates_folder_of(ShopFile& shop) {
    const auto kept = kept_folder(shop);
    return kept ? QString::fromStdString(kept->content) : QString();
}

Result<Done> keep_templates_folder(ShopSession& session, const QString& folder) {
    const QString what = TemplatesFolder::tr("folder of the book's templates");
    const auto before = kept_folder(session.shop());
    ShopDetail detail = before.value_or(ShopDetail{0, templates_folder_name, {}});
    detail.content = folder.toStdString();
    if (before) {
        std::vector<Edit> edits = edits_to_change(*before, detail);
        if (edits.empty()) return Done{};
        const auto act = session.act(std::move(edits), what);
        return act ? Result<Done>(Done{}) : Result<Done>(act.error());
    }
    const auto id = session.create(
        RecordKind::shop_detail,
        [&](std::int64_t new_id) {
            detail.id = new_id;
            return edits_to_create(detail);
        },
        what);
    return id ? Result<Done>(Done{}) : Result<Done>(id.error());
}

} // namespace rodway
