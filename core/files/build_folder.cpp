#include "core/files/build_folder.h"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <utility>

#include "core/files/json_tree.h"
#include "core/files/text_bytes.h"

namespace rodway {
namespace {

// Reading ---------------------------------------------------------------------------------------

/// Takes the tree apart. The first thing that is wrong is kept, and nothing counts after it.
class FolderReader {
  public:
    explicit FolderReader(const std::string& text) : text_(text) {
        for (std::size_t at = text.find('\n'); at != std::string::npos;
             at = text.find('\n', at + 1)) {
            line_ends_.push_back(at);
        }
    }

    Result<BuildTransfer> take(const Json::Value& root) {
        BuildTransfer build;
        check_members(root, "", {"format", "version", "shop", "history", "records", "photos"});
        each(root, "", "shop", [&](const Json::Value& value, const std::string& path) {
            build.shop.push_back(record(value, path));
        });
        each(root, "", "history", [&](const Json::Value& value, const std::string& path) {
            build.history.push_back(act(value, path, build.history.size() + 1));
        });
        each(root, "", "records", [&](const Json::Value& value, const std::string& path) {
            build.records.push_back(record(value, path));
        });
        each(root, "", "photos", [&](const Json::Value& value, const std::string& path) {
            build.photos.push_back(photo(value, path));
            const auto count = build.photos.size();
            if (count > 1 && build.photos[count - 2].digest >= build.photos[count - 1].digest) {
                fail(ErrorCode::out_of_range, path + "/digest", value["digest"], {});
            }
        });
        if (error_) return *error_;
        return build;
    }

    [[nodiscard]] int line(const Json::Value& value) const {
        const auto at = static_cast<std::size_t>(value.getOffsetStart());
        const auto ends = std::lower_bound(line_ends_.begin(), line_ends_.end(), at);
        return 1 + static_cast<int>(ends - line_ends_.begin());
    }

  private:
    void fail(ErrorCode code, const std::string& path, const Json::Value& value,
              std::string expected) {
        if (error_) return;
        const auto start = static_cast<std::size_t>(value.getOffsetStart());
        const auto end = static_cast<std::size_t>(value.getOffsetLimit());
        constexpr std::size_t most_shown = 60;
        error_ = Error{code,
                       path,
                       text_.substr(start, std::min(end - start, most_shown)),
                       std::move(expected),
                       line(value),
                       {}};
    }

    static std::string below(const std::string& path, const std::string& key) {
        return path.empty() ? key : path + '/' + key;
    }

    bool check_members(const Json::Value& value, const std::string& path,
                       std::initializer_list<std::string_view> known) {
        if (!value.isObject()) {
            fail(ErrorCode::wrong_type, path, value, "object");
            return false;
        }
        for (const std::string& key : value.getMemberNames()) {
            if (std::find(known.begin(), known.end(), key) == known.end()) {
                // A member without a name has two quotes for one.
                fail(ErrorCode::unknown_field, below(path, key.empty() ? "\"\"" : key), value[key],
                     {});
                return false;
            }
        }
        return true;
    }

    template <typename Take>
    void each(const Json::Value& value, const std::string& path, const std::string& key,
              const Take& take) {
        if (error_) return;
        const std::string here = below(path, key);
        if (!value.isMember(key)) return fail(ErrorCode::missing_field, here, value, {});
        const Json::Value& list = value[key];
        if (!list.isArray()) return fail(ErrorCode::wrong_type, here, list, "list");
        for (Json::ArrayIndex at = 0; at < list.size() && !error_; ++at) {
            take(list[at], below(here, std::to_string(at)));
        }
    }

    std::optional<std::string> optional_text(const Json::Value& value, const std::string& path,
                                             const std::string& key) {
        if (error_ || !value.isMember(key)) return std::nullopt;
        const Json::Value& member = value[key];
        if (!member.isString()) {
            fail(ErrorCode::wrong_type, below(path, key), member, "text");
            return std::nullopt;
        }
        std::string found = member.asString();
        if (found.empty()) fail(ErrorCode::empty_text, below(path, key), member, {});
        return found;
    }

    std::string text(const Json::Value& value, const std::string& path, const std::string& key) {
        auto found = optional_text(value, path, key);
        if (!found) fail(ErrorCode::missing_field, below(path, key), value, {});
        return found.value_or(std::string());
    }

