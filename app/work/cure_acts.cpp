#include "app/work/cure_acts.h"

#include <limits>

#include "core/build/word_list.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

Result<Done> check_minutes(const std::optional<int>& handling, const std::optional<int>& full) {
    if (handling && full && *full < *handling) {
        Error error{ErrorCode::out_of_range, "full_minutes", std::to_string(*full), {}, {}, {}};
        error.limits = Limits{static_cast<double>(*handling),
                              static_cast<double>(std::numeric_limits<int>::max()), "min"};
        return error;
    }
    return Done{};
}

} // namespace

Result<std::int64_t> add_product(ShopSession& session, Product product) {
    product.name = without_blanks(product.name);
    if (product.name.empty()) {
        return Error{ErrorCode::empty_text, "name", {}, {}, {}, {}};
    }
    if (const auto checked = check_minutes(product.handling_minutes, product.full_minutes);
        !checked) {
        return checked.error();
    }
    return session.create(
        RecordKind::product,
        [&](std::int64_t id) {
            product.id = id;
            return edits_to_create(product);
        },
        QObject::tr("new product"));
}

Result<std::int64_t> start_cure(ShopSession& session, Cure cure,
                                const std::optional<Product>& product) {
    cure.place = without_blanks(cure.place);
    if (cure.place.empty()) {
        return Error{ErrorCode::empty_text, "place", {}, {}, {}, {}};
    }
    if (product) {
        cure.product_id = product->id;
        if (!cure.handling_minutes) {
            cure.handling_minutes = product->handling_minutes;
        }
        if (!cure.full_minutes) {
            cure.full_minutes = product->full_minutes;
        }
    }
    if (const auto checked = check_minutes(cure.handling_minutes, cure.full_minutes); !checked) {
        return checked.error();
    }
    cure.applied_by = session.who().toStdString();
    if (cure.applied_at.empty()) {
        cure.applied_at = session.now();
    }
    return session.create(
        RecordKind::cure,
        [&](std::int64_t id) {
            cure.id = id;
            return edits_to_create(cure);
        },
        QObject::tr("cure"));
}

Result<Act> end_cure(ShopSession& session, const Cure& cure, const std::optional<std::string>& note,
                     const std::string& at) {
    if (cure.ended) {
        return Error{ErrorCode::not_of_this_kind, "cure", std::to_string(cure.id), "ended", {}, {}};
    }
    Cure after = cure;
    after.ended = at.empty() ? session.now() : at;
    if (note) {
        after.note = note;
    }
    return session.act(edits_to_change(cure, after), QObject::tr("end of a cure"));
}

} // namespace rodway
