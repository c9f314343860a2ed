#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/build/money.h"
#include "core/build/records.h"

namespace rodway {

/// The records of one build's account.
struct AccountRecords {
    std::vector<AccountLine> lines;
    std::vector<Approval> approvals; ///< the extras, whatever the customer said to them
    std::vector<WorkedTime> times;
};

/// What was worked by one person, or at one kind of work.
struct PersonMinutes {
    std::optional<std::int64_t> person_id; ///< nothing: nobody was named
    int minutes = 0;
};
struct WorkMinutes {
    std::string work; ///< as it was first typed; small and capital letters are alike
    int minutes = 0;
};

/// What an extra comes to, and whether the invoice has it.
struct ExtraState {
    std::int64_t approval_id = 0;
    /// Its own amount or, where it has none, the sum of the lines that belong to it; nothing if
    /// nobody said what it costs.
    std::optional<Money> amount;
    bool on_invoice = false;
};

/// How a build's account stands. Sums of no lines are zero.
struct AccountState {
    Money estimate;
    Money extras_approved; ///< with lines for extras that nobody had to be asked about
    Money extras_asked;    ///< that still wait for an answer
    Money extras_declined;
    Money deposit;
    Money invoice;
    Money to_pay;                   ///< invoice less deposit; less than zero: to be given back
    std::vector<ExtraState> extras; ///< in the order of the approvals
    int asked = 0;                  ///< questions without an answer: they hold the build up
    int approved_without_amount = 0;
    /// Approved and not on the invoice, where it has lines at all; on it although declined.
    std::vector<std::int64_t> missing_on_invoice;
    std::vector<std::int64_t> declined_on_invoice;
    int minutes = 0;
    std::vector<PersonMinutes> by_person; ///< most first
    std::vector<WorkMinutes> by_work;     ///< most first
};

/// Errors: as `recorded_money` and `sum_of`, of a record that no edit could have written or of a
/// sum beyond `most_money`.
Result<AccountState> account_state(const AccountRecords& records);

/// The lines that an invoice still lacks of what was agreed: every line of the estimate as long as
/// the invoice has none that isn't an extra's; every approved extra that isn't on it and has an
/// amount. Ids are to be given; ordinals go on behind the last of the invoice.
/// Errors: as `account_state`.
Result<std::vector<AccountLine>> lines_to_take_over(const AccountRecords& records);

/// The ordinal behind the last line of one paper.
[[nodiscard]] int next_ordinal(const std::vector<AccountLine>& lines, AccountPaper paper);

/// The lines of one paper by ordinal, then id.
[[nodiscard]] std::vector<AccountLine> lines_of(const std::vector<AccountLine>& lines,
                                                AccountPaper paper);

} // namespace rodway
