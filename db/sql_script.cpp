#include "db/sql_script.h"

#include <cstddef>

namespace rodway {
namespace {

bool is_word_character(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '$' || static_cast<unsigned char>(c) >= 0x80;
}

bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

std::string upper(std::string_view word) {
    std::string out(word);
    for (char& c : out) {
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    }
    return out;
}

/// Position behind the quote that opens at `at`. A doubled quote reads as two quotes side by side,
/// which ends and opens again: no special case is needed.
std::size_t behind_quote(std::string_view script, std::size_t at) {
    const char closing = script[at] == '[' ? ']' : script[at];
    const std::size_t end = script.find(closing, at + 1);
    return end == std::string_view::npos ? script.size() : end + 1;
}

/// Position behind the comment that begins at `at`, or `at` if none does.
std::size_t behind_comment(std::string_view script, std::size_t at) {
    const std::string_view mark = script.substr(at, 2);
    if (mark != "--" && mark != "/*") return at;
    const std::string_view closing = mark == "--" ? "\n" : "*/";
    const std::size_t end = script.find(closing, at + 2);
    return end == std::string_view::npos ? script.size() : end + closing.size();
}

/// Follows the words of one statement to know whether a semicolon ends it.
class StatementWords {
  public:
    void take(const std::string& word) {
        if (count_ == 0) creates_ = word == "CREATE";
        // CREATE [TEMP | TEMPORARY] TRIGGER
        if (creates_ && (count_ == 1 || count_ == 2) && word == "TRIGGER") is_trigger_ = true;
        if (is_trigger_) {
            if (word == "BEGIN" || word == "CASE") ++depth_;
            if (word == "END" && depth_ > 0) --depth_;
        }
        ++count_;
    }
    [[nodiscard]] bool inside_body() const { return depth_ > 0; }

  private:
    bool creates_ = false;
    bool is_trigger_ = false;
    int count_ = 0;
    int depth_ = 0;
};

} // namespace

std::vector<std::string> split_statements(std::string_view script) {
    std::vector<std::string> statements;
    StatementWords words;
    std::size_t begin = std::string_view::npos; // first character that is neither space nor comment
    std::size_t at = 0;
    while (at < script.size()) {
        const char c = script[at];
        if (const std::size_t behind = behind_comment(script, at); behind != at) {
            at = behind;
            continue;
        }
        if (c == ';' && !words.inside_body()) {
            if (begin != std::string_view::npos) {
                statements.emplace_back(script.substr(begin, at - begin));
            }
            begin = std::string_view::npos;
            words = StatementWords();
            ++at;
            continue;
        }
        if (begin == std::string_view::npos && !is_space(c)) begin = at;
        if (c == '\'' || c == '"' || c == '`' || c == '[') {
            at = behind_quote(script, at);
        } else if (is_word_character(c)) {
            std::size_t end = at;
            while (end < script.size() && is_word_character(script[end])) ++end;
            words.take(upper(script.substr(at, end - at)));
            at = end;
        } else {
            ++at;
        }
    }
    if (begin != std::string_view::npos) statements.emplace_back(script.substr(begin));
    return statements;
}

} // namespace rodway
