#pragma once

#include <QString>
#include <QWidget>

#include "core/build/edit.h"

namespace rodway::tests {

/// Whether a field is meant for any words that somebody writes, so that nonsense is only a poor
/// remark there. What is read as a number, a day, money, a place or a choice is not.
[[nodiscard]] bool takes_any_words(const Edit& edit, const Act& act);
[[nodiscard]] QString words_of(const Edit& edit);
/// Boxes that store nothing and show what they find: searches, and those that only turn a view.
[[nodiscard]] bool may_be_silent(const QString& box);
/// Boxes that only a state which a walk doesn't come to shows; their words are tried elsewhere.
[[nodiscard]] bool is_tried_elsewhere(const QWidget& box);
/// What a form needs beside the box in hand, by the name of its box; empty: it can stay empty.
[[nodiscard]] QString plausible(const QString& box);

} // namespace rodway::tests
