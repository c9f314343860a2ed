#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QString>
#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "db/attachments.h"
#include "db/build_transfer.h"
#include "db/connection.h"
#include "db/edits.h"
#include "db/history.h"
#include "db/transfer_check.h"

namespace rodway {
namespace {

std::string path_of_photo(const std::string& photos, const std::string& file) {
    return QDir(QString::fromStdString(photos))
        .filePath(QString::fromStdString(file))
        .toStdString();
}

/// Whether every photo is there and is what its digest says.
Result<Done> compare_photos(const BuildTransfer& build, const std::string& photos) {
    for (const TransferPhoto& photo : build.photos) {
        if (!photo.file) continue;
        const std::string path = path_of_photo(photos, *photo.file);
        const auto found = digest_of_file(path);
        if (!found) return found.error();
        if (*found != photo.digest) {
            return Error{ErrorCode::wrong_type, path, *found, photo.digest, {}, {}};
        }
    }
    return Done{};
}

/// Photos kept for a build. Those that the shop didn't have go again unless the build came in.
class PhotosKept {
  public:
    explicit PhotosKept(ShopFile& shop)
        : shop_(shop), folder_(QString::fromStdString(photos_folder(shop.path()))) {
        folder_was_there_ = QFileInfo(folder_.absolutePath()).isDir();
    }
    PhotosKept(const PhotosKept&) = delete;
    PhotosKept& operator=(const PhotosKept&) = delete;
    ~PhotosKept() {
        if (!settled_) take_back();
    }

    Result<Done> keep_all(const BuildTransfer& build, const std::string& photos) {
        for (const TransferPhoto& photo : build.photos) {
            if (!photo.file) continue;
            if (const auto there = path_of(shop_, photo.digest)) {
                const auto found = digest_of_file(*there);
                if (found && *found == photo.digest) continue;
            } else {
                new_.push_back(photo.digest);
            }
            const auto kept = keep(shop_, path_of_photo(photos, *photo.file));
            if (!kept) return kept.error();
        }
        return Done{};
    }

    void settle() { settled_ = true; }
    [[nodiscard]] int count() const { return static_cast<int>(new_.size()); }

  private:
    void take_back() {
        for (const std::string& digest : new_) {
            // Another window may have added the same picture meanwhile.
            const auto in_use = shop_.connection().single(
                QStringLiteral("SELECT 1 FROM photos WHERE digest = ? LIMIT 1"),
                {QString::fromStdString(digest)});
            if (!in_use || in_use->isValid()) continue;
            if (const auto path = path_of(shop_, digest)) {
                QFile::remove(QString::fromStdString(*path));
            }
            folder_.rmdir(QString::fromStdString(digest.substr(0, 2))); // if it is empty
        }
        if (!folder_was_there_) QDir().rmdir(folder_.absolutePath());
    }

    ShopFile& shop_;
    QDir folder_;
    bool folder_was_there_ = false;
    bool settled_ = false;
    std::vector<std::string> new_;
};

/// The ids of a transfer's records in a shop.
class NewIds {
  public:
    explicit NewIds(ShopFile& shop) : shop_(shop) {}

    /// Records of a build follow the highest id that there is.
    Result<std::int64_t> id(const RecordRef& record) {
        if (const auto known = known_.find(record); known != known_.end()) return known->second;
        if (bases_.count(record.kind) == 0) {
            const auto first = new_id(shop_, record.kind);
            if (!first) return first.error();
            bases_[record.kind] = *first - 1;
        }
        return bases_[record.kind] + record.id;
    }

    /// The next free id of the kind.
    Result<std::int64_t> make(const RecordRef& record) {
        if (next_.count(record.kind) == 0) {
            const auto first = new_id(shop_, record.kind);
            if (!first) return first;
            next_[record.kind] = *first;
        }
        return known_[record] = next_[record.kind]++;
    }
    void is(const RecordRef& record, std::int64_t id) { known_[record] = id; }

    Result<std::string> text(RecordKind kind, const std::string& field_name,
                             const std::string& text) {
        const RecordField* field = find_field(table_of(kind), field_name);
        if (field == nullptr || !field->refers_to) return text;
        const auto moved = id(RecordRef{*field->refers_to, std::stoll(text)});
        if (!moved) return moved.error();
        return std::to_string(*moved);
    }

  private:
    ShopFile& shop_;
    std::map<RecordRef, std::int64_t, ByKindAndId> known_;
    std::map<RecordKind, std::int64_t> bases_;
    std::map<RecordKind, std::int64_t> next_;
};

/// Puts one build, which has passed `check_transfer`, into one shop.
class Putting {
  public:
    Putting(ShopFile& shop, const BuildTransfer& build) : shop_(shop), build_(build), ids_(shop) {}

    Result<BuildPutIn> put(const std::string& photos, const std::string& who,
                           const std::string& when_utc) {
        auto step = match_shop_records();
        if (step) step = take_history();
        if (!step) return step.error();
        std::vector<Act> acts;
        if (!made_.empty()) acts.push_back({0, who, when_utc, std::nullopt, made_});
        acts.insert(acts.end(), history_.begin(), history_.end());
        if (!removed_.empty()) {
            const auto number = static_cast<std::int64_t>(history_.size()) + 1;
            acts.push_back({number, who, when_utc, std::nullopt, removed_});
        }
        const auto build_id = ids_.id(RecordRef{RecordKind::build, 1});
        if (!build_id) return build_id.error();
        PhotosKept kept(shop_);
        step = kept.keep_all(build_, photos);
        if (!step) return step.error();
        if (const auto done = apply_all(shop_, std::move(acts)); !done) {
            return with_line(done.error());
        }
        kept.settle();
        BuildPutIn put{*build_id, records_made_, kept.count(), {}};
        for (const TransferPhoto& photo : build_.photos) {
            if (!photo.file) put.photos_missing.push_back(photo.digest);
        }
        return put;
    }

