#include "app/build/build_panel.h"

#include "app/words/typed_words.h"
#include "core/build/word_list.h"

namespace rodway {

void BuildPanel::tell(const Error& error) {
    if (!is_waiting(error)) {
        emit failed(words::typed_error(error, {}));
    }
}

QString utf16(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString utf16(const std::optional<std::string>& utf8) {
    return QString::fromStdString(utf8.value_or(std::string()));
}

std::optional<std::string> if_typed(const std::string& typed) {
    std::string words = without_blanks(typed);
    return words.empty() ? std::nullopt : std::optional(std::move(words));
}

} // namespace rodway
