#include "app/work/account_acts.h"

#include <QCoreApplication>
#include <QDateTime>

#include "app/work/shop_day.h"
#include "core/build/part_check.h"
#include "core/build/word_list.h"
#include "core/build/worked_hours.h"
#include "core/sheets/day.h"
#include "db/build_records.h"
#include "db/edits.h"

namespace rodway {
namespace {

struct AccountActs {
    Q_DECLARE_TR_FUNCTIONS(AccountActs)
};

Error wrong(const char* field, const std::string& value, const char* expected) {
    return Error{ErrorCode::wrong_type, field, value, expected, {}, {}};
}

std::string today(const ShopSession& session) {
    return shop_day(session.now()).day;
}

/// Noon of a day by the shop's clock: what is known of the time if only the day is.
std::string noon_utc(const std::string& day) {
    const QDate date = QDate::fromString(QString::fromStdString(day), Qt::ISODate);
    return QDateTime(date, QTime(12, 0)).toUTC().toString(Qt::ISODate).toStdString();
}

Result<std::string> needed_line(const std::string& typed, const char* field) {
    auto line = kept_line(typed, field);
    if (line && line->empty()) {
        return Error{ErrorCode::empty_text, field, {}, {}, {}, {}};
    }
    return line;
}

/// A day as it is kept; empty stays so. With `last`, none after it.
Result<std::string> day_typed(const std::string& typed, const char* field,
                              const std::optional<std::string>& last) {
    const std::string text = without_blanks(typed);
    if (text.empty()) {
        return text;
    }
    const auto day = parse_day(text);
    if (!day) {
        return Error{ErrorCode::not_a_date, field, text, {}, {}, {}};
    }
    if (last && *day > *last) {
        return wrong(field, *day, "day_gone_by");
    }
    return *day;
}

/// When it was: the time that is known of that day, else now or its noon.
Result<std::string> time_typed(const ShopSession& session, const std::string& typed,
                               const char* field, const std::optional<std::string>& known) {
    const std::string now = today(session);
    const auto day = day_typed(typed, field, now);
    if (!day) {
        return day.error();
    }
    if (known && (day->empty() || shop_day(*known).day == *day)) {
        return *known;
    }
    return day->empty() || *day == now ? session.now() : noon_utc(*day);
}

Result<Money> amount_typed(ShopSession& session, const std::string& typed) {
    return parse_money(typed, currency_of(session.shop()));
}

std::optional<std::string> or_nothing(const std::string& text) {
    return text.empty() ? std::nullopt : std::optional(text);
}

Result<AccountLine> line_typed(ShopSession& session, AccountLine line, const TypedLine& typed) {
    auto text = needed_line(typed.text, "text");
    if (!text) {
        return text.error();
    }
    const auto amount = amount_typed(session, typed.amount);
    if (!amount) {
        return amount.error();
    }
    const bool gone_by = line.paper == AccountPaper::deposit;
    const auto dated =
        day_typed(typed.dated, "dated", gone_by ? std::optional(today(session)) : std::nullopt);
    if (!dated) {
        return dated.error();
    }
    line.text = std::move(text).value();
    line.amount = money_text(*amount);
    line.dated = or_nothing(*dated);
    return line;
}

Result<Approval> extra_typed(ShopSession& session, Approval extra, const TypedExtra& typed) {
    auto subject = needed_line(typed.subject, "subject");
    auto note = kept_line(typed.note, "note");
    if (!subject || !note) {
        return !subject ? subject.error() : note.error();
    }
    extra.amount.reset();
    if (!without_blanks(typed.amount).empty()) {
        const auto amount = amount_typed(session, typed.amount);
        if (!amount) {
            return amount.error();
        }
        extra.amount = money_text(*amount);
    }
    auto asked = time_typed(session, typed.asked, "asked", or_nothing(extra.asked_at));
    if (!asked) {
        return asked.error();
    }
    extra.asked_at = std::move(asked).value();
    if (extra.answered_at && shop_day(*extra.answered_at).day < shop_day(extra.asked_at).day) {
        return wrong("asked", shop_day(*extra.answered_at).day, "day_answered");
    }
    extra.subject = std::move(subject).value();
    extra.note = or_nothing(*note);
    return extra;
}

Result<WorkedTime> hours_typed(const ShopSession& session, WorkedTime time,
                               const TypedHours& typed) {
    const auto minutes = parse_hours(typed.hours);
    if (!minutes) {
        return minutes.error();
    }
    auto work = needed_line(typed.work, "work");
    if (!work) {
        return work.error();
    }
    const auto day = day_typed(typed.day, "day", today(session));
    if (!day) {
        return day.error();
    }
    time.person_id = typed.person_id;
    time.day = day->empty() ? today(session) : *day;
    time.minutes = *minutes;
    time.work = std::move(work).value();
    return time;
}

template <typename Record>
Result<std::int64_t> create(ShopSession& session, const Result<Record>& typed,
                            const QString& what) {
    if (!typed) {
        return typed.error();
    }
    return session.create(
        RecordShape<Record>::kind,
        [&](std::int64_t id) {
            Record record = *typed;
            record.id = id;
            return edits_to_create(record);
        },
        what);
}

template <typename Record>
Result<Done> change(ShopSession& session, const Record& before, const Result<Record>& typed,
                    const QString& what) {
    if (!typed) {
        return typed.error();
    }
    std::vector<Edit> edits = edits_to_change(before, *typed);
    if (edits.empty()) {
        return Done{};
    }
    const auto act = session.act(std::move(edits), what);
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

} // namespace

Result<AccountRecords> load_account(ShopFile& shop, std::int64_t build_id) {
    auto lines = load_records<AccountLine>(shop, build_id);
    auto approvals = load_records<Approval>(shop, build_id);
    auto times = load_records<WorkedTime>(shop, build_id);
    if (!lines || !approvals || !times) {
        return !lines ? lines.error() : !approvals ? approvals.error() : times.error();
    }
    return AccountRecords{std::move(lines).value(), std::move(approvals).value(),
                          std::move(times).value()};
}

std::string currency_of(ShopFile& shop) {
    const auto details = load_records<ShopDetail>(shop, shop_wide);
    if (details) {
        for (const ShopDetail& detail : *details) {
            if (detail.name == "currency") {
                return without_blanks(detail.content);
            }
        }
    }
    return {};
}

Result<std::int64_t> add_account_line(ShopSession& session, std::int64_t build_id,
                                      AccountPaper paper, const TypedLine& typed) {
    const auto there = load_records<AccountLine>(session.shop(), build_id);
    if (!there) {
        return there.error();
    }
    AccountLine line;
    line.build_id = build_id;
    line.paper = paper;
    line.ordinal = next_ordinal(*there, paper);
    return create(session, line_typed(session, line, typed),
                  AccountActs::tr("line of the account"));
}

Result<Done> change_account_line(ShopSession& session, const AccountLine& before,
                                 const TypedLine& typed) {
    return change(session, before, line_typed(session, before, typed),
                  AccountActs::tr("change of a line"));
}

Result<std::int64_t> add_extra(ShopSession& session, std::int64_t build_id,
                               const TypedExtra& typed) {
    Approval extra;
    extra.build_id = build_id;
    return create(session, extra_typed(session, extra, typed), AccountActs::tr("extra"));
}

Result<Done> change_extra(ShopSession& session, const Approval& before, const TypedExtra& typed) {
    return change(session, before, extra_typed(session, before, typed),
                  AccountActs::tr("change of an extra"));
}

Result<Done> answer_extra(ShopSession& session, const Approval& before, const TypedAnswer& typed) {
    Approval after = before;
    after.answer = typed.answer;
    if (typed.answer == ApprovalAnswer::asked) {
        after.by_whom.reset();
        after.manner.reset();
        after.answered_at.reset();
        return change(session, before, Result(after), AccountActs::tr("answer taken off"));
    }
    const auto by_whom = needed_line(typed.by_whom, "by_whom");
    const auto manner = needed_line(typed.manner, "manner");
    if (!by_whom || !manner) {
        return !by_whom ? by_whom.error() : manner.error();
    }
    const auto answered = time_typed(session, typed.answered, "answered", before.answered_at);
    if (!answered) {
        return answered.error();
    }
    if (shop_day(*answered).day < shop_day(before.asked_at).day) {
        return wrong("answered", shop_day(*answered).day, "day_answered");
    }
    after.by_whom = *by_whom;
    after.manner = *manner;
    after.answered_at = *answered;
    return change(session, before, Result(after), AccountActs::tr("answer of the customer"));
}

Result<std::int64_t> add_hours(ShopSession& session, std::int64_t build_id,
                               const TypedHours& typed) {
    WorkedTime time;
    time.build_id = build_id;
    return create(session, hours_typed(session, time, typed), AccountActs::tr("hours"));
}

Result<Done> change_hours(ShopSession& session, const WorkedTime& before, const TypedHours& typed) {
    return change(session, before, hours_typed(session, before, typed),
                  AccountActs::tr("change of hours"));
}

Result<int> take_over(ShopSession& session, std::int64_t build_id) {
    const auto records = load_account(session.shop(), build_id);
    if (!records) {
        return records.error();
    }
    auto lines = lines_to_take_over(*records);
    if (!lines) {
        return lines.error();
    }
    if (lines->empty()) {
        return 0;
    }
    const auto first = session.create(
        RecordKind::account_line,
        [&](std::int64_t id) {
            std::vector<Edit> edits;
            for (AccountLine line : *lines) {
                line.id = id++;
                const auto more = edits_to_create(line);
                edits.insert(edits.end(), more.begin(), more.end());
            }
            return edits;
        },
        AccountActs::tr("lines of the invoice"));
    return first ? Result<int>(static_cast<int>(lines->size())) : Result<int>(first.error());
}

Result<Done> remove_from_account(ShopSession& session, std::int64_t build_id, RecordRef record) {
    std::vector<Edit> edits;
    if (record.kind == RecordKind::approval) {
        const auto lines = load_records<AccountLine>(session.shop(), build_id);
        if (!lines) {
            return lines.error();
        }
        for (const AccountLine& line : *lines) {
            if (line.approval_id == record.id) {
                AccountLine free = line;
                free.approval_id.reset();
                const auto more = edits_to_change(line, free);
                edits.insert(edits.end(), more.begin(), more.end());
            }
        }
    }
    const auto removal = edits_to_remove(session.shop(), record);
    if (!removal) {
        return removal.error();
    }
    edits.insert(edits.end(), removal->begin(), removal->end());
    const auto act = session.act(std::move(edits), AccountActs::tr("removal from the account"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

} // namespace rodway
