#include "db/reading_store.h"

#include "db/build_records.h"

namespace rodway {

Result<std::vector<Reading>> readings(ShopFile& shop, std::int64_t build_id) {
    return load_records<Reading>(shop, build_id);
}

} // namespace rodway