    std::int64_t number(const Json::Value& value, const std::string& path, const std::string& key) {
        if (error_) return 0;
        if (!value.isMember(key)) {
            fail(ErrorCode::missing_field, below(path, key), value, {});
            return 0;
        }
        const Json::Value& member = value[key];
        if (!member.isInt64() || member.type() == Json::realValue) {
            fail(member.isNumeric() ? ErrorCode::out_of_range : ErrorCode::wrong_type,
                 below(path, key), member, "number");
            return 0;
        }
        if (member.asInt64() < 1) fail(ErrorCode::out_of_range, below(path, key), member, {});
        return member.asInt64();
    }

    TransferRecord record(const Json::Value& value, const std::string& path) {
        TransferRecord record;
        if (!check_members(value, path, {"record", "id", "removed", "fields"})) return record;
        record.line = line(value);
        record.kind = text(value, path, "record");
        record.id = number(value, path, "id");
        if (value.isMember("removed")) {
            record.removed = true;
            if (value["removed"] != true) {
                fail(ErrorCode::wrong_type, below(path, "removed"), value["removed"], "true");
            }
        }
        const std::string inside = below(path, "fields");
        const Json::Value& fields = value["fields"];
        if (!value.isMember("fields")) {
            fail(ErrorCode::missing_field, inside, value, {});
        } else if (!fields.isObject()) {
            fail(ErrorCode::wrong_type, inside, fields, "object");
        } else {
            record.fields.emplace("exists", "1");
            for (const std::string& name : fields.getMemberNames()) {
                std::string found = text(fields, inside, name);
                if (name.empty()) fail(ErrorCode::unknown_field, inside, fields[name], {});
                if (!record.fields.emplace(name, std::move(found)).second) {
                    fail(ErrorCode::unknown_field, below(inside, name), fields[name], {});
                }
            }
        }
        return record;
    }

    TransferAct act(const Json::Value& value, const std::string& path, std::size_t expected) {
        TransferAct act;
        if (!check_members(value, path, {"act", "who", "when", "undoes", "edits"})) return act;
        act.line = line(value);
        if (number(value, path, "act") != static_cast<std::int64_t>(expected)) {
            fail(ErrorCode::out_of_range, below(path, "act"), value["act"],
                 std::to_string(expected));
        }
        act.who = text(value, path, "who");
        act.when_utc = text(value, path, "when");
        if (value.isMember("undoes")) act.undoes = number(value, path, "undoes");
        each(value, path, "edits", [&](const Json::Value& member, const std::string& inside) {
            act.edits.push_back(edit(member, inside));
        });
        return act;
    }

    TransferEdit edit(const Json::Value& value, const std::string& path) {
        TransferEdit edit;
        if (!check_members(value, path, {"record", "id", "field", "before", "after"})) return edit;
        edit.line = line(value);
        edit.kind = text(value, path, "record");
        edit.id = number(value, path, "id");
        edit.field = text(value, path, "field");
        edit.before = optional_text(value, path, "before");
        edit.after = optional_text(value, path, "after");
        return edit;
    }

    /// The name is made of the digest: it can't lead out of the folder.
    static bool is_photo_name(const std::string& name, const std::string& digest) {
        constexpr std::size_t longest_suffix = 8;
        if (name.compare(0, digest.size(), digest) != 0 || name.size() < digest.size() + 2 ||
            name.size() > digest.size() + 1 + longest_suffix || name[digest.size()] != '.') {
            return false;
        }
        return std::all_of(name.begin() + static_cast<long>(digest.size()) + 1, name.end(),
                           [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); });
    }

    TransferPhoto photo(const Json::Value& value, const std::string& path) {
        TransferPhoto photo;
        if (!check_members(value, path, {"digest", "file"})) return photo;
        photo.line = line(value);
        photo.digest = text(value, path, "digest");
        const bool plain = std::all_of(photo.digest.begin(), photo.digest.end(), [](char c) {
            return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
        });
        constexpr std::size_t digits = 64;
        if (!plain || photo.digest.size() != digits) {
            fail(ErrorCode::wrong_type, below(path, "digest"), value["digest"], "SHA-256");
        }
        if (!value.isMember("file")) {
            fail(ErrorCode::missing_field, below(path, "file"), value, {});
        } else if (!value["file"].isNull()) {
            photo.file = optional_text(value, path, "file");
            if (photo.file && !is_photo_name(*photo.file, photo.digest)) {
                fail(ErrorCode::wrong_type, below(path, "file"), value["file"],
                     photo.digest + ".jpg");
            }
        }
        return photo;
    }

