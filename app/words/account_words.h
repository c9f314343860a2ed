#pragma once

#include <QString>

#include "core/build/money.h"
#include "core/build/records.h"

namespace rodway::words {

/// "1,250.50", "-12.00"; `currency`, the shop's own sign, goes in front of it: "$1,250.50".
[[nodiscard]] QString money(Money amount, const QString& currency = {});
/// The same of an amount as a record holds it; as it stands there if it can't be read.
[[nodiscard]] QString money(const std::string& recorded, const QString& currency = {});
/// "Estimate", "Extra", "Deposit", "Invoice".
[[nodiscard]] QString account_paper(AccountPaper paper);
/// "waits for an answer", "approved", "declined".
[[nodiscard]] QString approval_answer(ApprovalAnswer answer);
/// "approved 30 November 2026 by Ada, by letter": answer, day, by whom and how, as far as it is
/// known.
[[nodiscard]] QString answer_line(const Approval& approval);
/// How the customer said it, as records have it ("letter", "message", "spoken"), in words; what
/// else was written as it stands.
[[nodiscard]] QString manner(const std::string& word);

} // namespace rodway::words
