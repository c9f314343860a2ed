#pragma once

#include <QString>

namespace rodway {

/// What people typed, for a tool tip, which takes anything with a tag in it for markup.
[[nodiscard]] inline QString plain_tip(const QString& text) {
    return text.isEmpty() ? text : "<qt>" + text.toHtmlEscaped() + "</qt>";
}

} // namespace rodway
