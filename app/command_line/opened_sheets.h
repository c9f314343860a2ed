#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/command_line/build_commands.h"
#include "app/edit_stack/shop_session.h"
#include "app/work/build_sheets.h"

namespace rodway {

/// A build and its sheets, for as long as one command runs.
struct OpenedSheets {
    ShopSession session;
    Build build;
    BuildSheets sheets;
};
/// Errors: those of opening the shop and finding the build; of `BuildSheets::load`.
Result<std::unique_ptr<OpenedSheets>> open_sheets(const BuildOptions& options,
                                                  const std::string& who);

/// Who changes something, unless the command says: whoever is logged in.
[[nodiscard]] std::string person_at_this_computer();

/// not_a_choice, with what there is.
[[nodiscard]] Error no_such(const std::string& field, const std::string& value,
                            const std::vector<std::string>& there);
/// Built in or the shop's own. Error: no_such_record ("quantity").
Result<const Quantity*> find_quantity_in(const BuildSheets& sheets, const std::string& id);

} // namespace rodway
