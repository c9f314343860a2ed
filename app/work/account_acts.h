#pragma once

#include <optional>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/account_state.h"
#include "core/build/records.h"

namespace rodway {

/// One build's account as it stands. Errors: those of reading the file.
Result<AccountRecords> load_account(ShopFile& shop, std::int64_t build_id);

/// The sign before amounts on the shop's papers: its detail "currency"; empty if it has none.
[[nodiscard]] std::string currency_of(ShopFile& shop);

/// A line of an account as typed.
struct TypedLine {
    std::string text;
    std::string amount;
    std::string dated; ///< a day, or empty
};
/// A line behind the others of its paper, and the same line with other words: one act each, which
/// does nothing if nothing differs. Errors, `field` "text", "amount" or "dated": empty_text; as
/// `kept_line`, `parse_money`; not_a_date; wrong_type "day_gone_by" for a deposit still to come;
/// those of `ShopSession::create`.
Result<std::int64_t> add_account_line(ShopSession& session, std::int64_t build_id,
                                      AccountPaper paper, const TypedLine& typed);
Result<Done> change_account_line(ShopSession& session, const AccountLine& before,
                                 const TypedLine& typed);

/// A question to the customer as typed.
struct TypedExtra {
    std::string subject;
    std::string amount; ///< or empty: nobody knows yet
    std::string asked;  ///< a day; empty: now
    std::string note;
};
/// Errors, `field` "subject", "amount", "asked" or "note": as of a line.
Result<std::int64_t> add_extra(ShopSession& session, std::int64_t build_id,
                               const TypedExtra& typed);
Result<Done> change_extra(ShopSession& session, const Approval& before, const TypedExtra& typed);

/// What the customer said, as typed.
struct TypedAnswer {
    ApprovalAnswer answer = ApprovalAnswer::approved;
    std::string by_whom;
    std::string manner;   ///< "letter", "message", "spoken", or other words
    std::string answered; ///< a day; empty: now
};
/// Puts down an answer, or, with `asked`, takes it off again: one act.
/// Errors: empty_text "by_whom" and "manner": an answer needs both; wrong_type "answered"
/// ("day_gone_by", "day_answered"); as of a line.
Result<Done> answer_extra(ShopSession& session, const Approval& before, const TypedAnswer& typed);

/// Hours as typed.
struct TypedHours {
    std::optional<std::int64_t> person_id;
    std::string day; ///< empty: today
    std::string hours;
    std::string work;
};
/// Errors, `field` "day", "hours" or "work": empty_text; as `parse_hours`, `kept_line`; not_a_date;
/// wrong_type "day_gone_by".
Result<std::int64_t> add_hours(ShopSession& session, std::int64_t build_id,
                               const TypedHours& typed);
Result<Done> change_hours(ShopSession& session, const WorkedTime& before, const TypedHours& typed);

/// Puts on the invoice what was agreed and isn't on it yet, `lines_to_take_over`: one act. How many
/// lines that was; none does nothing.
Result<int> take_over(ShopSession& session, std::int64_t build_id);

/// Takes a record of the account away: one act. Lines that belong to an extra lose it.
Result<Done> remove_from_account(ShopSession& session, std::int64_t build_id, RecordRef record);

} // namespace rodway
