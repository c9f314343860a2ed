#pragma once

#include <QString>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/handoff/book_template.h"

namespace rodway {

/// Words of the built-in templates: "complete", "short", "settings_card".
[[nodiscard]] const std::vector<std::string>& book_template_words();

/// Under this name the shop keeps, among what belongs to its papers, in which folder its own
/// templates lie. Never changes: shop files have it.
inline constexpr const char* templates_folder_name = "book_templates_folder";

/// Whole paths of the shop's own templates (*.txt), by name. Without a folder there are none.
[[nodiscard]] std::vector<QString> own_templates(const QString& folder);

/// A built-in template by its word, or one read from a file: by its path, or by its name in the
/// shop's folder, with or without ".txt". Errors: as `read_book_template`; cannot_read, `field` the
/// path.
Result<BookTemplate> find_book_template(const QString& word_or_file, const QString& folder = {});

} // namespace rodway
