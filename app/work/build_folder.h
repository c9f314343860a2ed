#pragma once

#include <QString>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "db/build_transfer.h"
#include "db/shop_file.h"

namespace rodway {

struct BuildTakenOut {
    QString folder; ///< absolute
    int acts = 0;
    int records = 0;
    int readings = 0;
    int photos = 0;
    std::vector<std::string> photos_missing; ///< digests of photos without a sound file
};

/// Writes a build to a new folder (`core/files/build_folder.h`). It is there under its name only
/// when it is whole and on the disk, and never replaces anything.
/// Errors: as `take_out_build`; cannot_write (`field` the folder, `value` "exists" if something
/// stands there, or as `DurableFile` says).
Result<BuildTakenOut> export_build(ShopFile& shop, std::int64_t build_id, const QString& folder);

/// Puts the build of a folder into a shop: all of it, or nothing. `readings.csv` isn't read.
/// Errors: as `read_build_json` and `put_in_build`; cannot_read, `field` the path.
Result<BuildPutIn> import_build(ShopFile& shop, const QString& folder, const std::string& who,
                                const std::string& when_utc);

/// The readings of a build as `write_readings_csv` makes them.
Result<std::string> readings_csv_of(ShopFile& shop, std::int64_t build_id);

} // namespace rodway
