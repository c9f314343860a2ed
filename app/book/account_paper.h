#pragma once

#include <QStringList>

#include "app/work/account_document.h"
#include "core/base/result.h"

namespace rodway {

/// Writes an estimate or an invoice as a PDF: whose it is and for whom, its lines and their sum, on
/// an invoice what was approved and how, the deposit and what is left to pay; what the customer
/// declined, with its day; what he hasn't answered yet. Long texts are broken, never cut.
/// Error: cannot_write.
Result<Done> write_account_paper(const AccountDocument& document, const QString& path);

/// What stands on the paper, line by line, amounts behind a tab.
[[nodiscard]] QStringList account_paper_text(const AccountDocument& document);

} // namespace rodway
