#include "core/files/set_up_file.h"

#include <json/json.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <memory>
#include <vector>

#include "core/engine/set_up.h"
#include "core/engine/set_up_fields.h"
#include "core/files/json_tree.h"
#include "core/files/text_bytes.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// A key's ending and the unit it stands for; longer endings first.
constexpr std::array<std::pair<std::string_view, std::string_view>, 22> endings{{
    {"_crank_deg_in", "crank_deg/in"},
    {"_crank_deg_mm", "crank_deg/mm"},
    {"_in_crank_deg", "in/crank_deg"},
    {"_mm_crank_deg", "mm/crank_deg"},
    {"_cam_deg_in", "cam_deg/in"},
    {"_cam_deg_mm", "cam_deg/mm"},
    {"_crank_deg", "crank_deg"},
    {"_in_lbf", "in/lbf"},
    {"_mm_N", "mm/N"},
    {"_ppm_K", "ppm_K"},
    {"_ppm_F", "ppm_F"},
    {"_degC", "degC"},
    {"_degF", "degF"},
    {"_Mpsi", "Mpsi"},
    {"_thou", "thou"},
    {"_GPa", "GPa"},
    {"_rpm", "rpm"},
    {"_deg", "deg"},
    {"_in", "in"},
    {"_mm", "mm"},
    {"_oz", "oz"},
    {"_g", "g"},
}};

std::string_view ending_of(std::string_view unit) {
    for (const auto& [ending, its_unit] : endings) {
        if (its_unit == unit) {
            return ending;
        }
    }
    return {};
}

/// Turns the JSON tree into fields, remembering on which line each stands.
class Importer {
  public:
    explicit Importer(const std::string& text) : text_(text) {}

    std::optional<Error> take(const Json::Value& root) {
        for (const std::string& key : root.getMemberNames()) {
            if (key != "format" && key != "version") {
                if (auto error = take_member(root[key], "", key)) {
                    return error;
                }
            }
        }
        return std::nullopt;
    }
    SetUpFields fields;
    std::map<std::string, int> lines; ///< where each field, and what holds it, stands
    std::map<std::string, std::vector<int>>
        pair_lines; ///< where each row of a list of pairs stands

  private:
    Error fail(ErrorCode code, const std::string& path, const Json::Value& value,
               std::string_view expected) const {
        return {code, path, raw(value).substr(0, 60), std::string(expected), line(value), {}};
    }
    std::string raw(const Json::Value& value) const {
        const auto start = static_cast<std::size_t>(value.getOffsetStart());
        return text_.substr(start, static_cast<std::size_t>(value.getOffsetLimit()) - start);
    }
    int line(const Json::Value& value) const {
        return line_of(text_, static_cast<std::size_t>(value.getOffsetStart()));
    }
    /// A number's own digits; an exponent is written out, since fields hold plain numbers.
    std::string digits(const Json::Value& value) const {
        std::string written = raw(value);
        if (written.find_first_of("eE") == std::string::npos) {
            return written;
        }
        std::array<char, 400> buffer{};
        const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(),
                                       value.asDouble(), std::chars_format::fixed);
        return {buffer.data(), end.ptr};
    }

    std::optional<Error> take_member(const Json::Value& value, const std::string& above,
                                     const std::string& key) {
        const std::string here = above.empty() ? key : above + "/" + key;
        lines.emplace(here, line(value));
        if (value.isObject()) {
            if (key.find('/') != std::string::npos) {
                return fail(ErrorCode::unknown_field, here, value, {});
            }
            if (value.empty()) {
                return fail(ErrorCode::missing_field, here, value, {});
            }
            for (const std::string& name : value.getMemberNames()) {
                if (auto error = take_member(value[name], here, name)) {
                    return error;
                }
            }
            return std::nullopt;
        }
        // Most fields carry a unit in their key; words and axes have none.
        std::string path = here;
        std::string unit;
        if (!known(path)) {
            for (const auto& [ending, its_unit] : endings) {
                if (key.size() > ending.size() &&
                    key.compare(key.size() - ending.size(), ending.size(), ending) == 0) {
                    const std::string shorter = here.substr(0, here.size() - ending.size());
                    if (known(shorter)) {
                        path = shorter;
                        unit = its_unit;
                        break;
                    }
                }
            }
        }
        if (!known(path)) {
            return fail(ErrorCode::unknown_field, here, value, {});
        }
        return take_value(value, path, unit);
    }

    static bool known(const std::string& path) {
        return field_spec(path) || field_spec(path + "/x");
    }

    std::optional<Error> take_value(const Json::Value& value, const std::string& path,
                                    const std::string& unit) {
        const FieldSpec* spec = field_spec(path);
        if (!spec) {
            return take_triple(value, path, unit);
        }
        if (!unit_fits(spec->kind, unit)) {
            return fail(ErrorCode::wrong_type, path, value, "unit");
        }
        if (is_list_of_pairs(spec->kind)) {
            return take_pairs(value, path, unit);
        }
        const bool words = spec->kind == FieldKind::words || spec->kind == FieldKind::choice;
        if (value.isString()) {
            return put(path, value.asString(), unit, value);
        }
        if (words || !value.isNumeric()) {
            return fail(ErrorCode::wrong_type, path, value, words ? "text" : "number");
        }
        return put(path, digits(value), unit, value);
    }

    std::optional<Error> take_triple(const Json::Value& value, const std::string& path,
                                     const std::string& unit) {
        if (!value.isArray() || value.size() != 3) {
            return fail(ErrorCode::wrong_type, path, value, "three_numbers");
        }
        static constexpr std::array<const char*, 3> names{"/x", "/y", "/z"};
        for (Json::ArrayIndex at = 0; at < 3; ++at) {
            if (auto error = take_value(value[at], path + names[at], unit)) {
                return error;
            }
        }
        return std::nullopt;
    }

    std::optional<Error> take_pairs(const Json::Value& value, const std::string& path,
                                    const std::string& unit) {
        if (!value.isArray()) {
            return fail(ErrorCode::wrong_type, path, value, "pairs");
        }
        std::string rows;
        for (const Json::Value& row : value) {
            if (!row.isArray() || row.size() != 2 || !is_number_or_text(row[0]) ||
                !is_number_or_text(row[1])) {
                return fail(ErrorCode::wrong_type, path, row, "pairs");
            }
            if (!rows.empty()) {
                rows += "; ";
            }
            rows += number_text(row[0]) + " " + number_text(row[1]);
            pair_lines[path].push_back(line(row));
        }
        return put(path, rows, unit, value);
    }

    static bool is_number_or_text(const Json::Value& value) {
        return value.isNumeric() || value.isString();
    }
    std::string number_text(const Json::Value& value) const {
        return value.isString() ? value.asString() : digits(value);
    }

    std::optional<Error> put(const std::string& path, const std::string& text,
                             const std::string& unit, const Json::Value& value) {
        if (text.find('\0') != std::string::npos) {
            return fail(ErrorCode::wrong_type, path, value, "text");
        }
        if (!fields.emplace(path, TypedValue{text, unit}).second) {
            return fail(ErrorCode::duplicate_field, path, value, {});
        }
        lines[path] = line(value);
        return std::nullopt;
    }

    const std::string& text_;
};

