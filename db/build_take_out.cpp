#include <QFileInfo>
#include <QString>
#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

#include "db/attachments.h"
#include "db/build_transfer.h"
#include "db/connection.h"
#include "db/history.h"
#include "db/history_replay.h"
#include "db/transfer_check.h"

namespace rodway {
namespace {

/// Closes the gaps that erased texts leave: the field holds what the next edit begins with, after
/// the last one what is stored. Edits that then change nothing go, and acts that then do nothing.
std::vector<Act> without_erased(std::vector<Act> acts, const RecordTexts& stored) {
    std::map<FieldRef, std::vector<Edit*>> edits_of;
    std::map<FieldRef, bool> has_erased;
    for (Act& act : acts) {
        for (Edit& edit : act.edits) {
            const FieldRef at{edit.record, edit.field};
            edits_of[at].push_back(&edit);
            has_erased[at] = has_erased[at] || edit.erased;
        }
    }
    for (auto& [at, edits] : edits_of) {
        if (!has_erased[at]) continue;
        std::optional<std::string> now;
        for (std::size_t i = 0; i < edits.size(); ++i) {
            Edit& edit = *edits[i];
            edit.before = now;
            if (edit.erased && i + 1 < edits.size()) {
                if (!edits[i + 1]->erased) now = edits[i + 1]->before;
            } else if (edit.erased) {
                const auto record = stored.find(at.record);
                const auto field = record == stored.end() ? FieldTexts::const_iterator()
                                                          : record->second.find(at.field);
                const bool there = record != stored.end() && field != record->second.end();
                now = there ? std::optional(field->second) : std::nullopt;
            } else {
                now = edit.after;
            }
            edit.after = now;
        }
    }
    std::vector<Act> left;
    left.reserve(acts.size());
    for (Act& act : acts) {
        act.edits.erase(std::remove_if(act.edits.begin(), act.edits.end(),
                                       [](const Edit& edit) {
                                           return edit.erased && edit.before == edit.after;
                                       }),
                        act.edits.end());
        if (!act.edits.empty()) left.push_back(std::move(act));
    }
    return left;
}

/// Takes one build out of one shop, inside a read transaction.
class Taking {
  public:
    Taking(ShopFile& shop, std::int64_t build_id) : shop_(shop), build_id_(build_id) {}

    Result<BuildTransfer> take() {
        const auto stored = records_of_build(shop_, build_id_);
        if (!stored) return stored.error();
        if (stored->count(RecordRef{RecordKind::build, build_id_}) == 0) {
            return Error{ErrorCode::no_such_record, "build", std::to_string(build_id_), {}, {}, {}};
        }
        auto acts = history_of_build(shop_, build_id_);
        if (!acts) return acts.error();
        take_history(without_erased(std::move(acts).value(), *stored));
        const auto content = play_transfer(build_.history);
        if (!content) return damaged(content.error());
        RecordTexts numbered;
        for (const auto& [record, fields] : *stored) {
            numbered.emplace(RecordRef{record.kind, numbers_.number(record)},
                             renumbered(record.kind, fields));
        }
        for (const auto& [record, fields] : numbered) put(build_.records, record, fields);
        auto step = take_shop_records(*content);
        if (!step) return step.error();
        std::set<std::string> files = content->digests;
        files.insert(content->books.begin(), content->books.end());
        for (const std::string& digest : files) take_photo(digest);
        if (const auto checked = check_transfer(build_); !checked) return damaged(checked.error());
        return std::move(build_);
    }

  private:
    Error damaged(Error error) const {
        error.code = ErrorCode::damaged_file;
        return error;
    }

    std::string renumbered(const RecordField* field, const std::string& text) {
        if (field == nullptr || !field->refers_to) return text;
        return std::to_string(numbers_.number(RecordRef{*field->refers_to, std::stoll(text)}));
    }

    FieldTexts renumbered(RecordKind kind, FieldTexts fields) {
        for (auto& [name, text] : fields) text = renumbered(find_field(table_of(kind), name), text);
        return fields;
    }

    void take_history(const std::vector<Act>& acts) {
        std::map<std::int64_t, std::int64_t> numbers; // in the shop -> here
        for (const Act& act : acts) {
            TransferAct taken{act.who, act.when_utc, std::nullopt, {}, 0};
            if (act.undoes && numbers.count(*act.undoes) != 0) taken.undoes = numbers[*act.undoes];
            for (const Edit& edit : act.edits) {
                const RecordTable& table = table_of(edit.record.kind);
                TransferEdit moved{std::string(table.word),
                                   numbers_.number(edit.record),
                                   edit.field,
                                   std::nullopt,
                                   std::nullopt,
                                   0};
                const RecordField* field = find_field(table, edit.field);
                if (edit.before) moved.before = renumbered(field, *edit.before);
                if (edit.after) moved.after = renumbered(field, *edit.after);
                taken.edits.push_back(std::move(moved));
            }
            build_.history.push_back(std::move(taken));
            numbers[act.number] = static_cast<std::int64_t>(build_.history.size());
        }
    }

