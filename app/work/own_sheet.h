#pragma once

#include <QString>
#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/sheets/quantity.h"

namespace rodway {

/// One line of a sheet that a shop makes for itself, as typed.
struct OwnLine {
    std::string title;
    Form form = Form::length;
    std::string unit; ///< identity of a unit of the form's dimension; empty where it has none
    Place place = Place::engine;
    std::optional<std::string> low; ///< limits, as typed
    std::optional<std::string> high;
    std::string limit_source;
};

/// A sheet that a shop makes for itself.
struct OwnSheet {
    std::string title;
    std::vector<OwnLine> lines;
};

/// Keeps it for every build of the shop, its limits with it, as one act. Its identities follow from
/// the titles and never change.
/// Errors, `field` as "title", "lines", or "lines/2/unit": empty_text; not_a_choice (unit; form
/// that a shop can't use); missing_field ("limit_source" where there is a limit); those of
/// `read_limit`; those of `ShopSession::create`.
Result<std::int64_t> keep_own_sheet(ShopSession& session, const OwnSheet& sheet);

/// The forms that lines of a shop's own may have: all but choices and felt gaps.
[[nodiscard]] std::vector<Form> own_forms();

} // namespace rodway