/// Puts the file's line into an error about a field: its own, its row's, or that of what holds it.
Error with_line(Error error, const Importer& importer) {
    const auto rows = importer.pair_lines.find(error.field);
    if (error.line && rows != importer.pair_lines.end()) {
        const auto row = static_cast<std::size_t>(*error.line - 1);
        error.line = row < rows->second.size() ? std::optional(rows->second[row]) : std::nullopt;
        return error;
    }
    for (std::string path = error.field;; path.resize(path.rfind('/'))) {
        if (const auto found = importer.lines.find(path); found != importer.lines.end()) {
            error.line = found->second;
            return error;
        }
        if (path.find('/') == std::string::npos) {
            return error;
        }
    }
}

// Writing ---------------------------------------------------------------------------------------

bool is_json_number(std::string_view text) {
    std::size_t at = 0;
    const auto digits = [&] {
        const std::size_t start = at;
        while (at < text.size() && text[at] >= '0' && text[at] <= '9') {
            ++at;
        }
        return at - start;
    };
    if (at < text.size() && text[at] == '-') {
        ++at;
    }
    const std::size_t first = at;
    const std::size_t whole = digits();
    if (whole == 0 || (whole > 1 && text[first] == '0')) {
        return false;
    }
    if (at < text.size() && text[at] == '.') {
        ++at;
        if (digits() == 0) {
            return false;
        }
    }
    return at == text.size();
}

std::string quoted(const std::string& text) {
    return Json::valueToQuotedString(text.c_str());
}

std::string number_or_text(const std::string& text) {
    return is_json_number(text) ? text : quoted(text);
}

std::string pairs_as_json(const std::string& rows, const std::string& indent) {
    std::string json = "[";
    std::size_t start = 0;
    int in_line = 0;
    while (start < rows.size()) {
        const std::size_t end = std::min(rows.find(';', start), rows.size());
        start = std::min(rows.find_first_not_of(' ', start), end);
        const std::size_t gap = std::min(rows.find(' ', start), end);
        json += in_line == 0 ? "" : ",";
        json += in_line++ % 5 == 0 ? "\n" + indent + "  " : " ";
        json += "[" + number_or_text(rows.substr(start, gap - start)) + ", " +
                number_or_text(rows.substr(std::min(gap + 1, end), end - std::min(gap + 1, end))) +
                "]";
        start = end + 1;
    }
    return json + "\n" + indent + "]";
}