  private:
    static std::string text_at(const FieldTexts& fields, const std::string& name) {
        const auto found = fields.find(name);
        return found == fields.end() ? std::string() : found->second;
    }

    Result<FieldTexts> moved(RecordKind kind, const FieldTexts& fields) {
        FieldTexts all;
        for (const auto& [name, text] : fields) {
            const auto its_text = ids_.text(kind, name, text);
            if (!its_text) return its_text.error();
            all.emplace(name, *its_text);
        }
        return all;
    }

    Result<Done> match_shop_records() {
        const auto there = records_of_build(shop_, shop_wide);
        if (!there) return there.error();
        std::set<RecordRef, ByKindAndId> taken;
        for (const TransferRecord& record : build_.shop) {
            const RecordRef ref{*record_kind_from(record.kind), record.id};
            const auto fields = moved(ref.kind, record.fields);
            if (!fields) return fields.error();
            const auto same =
                std::find_if(there->begin(), there->end(), [&](const auto& candidate) {
                    return candidate.first.kind == ref.kind && candidate.second == *fields &&
                           taken.count(candidate.first) == 0;
                });
            if (same != there->end() && !record.removed) {
                // Two records that read the same stay two.
                taken.insert(same->first);
                ids_.is(ref, same->first.id);
                continue;
            }
            const auto free = word_is_free(ref.kind, *fields, *there, record.line);
            if (!free) return free;
            if (const auto made = make(ref, *fields, record.removed); !made) return made;
        }
        return Done{};
    }

    /// Readings go by their quantity's word: two meanings of one word would run them together.
    static Result<Done> word_is_free(RecordKind kind, const FieldTexts& fields,
                                     const RecordTexts& there, int line) {
        if (kind != RecordKind::shop_sheet_kind && kind != RecordKind::shop_quantity) return Done{};
        for (const auto& [record, its_fields] : there) {
            if (record.kind != kind || its_fields.at("word") != fields.at("word")) continue;
            FieldTexts all = fields;
            all.insert(its_fields.begin(), its_fields.end());
            for (const auto& [name, unused] : all) {
                const std::string theirs = text_at(its_fields, name);
                const std::string ours = text_at(fields, name);
                if (theirs == ours) continue;
                Error error{ErrorCode::changed_since, name, theirs, ours, {}, {}};
                if (line > 0) error.line = line;
                return error;
            }
        }
        return Done{};
    }

    Result<Done> make(const RecordRef& ref, const FieldTexts& fields, bool removed) {
        const auto id = ids_.make(ref);
        if (!id) return id.error();
        for (const auto& [name, text] : fields) {
            made_.push_back({{ref.kind, *id}, name, std::nullopt, text});
            if (removed) removed_.push_back({{ref.kind, *id}, name, text, std::nullopt});
        }
        ++records_made_;
        return Done{};
    }

    Result<Done> take_history() {
        for (const TransferAct& act : build_.history) {
            const auto number = static_cast<std::int64_t>(history_.size()) + 1;
            Act done{number, act.who, act.when_utc, act.undoes, {}};
            done.edits.reserve(act.edits.size());
            for (const TransferEdit& edit : act.edits) {
                const RecordKind kind = *record_kind_from(edit.kind);
                const auto id = ids_.id(RecordRef{kind, edit.id});
                if (!id) return id.error();
                Edit moved_edit{{kind, *id}, edit.field, std::nullopt, std::nullopt};
                for (const auto& [from, to] : {std::pair(&edit.before, &moved_edit.before),
                                               std::pair(&edit.after, &moved_edit.after)}) {
                    if (!*from) continue;
                    const auto text = ids_.text(kind, edit.field, **from);
                    if (!text) return text.error();
                    *to = *text;
                }
                done.edits.push_back(std::move(moved_edit));
            }
            history_.push_back(std::move(done));
        }
        return Done{};
    }

    /// The line of the one edit that names this field and text, if only one does.
    Error with_line(Error error) const {
        std::optional<int> line;
        int found = 0;
        for (const TransferAct& act : build_.history) {
            for (const TransferEdit& edit : act.edits) {
                if (edit.field != error.field) continue;
                if (!error.value.empty() && edit.after != error.value) continue;
                line = edit.line;
                ++found;
            }
        }
        if (found == 1 && *line > 0 && !error.line) error.line = line;
        return error;
    }

    ShopFile& shop_;
    const BuildTransfer& build_;
    NewIds ids_;
    std::vector<Edit> made_;
    std::vector<Edit> removed_;
    std::vector<Act> history_;
    int records_made_ = 0;
};

} // namespace

Result<BuildPutIn> put_in_build(ShopFile& shop, const BuildTransfer& build,
                                const std::string& photos, const std::string& who,
                                const std::string& when_utc) {
    if (const auto checked = check_transfer(build); !checked) return checked.error();
    if (const auto compared = compare_photos(build, photos); !compared) return compared.error();
    return Putting(shop, build).put(photos, who, when_utc);
}

} // namespace rodway
