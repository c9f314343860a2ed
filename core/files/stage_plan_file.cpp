#include "core/files/stage_plan_file.h"

#include <json/json.h>

#include <algorithm>
#include <initializer_list>
#include <map>
#include <set>

#include "core/build/caution.h"
#include "core/build/part_role.h"
#include "core/build/word_list.h"
#include "core/files/json_tree.h"
#include "core/files/text_bytes.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

/// Reads the tree; the first error ends it.
class Reader {
  public:
    Reader(const std::string& text, const std::vector<std::string>& own_sheets)
        : text_(text), own_sheets_(own_sheets) {}

    Result<StagePlan> read(const Json::Value& root) {
        StagePlan plan;
        const auto good =
            check_keys(root, "", {"format", "version", "word", "title", "about", "stages"}) &&
            take_word(root, "", "word", plan.word) && take_title(root, "", plan.title) &&
            take_optional(root, "", "about", plan.about) &&
            take_list(root, "", "stages", true,
                      [&](const Json::Value& value, const std::string& path) {
                          return take_stage(value, path, plan.stages.emplace_back());
                      });
        return good ? Result<StagePlan>(std::move(plan)) : Result<StagePlan>(*error_);
    }

  private:
    bool refuse(ErrorCode code, const std::string& path, const Json::Value& value,
                std::string found, std::string expected = {}) {
        const int line = line_of(text_, static_cast<std::size_t>(value.getOffsetStart()));
        error_ = Error{code, path, std::move(found), std::move(expected), line, {}};
        return false;
    }
    bool refuse_raw(const std::string& path, const Json::Value& value, const char* expected) {
        const auto start = static_cast<std::size_t>(value.getOffsetStart());
        const auto length = static_cast<std::size_t>(value.getOffsetLimit()) - start;
        return refuse(ErrorCode::wrong_type, path, value,
                      text_.substr(start, std::min<std::size_t>(length, 60)), expected);
    }
    /// An error of a text inside the file, brought to its place.
    bool refuse_inner(Error error, const std::string& path, const Json::Value& value) {
        return refuse(error.code, path, value, error.value, error.expected);
    }

    static std::string under(const std::string& above, const char* key) {
        return above.empty() ? key : above + '/' + key;
    }

    bool check_keys(const Json::Value& value, const std::string& path,
                    std::initializer_list<const char*> known) {
        if (!value.isObject()) {
            return refuse_raw(path, value, "object");
        }
        for (const std::string& key : value.getMemberNames()) {
            const auto is_key = [&](const char* name) { return key == name; };
            if (std::none_of(known.begin(), known.end(), is_key)) {
                return refuse(ErrorCode::unknown_field, path.empty() ? key : path + '/' + key,
                              value[key], {});
            }
        }
        return true;
    }

    bool take_text(const Json::Value& value, const std::string& path, std::string& text) {
        // An escape can stand for half a character, which is no text.
        if (!value.isString() || value.asString().find('\0') != std::string::npos ||
            (!value.asString().empty() && !utf8_text(value.asString()))) {
            return refuse_raw(path, value, "text");
        }
        text = value.asString();
        return !without_blanks(text).empty() || refuse(ErrorCode::empty_text, path, value, {});
    }
    bool take_needed(const Json::Value& above, const std::string& path, const char* key,
                     std::string& text) {
        const std::string here = under(path, key);
        return above.isMember(key) ? take_text(above[key], here, text)
                                   : refuse(ErrorCode::missing_field, here, above, {});
    }
    bool take_optional(const Json::Value& above, const std::string& path, const char* key,
                       std::optional<std::string>& text) {
        return !above.isMember(key) || take_text(above[key], under(path, key), text.emplace());
    }
    bool take_title(const Json::Value& above, const std::string& path, std::string& title) {
        return take_needed(above, path, "title", title);
    }
    bool take_word(const Json::Value& above, const std::string& path, const char* key,
                   std::string& word) {
        if (!take_needed(above, path, key, word)) {
            return false;
        }
        return is_plan_word(word) ||
               refuse(ErrorCode::not_a_choice, under(path, key), above[key], word, "one_word");
    }
    bool take_id(const Json::Value& above, const std::string& path, std::string& id) {
        if (!take_word(above, path, "id", id)) {
            return false;
        }
        return ids_.insert(id).second ||
               refuse(ErrorCode::duplicate_field, under(path, "id"), above["id"], id);
    }