/// A tree of objects whose leaves are JSON already, in the order in which they were put.
struct Node {
    std::string leaf;
    std::vector<std::pair<std::string, std::unique_ptr<Node>>> members;

    Node& member(const std::string& name) {
        for (auto& [known, node] : members) {
            if (known == name) {
                return *node;
            }
        }
        members.emplace_back(name, std::make_unique<Node>());
        return *members.back().second;
    }
    void write(std::string& out, const std::string& indent) const {
        if (members.empty()) {
            out += leaf;
            return;
        }
        out += "{";
        for (std::size_t at = 0; at < members.size(); ++at) {
            out += (at == 0 ? "\n" : ",\n") + indent + "  " + quoted(members[at].first) + ": ";
            members[at].second->write(out, indent + "  ");
        }
        out += "\n" + indent + "}";
    }
};

bool natural_less(const std::string& a, const std::string& b) {
    const auto number = [](const std::string& text) {
        int value = 0;
        std::from_chars(text.data(), text.data() + text.size(), value);
        return value;
    };
    if (number(a) != number(b)) {
        return number(a) < number(b);
    }
    return a < b;
}

std::size_t rank(const std::string& path) {
    const auto& specs = set_up_field_specs();
    const FieldSpec* spec = field_spec(path);
    RODWAY_ASSERT(spec != nullptr);
    return static_cast<std::size_t>(spec - specs.data());
}

/// By the section, then by the name in the middle (cylinder, valve), then as the specs stand.
bool written_before(const std::string& a, const std::string& b) {
    const auto parts_a = path_parts(a);
    const auto parts_b = path_parts(b);
    if (parts_a[0] == parts_b[0] && parts_a.size() > 2 && parts_b.size() > 2 &&
        parts_a[1] != parts_b[1]) {
        return natural_less(parts_a[1], parts_b[1]);
    }
    return rank(a) < rank(b);
}

} // namespace

Result<SetUpFields> read_set_up_file(std::string_view bytes) {
    const auto text = utf8_text(bytes);
    if (!text) {
        return text.error();
    }
    const auto tree = json_tree(*text);
    if (!tree) {
        return tree.error();
    }
    const Json::Value& root = *tree;
    if (!root.isObject() || root["format"] != std::string(set_up_format)) {
        return Error{ErrorCode::wrong_format, "format", {}, std::string(set_up_format), 1, {}};
    }
    const Json::Value& version = root["version"];
    if (!version.isInt() || version.asInt() < 1) {
        return Error{ErrorCode::wrong_type, "version", {}, "number", 1, {}};
    }
    if (version.asInt() > set_up_version) {
        return Error{ErrorCode::newer_version,       "version", version.asString(),
                     std::to_string(set_up_version), {},        {}};
    }
    Importer importer(*text);
    if (auto error = importer.take(root)) {
        return *error;
    }
    if (const auto engine = make_engine(importer.fields); !engine) {
        return with_line(engine.error(), importer);
    }
    return importer.fields;
}

std::string write_set_up_file(const SetUpFields& fields) {
    std::vector<std::string> paths;
    for (const auto& [path, value] : fields) {
        paths.push_back(path);
    }
    std::stable_sort(paths.begin(), paths.end(), written_before);
    Node root;
    root.member("format").leaf = quoted(std::string(set_up_format));
    root.member("version").leaf = std::to_string(set_up_version);
    for (const std::string& path : paths) {
        const TypedValue& value = fields.at(path);
        const FieldKind kind = field_spec(path)->kind;
        std::vector<std::string> parts = path_parts(path);
        const std::string last = parts.back();
        const bool component = (last == "x" || last == "y" || last == "z");
        if (component) {
            parts.pop_back();
        }
        Node* node = &root;
        for (std::size_t at = 0; at + 1 < parts.size(); ++at) {
            node = &node->member(parts[at]);
        }
        const std::string key = parts.back() + std::string(ending_of(value.unit));
        const bool words = kind == FieldKind::words || kind == FieldKind::choice;
        const std::string indent(2 * parts.size(), ' ');
        const std::string json = is_list_of_pairs(kind) ? pairs_as_json(value.text, indent)
                                 : words                ? quoted(value.text)
                                                        : number_or_text(value.text);
        std::string& leaf = node->member(key).leaf;
        if (!component) {
            leaf = json;
        } else if (last == "x") {
            leaf = "[" + json;
        } else {
            leaf += ", " + json + (last == "z" ? "]" : "");
        }
    }
    std::string out;
    root.write(out, "");
    return out + "\n";
}

} // namespace rodway
