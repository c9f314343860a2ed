#include "core/build/need.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "core/build/part_role.h"
#include "core/build/word_list.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

constexpr std::array<std::pair<NeedKind, std::string_view>, 7> kinds{{
    {NeedKind::steps, "steps"},
    {NeedKind::sheet, "sheet"},
    {NeedKind::parts, "parts"},
    {NeedKind::cures, "cures"},
    {NeedKind::clearance, "clearance"},
    {NeedKind::closed, "closed"},
    {NeedKind::approvals, "approvals"},
}};

constexpr std::array<std::pair<OpenItemKind, std::string_view>, 6> item_kinds{{
    {OpenItemKind::temporary_part, "temporary_part"},
    {OpenItemKind::watch, "watch"},
    {OpenItemKind::decision, "decision"},
    {OpenItemKind::risk, "risk"},
    {OpenItemKind::question, "question"},
    {OpenItemKind::other, "other"},
}};

template <typename Table>
auto called(const Table& table, std::string_view word) {
    const auto found = std::find_if(table.begin(), table.end(),
                                    [&](const auto& entry) { return entry.second == word; });
    return found == table.end() ? std::nullopt : std::optional(found->first);
}

template <typename Table, typename Kind>
std::string_view word_of(const Table& table, Kind kind) {
    const auto found = std::find_if(table.begin(), table.end(),
                                    [&](const auto& entry) { return entry.first == kind; });
    RODWAY_ASSERT(found != table.end());
    return found->second;
}

template <typename Table>
std::string all_words(const Table& table) {
    std::vector<std::string> words;
    for (const auto& entry : table) {
        words.emplace_back(entry.second);
    }
    return joined(words, " ");
}

Error wrong(ErrorCode code, std::string value, std::string expected = {}) {
    return Error{code, "needs", std::move(value), std::move(expected), {}, {}};
}

std::string sheet_words() {
    std::vector<std::string> words;
    for (const SheetKind& kind : sheet_kinds()) {
        words.push_back(kind.id);
    }
    return joined(words, " ");
}

/// Words behind a kind, each known and there once.
std::optional<Error> take_words(Need& need, const std::string& about) {
    std::vector<std::string> taken;
    for (const std::string& word : split_list(about, ',')) {
        if (word.empty()) {
            return wrong(ErrorCode::empty_text, about);
        }
        if (std::find(taken.begin(), taken.end(), word) != taken.end()) {
            return wrong(ErrorCode::duplicate_field, word);
        }
        taken.push_back(word);
        if (need.kind == NeedKind::sheet && !is_sheet_word(word)) {
            return wrong(ErrorCode::not_a_choice, word, sheet_words());
        }
        if (need.kind == NeedKind::closed) {
            const auto kind = called(item_kinds, word);
            if (!kind) {
                return wrong(ErrorCode::not_a_choice, word, all_words(item_kinds));
            }
            need.items.push_back(*kind);
        }
    }
    if (need.kind == NeedKind::sheet) {
        need.sheets = std::move(taken);
    }
    return std::nullopt;
}

Result<Need> one_need(const std::string& text) {
    const std::size_t end = std::min(text.find_first_of(" \t\r\n"), text.size());
    const std::string word = text.substr(0, end);
    const auto kind = called(kinds, word);
    if (!kind) {
        return word.empty() ? wrong(ErrorCode::empty_text, {}, all_words(kinds))
                            : wrong(ErrorCode::not_a_choice, word, all_words(kinds));
    }
    const std::string about = without_blanks(text.substr(end));
    const bool speaks_of_something =
        *kind == NeedKind::sheet || *kind == NeedKind::parts || *kind == NeedKind::closed;
    Need need{*kind};
    if (!speaks_of_something) {
        return about.empty() ? Result<Need>(need) : wrong(ErrorCode::wrong_type, text, word);
    }
    if (about.empty()) {
        return wrong(ErrorCode::missing_field, word);
    }
    if (*kind == NeedKind::parts) {
        auto roles = parse_part_roles(about);
        if (!roles) {
            Error error = roles.error();
            error.field = "needs";
            return error;
        }
        need.roles = std::move(roles).value();
        return need;
    }
    if (const auto error = take_words(need, about)) {
        return *error;
    }
    return need;
}

} // namespace

Result<std::vector<Need>> parse_needs(std::string_view text) {
    std::vector<Need> needs;
    for (const std::string& piece : split_list(text, ';')) {
        auto need = one_need(piece);
        if (!need) {
            return need.error();
        }
        const bool twice = std::any_of(needs.begin(), needs.end(), [&](const Need& before) {
            return before.kind == need->kind;
        });
        if (twice) {
            return wrong(ErrorCode::duplicate_field, std::string(need_word(need->kind)));
        }
        needs.push_back(std::move(need).value());
    }
    return needs;
}

std::string needs_text(const std::vector<Need>& needs) {
    std::vector<std::string> pieces;
    for (const Need& need : needs) {
        std::vector<std::string> about = need.kind == NeedKind::parts ? need.roles : need.sheets;
        for (const OpenItemKind kind : need.items) {
            about.emplace_back(open_item_word(kind));
        }
        pieces.push_back(std::string(need_word(need.kind)) + (about.empty() ? "" : " ") +
                         joined(about, ", "));
    }
    return joined(pieces, "; ");
}

std::string_view need_word(NeedKind kind) {
    return word_of(kinds, kind);
}

std::string_view open_item_word(OpenItemKind kind) {
    return word_of(item_kinds, kind);
}

bool is_own_sheet(std::string_view word) {
    static constexpr std::string_view start = "own_";
    return word.size() > start.size() && word.substr(0, start.size()) == start &&
           word.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") ==
               std::string_view::npos;
}

bool is_sheet_word(std::string_view word) {
    return find_sheet_kind(word) != nullptr || is_own_sheet(word);
}

} // namespace rodway
