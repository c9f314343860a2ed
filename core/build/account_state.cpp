#include "core/build/account_state.h"

#include <algorithm>
#include <map>

#include "core/units/plain_text.h"

namespace rodway {
namespace {

/// Amounts put together, the first that is wrong kept.
class Sum {
  public:
    void add(const std::string& recorded) { add(recorded_money(recorded)); }
    void add(const Result<Money>& amount) {
        if (amount) {
            amounts_.push_back(*amount);
        } else if (!error_) {
            error_ = amount.error();
        }
    }
    [[nodiscard]] Result<Money> total() const {
        return error_ ? Result<Money>(*error_) : sum_of(amounts_);
    }
    [[nodiscard]] bool empty() const { return amounts_.empty() && !error_; }

  private:
    std::vector<Money> amounts_;
    std::optional<Error> error_;
};

bool is_on_invoice(const AccountRecords& records, std::int64_t approval_id) {
    return std::any_of(records.lines.begin(), records.lines.end(), [&](const AccountLine& line) {
        return line.paper == AccountPaper::invoice && line.approval_id == approval_id;
    });
}

Result<std::optional<Money>> amount_of(const AccountRecords& records, const Approval& approval) {
    Sum sum;
    if (approval.amount) {
        sum.add(*approval.amount);
    } else {
        for (const AccountLine& line : records.lines) {
            if (line.paper == AccountPaper::extra && line.approval_id == approval.id) {
                sum.add(line.amount);
            }
        }
    }
    if (sum.empty()) {
        return std::optional<Money>();
    }
    const auto total = sum.total();
    return total ? Result<std::optional<Money>>(std::optional(*total)) : total.error();
}

Result<std::vector<ExtraState>> extras_of(const AccountRecords& records) {
    std::vector<ExtraState> extras;
    for (const Approval& approval : records.approvals) {
        const auto amount = amount_of(records, approval);
        if (!amount) {
            return amount.error();
        }
        extras.push_back({approval.id, *amount, is_on_invoice(records, approval.id)});
    }
    return extras;
}

struct Sums {
    Sum estimate;
    Sum approved;
    Sum asked;
    Sum declined;
    Sum deposit;
    Sum invoice;
};

void add_lines(Sums& sums, const std::vector<AccountLine>& lines) {
    for (const AccountLine& line : lines) {
        switch (line.paper) {
            case AccountPaper::estimate:
                sums.estimate.add(line.amount);
                break;
            case AccountPaper::extra:
                // One that belongs to a question counts with it.
                if (!line.approval_id) {
                    sums.approved.add(line.amount);
                }
                break;
            case AccountPaper::deposit:
                sums.deposit.add(line.amount);
                break;
            case AccountPaper::invoice:
                sums.invoice.add(line.amount);
                break;
        }
    }
}

void add_extras(Sums& sums, AccountState& state, const std::vector<Approval>& approvals,
                bool invoiced) {
    for (std::size_t which = 0; which < approvals.size(); ++which) {
        const ExtraState& extra = state.extras[which];
        const ApprovalAnswer answer = approvals[which].answer;
        Sum& sum = answer == ApprovalAnswer::approved ? sums.approved
                   : answer == ApprovalAnswer::asked  ? sums.asked
                                                      : sums.declined;
        if (extra.amount) {
            sum.add(Result<Money>(*extra.amount));
        }
        if (answer == ApprovalAnswer::asked) {
            ++state.asked;
        } else if (answer == ApprovalAnswer::declined && extra.on_invoice) {
            state.declined_on_invoice.push_back(extra.approval_id);
        } else if (answer == ApprovalAnswer::approved) {
            state.approved_without_amount += extra.amount ? 0 : 1;
            if (invoiced && !extra.on_invoice) {
                state.missing_on_invoice.push_back(extra.approval_id);
            }
        }
    }
}

void add_hours(AccountState& state, const std::vector<WorkedTime>& times) {
    std::map<std::string, std::size_t> works;
    for (const WorkedTime& time : times) {
        state.minutes += time.minutes;
        const auto person =
            std::find_if(state.by_person.begin(), state.by_person.end(),
                         [&](const PersonMinutes& one) { return one.person_id == time.person_id; });
        if (person == state.by_person.end()) {
            state.by_person.push_back({time.person_id, time.minutes});
        } else {
            person->minutes += time.minutes;
        }
        const auto [work, is_new] = works.emplace(plain_text(time.work), state.by_work.size());
        if (is_new) {
            state.by_work.push_back({time.work, 0});
        }
        state.by_work[work->second].minutes += time.minutes;
    }
    const auto more = [](const auto& a, const auto& b) { return a.minutes > b.minutes; };
    std::stable_sort(state.by_person.begin(), state.by_person.end(), more);
    std::stable_sort(state.by_work.begin(), state.by_work.end(), more);
}

} // namespace

Result<AccountState> account_state(const AccountRecords& records) {
    AccountState state;
    auto extras = extras_of(records);
    if (!extras) {
        return extras.error();
    }
    state.extras = std::move(extras).value();
    Sums sums;
    add_lines(sums, records.lines);
    add_extras(sums, state, records.approvals, !sums.invoice.empty());
    const std::pair<Money*, const Sum*> totals[] = {
        {&state.estimate, &sums.estimate},  {&state.extras_approved, &sums.approved},
        {&state.extras_asked, &sums.asked}, {&state.extras_declined, &sums.declined},
        {&state.deposit, &sums.deposit},    {&state.invoice, &sums.invoice}};
    for (const auto& [total, sum] : totals) {
        const auto amount = sum->total();
        if (!amount) {
            return amount.error();
        }
        *total = *amount;
    }
    const std::vector<Money> due{state.invoice, -state.deposit};
    const auto to_pay = sum_of(due);
    if (!to_pay) {
        return to_pay.error();
    }
    state.to_pay = *to_pay;
    add_hours(state, records.times);
    return state;
}

Result<std::vector<AccountLine>> lines_to_take_over(const AccountRecords& records) {
    const auto extras = extras_of(records);
    if (!extras) {
        return extras.error();
    }
    std::vector<AccountLine> taken;
    int ordinal = next_ordinal(records.lines, AccountPaper::invoice);
    const std::vector<AccountLine> invoice = lines_of(records.lines, AccountPaper::invoice);
    const bool begun = std::any_of(invoice.begin(), invoice.end(),
                                   [](const AccountLine& line) { return !line.approval_id; });
    const auto take = [&](AccountLine line) {
        line.id = 0;
        line.paper = AccountPaper::invoice;
        line.ordinal = ordinal++;
        line.dated = std::nullopt;
        taken.push_back(std::move(line));
    };
    if (!begun) {
        for (const AccountLine& line : lines_of(records.lines, AccountPaper::estimate)) {
            take(line);
        }
        for (const AccountLine& line : lines_of(records.lines, AccountPaper::extra)) {
            if (!line.approval_id) {
                take(line);
            }
        }
    }
    for (std::size_t which = 0; which < extras->size(); ++which) {
        const Approval& approval = records.approvals[which];
        const ExtraState& extra = (*extras)[which];
        if (approval.answer != ApprovalAnswer::approved || extra.on_invoice || !extra.amount) {
            continue;
        }
        AccountLine line;
        line.build_id = approval.build_id;
        line.approval_id = approval.id;
        line.text = approval.subject;
        line.amount = money_text(*extra.amount);
        take(std::move(line));
    }
    return taken;
}

int next_ordinal(const std::vector<AccountLine>& lines, AccountPaper paper) {
    int last = 0;
    for (const AccountLine& line : lines) {
        if (line.paper == paper) {
            last = std::max(last, line.ordinal);
        }
    }
    return last + 1;
}

std::vector<AccountLine> lines_of(const std::vector<AccountLine>& lines, AccountPaper paper) {
    std::vector<AccountLine> of_paper;
    for (const AccountLine& line : lines) {
        if (line.paper == paper) {
            of_paper.push_back(line);
        }
    }
    std::sort(of_paper.begin(), of_paper.end(), [](const AccountLine& a, const AccountLine& b) {
        return a.ordinal != b.ordinal ? a.ordinal < b.ordinal : a.id < b.id;
    });
    return of_paper;
}

} // namespace rodway
