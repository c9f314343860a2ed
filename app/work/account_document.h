#pragma once

#include <string>
#include <vector>

#include "core/build/account_state.h"
#include "core/build/records.h"
#include "db/shop_file.h"

namespace rodway {

/// All that an estimate or an invoice says.
struct AccountDocument {
    AccountPaper paper = AccountPaper::estimate; ///< estimate or invoice
    std::vector<ShopDetail> shop;
    Build build;
    std::optional<Customer> customer; ///< where the build names one of the shop's customers
    AccountRecords records;
    AccountState state;
    std::string currency;
    std::string day; ///< ISO day on which it is written
};

/// `day`: the day on which it is written. Errors: no_such_record; those of reading the file and of
/// `account_state`; missing_field, field "lines", if the paper has none.
Result<AccountDocument> gather_account(ShopFile& shop, std::int64_t build_id, AccountPaper paper,
                                       const std::string& day);

} // namespace rodway
