#include "db/parts_to_come.h"

#include "db/connection.h"
#include "db/rows_of_builds.h"

namespace rodway {

Result<std::vector<PartRecord>> load_parts_to_come(ShopFile& shop) {
    Connection& connection = shop.connection();
    const auto ids = selected_ids(connection,
                                  QStringLiteral("SELECT p.id FROM builds b JOIN parts p"
                                                 " ON p.build_id = b.id"
                                                 " WHERE b.archived IS NULL AND ") +
                                      part_to_come,
                                  {});
    if (!ids) return ids.error();
    return records_where<PartRecord>(connection, QStringLiteral("id IN (%1)").arg(id_list(*ids)));
}

} // namespace rodway
