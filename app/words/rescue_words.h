#pragma once

#include <QString>
#include <QStringList>

#include "db/rescue.h"

namespace rodway::words {

/// What became of one record in a rescue: one sentence.
[[nodiscard]] QString rescue_note_text(const RescueNote& note);

/// What a rescue came to, one sentence a line, without the single records.
[[nodiscard]] QStringList rescue_summary(const RescueReport& report);

} // namespace rodway::words
