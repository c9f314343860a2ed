#include "tests/db/random_build.h"

#include <algorithm>
#include <array>
#include <iterator>

#include "db/record_tables.h"
#include "db/typed_value_text.h"
#include "tests/db/shop_test.h"

namespace rodway {

RandomBuild::RandomBuild(ShopFile& shop, unsigned seed, std::vector<std::string> digests,
                         std::string own)
    : shop_(shop), random_(seed), digests_(std::move(digests)), own_(std::move(own)) {
    build_ = take(new_id(shop_, RecordKind::build));
    first_act_ =
        take(apply(shop_, edits_to_create(sample_build(build_)), "Dee", next_time())).number;
}

RandomBuild::RandomBuild(ShopFile& shop, std::int64_t build, unsigned seed,
                         std::vector<std::string> digests, std::string own)
    : shop_(shop),
      random_(seed),
      digests_(std::move(digests)),
      own_(std::move(own)),
      build_(build),
      first_act_(take(history(shop, {RecordKind::build, build})).front().number) {}

int RandomBuild::below(int end) {
    return static_cast<int>(random_() % static_cast<unsigned>(end));
}

std::string RandomBuild::next_time() {
    ++seconds_;
    const std::string minutes = std::to_string(100 + seconds_ / 60).substr(1);
    const std::string seconds = std::to_string(100 + seconds_ % 60).substr(1);
    return "2026-03-01T12:" + minutes + ':' + seconds + 'Z';
}

std::string RandomBuild::words() {
    static const std::vector<std::string> all{"plain",
                                              ".0085",
                                              "-.005",
                                              "=1+1",
                                              "two\nlines",
                                              "a \"quoted\" word",
                                              "back\\slash",
                                              "tab\there",
                                              "Grüße, 1 5/8″",
                                              "{\"a\": [1]}",
                                              " ",
                                              "\x01\x7f",
                                              "1",
                                              "ring gap",
                                              "o'clock",
                                              "bell housing",
                                              "x, y; z",
                                              "null"};
    return all[static_cast<std::size_t>(below(static_cast<int>(all.size())))];
}

std::string RandomBuild::text_for(const RecordField& field) {
    switch (field.form) {
        case FieldForm::text:
            if (field.name == "word" || (field.name == "quantity" && below(3) == 0) ||
                (field.name == "kind" && below(2) == 0)) {
                return own_ + std::to_string(below(4));
            }
            return words();
        case FieldForm::count:
            return std::to_string(below(2000));
        case FieldForm::date:
            return "2026-0" + std::to_string(1 + below(9)) + "-1" + std::to_string(below(10));
        case FieldForm::utc:
            return "2026-03-02T0" + std::to_string(below(10)) + ":00:00Z";
        case FieldForm::digest:
            return digests_[static_cast<std::size_t>(below(static_cast<int>(digests_.size())))];
        case FieldForm::money:
            return std::to_string(below(900)) + ".50";
        case FieldForm::flag:
            return "1";
        case FieldForm::choice:
            return std::string(field.choices[static_cast<std::size_t>(
                below(static_cast<int>(field.choices.size())))]);
        case FieldForm::reference:
            break;
    }
    if (*field.refers_to == RecordKind::build) return std::to_string(build_);
    std::vector<std::int64_t> ids;
    for (const std::int64_t owner : {build_, std::int64_t{shop_wide}}) {
        for (const auto& [id, fields] : take(rows_of_kind(shop_, *field.refers_to, owner))) {
            ids.push_back(id);
        }
    }
    if (ids.empty()) return {};
    return std::to_string(ids[static_cast<std::size_t>(below(static_cast<int>(ids.size())))]);
}

/// A field's text, a geometry path's too.
std::string RandomBuild::text_at(RecordKind kind, const std::string& field) {
    if (!is_geometry_path(kind, field)) return text_for(*find_field(table_of(kind), field));
    return to_edit_text({'.' + std::to_string(1 + below(900)), below(3) == 0 ? "mm" : "in"});
}

/// A field that records of the kind may have.
std::string RandomBuild::field_of(RecordKind kind) {
    static const std::vector<std::string> paths{"trains/3I/rod/diameter", "trains/3I/rod/length",
                                                "layout/cylinders"};
    if (path_table(kind) != nullptr && below(2) == 0) {
        return paths[static_cast<std::size_t>(below(static_cast<int>(paths.size())))];
    }
    const auto& all = table_of(kind).fields;
    return std::string(all[static_cast<std::size_t>(below(static_cast<int>(all.size())))].name);
}

std::vector<Edit> RandomBuild::creation() {
    const auto& tables = record_tables();
    const RecordTable& table =
        tables[static_cast<std::size_t>(below(static_cast<int>(tables.size())))];
    if (table.kind == RecordKind::build) return {};
    const RecordRef record{table.kind, take(new_id(shop_, table.kind))};
    std::vector<Edit> edits{{record, "exists", std::nullopt, "1"}};
    for (const RecordField& field : table.fields) {
        if (!field.needed && below(2) == 0) continue;
        const std::string text = text_for(field);
        if (!text.empty()) edits.push_back({record, std::string(field.name), std::nullopt, text});
    }
    if (table.kind == RecordKind::set_up) {
        edits.push_back({record, "trains/3I/rod/diameter", std::nullopt, ".3125 in"});
    }
    std::shuffle(edits.begin(), edits.end(), random_);
    return edits;
}

std::vector<Edit> RandomBuild::change() {
    const auto records = take(records_of_build(shop_, below(4) == 0 ? shop_wide : build_));
    if (records.empty()) return {};
    // Of any kind as often, however many records it has.
    std::map<RecordKind, std::vector<RecordRef>> kinds;
    for (const auto& [ref, unused] : records) kinds[ref.kind].push_back(ref);
    auto kind = kinds.begin();
    std::advance(kind, below(static_cast<int>(kinds.size())));
    const RecordRef record =
        kind->second[static_cast<std::size_t>(below(static_cast<int>(kind->second.size())))];
    const FieldTexts& fields = records.at(record);
    if (below(5) == 0 && record.kind != RecordKind::build) {
        return take(edits_to_remove(shop_, record));
    }
    Edit edit{record, field_of(record.kind), std::nullopt, std::nullopt};
    if (const auto now = fields.find(edit.field); now != fields.end()) edit.before = now->second;
    const std::string text = text_at(record.kind, edit.field);
    if (!text.empty() && below(4) != 0) edit.after = text;
    return {edit};
}

std::vector<Edit> RandomBuild::idea() {
    return below(2) == 0 ? creation() : change();
}

std::optional<Edit> RandomBuild::another(Edit edit) {
    constexpr int tries = 20;
    for (int i = 0; i < tries; ++i) {
        const std::string text = text_at(edit.record.kind, edit.field);
        std::optional<std::string> wish;
        if (!text.empty() && below(4) != 0) wish = text;
        if (wish == edit.before || wish == edit.after) continue;
        edit.after = std::move(wish);
        return edit;
    }
    return std::nullopt;
}

bool RandomBuild::do_something() {
    const std::string who = below(2) == 0 ? "Dee" : "Kim";
    if (below(6) == 0) {
        const std::int64_t act = take(last_act(shop_)) - below(3);
        return act > first_act_ && undo(shop_, act, who, next_time()).ok();
    }
    std::vector<Edit> edits = idea();
    if (edits.empty()) return false;
    return apply(shop_, std::move(edits), who, next_time()).ok();
}

int RandomBuild::work(int acts) {
    int done = 0;
    for (int i = 0; i < acts; ++i) done += do_something() ? 1 : 0;
    return done;
}

namespace {

std::string own_texts(RecordKind kind, const FieldTexts& fields) {
    std::string all(table_of(kind).word);
    for (const auto& [name, text] : fields) {
        const RecordField* field = find_field(table_of(kind), name);
        if (field != nullptr && field->refers_to) continue;
        all += '|';
        all += name;
        all += '=';
        all += text;
    }
    return all;
}

} // namespace

std::vector<std::string> records_without_numbers(ShopFile& shop, std::int64_t build) {
    const RecordTexts records = take(records_of_build(shop, build));
    RecordTexts all = take(records_of_build(shop, shop_wide));
    all.insert(records.begin(), records.end());
    std::vector<std::string> texts;
    for (const auto& [record, fields] : records) {
        std::string text = own_texts(record.kind, fields);
        for (const auto& [name, id] : fields) {
            const RecordField* field = find_field(table_of(record.kind), name);
            if (field == nullptr || !field->refers_to) continue;
            const RecordRef target{*field->refers_to, std::stoll(id)};
            text += "\n  ";
            text += name;
            text += " -> ";
            text += own_texts(target.kind, all.at(target));
        }
        texts.push_back(std::move(text));
    }
    std::sort(texts.begin(), texts.end());
    return texts;
}

std::vector<std::string> history_without_numbers(ShopFile& shop, std::int64_t build) {
    std::vector<std::string> texts;
    const auto acts = take(history_of_build(shop, build));
    for (const Act& act : acts) {
        std::string text = act.who + ' ' + act.when_utc;
        if (act.undoes) {
            const auto undone = std::find_if(acts.begin(), acts.end(), [&](const Act& other) {
                return other.number == *act.undoes;
            });
            text += " undoes " + std::to_string(undone - acts.begin());
        }
        for (const Edit& edit : act.edits) {
            const RecordField* field = find_field(table_of(edit.record.kind), edit.field);
            const bool number = field != nullptr && field->refers_to;
            const auto shown = [number](const std::optional<std::string>& side) {
                return !side ? std::string("nothing") : number ? std::string("number") : *side;
            };
            text += "\n  ";
            text += table_of(edit.record.kind).word;
            text += ' ' + edit.field + ": " + shown(edit.before) + " -> " + shown(edit.after);
        }
        texts.push_back(std::move(text));
    }
    return texts;
}

} // namespace rodway
