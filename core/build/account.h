#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

enum class ApprovalAnswer { asked, approved, declined };

/// Something the customer was asked to pay for or to accept, and what he said.
struct Approval {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::string subject;
    std::optional<std::string> amount; ///< money, two decimals: "1250.00"
    ApprovalAnswer answer = ApprovalAnswer::asked;
    std::optional<std::string> by_whom;
    std::optional<std::string> manner;      ///< letter, message, spoken, ...
    std::string asked_at;                   ///< UTC
    std::optional<std::string> answered_at; ///< UTC
    std::optional<std::string> note;
};

/// Hours worked on a build.
struct WorkedTime {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> person_id;
    std::string day; ///< ISO date
    int minutes = 0;
    std::string work;
};

enum class AccountPaper { estimate, extra, deposit, invoice };

/// One line of an estimate or an invoice.
struct AccountLine {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> approval_id;
    AccountPaper paper = AccountPaper::estimate;
    int ordinal = 0;
    std::string text;
    std::string amount;               ///< money, two decimals; negative for what is given back
    std::optional<std::string> dated; ///< ISO date
};

} // namespace rodway
