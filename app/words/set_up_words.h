#pragma once

#include <QString>
#include <string>

namespace rodway::words {

/// A field of a set-up as a builder calls it.
struct SetUpField {
    QString what;  ///< "intake gasket", "pushrod's overall length"
    QString where; ///< "left bank", "3I"; empty: of the whole engine
};

/// Of a path such as "banks/left/flange/gasket". A path that no set-up has is told as it is.
[[nodiscard]] SetUpField set_up_field(const std::string& path);

/// "intake gasket, left bank".
[[nodiscard]] QString set_up_field_text(const std::string& path);

} // namespace rodway::words