    bool take_caution(const Json::Value& above, const std::string& path,
                      std::optional<std::string>& caution) {
        if (!take_optional(above, path, "caution", caution)) {
            return false;
        }
        if (!caution || is_caution(*caution)) {
            return true;
        }
        std::vector<std::string> all(cautions().begin(), cautions().end());
        return refuse(ErrorCode::not_a_choice, under(path, "caution"), above["caution"], *caution,
                      joined(all, " "));
    }

    bool is_sheet(const std::string& word) const {
        return find_sheet_kind(word) != nullptr ||
               std::find(own_sheets_.begin(), own_sheets_.end(), word) != own_sheets_.end();
    }
    bool check_sheet(const std::string& word, const std::string& path, const Json::Value& value) {
        if (is_sheet(word)) {
            return true;
        }
        std::vector<std::string> all;
        for (const SheetKind& kind : sheet_kinds()) {
            all.push_back(kind.id);
        }
        all.insert(all.end(), own_sheets_.begin(), own_sheets_.end());
        return refuse(ErrorCode::not_a_choice, path, value, word, joined(all, " "));
    }

    template <typename Take>
    bool take_list(const Json::Value& above, const std::string& path, const char* key, bool needed,
                   Take&& take) {
        const std::string here = under(path, key);
        if (!above.isMember(key)) {
            return !needed || refuse(ErrorCode::missing_field, here, above, {});
        }
        const Json::Value& list = above[key];
        if (!list.isArray()) {
            return refuse_raw(here, list, "list");
        }
        if (needed && list.empty()) {
            return refuse(ErrorCode::empty_text, here, list, {});
        }
        for (Json::ArrayIndex at = 0; at < list.size(); ++at) {
            if (!take(list[at], here + '/' + std::to_string(at + 1))) {
                return false;
            }
        }
        return true;
    }

    bool take_stage(const Json::Value& value, const std::string& path, PlannedStage& stage) {
        return check_keys(value, path, {"id", "title", "caution", "steps", "gates"}) &&
               take_id(value, path, stage.id) && take_title(value, path, stage.title) &&
               take_caution(value, path, stage.caution) &&
               take_list(value, path, "steps", false,
                         [&](const Json::Value& step, const std::string& where) {
                             return take_step(step, where, stage.steps.emplace_back());
                         }) &&
               take_list(value, path, "gates", false,
                         [&](const Json::Value& gate, const std::string& where) {
                             return take_gate(gate, where, stage.gates.emplace_back());
                         });
    }

    bool take_step(const Json::Value& value, const std::string& path, PlannedStep& step) {
        if (!check_keys(value, path, {"id", "title", "detail", "sheet", "parts", "caution"}) ||
            !take_id(value, path, step.id) || !take_title(value, path, step.title) ||
            !take_optional(value, path, "detail", step.detail) ||
            !take_optional(value, path, "sheet", step.sheet) ||
            !take_caution(value, path, step.caution)) {
            return false;
        }
        if (step.sheet && !check_sheet(*step.sheet, under(path, "sheet"), value["sheet"])) {
            return false;
        }
        std::optional<std::string> parts;
        if (!take_optional(value, path, "parts", parts)) {
            return false;
        }
        if (parts) {
            auto roles = parse_part_roles(*parts);
            if (!roles) {
                return refuse_inner(roles.error(), under(path, "parts"), value["parts"]);
            }
            step.roles = std::move(roles).value();
        }
        return true;
    }

    bool take_gate(const Json::Value& value, const std::string& path, PlannedGate& gate) {
        std::string text;
        if (!check_keys(value, path, {"id", "title", "needs"}) || !take_id(value, path, gate.id) ||
            !take_title(value, path, gate.title) || !take_needed(value, path, "needs", text)) {
            return false;
        }
        auto needs = parse_needs(text);
        if (!needs) {
            return refuse_inner(needs.error(), under(path, "needs"), value["needs"]);
        }
        gate.needs = std::move(needs).value();
        for (const Need& need : gate.needs) {
            for (const std::string& sheet : need.sheets) {
                if (!check_sheet(sheet, under(path, "needs"), value["needs"])) {
                    return false;
                }
            }
        }
        return true;
    }

