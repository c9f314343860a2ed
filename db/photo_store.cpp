#include "db/photo_store.h"

#include "db/build_records.h"

namespace rodway {

Result<std::vector<Photo>> photos(ShopFile& shop, std::int64_t build_id) {
    return load_records<Photo>(shop, build_id);
}

} // namespace rodway