    static void put(std::vector<TransferRecord>& records, const RecordRef& record,
                    FieldTexts fields, bool removed = false) {
        records.push_back(
            {std::string(table_of(record.kind).word), record.id, std::move(fields), removed, 0});
    }

    Result<Done> take_shop_records(const TransferContent& content) {
        const auto all = records_of_build(shop_, shop_wide);
        if (!all) return all.error();
        take_sheets(*all, content.words);
        RecordTexts ours; // by their numbers here
        std::set<RecordRef, ByKindAndId> removed;
        for (const auto& [record, number] : numbers_.given()) {
            const RecordRef here{record.kind, number};
            if (content.shop.count(here) == 0) continue;
            const auto found = all->find(record);
            if (found != all->end()) {
                ours.emplace(here, found->second);
                continue;
            }
            auto last = last_texts(record);
            if (!last) return last.error();
            ours.emplace(here, std::move(last).value());
            removed.insert(here);
        }
        for (auto& [record, fields] : ours) {
            put(build_.shop, record, std::move(fields), removed.count(record) != 0);
        }
        return Done{};
    }

    void take_sheets(const RecordTexts& all, const std::set<std::string>& words) {
        const auto used = [&words](const FieldTexts& fields) {
            return words.count(fields.at("word")) != 0;
        };
        std::vector<std::pair<FieldTexts, std::int64_t>> sheets;
        for (const auto& [record, fields] : all) {
            if (record.kind != RecordKind::shop_sheet_kind) continue;
            bool wanted = used(fields);
            for (const auto& [other, its_fields] : all) {
                wanted = wanted || (other.kind == RecordKind::shop_quantity &&
                                    its_fields.at("sheet_kind_id") == std::to_string(record.id) &&
                                    used(its_fields));
            }
            if (wanted) sheets.emplace_back(fields, record.id);
        }
        std::stable_sort(sheets.begin(), sheets.end(), [](const auto& a, const auto& b) {
            return numbered_before(a.first, b.first);
        });
        std::map<std::string, std::string> numbers;
        for (const auto& [fields, id] : sheets) {
            const auto number = static_cast<std::int64_t>(numbers.size()) + 1;
            numbers.emplace(std::to_string(id), std::to_string(number));
            put(build_.shop, RecordRef{RecordKind::shop_sheet_kind, number}, fields);
        }
        std::vector<FieldTexts> quantities;
        for (const auto& [record, fields] : all) {
            if (record.kind != RecordKind::shop_quantity) continue;
            const auto sheet = numbers.find(fields.at("sheet_kind_id"));
            if (sheet == numbers.end()) continue;
            quantities.push_back(fields);
            quantities.back()["sheet_kind_id"] = sheet->second;
        }
        std::stable_sort(quantities.begin(), quantities.end(), numbered_before);
        std::int64_t number = 0;
        for (FieldTexts& fields : quantities) {
            put(build_.shop, RecordRef{RecordKind::shop_quantity, ++number}, std::move(fields));
        }
    }

    /// Of a record that is gone: what it held before the act that removed it.
    Result<FieldTexts> last_texts(const RecordRef& record) {
        const auto acts = history(shop_, record);
        if (!acts) return acts.error();
        FieldTexts last;
        FieldTexts now;
        for (const Act& act : *acts) {
            for (const Edit& edit : act.edits) {
                if (edit.after) {
                    now[edit.field] = *edit.after;
                } else {
                    now.erase(edit.field);
                }
            }
            if (now.count("exists") != 0) last = now;
        }
        last.emplace("exists", "1");
        for (const RecordField& field : table_of(record.kind).fields) {
            // Only an erased text can be lacking.
            if (field.needed) last.emplace(std::string(field.name), "erased");
        }
        return last;
    }

    void take_photo(const std::string& digest) {
        TransferPhoto photo{digest, std::nullopt, 0};
        if (const auto path = path_of(shop_, digest)) {
            const auto found = digest_of_file(*path);
            if (found && *found == digest) {
                photo.file = QFileInfo(QString::fromStdString(*path)).fileName().toStdString();
            }
        }
        build_.photos.push_back(std::move(photo));
    }

    ShopFile& shop_;
    std::int64_t build_id_;
    BuildTransfer build_;
    TransferNumbers numbers_;
};

} // namespace

Result<BuildTransfer> take_out_build(ShopFile& shop, std::int64_t build_id) {
    auto begun = Transaction::begin(shop.connection(), Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    auto taken = Taking(shop, build_id).take();
    if (!taken) return taken;
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    return taken;
}

} // namespace rodway
