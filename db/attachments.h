#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "core/base/result.h"
#include "db/shop_file.h"

namespace rodway {

/// A file that the shop keeps, known by its content.
struct StoredFile {
    std::string digest;    ///< SHA-256 of the content, 64 hexadecimal digits in lower case
    std::string file_name; ///< as it was called where it came from
    std::string path;      ///< where it is kept
    std::int64_t bytes = 0;
};

/// Copies a file to the shop's photos, `<shop file's name>.photos/ab/<digest>.<suffix>`, and waits
/// until it is on the disk. The same content is kept once; a kept copy that was altered since is
/// made whole again. The source stays as it is.
/// Errors, `field` a path: cannot_read (not there, no file, or not readable), empty_file,
/// cannot_write.
Result<StoredFile> keep(const ShopFile& shop, const std::string& source);

/// Where the content with this digest is kept; nothing if it is not there.
[[nodiscard]] std::optional<std::string> path_of(const ShopFile& shop, const std::string& digest);

/// SHA-256 of a file's content as hexadecimal digits. Errors: cannot_read.
Result<std::string> digest_of_file(const std::string& path);

} // namespace rodway
