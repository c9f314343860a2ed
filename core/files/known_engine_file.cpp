#include "core/files/known_engine_file.h"

#include <json/json.h>

#include <algorithm>
#include <array>

#include "core/engine/field_reader.h"
#include "core/files/json_tree.h"
#include "core/files/set_up_file.h"
#include "core/files/text_bytes.h"

namespace rodway {
namespace {

constexpr std::array<const char*, 4> words{"name", "measured_by", "measured_on", "note"};

std::optional<std::string>* word_of(KnownEngine& engine, std::string_view key) {
    return key == "measured_by"   ? &engine.measured_by
           : key == "measured_on" ? &engine.measured_on
           : key == "note"        ? &engine.note
                                  : nullptr;
}

void append(std::string& out, const char* key, const std::string& text) {
    out += std::string("  \"") + key + "\": " + Json::valueToQuotedString(text.c_str()) + ",\n";
}

/// The set-up in the file, read as a set-up file of its own; lines count from the whole file's
/// first.
Result<SetUpFields> set_up_in(const std::string& text, const Json::Value& set_up) {
    const auto start = static_cast<std::size_t>(set_up.getOffsetStart());
    const auto end = static_cast<std::size_t>(set_up.getOffsetLimit());
    auto fields = read_set_up_file(text.substr(start, end - start));
    if (fields) {
        return fields;
    }
    Error error = fields.error();
    if (error.line) {
        *error.line += static_cast<int>(
            std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(start), '\n'));
    }
    return error;
}

Result<KnownEngine> of_set_up_alone(std::string_view bytes) {
    const auto fields = read_set_up_file(bytes);
    if (!fields) {
        return fields.error();
    }
    KnownEngine engine;
    engine.fields = *fields;
    engine.name = engine.fields.at("engine/name").text;
    return engine;
}

} // namespace

std::string write_known_engine_file(const KnownEngine& engine) {
    std::string out = "{\n";
    append(out, "format", std::string(known_engine_format));
    out += "  \"version\": " + std::to_string(known_engine_file_version) + ",\n";
    append(out, "name", engine.name);
    for (const auto& [key, text] :
         {std::pair{"measured_by", engine.measured_by},
          std::pair{"measured_on", engine.measured_on}, std::pair{"note", engine.note}}) {
        if (text) {
            append(out, key, *text);
        }
    }
    std::string set_up = write_set_up_file(engine.fields);
    while (!set_up.empty() && set_up.back() == '\n') {
        set_up.pop_back();
    }
    std::string indented;
    for (const char letter : set_up) {
        indented += letter;
        if (letter == '\n') {
            indented += "  ";
        }
    }
    return out + "  \"set_up\": " + indented + "\n}\n";
}

Result<KnownEngine> read_known_engine_file(std::string_view bytes) {
    const auto text = utf8_text(bytes);
    if (!text) {
        return text.error();
    }
    const auto tree = json_tree(*text);
    if (!tree) {
        return tree.error();
    }
    const Json::Value& root = *tree;
    if (!root.isObject() || root["format"] != std::string(known_engine_format)) {
        return of_set_up_alone(bytes);
    }
    const Json::Value& version = root["version"];
    if (!version.isInt() || version.asInt() < 1) {
        return Error{ErrorCode::wrong_type, "version", {}, "number", 1, {}};
    }
    if (version.asInt() > known_engine_file_version) {
        return Error{ErrorCode::newer_version,
                     "version",
                     version.asString(),
                     std::to_string(known_engine_file_version),
                     {},
                     {}};
    }
    KnownEngine engine;
    for (const char* key : words) {
        const Json::Value& value = root[key];
        if (value.isNull()) {
            continue;
        }
        if (!value.isString() || value.asString().empty() ||
            value.asString().find('\0') != std::string::npos) {
            return bad_field(ErrorCode::wrong_type, key, {}, "text");
        }
        if (auto* word = word_of(engine, key)) {
            *word = value.asString();
        } else {
            engine.name = value.asString();
        }
    }
    if (engine.name.empty()) {
        return bad_field(ErrorCode::missing_field, "name", {});
    }
    if (!root["set_up"].isObject()) {
        return bad_field(ErrorCode::missing_field, "set_up", {});
    }
    const auto fields = set_up_in(*text, root["set_up"]);
    if (!fields) {
        return fields.error();
    }
    engine.fields = *fields;
    return engine;
}

} // namespace rodway
