#include "app/work/own_sheet.h"

#include <algorithm>
#include <cctype>
#include <set>

#include "core/sheets/sheet_kinds.h"
#include "core/sheets/sheet_limit.h"
#include "db/build_records.h"

namespace rodway {
namespace {

Error wrong(ErrorCode code, const std::string& field, std::string value = {},
            std::string expected = {}) {
    return Error{code, field, std::move(value), std::move(expected), {}, {}};
}

/// "Valve tip height" becomes "own_valve_tip_height"; with a number behind it if that is taken.
std::string identity(const std::string& title, std::set<std::string>& taken) {
    std::string word = "own_";
    for (const char c : title) {
        const bool plain = std::isalnum(static_cast<unsigned char>(c)) != 0;
        if (plain) {
            word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        } else if (word.back() != '_') {
            word += '_';
        }
    }
    while (word.back() == '_') {
        word.pop_back();
    }
    std::string free = word;
    for (int number = 2; !taken.insert(free).second; ++number) {
        free = word + '_' + std::to_string(number);
    }
    return free;
}

Quantity quantity_of(const OwnLine& line, const std::string& word) {
    return Quantity{word, line.form, line.place, line.unit};
}

std::optional<LimitRecord> limit_of(const OwnLine& line, const std::string& word) {
    if (!line.low && !line.high) {
        return std::nullopt;
    }
    LimitRecord limit;
    limit.quantity = word;
    limit.low = line.low;
    limit.high = line.high;
    if (!line.unit.empty()) {
        limit.unit = line.unit;
    }
    limit.source = line.limit_source;
    return limit;
}

Result<Done> check_line(const OwnLine& line, const std::string& path) {
    if (line.title.empty()) {
        return wrong(ErrorCode::empty_text, path + "/title");
    }
    const std::vector<Form> forms = own_forms();
    if (std::find(forms.begin(), forms.end(), line.form) == forms.end()) {
        return wrong(ErrorCode::not_a_choice, path + "/form", std::string(form_name(line.form)));
    }
    const Dimension dimension = dimension_of(line.form);
    if (dimension != Dimension::none && find_unit(dimension, line.unit) == nullptr) {
        return wrong(ErrorCode::not_a_choice, path + "/unit", line.unit, unit_ids(dimension));
    }
    const auto limit = limit_of(line, "own");
    if (!limit) {
        return Done{};
    }
    if (line.limit_source.empty()) {
        return wrong(ErrorCode::missing_field, path + "/limit_source");
    }
    const auto read = read_limit(*limit, quantity_of(line, "own"));
    if (!read) {
        Error error = read.error();
        error.field = path + '/' + error.field;
        return error;
    }
    return Done{};
}

/// Identities of sheets and quantities that are in use.
Result<std::set<std::string>> taken_words(ShopFile& shop) {
    std::set<std::string> taken;
    const auto kinds = load_records<ShopSheetKind>(shop, shop_wide);
    const auto quantities = load_records<ShopQuantity>(shop, shop_wide);
    if (!kinds || !quantities) {
        return !kinds ? kinds.error() : quantities.error();
    }
    for (const ShopSheetKind& kind : *kinds) {
        taken.insert(kind.word);
    }
    for (const ShopQuantity& quantity : *quantities) {
        taken.insert(quantity.word);
    }
    return taken;
}

void append(std::vector<Edit>& all, std::vector<Edit> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

} // namespace

std::vector<Form> own_forms() {
    return {Form::length,      Form::clearance, Form::angle,    Form::crank_angle, Form::force,
            Form::mass,        Form::volume,    Form::pressure, Form::temperature, Form::torque,
            Form::power,       Form::speed,     Form::time,     Form::percent,     Form::altitude,
            Form::spring_rate, Form::ratio,     Form::count,    Form::number,      Form::words,
            Form::day,         Form::yes_no};
}

Result<std::int64_t> keep_own_sheet(ShopSession& session, const OwnSheet& sheet) {
    if (sheet.title.empty()) {
        return wrong(ErrorCode::empty_text, "title");
    }
    if (sheet.lines.empty()) {
        return wrong(ErrorCode::empty_text, "lines");
    }
    for (std::size_t which = 0; which < sheet.lines.size(); ++which) {
        const auto good = check_line(sheet.lines[which], "lines/" + std::to_string(which + 1));
        if (!good) {
            return good.error();
        }
    }
    auto words = taken_words(session.shop());
    const auto first_quantity = new_id(session.shop(), RecordKind::shop_quantity);
    const auto first_limit = new_id(session.shop(), RecordKind::limit);
    if (!words || !first_quantity || !first_limit) {
        return !words            ? words.error()
               : !first_quantity ? first_quantity.error()
                                 : first_limit.error();
    }
    std::set<std::string> taken = std::move(words).value();
    const std::string kind_word = identity(sheet.title, taken);
    std::vector<std::string> line_words;
    for (const OwnLine& line : sheet.lines) {
        line_words.push_back(identity(sheet.title + ' ' + line.title, taken));
    }
    return session.create(
        RecordKind::shop_sheet_kind,
        [&](std::int64_t id) {
            std::vector<Edit> edits =
                edits_to_create(ShopSheetKind{id, kind_word, sheet.title, std::nullopt});
            std::int64_t quantity_id = *first_quantity;
            std::int64_t limit_id = *first_limit;
            for (std::size_t which = 0; which < sheet.lines.size(); ++which) {
                const OwnLine& line = sheet.lines[which];
                ShopQuantity quantity{quantity_id++,
                                      id,
                                      line_words[which],
                                      line.title,
                                      std::string(form_name(line.form)),
                                      std::nullopt,
                                      std::nullopt};
                if (!line.unit.empty()) {
                    quantity.unit = line.unit;
                }
                quantity.positions = std::string(shape_of(line.place).id);
                append(edits, edits_to_create(quantity));
                if (auto limit = limit_of(line, line_words[which])) {
                    limit->id = limit_id++;
                    append(edits, edits_to_create(*limit));
                }
            }
            return edits;
        },
        QObject::tr("own sheet"));
}

} // namespace rodway
