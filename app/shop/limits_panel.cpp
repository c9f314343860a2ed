#include <QCoreApplication>
#include <algorithm>

#include "app/shop/panel_kinds.h"
#include "app/words/error_text.h"
#include "app/words/sheet_words.h"
#include "core/sheets/position.h"
#include "core/sheets/sheet_kinds.h"
#include "core/sheets/sheet_limit.h"
#include "db/build_records.h"

namespace rodway {
namespace {

struct LimitPanel {
    Q_DECLARE_TR_FUNCTIONS(LimitPanel)
};

/// A quantity of the built-in sheets or of the shop's own.
std::optional<Quantity> quantity_called(ShopFile& shop, const std::string& id) {
    if (const Quantity* built_in = find_quantity(id)) return *built_in;
    const auto own = load_records<ShopQuantity>(shop, shop_wide);
    if (!own) return std::nullopt;
    for (const ShopQuantity& record : *own) {
        const auto form = form_called(record.form);
        const auto place = place_called(record.positions.value_or("engine"));
        if (record.word == id && form && place) {
            return Quantity{record.word, *form, *place, record.unit.value_or(std::string())};
        }
    }
    return std::nullopt;
}

/// "Main bearings: clearance", every number that is read, the shop's own behind the built-in ones.
Choices quantities(ShopFile& shop) {
    Choices all;
    for (const SheetKind& sheet : sheet_kinds()) {
        const QString title = words::sheet_title(sheet.id);
        for (const Quantity& quantity : sheet.quantities) {
            if (!is_numeric(quantity.form)) continue;
            all.emplace_back(quantity.id,
                             LimitPanel::tr("%1: %2").arg(title, words::sheet_title(quantity.id)));
        }
    }
    const auto kinds = load_records<ShopSheetKind>(shop, shop_wide);
    const auto own = load_records<ShopQuantity>(shop, shop_wide);
    if (!kinds || !own) return all;
    for (const ShopQuantity& quantity : *own) {
        const auto sheet = std::find_if(
            kinds->begin(), kinds->end(),
            [&](const ShopSheetKind& kind) { return kind.id == quantity.sheet_kind_id; });
        const auto form = form_called(quantity.form);
        if (sheet == kinds->end() || !form || !is_numeric(*form)) continue;
        all.emplace_back(quantity.word,
                         LimitPanel::tr("%1: %2").arg(QString::fromStdString(sheet->title),
                                                      QString::fromStdString(quantity.title)));
    }
    return all;
}

Choices parts(ShopFile&) {
    return {{"", LimitPanel::tr("new parts")}, {"1", LimitPanel::tr("used parts")}};
}

/// Reads the limit as the sheets will, so that none is kept that they couldn't use.
std::optional<PanelRefusal> check_limit(ShopFile& shop, std::int64_t id, FieldTexts& fields,
                                        const RecordRows&, const std::string&) {
    const auto refusal = [](const Error& error, const char* otherwise) {
        Error here = error;
        const std::string field = here.field.empty() ? otherwise : std::move(here.field);
        here.field.clear();
        return PanelRefusal{field, words::error_text(here)};
    };
    const auto name = fields.find("quantity");
    const auto quantity = name == fields.end() ? std::nullopt : quantity_called(shop, name->second);
    if (!quantity) {
        return PanelRefusal{"quantity", LimitPanel::tr("Choose what is measured from the list.")};
    }
    if (const auto typed = fields.find("position"); typed != fields.end()) {
        const auto position = kept_position(typed->second, quantity->place);
        if (!position) return refusal(position.error(), "position");
        fields["position"] = *position;
    }
    if (fields.count("low") == 0 && fields.count("high") == 0) {
        return PanelRefusal{"low", LimitPanel::tr("Give it a low end, a high end, or both.")};
    }
    const Dimension dimension = dimension_of(quantity->form);
    if (fields.count("unit") == 0 && !quantity->unit.empty()) fields["unit"] = quantity->unit;
    if (const auto unit = fields.find("unit");
        unit != fields.end() && find_unit(dimension, unit->second) == nullptr) {
        const QString units = QString::fromStdString(unit_ids(dimension)).replace(' ', ", ");
        return PanelRefusal{
            "unit", units.isEmpty() ? LimitPanel::tr("This has no unit: leave it out.")
                                    : LimitPanel::tr("“%1” is no unit of this. Accepted are: %2.")
                                          .arg(QString::fromStdString(unit->second), units)};
    }
    const auto record = record_from<LimitRecord>(id, fields);
    if (!record) return refusal(record.error(), "quantity");
    const auto limit = read_limit(*record, *quantity);
    if (limit) return std::nullopt;
    if (limit.error().code == ErrorCode::out_of_range) {
        return PanelRefusal{"high", LimitPanel::tr("The high end lies below the low one.")};
    }
    return refusal(limit.error(), "low");
}

} // namespace

PanelKind limits_panel() {
    PanelKind kind;
    kind.kind = RecordKind::limit;
    kind.about = LimitPanel::tr(
        "The shop's own limits, each with where it comes from. They go before common practice on "
        "every build; a build's own limits, set on its sheets, go before these. The maker's "
        "figure is the one to copy here.");
    kind.empty = LimitPanel::tr(
        "No limits of the shop's own yet: the sheets judge by common practice and say so. Begin "
        "with the clearance you always build to.");
    kind.add = LimitPanel::tr("Add limit");
    kind.fresh = LimitPanel::tr("New limit");
    PanelField quantity{"quantity", LimitPanel::tr("What"), {}};
    quantity.choices = quantities;
    PanelField used{"serviceable", LimitPanel::tr("For"), {}};
    used.choices = parts;
    kind.fields = {
        quantity,
        used,
        {"position", LimitPanel::tr("Only at"), LimitPanel::tr("empty: at every position")},
        {"low", LimitPanel::tr("From"), LimitPanel::tr(".0020")},
        {"high", LimitPanel::tr("To"), LimitPanel::tr(".0030")},
        {"unit", LimitPanel::tr("Unit"), LimitPanel::tr("empty: the sheet's own")},
        {"source", LimitPanel::tr("Who says so"), LimitPanel::tr("the maker, the shop …")},
        {"note", LimitPanel::tr("Note"), {}, false, true}};
    kind.check = check_limit;
    return kind;
}

} // namespace rodway
