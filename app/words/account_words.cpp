#include "app/words/account_words.h"
#include "app/words/hold_words.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct Accounts {
    Q_DECLARE_TR_FUNCTIONS(Accounts)
};

} // namespace

QString money(Money amount, const QString& currency) {
    QString digits = QString::fromStdString(money_text(amount));
    const bool negative = digits.startsWith('-');
    if (negative) {
        digits.remove(0, 1);
    }
    for (qsizetype at = digits.indexOf('.') - 3; at > 0; at -= 3) {
        digits.insert(at, ',');
    }
    // A word needs a blank behind it, a sign doesn't.
    const bool word = !currency.isEmpty() && currency.back().isLetter();
    return (negative ? QStringLiteral("-") : QString()) + currency +
           (word ? QStringLiteral(" ") : QString()) + digits;
}

QString money(const std::string& recorded, const QString& currency) {
    const auto amount = recorded_money(recorded);
    return amount ? money(*amount, currency) : QString::fromStdString(recorded);
}

QString account_paper(AccountPaper paper) {
    switch (paper) {
        case AccountPaper::estimate:
            return Accounts::tr("Estimate");
        case AccountPaper::extra:
            return Accounts::tr("Extra");
        case AccountPaper::deposit:
            return Accounts::tr("Deposit");
        case AccountPaper::invoice:
            return Accounts::tr("Invoice");
    }
    return {};
}

QString approval_answer(ApprovalAnswer answer) {
    switch (answer) {
        case ApprovalAnswer::asked:
            return Accounts::tr("waits for an answer");
        case ApprovalAnswer::approved:
            return Accounts::tr("approved");
        case ApprovalAnswer::declined:
            return Accounts::tr("declined");
    }
    return {};
}

QString manner(const std::string& word) {
    if (word == "letter") {
        return Accounts::tr("by letter");
    }
    if (word == "message") {
        return Accounts::tr("by message");
    }
    if (word == "spoken") {
        return Accounts::tr("spoken");
    }
    return QString::fromStdString(word);
}

QString answer_line(const Approval& approval) {
    QString line = approval_answer(approval.answer);
    if (approval.answer == ApprovalAnswer::asked) {
        return Accounts::tr("%1, asked %2").arg(line, day_of(approval.asked_at));
    }
    if (approval.answered_at) {
        line = Accounts::tr("%1 %2").arg(line, day_of(*approval.answered_at));
    }
    if (approval.by_whom) {
        line = Accounts::tr("%1 by %2").arg(line, QString::fromStdString(*approval.by_whom));
    }
    return approval.manner ? Accounts::tr("%1, %2").arg(line, manner(*approval.manner)) : line;
}

} // namespace rodway::words
