#include <QCoreApplication>
#include <QJsonArray>
#include <algorithm>

#include "app/book/account_paper.h"
#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/words/account_words.h"
#include "app/words/counted.h"
#include "app/words/typed_words.h"
#include "app/work/account_acts.h"
#include "app/work/clock.h"
#include "app/work/shop_day.h"
#include "core/build/worked_hours.h"
#include "db/build_records.h"

namespace rodway {
namespace {

struct AccountCommands {
    Q_DECLARE_TR_FUNCTIONS(AccountCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct AccountOptions {
    BuildOptions build;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    std::string text;
    std::string amount;
    std::string day;
    std::string note;
    std::string hours;
    std::string person;
    std::string answer;
    std::string by_whom;
    std::string manner;
    std::string file;
    std::int64_t number = 0;
};
using Options = std::shared_ptr<AccountOptions>;

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QJsonValue or_null(const std::optional<std::string>& value) {
    return value ? QJsonValue(text(*value)) : QJsonValue();
}

QString json_money(Money amount) {
    return text(money_text(amount));
}

/// Why what was typed can't be taken, with the option or word it stands in.
ExitCode refuse_typed(const Error& error) {
    complain(AccountCommands::tr("rodway: %1").arg(words::typed_error(error, text(error.field))));
    return exit_code(error.code);
}

bool is_of_the_form(const Error& error) {
    return error.code == ErrorCode::wrong_type || error.code == ErrorCode::empty_text ||
           error.code == ErrorCode::not_a_date;
}

/// Opens the shop in somebody's name and finds the build.
ExitCode with_session(const AccountOptions& options,
                      const std::function<Shown(ShopSession&, const Build&)>& run) {
    auto opened = ShopFile::open(options.build.shop);
    if (!opened) return refuse(opened.error(), text(options.build.shop));
    ShopSession session(std::move(opened).value(), text(options.who));
    const auto build = find_build(session.shop(), text(options.build.build));
    if (!build) return refuse(build.error(), text(options.build.shop));
    const auto shown = run(session, *build);
    if (shown) return *shown;
    return is_of_the_form(shown.error()) ? refuse_typed(shown.error())
                                         : refuse(shown.error(), text(options.build.shop));
}

/// Says which record was made.
Shown added(const AccountOptions& options, const char* format, const char* what,
            const Result<std::int64_t>& id) {
    if (!id) return id.error();
    if (options.build.json) {
        print_json({{"format", format}, {"version", 1}, {what, static_cast<qint64>(*id)}});
    } else {
        print(AccountCommands::tr("Added, number %1.").arg(*id));
    }
    return ExitCode::done;
}

QJsonArray lines_json(const AccountRecords& records, AccountPaper paper) {
    QJsonArray rows;
    for (const AccountLine& line : lines_of(records.lines, paper)) {
        rows.append(QJsonObject{
            {"id", static_cast<qint64>(line.id)},
            {"text", text(line.text)},
            {"amount", text(line.amount)},
            {"dated", or_null(line.dated)},
            {"extra", line.approval_id ? QJsonValue(static_cast<qint64>(*line.approval_id))
                                       : QJsonValue()}});
    }
    return rows;
}

QString answer_word(ApprovalAnswer answer) {
    return answer == ApprovalAnswer::asked      ? QStringLiteral("asked")
           : answer == ApprovalAnswer::approved ? QStringLiteral("approved")
                                                : QStringLiteral("declined");
}

QJsonArray extras_json(const AccountRecords& records, const AccountState& state) {
    QJsonArray rows;
    for (std::size_t at = 0; at < records.approvals.size(); ++at) {
        const Approval& one = records.approvals[at];
        const ExtraState& extra = state.extras[at];
        rows.append(QJsonObject{
            {"id", static_cast<qint64>(one.id)},
            {"subject", text(one.subject)},
            {"amount", extra.amount ? QJsonValue(json_money(*extra.amount)) : QJsonValue()},
            {"answer", answer_word(one.answer)},
            {"asked_at", text(one.asked_at)},
            {"answered_at", or_null(one.answered_at)},
            {"by_whom", or_null(one.by_whom)},
            {"manner", or_null(one.manner)},
            {"note", or_null(one.note)},
            {"on_invoice", extra.on_invoice}});
    }
    return rows;
}

QString name_of(const std::vector<Person>& people, const std::optional<std::int64_t>& id) {
    const auto found =
        std::find_if(people.begin(), people.end(), [&](const Person& one) { return id == one.id; });
    return found == people.end() ? QString() : text(found->name);
}

QJsonObject hours_json(const AccountState& state, const std::vector<Person>& people) {
    QJsonArray by_person;
    for (const PersonMinutes& one : state.by_person) {
        const QString name = name_of(people, one.person_id);
        by_person.append(QJsonObject{{"person", name.isEmpty() ? QJsonValue() : QJsonValue(name)},
                                     {"minutes", one.minutes}});
    }
    QJsonArray by_work;
    for (const WorkMinutes& one : state.by_work) {
        by_work.append(QJsonObject{{"work", text(one.work)}, {"minutes", one.minutes}});
    }
    return {{"minutes", state.minutes}, {"by_person", by_person}, {"by_work", by_work}};
}

QJsonArray ids_json(const std::vector<std::int64_t>& ids) {
    QJsonArray rows;
    for (const std::int64_t id : ids) rows.append(static_cast<qint64>(id));
    return rows;
}

void print_account_json(const Build& build, const AccountRecords& records,
                        const AccountState& state, const std::vector<Person>& people) {
    print_json({{"format", "rodway-account"},
                {"version", 1},
                {"build", text(build.name)},
                {"estimate", lines_json(records, AccountPaper::estimate)},
                {"deposits", lines_json(records, AccountPaper::deposit)},
                {"invoice", lines_json(records, AccountPaper::invoice)},
                {"extras", extras_json(records, state)},
                {"hours", hours_json(state, people)},
                {"sums", QJsonObject{{"estimate", json_money(state.estimate)},
                                     {"extras_approved", json_money(state.extras_approved)},
                                     {"extras_asked", json_money(state.extras_asked)},
                                     {"extras_declined", json_money(state.extras_declined)},
                                     {"deposit", json_money(state.deposit)},
                                     {"invoice", json_money(state.invoice)},
                                     {"to_pay", json_money(state.to_pay)}}},
                {"waits_for_answers", state.asked},
                {"missing_on_invoice", ids_json(state.missing_on_invoice)},
                {"declined_on_invoice", ids_json(state.declined_on_invoice)}});
}

void print_lines(const QString& title, const AccountRecords& records, AccountPaper paper,
                 Money sum) {
    const auto lines = lines_of(records.lines, paper);
    if (lines.empty()) return;
    print(AccountCommands::tr("%1: %2").arg(title, words::money(sum)));
    for (const AccountLine& line : lines) {
        print(AccountCommands::tr("   %1: %2").arg(text(line.text), words::money(line.amount)));
    }
}

void print_account(const AccountRecords& records, const AccountState& state,
                   const std::vector<Person>& people) {
    print_lines(AccountCommands::tr("Estimate"), records, AccountPaper::estimate, state.estimate);
    for (std::size_t at = 0; at < records.approvals.size(); ++at) {
        const Approval& one = records.approvals[at];
        const auto& amount = state.extras[at].amount;
        print(AccountCommands::tr("Extra %1, %2: %3, %4")
                  .arg(one.id)
                  .arg(text(one.subject),
                       amount ? words::money(*amount) : AccountCommands::tr("not known"),
                       words::answer_line(one)));
    }
    print_lines(AccountCommands::tr("Deposit"), records, AccountPaper::deposit, state.deposit);
    print_lines(AccountCommands::tr("Invoice"), records, AccountPaper::invoice, state.invoice);
    if (state.minutes > 0) {
        print(AccountCommands::tr("Hours: %1").arg(text(hours_text(state.minutes))));
        for (const PersonMinutes& one : state.by_person) {
            const QString name = name_of(people, one.person_id);
            print(AccountCommands::tr("   %1: %2")
                      .arg(name.isEmpty() ? AccountCommands::tr("nobody named") : name,
                           text(hours_text(one.minutes))));
        }
        for (const WorkMinutes& one : state.by_work) {
            print(AccountCommands::tr("   %1: %2")
                      .arg(text(one.work), text(hours_text(one.minutes))));
        }
    }
    print(
        AccountCommands::tr("To pay: %1. Taxes are not reckoned.").arg(words::money(state.to_pay)));
    if (state.asked > 0) {
        print(AccountCommands::tr("The build waits for the customer: %1.")
                  .arg(words::counted(state.asked, AccountCommands::tr("1 question"),
                                      AccountCommands::tr("%1 questions"))));
    }
}

Shown show_account(ShopSession& session, const Build& build, const AccountOptions& options) {
    const auto records = load_account(session.shop(), build.id);
    const auto people = load_records<Person>(session.shop(), shop_wide);
    const auto state = records ? account_state(*records) : Result<AccountState>(records.error());
    if (!state || !people) return !state ? state.error() : people.error();
    if (options.build.json) {
        print_account_json(build, *records, *state, *people);
    } else {
        print_account(*records, *state, *people);
    }
    return ExitCode::done;
}

Shown put_down_answer(ShopSession& session, const Build& build, const AccountOptions& options) {
    const auto records = load_account(session.shop(), build.id);
    if (!records) return records.error();
    const auto extra = std::find_if(records->approvals.begin(), records->approvals.end(),
                                    [&](const Approval& one) { return one.id == options.number; });
    if (extra == records->approvals.end()) {
        return Error{
            ErrorCode::no_such_record, "extra", std::to_string(options.number), {}, {}, {}};
    }
    const auto answer = options.answer == "approved"   ? ApprovalAnswer::approved
                        : options.answer == "declined" ? ApprovalAnswer::declined
                                                       : ApprovalAnswer::asked;
    const auto done =
        answer_extra(session, *extra, {answer, options.by_whom, options.manner, options.day});
    if (!done) return done.error();
    if (options.build.json) {
        print_json({{"format", "rodway-answer-extra"},
                    {"version", 1},
                    {"extra", static_cast<qint64>(options.number)},
                    {"answer", answer_word(answer)}});
    } else {
        print(AccountCommands::tr("Extra %1: %2.")
                  .arg(options.number)
                  .arg(words::approval_answer(answer)));
    }
    return ExitCode::done;
}

/// Somebody of the shop by name or initials; nobody for no words.
Result<std::optional<std::int64_t>> person_called(ShopFile& shop, const std::string& words) {
    if (words.empty()) return std::optional<std::int64_t>();
    const auto people = load_records<Person>(shop, shop_wide);
    if (!people) return people.error();
    std::string names;
    for (const Person& one : *people) {
        if (one.name == words || one.initials == words) return std::optional(one.id);
        names += (names.empty() ? "" : ", ") + one.name;
    }
    return Error{ErrorCode::no_such_record, "--person", words, names, {}, {}};
}

Shown put_down_hours(ShopSession& session, const Build& build, const AccountOptions& options) {
    const auto person = person_called(session.shop(), options.person);
    if (!person) return person.error();
    return added(options, "rodway-add-hours", "hours",
                 add_hours(session, build.id, {*person, options.day, options.hours, options.text}));
}

Shown write_paper(ShopSession& session, const Build& build, const AccountOptions& options,
                  AccountPaper paper) {
    const auto document =
        gather_account(session.shop(), build.id, paper, shop_day(session.now()).day);
    if (!document && document.error().code == ErrorCode::missing_field) {
        complain(AccountCommands::tr("rodway: There is nothing on it yet: add a line first."));
        return exit_code(document.error().code);
    }
    if (!document) return document.error();
    const auto written = write_account_paper(*document, text(options.file));
    if (!written) return written.error();
    if (options.build.json) {
        print_json({{"format", "rodway-account-paper"},
                    {"version", 1},
                    {"file", text(options.file)},
                    {"sum", json_money(paper == AccountPaper::estimate ? document->state.estimate
                                                                       : document->state.invoice)},
                    {"to_pay", json_money(document->state.to_pay)}});
    } else {
        print(AccountCommands::tr("Wrote %1.").arg(text(options.file)));
    }
    return ExitCode::done;
}

Shown take_agreed(ShopSession& session, const Build& build, const AccountOptions& options) {
    const auto taken = take_over(session, build.id);
    if (!taken) return taken.error();
    if (options.build.json) {
        print_json({{"format", "rodway-invoice-agreed"}, {"version", 1}, {"lines", *taken}});
    } else {
        print(AccountCommands::tr("Took over %1.")
                  .arg(words::counted(*taken, AccountCommands::tr("1 line"),
                                      AccountCommands::tr("%1 lines"))));
    }
    return ExitCode::done;
}

using Run = std::function<Shown(ShopSession&, const Build&, const AccountOptions&)>;

/// A command with shop, build, --json and --by.
CLI::App& add_command(CLI::App& program, CommandOutcome& outcome, const Options& options,
                      const char* name, const QString& what, Run run) {
    auto* command = program.add_subcommand(name, what.toStdString());
    add_build_options(*command, options->build);
    command->add_option("--by", options->who, AccountCommands::tr("Initials").toStdString());
    command->callback([options, &outcome, run = std::move(run)] {
        outcome.code = with_session(*options, [&](ShopSession& session, const Build& build) {
            return run(session, build, *options);
        });
    });
    return *command;
}

void add_day_option(CLI::App& command, const Options& options) {
    command.add_option("--on", options->day,
                       AccountCommands::tr("Day, 2026-03-01; otherwise today").toStdString());
}

void add_line_command(CLI::App& program, CommandOutcome& outcome, const Options& options,
                      const char* name, const QString& what, AccountPaper paper) {
    const std::string format = std::string("rodway-") + name;
    CLI::App& command = add_command(
        program, outcome, options, name, what,
        [paper, format](ShopSession& session, const Build& build, const AccountOptions& typed) {
            const bool deposit = paper == AccountPaper::deposit;
            const std::string day =
                deposit && typed.day.empty() ? shop_day(now_utc()).day : typed.day;
            return added(
                typed, format.c_str(), "line",
                add_account_line(session, build.id, paper, {typed.text, typed.amount, day}));
        });
    command.add_option("text", options->text, AccountCommands::tr("What for").toStdString())
        ->required();
    command
        .add_option("amount", options->amount,
                    AccountCommands::tr("Amount, such as 1,250.50 or -12").toStdString())
        ->required();
    if (paper == AccountPaper::deposit) add_day_option(command, options);
}

void add_extra_commands(CLI::App& program, CommandOutcome& outcome, const Options& options) {
    CLI::App& ask = add_command(
        program, outcome, options, "add-extra",
        AccountCommands::tr("Put down what the customer is asked to approve"),
        [](ShopSession& session, const Build& build, const AccountOptions& typed) {
            return added(
                typed, "rodway-add-extra", "extra",
                add_extra(session, build.id, {typed.text, typed.amount, typed.day, typed.note}));
        });
    ask.add_option("subject", options->text, AccountCommands::tr("What is asked").toStdString())
        ->required();
    ask.add_option("--amount", options->amount, AccountCommands::tr("Amount").toStdString());
    ask.add_option("--note", options->note, AccountCommands::tr("Note").toStdString());
    add_day_option(ask, options);

    CLI::App& reply =
        add_command(program, outcome, options, "answer-extra",
                    AccountCommands::tr("Put down what the customer answered"), put_down_answer);
    reply
        .add_option("extra", options->number,
                    AccountCommands::tr("Number of the extra, see account").toStdString())
        ->required();
    reply
        .add_option(
            "answer", options->answer,
            AccountCommands::tr("approved, declined, or asked: no answer yet").toStdString())
        ->required()
        ->check(CLI::IsMember({"approved", "declined", "asked"}));
    reply.add_option("--whom", options->by_whom, AccountCommands::tr("Who answered").toStdString());
    reply.add_option("--how", options->manner,
                     AccountCommands::tr("letter, message, spoken, or other words").toStdString());
    add_day_option(reply, options);
}

void add_paper_command(CLI::App& program, CommandOutcome& outcome, const Options& options,
                       const char* name, const QString& what, AccountPaper paper) {
    CLI::App& command =
        add_command(program, outcome, options, name, what,
                    [paper](ShopSession& session, const Build& build, const AccountOptions& typed) {
                        return write_paper(session, build, typed, paper);
                    });
    command.add_option("file", options->file, AccountCommands::tr("PDF to write").toStdString())
        ->required();
}

} // namespace

void add_account_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<AccountOptions>();
    add_command(program, outcome, options, "account",
                AccountCommands::tr("Estimate, extras, deposit, hours and invoice of a build"),
                show_account);
    add_line_command(program, outcome, options, "add-estimate-line",
                     AccountCommands::tr("Add a line to the estimate"), AccountPaper::estimate);
    add_line_command(program, outcome, options, "add-invoice-line",
                     AccountCommands::tr("Add a line to the invoice"), AccountPaper::invoice);
    add_line_command(program, outcome, options, "add-deposit",
                     AccountCommands::tr("Put down what the customer paid in advance"),
                     AccountPaper::deposit);
    add_extra_commands(program, outcome, options);
    CLI::App& hours = add_command(program, outcome, options, "add-hours",
                                  AccountCommands::tr("Put down hours worked"), put_down_hours);
    hours
        .add_option("hours", options->hours,
                    AccountCommands::tr("How long: 2.5, 2:30, 45 min").toStdString())
        ->required();
    hours.add_option("work", options->text, AccountCommands::tr("Kind of work").toStdString())
        ->required();
    hours.add_option("--person", options->person,
                     AccountCommands::tr("Name or initials of somebody of the shop").toStdString());
    add_day_option(hours, options);
    add_command(program, outcome, options, "invoice-agreed",
                AccountCommands::tr("Put the estimate and the approved extras on the invoice"),
                take_agreed);
    add_paper_command(program, outcome, options, "write-estimate",
                      AccountCommands::tr("Write the estimate as a PDF"), AccountPaper::estimate);
    add_paper_command(program, outcome, options, "write-invoice",
                      AccountCommands::tr("Write the invoice as a PDF"), AccountPaper::invoice);
}

} // namespace rodway