    const std::string& text_;
    std::vector<std::size_t> line_ends_;
    std::optional<Error> error_;
};

// Writing ---------------------------------------------------------------------------------------

void put_quoted(std::string& out, std::string_view text) {
    static constexpr std::string_view digits = "0123456789abcdef";
    out += '"';
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            out += '\\';
            out += c;
        } else if (c == '\n') {
            out += "\\n";
        } else if (byte < 0x20 || byte == 0x7f) {
            out += "\\u00";
            out += digits[byte >> 4U];
            out += digits[byte & 0xfU];
        } else {
            out += c;
        }
    }
    out += '"';
}

void put_member(std::string& out, std::string_view key, const std::string& text) {
    put_quoted(out, key);
    out += ": ";
    put_quoted(out, text);
}

void put_head(std::string& out, const std::string& kind, std::int64_t id) {
    put_member(out, "record", kind);
    out += ", \"id\": ";
    out += std::to_string(id);
}

void put_record(std::string& out, const TransferRecord& record) {
    out += '{';
    put_head(out, record.kind, record.id);
    if (record.removed) out += ", \"removed\": true";
    out += ", \"fields\": {";
    bool first = true;
    for (const auto& [name, text] : record.fields) {
        if (name == "exists") continue;
        if (!first) out += ", ";
        first = false;
        put_member(out, name, text);
    }
    out += "}}";
}

void put_edit(std::string& out, const TransferEdit& edit) {
    out += '{';
    put_head(out, edit.kind, edit.id);
    out += ", ";
    put_member(out, "field", edit.field);
    const std::array<std::pair<const char*, const std::optional<std::string>*>, 2> texts{
        {{"before", &edit.before}, {"after", &edit.after}}};
    for (const auto& [key, text] : texts) {
        if (!*text) continue;
        out += ", ";
        put_member(out, key, **text);
    }
    out += '}';
}

template <typename Items, typename Put>
void put_list(std::string& out, const Items& items, const std::string& indent, const Put& put) {
    out += '[';
    bool first = true;
    for (const auto& item : items) {
        out += first ? "\n" : ",\n";
        first = false;
        out += indent;
        out += "  ";
        put(item);
    }
    if (!first) {
        out += '\n';
        out += indent;
    }
    out += ']';
}

} // namespace

Result<BuildTransfer> read_build_json(std::string_view bytes) {
    const auto text = utf8_text(bytes);
    if (!text) return text.error();
    const auto tree = json_tree(*text);
    if (!tree) return tree.error();
    const Json::Value& root = *tree;
    if (!root.isObject() || root["format"] != std::string(build_folder_format)) {
        return Error{ErrorCode::wrong_format,          "format", {},
                     std::string(build_folder_format), 1,        {}};
    }
    FolderReader reader(*text);
    const Json::Value& version = root["version"];
    if (!version.isInt() || version.type() == Json::realValue || version.asInt() < 1) {
        return Error{ErrorCode::wrong_type, "version", {}, "number", reader.line(version), {}};
    }
    if (version.asInt() > build_folder_version) {
        return Error{ErrorCode::newer_version,
                     "version",
                     version.asString(),
                     std::to_string(build_folder_version),
                     {},
                     {}};
    }
    return reader.take(root);
}

std::string write_build_json(const BuildTransfer& build) {
    std::string out = "{\n  \"format\": ";
    put_quoted(out, build_folder_format);
    out += ",\n  \"version\": ";
    out += std::to_string(build_folder_version);
    const auto put_records = [&out](const std::vector<TransferRecord>& records) {
        put_list(out, records, "  ",
                 [&out](const TransferRecord& record) { put_record(out, record); });
    };
    out += ",\n  \"shop\": ";
    put_records(build.shop);
    out += ",\n  \"history\": ";
    int number = 0;
    put_list(out, build.history, "  ", [&](const TransferAct& act) {
        out += "{\"act\": ";
        out += std::to_string(++number);
        out += ", ";
        put_member(out, "who", act.who);
        out += ", ";
        put_member(out, "when", act.when_utc);
        if (act.undoes) {
            out += ", \"undoes\": ";
            out += std::to_string(*act.undoes);
        }
        out += ", \"edits\": ";
        put_list(out, act.edits, "    ", [&out](const TransferEdit& edit) { put_edit(out, edit); });
        out += '}';
    });
    out += ",\n  \"records\": ";
    put_records(build.records);
    out += ",\n  \"photos\": ";
    put_list(out, build.photos, "  ", [&out](const TransferPhoto& photo) {
        out += '{';
        put_member(out, "digest", photo.digest);
        out += ", \"file\": ";
        if (photo.file) {
            put_quoted(out, *photo.file);
        } else {
            out += "null";
        }
        out += '}';
    });
    out += "\n}\n";
    return out;
}

} // namespace rodway
