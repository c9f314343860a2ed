#include "core/files/json_tree.h"

#include <charconv>
#include <memory>
#include <string_view>

namespace rodway {
namespace {

/// jsoncpp tells what it met in words: "* Line 3, Column 5 … Duplicate key: 'bore_in'". Only the
/// place and a doubled key are taken from them.
Error syntax_error(const std::string& complaints) {
    Error error{ErrorCode::not_json, {}, {}, {}, {}, {}};
    static constexpr std::string_view line_word = "Line ";
    if (const auto at = complaints.find(line_word); at != std::string::npos) {
        int line = 0;
        std::from_chars(complaints.data() + at + line_word.size(),
                        complaints.data() + complaints.size(), line);
        error.line = line;
    }
    static constexpr std::string_view duplicate = "Duplicate key: '";
    if (const auto at = complaints.find(duplicate); at != std::string::npos) {
        const std::size_t start = at + duplicate.size();
        error.code = ErrorCode::duplicate_field;
        error.field = complaints.substr(start, complaints.find('\'', start) - start);
    }
    return error;
}

} // namespace

Result<Json::Value> json_tree(const std::string& text) {
    Json::CharReaderBuilder builder;
    Json::CharReaderBuilder::strictMode(&builder.settings_);
    const std::unique_ptr<Json::CharReader> reader(builder.newCharReader());
    Json::Value root;
    std::string complaints;
    try {
        if (!reader->parse(text.data(), text.data() + text.size(), &root, &complaints)) {
            return syntax_error(complaints);
        }
    } catch (const Json::Exception&) {
        // jsoncpp throws at objects nested deeper than a stack bears.
        return Error{ErrorCode::not_json, {}, {}, {}, {}, {}};
    }
    return root;
}

} // namespace rodway
