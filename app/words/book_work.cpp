#include <QCoreApplication>
#include <algorithm>
#include <map>
#include <tuple>

#include "app/words/account_words.h"
#include "app/words/book_words.h"
#include "app/words/hold_words.h"
#include "app/words/plan_words.h"
#include "app/words/sheet_words.h"

// What was done, what is open, what was agreed.

namespace rodway::words {
namespace {

struct Work {
    Q_DECLARE_TR_FUNCTIONS(BookWork)
};

QString who_when(const BookFacts& facts, const std::string& who, const std::string& utc) {
    return Work::tr("%1, %2").arg(person(facts, who), day_of(utc));
}

BookBlocks open_items(const BookFacts& facts, bool closed) {
    BookBlocks blocks;
    for (const OpenItem& item : facts.state.facts.records.open_items) {
        if (item.closed_at.has_value() != closed) {
            continue;
        }
        FactTable table;
        table.add(open_item_kind(item.kind), printable(item.title));
        table.add(Work::tr("Where"), item.position);
        table.add(Work::tr("More"), item.detail);
        table.add(Work::tr("If it goes wrong"), item.if_it_goes_wrong);
        if (item.due) table.add(Work::tr("By"), day(*item.due));
        table.add(Work::tr("Written down"), who_when(facts, item.opened_by, item.opened_at));
        table.add(Work::tr("The customer"), item.customer_told
                                                ? Work::tr("was told")
                                                : Work::tr("learns of it by this book"));
        if (item.closed_at) {
            table.add(Work::tr("Closed"),
                      who_when(facts, item.closed_by.value_or(""), *item.closed_at));
            table.add(Work::tr("How it ended"), item.outcome);
        }
        blocks.push_back(table.take());
    }
    return blocks;
}

BookBlocks waivers(const BookFacts& facts) {
    BookBlocks blocks;
    for (const Waiver& waiver : facts.state.facts.records.waivers) {
        FactTable table;
        table.add(Work::tr("Went on past"), printable(waiver.subject));
        table.add(Work::tr("Because"), printable(waiver.reason));
        table.add(Work::tr("Answers for it"), who_when(facts, waiver.waived_by, waiver.waived_at));
        if (waiver.until) table.add(Work::tr("Until"), day(*waiver.until));
        table.add(Work::tr("The customer"), waiver.customer_told
                                                ? Work::tr("was told")
                                                : Work::tr("learns of it by this book"));
        blocks.push_back(table.take());
    }
    return blocks;
}

/// "approved on 13 November 2026 by Ketil Aune, by letter"
QString answer_of(const Approval& approval) {
    QString said = approval_answer(approval.answer);
    if (approval.answer == ApprovalAnswer::asked) {
        return Work::tr("%1, asked on %2").arg(said, day_of(approval.asked_at));
    }
    if (approval.answered_at) {
        said = Work::tr("%1 on %2").arg(said, day_of(*approval.answered_at));
    }
    if (approval.by_whom) said = Work::tr("%1 by %2").arg(said, printable(*approval.by_whom));
    return approval.manner ? Work::tr("%1, %2").arg(said, manner(*approval.manner)) : said;
}

BookBlocks approvals(const BookFacts& facts, ApprovalAnswer answer) {
    BookTable table{
        {{Work::tr("What"), 0.46}, {Work::tr("Amount"), 0.14, true}, {Work::tr("Answer"), 0.4}},
        {},
        16.0,
        9.0};
    for (const Approval& one : facts.state.facts.records.approvals) {
        if (one.answer != answer) {
            continue;
        }
        const QString note = one.note ? u'\n' + printable(*one.note) : QString();
        table.rows.push_back(
            {printable(one.subject) + note,
             one.amount ? money(*one.amount, printable(facts.currency)) : QString(),
             answer_of(one)});
    }
    return table.rows.empty() ? BookBlocks() : BookBlocks{std::move(table)};
}

void add_part(BookBlocks& blocks, const QString& heading, BookBlocks part) {
    if (part.empty()) {
        return;
    }
    blocks.push_back(BookHeading{heading, 2});
    for (BookBlock& block : part) {
        blocks.push_back(std::move(block));
    }
}

/// Notes that were chosen for the book, of one stage or of none.
void add_notes(const BookFacts& facts, const std::optional<std::int64_t>& stage_id,
               BookBlocks& blocks) {
    for (const Note& note : facts.notes) {
        if (!note.in_book || note.stage_id != stage_id) {
            continue;
        }
        const QString where =
            note.position ? printable(*note.position) + QStringLiteral(": ") : QString();
        blocks.push_back(paragraph(Work::tr("Note by %1: %2%3")
                                       .arg(who_when(facts, note.written_by, note.written_at),
                                            where, printable(note.text))));
    }
}

BookTable steps_of(const BookFacts& facts, const Stage& stage) {
    BookTable table{{{Work::tr("Step"), 0.56}, {Work::tr("Done by"), 0.24}, {Work::tr("Day"), 0.2}},
                    {},
                    15.0,
                    8.5};
    for (const Step& step : facts.state.facts.records.steps) {
        if (step.stage_id != stage.id) {
            continue;
        }
        if (step.not_needed) {
            table.rows.push_back({printable(step.title),
                                  Work::tr("left out: %1").arg(printable(*step.not_needed)),
                                  QString()});
        } else {
            table.rows.push_back(
                {printable(step.title),
                 step.ticked_at ? person(facts, step.ticked_by.value_or("")) : Work::tr("not done"),
                 step.ticked_at ? day_of(*step.ticked_at) : QString()});
        }
    }
    return table;
}

/// What a sign-off froze, a check on each line: its value, its limit and who says so.
BookTable frozen(const BookFacts& facts, const SignOff& sign_off) {
    BookTable table{{{Work::tr("Signed: check"), 0.34},
                     {Work::tr("as it stood"), 0.3},
                     {Work::tr("limit"), 0.18},
                     {Work::tr("whose limit"), 0.18}},
                    {},
                    14.0,
                    8.0};
    const QStringList values = printable(sign_off.value.value_or("")).split(u'\n');
    const QStringList limits = printable(sign_off.limit_text.value_or("")).split(u'\n');
    const QStringList sources = printable(sign_off.limit_source.value_or("")).split(u'\n');
    for (qsizetype at = 0; at < values.size(); ++at) {
        const qsizetype colon = values[at].indexOf(u':');
        if (colon < 0) {
            continue;
        }
        const QString what = values[at].left(colon);
        const QString id = what.section(u' ', 0, 0);
        const QString title = sheet_title(id.toStdString(), facts.state.own_titles);
        table.rows.push_back(
            {printable(title) + what.mid(id.size()),
             values[at].mid(colon + 1).trimmed().replace(u'_', u' '),
             at < limits.size() ? limits[at] : QString(),
             at < sources.size() ? QString(sources[at]).replace(u'_', u' ') : QString()});
    }
    return table;
}

void add_sign_offs(const BookFacts& facts, const Stage& stage, BookBlocks& blocks) {
    const auto& overtaken = facts.state.facts.overtaken;
    for (const SignOff& one : facts.state.facts.records.sign_offs) {
        if (one.stage_id != stage.id) {
            continue;
        }
        const QString by = who_when(facts, one.signed_by, one.signed_at);
        if (one.withdrawn_at) {
            blocks.push_back(paragraph(
                Work::tr("Signed off by %1; taken back by %2: %3")
                    .arg(by, who_when(facts, one.withdrawn_by.value_or(""), *one.withdrawn_at),
                         printable(one.withdrawn_reason.value_or("")))));
            continue;
        }
        const bool waived = one.verdict == "waived";
        blocks.push_back(
            paragraph(waived ? Work::tr("Signed off by %1, with exceptions taken on.").arg(by)
                             : Work::tr("Signed off by %1.").arg(by),
                      BookText::Look::strong));
        if (std::find(overtaken.begin(), overtaken.end(), one.id) != overtaken.end()) {
            blocks.push_back(
                paragraph(Work::tr("Something that its checks depend on has changed since.")));
        }
        if (BookTable table = frozen(facts, one); !table.rows.empty()) {
            blocks.push_back(std::move(table));
        }
    }
}

/// The limit of a check on a sheet, as its sheet says it; empty if it isn't there any more.
QString limit_of(const BookFacts& facts, const Hold& hold) {
    for (const AssessedSheet& sheet : facts.assessed) {
        for (const SheetLine& line : sheet.lines) {
            if (line.quantity.id != hold.quantity) continue;
            for (const SheetBox& box : line.boxes) {
                if (box.position == hold.positions.front() && box.limit) {
                    return printable(limit(*box.limit, line.quantity));
                }
            }
        }
    }
    return printable(hold.limit);
}

/// Checks on sheets that stand badly, those on one quantity with one limit on one row; all else in
/// lines of their own.
BookBlocks holds_of(const BookFacts& facts) {
    std::map<std::tuple<HoldKind, std::string, std::string>, std::vector<const Hold*>> alike;
    BookBlocks blocks;
    const OwnTitles& own = facts.state.own_titles;
    for (const Hold& one : facts.state.holds.holds) {
        if (!one.stands() || one.kind == HoldKind::open_item || one.kind == HoldKind::step_open ||
            one.kind == HoldKind::decision_pending) { // have parts of their own
            continue;
        }
        const bool of_sheet =
            one.kind == HoldKind::check_failed || one.kind == HoldKind::check_too_close;
        if (of_sheet && !one.quantity.empty() && !one.positions.empty()) {
            alike[{one.kind, one.quantity, one.limit}].push_back(&one);
        } else {
            blocks.push_back(paragraph(printable(hold(one, own))));
        }
    }
    BookTable table{
        {{Work::tr("Check"), 0.3}, {Work::tr("What was found"), 0.4}, {Work::tr("Limit"), 0.3}},
        {},
        15.0,
        8.5};
    for (const auto& [what, holds] : alike) {
        QStringList found;
        for (const Hold* one : holds) {
            QStringList where;
            for (const std::string& place : one->positions) where << printable(place);
            where.removeAll(QString()); // of the whole engine
            found << (where.isEmpty()
                          ? printable(one->value)
                          : Work::tr("%1: %2").arg(where.join(", "), printable(one->value)));
        }
        const QString title = printable(sheet_title(holds.front()->quantity, own));
        table.rows.push_back({std::get<0>(what) == HoldKind::check_failed
                                  ? Work::tr("%1: outside its limit").arg(title)
                                  : Work::tr("%1: too close to its limit to call").arg(title),
                              found.join("; "), limit_of(facts, *holds.front())});
    }
    if (!table.rows.empty()) blocks.push_back(std::move(table));
    return blocks;
}

BookTable account_lines(const BookFacts& facts, AccountPaper paper, Money sum) {
    const QString sign = printable(facts.currency);
    BookTable table{
        {{account_paper(paper), 0.6}, {Work::tr("Day"), 0.2}, {Work::tr("Amount"), 0.2, true}},
        {},
        15.0,
        9.0};
    for (const AccountLine& line : lines_of(facts.account->lines, paper)) {
        table.rows.push_back({printable(line.text), line.dated ? day(*line.dated) : QString(),
                              money(line.amount, sign)});
    }
    if (!table.rows.empty()) {
        table.rows.push_back({Work::tr("Together"), QString(), money(sum, sign)});
    }
    return table;
}

} // namespace

BookBlocks book_watch(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks;
    add_part(blocks, Work::tr("Open: to be done or watched"), open_items(facts, false));
    add_part(blocks, Work::tr("Not cleared in the shop's record"), holds_of(facts));
    add_part(blocks, Work::tr("Exceptions taken on"), waivers(facts));
    add_part(blocks, Work::tr("Offered and declined"), approvals(facts, ApprovalAnswer::declined));
    add_part(blocks, Work::tr("Asked, and not answered yet"),
             approvals(facts, ApprovalAnswer::asked));
    add_part(blocks, Work::tr("Was open, and is closed"), open_items(facts, true));
    return blocks;
}

BookBlocks book_stages(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks;
    add_notes(facts, std::nullopt, blocks);
    for (const Stage& stage : facts.state.facts.records.stages) {
        BookBlocks of_stage;
        add_sign_offs(facts, stage, of_stage);
        if (BookTable table = steps_of(facts, stage); !table.rows.empty()) {
            of_stage.push_back(std::move(table));
        }
        add_notes(facts, stage.id, of_stage);
        if (of_stage.empty()) {
            of_stage.push_back(paragraph(Work::tr("Nothing was recorded in this stage.")));
        }
        add_part(blocks, printable(stage.title), std::move(of_stage));
    }
    return blocks;
}

BookBlocks book_account(const BookSource& source) {
    const BookFacts& facts = *source.facts;
    BookBlocks blocks;
    if (!facts.account || !facts.account_state) {
        return blocks;
    }
    const AccountState& state = *facts.account_state;
    const auto add = [&](AccountPaper paper, Money sum) {
        BookTable table = account_lines(facts, paper, sum);
        if (!table.rows.empty()) {
            add_part(blocks, account_paper(paper), {std::move(table)});
        }
    };
    add(AccountPaper::estimate, state.estimate);
    add_part(blocks, Work::tr("Extras approved"), approvals(facts, ApprovalAnswer::approved));
    add(AccountPaper::deposit, state.deposit);
    add(AccountPaper::invoice, state.invoice);
    if (facts.build().terms) {
        add_part(blocks, Work::tr("Terms"), {paragraph(printable(*facts.build().terms))});
    }
    return blocks;
}

} // namespace rodway::words
