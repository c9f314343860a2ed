#pragma once

#include <json/json.h>

#include <string>

#include "core/base/result.h"

namespace rodway {

/// The tree of a JSON text. Strict: no comments, no key twice in an object, nothing behind the end.
/// Errors: not_json, duplicate_field (`field` the key), with their line.
Result<Json::Value> json_tree(const std::string& text);

} // namespace rodway
