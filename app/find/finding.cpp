#include "app/find/finding.h"

#include <QCoreApplication>
#include <map>

#include "app/words/record_words.h"
#include "app/words/sheet_words.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/one_record.h"

namespace rodway {
namespace {

struct Finding {
    Q_DECLARE_TR_FUNCTIONS(Finding)
};

words::OwnTitles own_titles(ShopFile& shop) {
    words::OwnTitles titles;
    if (const auto kinds = load_records<ShopSheetKind>(shop, shop_wide)) {
        for (const ShopSheetKind& kind : *kinds) titles[kind.word] = kind.title;
    }
    if (const auto quantities = load_records<ShopQuantity>(shop, shop_wide)) {
        for (const ShopQuantity& quantity : *quantities) titles[quantity.word] = quantity.title;
    }
    return titles;
}

/// A reading is called by what was read, where, and what it says.
QString called(const Found& found, const FieldTexts& fields, const words::OwnTitles& own) {
    if (found.record.kind != RecordKind::reading && found.record.kind != RecordKind::limit) {
        const QString title = words::record_title(found.record.kind, fields);
        return title.isEmpty() ? QString::fromStdString(found.title).simplified() : title;
    }
    const auto text = [&fields](const char* name) {
        const auto at = fields.find(name);
        return at == fields.end() ? QString() : QString::fromStdString(at->second);
    };
    QString line = words::sheet_title(found.title, own);
    if (const QString position = text("position"); !position.isEmpty()) {
        line = Finding::tr("%1, %2").arg(line, position);
    }
    if (const QString value = text("text"); !value.isEmpty()) {
        line = Finding::tr("%1: %2").arg(line, value);
    }
    return line;
}

} // namespace

FindAnswer find_in_shop(const std::string& shop_path, const std::string& typed) {
    FindAnswer answer;
    auto opened = ShopFile::open_to_look(shop_path);
    if (!opened) {
        answer.failure = opened.error();
        return answer;
    }
    ShopFile shop = std::move(opened).value();
    const auto all = search(shop, typed, most_found);
    if (!all) {
        answer.failure = all.error();
        return answer;
    }
    const words::OwnTitles own = own_titles(shop);
    std::map<std::int64_t, QString> builds;
    answer.newest_only = all->newest_only;
    for (const Found& found : all->found) {
        const auto fields = fields_now(shop, found.record);
        if (!fields) {
            answer.failure = fields.error();
            return answer;
        }
        if (found.build_id != shop_wide && builds.count(found.build_id) == 0) {
            const auto build = load_build(shop, found.build_id);
            builds[found.build_id] = build ? QString::fromStdString(build->name) : QString();
        }
        answer.lines.push_back({found.record, found.build_id, words::record_kind(found.record.kind),
                                called(found, *fields, own),
                                found.build_id == shop_wide ? QString() : builds[found.build_id],
                                words::field_name(found.field), found.passage});
    }
    return answer;
}

} // namespace rodway