    const std::string& text_;
    const std::vector<std::string>& own_sheets_;
    std::set<std::string> ids_;
    std::optional<Error> error_;
};

std::optional<Error> check_head(const Json::Value& root) {
    if (!root.isObject() || root["format"] != std::string(stage_plan_format)) {
        return Error{ErrorCode::wrong_format, "format", {}, std::string(stage_plan_format), 1, {}};
    }
    const Json::Value& version = root["version"];
    if (!version.isInt() || version.asInt() < 1) {
        return Error{ErrorCode::wrong_type, "version", {}, "number", 1, {}};
    }
    if (version.asInt() > stage_plan_version) {
        return Error{ErrorCode::newer_version,           "version", version.asString(),
                     std::to_string(stage_plan_version), {},        {}};
    }
    return std::nullopt;
}

// Writing ---------------------------------------------------------------------------------------

/// Members of one object, each on its line.
class Members {
  public:
    Members(std::string& out, std::string indent) : out_(out), indent_(std::move(indent)) {
        out_ += '{';
    }
    void text(const char* key, const std::string& text) {
        begin(key);
        out_ += quoted(text);
    }
    void text(const char* key, const std::optional<std::string>& given) {
        if (given) {
            text(key, *given);
        }
    }
    template <typename Items, typename Write>
    void list(const char* key, const Items& items, Write&& write) {
        begin(key);
        out_ += '[';
        for (std::size_t at = 0; at < items.size(); ++at) {
            out_ += (at == 0 ? "\n" : ",\n") + indent_ + "    ";
            write(items[at], indent_ + "    ");
        }
        out_ += items.empty() ? "]" : "\n" + indent_ + "  ]";
    }
    void raw(const char* key, const std::string& json) {
        begin(key);
        out_ += json;
    }
    void end() { out_ += "\n" + indent_ + "}"; }

  private:
    static std::string quoted(const std::string& text) {
        Json::StreamWriterBuilder builder;
        builder["indentation"] = "";
        builder["emitUTF8"] = true;
        return Json::writeString(builder, Json::Value(text));
    }
    void begin(const char* key) {
        out_ += (first_ ? "\n" : ",\n") + indent_ + "  \"" + key + "\": ";
        first_ = false;
    }

    std::string& out_;
    std::string indent_;
    bool first_ = true;
};

} // namespace

Result<StagePlan> read_stage_plan_file(std::string_view bytes,
                                       const std::vector<std::string>& own_sheets) {
    const auto text = utf8_text(bytes);
    if (!text) {
        return text.error();
    }
    const auto tree = json_tree(*text);
    if (!tree) {
        return tree.error();
    }
    if (const auto error = check_head(*tree)) {
        return *error;
    }
    return Reader(*text, own_sheets).read(*tree);
}

std::string write_stage_plan_file(const StagePlan& plan) {
    std::string out;
    const auto write_step = [&out](const PlannedStep& step, const std::string& indent) {
        Members members(out, indent);
        members.text("id", step.id);
        members.text("title", step.title);
        members.text("detail", step.detail);
        members.text("sheet", step.sheet);
        if (!step.roles.empty()) {
            members.text("parts", part_roles_text(step.roles));
        }
        members.text("caution", step.caution);
        members.end();
    };
    const auto write_gate = [&out](const PlannedGate& gate, const std::string& indent) {
        Members members(out, indent);
        members.text("id", gate.id);
        members.text("title", gate.title);
        members.text("needs", needs_text(gate.needs));
        members.end();
    };
    const auto write_stage = [&](const PlannedStage& stage, const std::string& indent) {
        Members members(out, indent);
        members.text("id", stage.id);
        members.text("title", stage.title);
        members.text("caution", stage.caution);
        members.list("steps", stage.steps, write_step);
        if (!stage.gates.empty()) {
            members.list("gates", stage.gates, write_gate);
        }
        members.end();
    };
    Members members(out, "");
    members.text("format", std::string(stage_plan_format));
    members.raw("version", std::to_string(stage_plan_version));
    members.text("word", plan.word);
    members.text("title", plan.title);
    members.text("about", plan.about);
    members.list("stages", plan.stages, write_stage);
    members.end();
    return out + "\n";
}

} // namespace rodway
