#include "app/work/build_sheets.h"

#include <algorithm>

#include "core/engine/set_up.h"
#include "core/sheets/sheet_kinds.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

std::optional<Quantity> own_quantity(const ShopQuantity& record) {
    const auto form = form_called(record.form);
    const auto place = place_called(record.positions.value_or("engine"));
    if (!form || !place) {
        return std::nullopt;
    }
    return Quantity{record.word, *form, *place, record.unit.value_or(std::string())};
}

} // namespace

Result<BuildSheets> BuildSheets::load(ShopFile& shop, std::int64_t build_id,
                                      const std::vector<Reading>& unsaved,
                                      const BuildSheets* before) {
    if (const auto build = load_build(shop, build_id); !build) {
        return build.error();
    }
    BuildSheets sheets;
    sheets.kinds_ = sheet_kinds();
    auto step = sheets.load_own_kinds(shop);
    if (step) {
        step = sheets.load_engine(shop, build_id, before);
    }
    if (step) {
        step = sheets.load_limits(shop, build_id);
    }
    if (!step) {
        return step.error();
    }
    auto taken = rodway::readings(shop, build_id);
    if (!taken) {
        return taken.error();
    }
    sheets.readings_ = std::move(taken).value();
    sheets.readings_.insert(sheets.readings_.end(), unsaved.begin(), unsaved.end());
    std::vector<Quantity> own;
    for (std::size_t which = sheet_kinds().size(); which < sheets.kinds_.size(); ++which) {
        const auto& quantities = sheets.kinds_[which].quantities;
        own.insert(own.end(), quantities.begin(), quantities.end());
    }
    sheets.taken_ = std::make_unique<TakenReadings>(sheets.readings_, own);
    return sheets;
}

Result<Done> BuildSheets::load_own_kinds(ShopFile& shop) {
    const auto own = load_records<ShopSheetKind>(shop, shop_wide);
    const auto quantities = load_records<ShopQuantity>(shop, shop_wide);
    if (!own || !quantities) {
        return !own ? own.error() : quantities.error();
    }
    for (const ShopSheetKind& record : *own) {
        SheetKind kind{record.word, {}};
        for (const ShopQuantity& line : *quantities) {
            const auto quantity =
                line.sheet_kind_id == record.id ? own_quantity(line) : std::optional<Quantity>();
            if (quantity) {
                kind.quantities.push_back(*quantity);
                own_titles_[line.word] = line.title;
            }
        }
        own_titles_[record.word] = record.title;
        if (!kind.quantities.empty()) {
            kinds_.push_back(std::move(kind));
        }
    }
    return Done{};
}

Result<Done> BuildSheets::load_engine(ShopFile& shop, std::int64_t build_id,
                                      const BuildSheets* before) {
    const auto set_up = newest_set_up(shop, build_id);
    if (!set_up) {
        return set_up.error();
    }
    if (!*set_up) {
        return Done{};
    }
    set_up_id_ = (*set_up)->id;
    set_up_fields_ = (*set_up)->fields;
    if (before != nullptr && before->engine_ && before->set_up_id_ == set_up_id_ &&
        before->set_up_fields_ == set_up_fields_) {
        engine_ = before->engine_;
        places_ = before->places_;
        return Done{};
    }
    if (auto engine = make_engine((*set_up)->fields)) {
        engine_ = std::make_shared<const Engine>(std::move(engine).value());
        places_ = std::make_shared<const EnginePlaces>(places_on(*engine_));
    }
    return Done{};
}

Result<Done> BuildSheets::load_limits(ShopFile& shop, std::int64_t build_id) {
    for (const std::int64_t owner : {shop_wide, build_id}) {
        const auto records = load_records<LimitRecord>(shop, owner);
        if (!records) {
            return records.error();
        }
        limit_records_.insert(limit_records_.end(), records->begin(), records->end());
        for (const LimitRecord& record : *records) {
            const Quantity* quantity = nullptr;
            for (const SheetKind& kind : kinds_) {
                for (const Quantity& one : kind.quantities) {
                    quantity = one.id == record.quantity ? &one : quantity;
                }
            }
            auto limit =
                quantity != nullptr
                    ? read_limit(record, *quantity)
                    : Result<SheetLimit>(Error{
                          ErrorCode::no_such_record, "quantity", record.quantity, {}, {}, {}});
            if (limit) {
                limits_.push_back(std::move(limit).value());
            } else {
                limits_not_read_.push_back(limit.error());
            }
        }
    }
    return Done{};
}

const SheetKind* BuildSheets::kind(const std::string& id) const {
    const auto found = std::find_if(kinds_.begin(), kinds_.end(),
                                    [&](const SheetKind& kind) { return kind.id == id; });
    return found == kinds_.end() ? nullptr : &*found;
}

AssessedSheet BuildSheets::assess(const SheetKind& kind, EntryOrder order) const {
    return assess_sheet(kind, {*taken_, places_.get(), engine_.get()}, limits_, order);
}

SheetFacts BuildSheets::facts() const {
    return {*taken_, places_.get(), engine_.get(), limits_};
}

Result<Reading> reading_to_keep(const Quantity& quantity, const std::string& position,
                                const std::string& text, const std::string& unit) {
    const auto kept = kept_position(position, quantity.place);
    if (!kept) {
        return kept.error();
    }
    Reading reading;
    reading.quantity = quantity.id;
    reading.position = *kept;
    reading.text = text;
    reading.unit = unit.empty() ? quantity.unit : unit;
    const auto value = read_value(reading, quantity);
    if (!value) {
        return value.error();
    }
    if (value->said == Said::blank) {
        return Error{ErrorCode::empty_text, "text", text, {}, {}, {}};
    }
    if (value->said == Said::not_measured) {
        reading.status = ReadingStatus::not_measured;
    } else if (value->said == Said::same) {
        reading.status = ReadingStatus::same;
    } else if (value->said == Said::see_photo) {
        reading.status = ReadingStatus::see_photo;
    }
    return reading;
}

} // namespace rodway
