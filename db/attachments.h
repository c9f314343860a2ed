#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

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

/// The folder of a shop file's photos: `<shop file's name>.photos` beside it. A backup's are the
/// shop's: for a file in `<name>.backups` it is `<name>.photos` beside that folder, and for
/// `<name>.backup-…` it is `<name>.photos` if there is one.
[[nodiscard]] std::string photos_folder(const std::string& shop_path);

/// Copies a file to the shop's photos, `<photos folder>/ab/<digest>.<suffix>`, and waits
/// until it is on the disk. The same content is kept once; a kept copy that was altered since is
/// made whole again. The source stays as it is.
/// Errors, `field` a path: cannot_read (not there, no file, or not readable), empty_file,
/// cannot_write.
Result<StoredFile> keep(const ShopFile& shop, const std::string& source);

/// Where the content with this digest is kept; nothing if it is not there.
[[nodiscard]] std::optional<std::string> path_of(const ShopFile& shop, const std::string& digest);

/// The same in a folder of photos.
[[nodiscard]] std::optional<std::string> path_in(const std::string& photos_folder,
                                                 const std::string& digest);

/// What a copy of a whole folder of photos came to.
struct CopiedPhotos {
    int copied = 0;
    /// Files whose content is no longer what their name says, or can't be read. They stay behind.
    std::vector<std::string> altered;
};

/// Copies every photo that lies in the folder `from` and isn't in `to` yet, each by its digest and
/// on the disk when it returns. `to` is made if it isn't there and there is something to copy.
/// Errors: cannot_write; what was copied before stays, for it is whole.
Result<CopiedPhotos> copy_photos(const std::string& from, const std::string& to);

/// SHA-256 of a file's content as hexadecimal digits. Errors: cannot_read.
Result<std::string> digest_of_file(const std::string& path);

} // namespace rodway
