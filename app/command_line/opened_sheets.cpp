#include "app/command_line/opened_sheets.h"

#include "app/work/build_in_hand.h"

namespace rodway {

Result<std::unique_ptr<OpenedSheets>> open_sheets(const BuildOptions& options,
                                                  const std::string& who) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) {
        return opened.error();
    }
    ShopFile shop = std::move(opened).value();
    auto build = find_build(shop, QString::fromStdString(options.build));
    if (!build) {
        return build.error();
    }
    auto sheets = BuildSheets::load(shop, build->id);
    if (!sheets) {
        return sheets.error();
    }
    return std::unique_ptr<OpenedSheets>(
        new OpenedSheets{{std::move(shop), QString::fromStdString(who)},
                         std::move(build).value(),
                         std::move(sheets).value()});
}

std::string person_at_this_computer() {
    return qEnvironmentVariable("USER", "shop").toStdString();
}

Error no_such(const std::string& field, const std::string& value,
              const std::vector<std::string>& there) {
    std::string list;
    for (const std::string& one : there) {
        list += (list.empty() ? "" : " ") + one;
    }
    return Error{ErrorCode::not_a_choice, field, value, list, {}, {}};
}

Result<const Quantity*> find_quantity_in(const BuildSheets& sheets, const std::string& id) {
    for (const SheetKind& kind : sheets.kinds()) {
        for (const Quantity& quantity : kind.quantities) {
            if (quantity.id == id) {
                return &quantity;
            }
        }
    }
    return Error{ErrorCode::no_such_record, "quantity", id, {}, {}, {}};
}

} // namespace rodway
