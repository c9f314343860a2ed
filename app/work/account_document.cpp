#include "app/work/account_document.h"

#include "app/work/account_acts.h"
#include "db/build_records.h"
#include "db/build_store.h"

namespace rodway {

Result<AccountDocument> gather_account(ShopFile& shop, std::int64_t build_id, AccountPaper paper,
                                       const std::string& day) {
    auto build = load_build(shop, build_id);
    auto details = load_records<ShopDetail>(shop, shop_wide);
    const auto customers = load_records<Customer>(shop, shop_wide);
    auto records = load_account(shop, build_id);
    auto state = records ? account_state(*records) : Result<AccountState>(records.error());
    if (!build || !details) {
        return !build ? build.error() : details.error();
    }
    if (!customers || !state) {
        return !customers ? customers.error() : state.error();
    }
    if (lines_of(records->lines, paper).empty()) {
        return Error{ErrorCode::missing_field, "lines", {}, {}, {}, {}};
    }
    AccountDocument document;
    document.paper = paper;
    document.shop = std::move(details).value();
    document.build = std::move(build).value();
    for (const Customer& customer : *customers) {
        if (document.build.customer_id == customer.id) {
            document.customer = customer;
        }
    }
    document.records = std::move(records).value();
    document.state = std::move(state).value();
    document.currency = currency_of(shop);
    document.day = day;
    return document;
}

} // namespace rodway
