#include "app/account/account_page.h"

#include <QEvent>
#include <QFileDialog>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTabWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/account/answer_sign.h"
#include "app/account/entry_table.h"
#include "app/book/account_paper.h"
#include "app/edit_stack/shop_session.h"
#include "app/words/account_words.h"
#include "app/words/counted.h"
#include "app/words/error_text.h"
#include "app/work/account_acts.h"
#include "app/work/account_document.h"
#include "app/work/shop_day.h"
#include "core/build/worked_hours.h"
#include "db/build_records.h"
#include "db/build_store.h"

namespace rodway {
namespace {

AccountPage::Tab tab_of(AccountPaper paper) {
    return paper == AccountPaper::estimate  ? AccountPage::Tab::estimate
           : paper == AccountPaper::deposit ? AccountPage::Tab::deposit
                                            : AccountPage::Tab::invoice;
}

template <typename Record>
const Record* found_in(const std::vector<Record>& records, std::int64_t id) {
    const auto found = std::find_if(records.begin(), records.end(),
                                    [id](const Record& record) { return record.id == id; });
    return found == records.end() ? nullptr : &*found;
}

/// The id of what was added is of no interest here.
Result<Done> done(const Result<std::int64_t>& added) {
    return added ? Result<Done>(Done{}) : Result<Done>(added.error());
}

QString text(const std::optional<std::string>& utf8) {
    return QString::fromStdString(utf8.value_or(std::string()));
}

bool same_answer(const Approval& one, const Approval& other) {
    return one.id == other.id && one.answer == other.answer && one.by_whom == other.by_whom &&
           one.manner == other.manner && one.answered_at == other.answered_at;
}

QString empty_text_of(AccountPaper paper) {
    switch (paper) {
        case AccountPaper::estimate:
            return AccountPage::tr(
                "No estimate yet.\nWhat the work and the parts are expected to come to belongs "
                "here, line by line.\nType the first line and its amount below, Enter adds it.");
        case AccountPaper::deposit:
            return AccountPage::tr(
                "No deposit yet.\nWhat the customer paid in advance belongs here; the invoice "
                "subtracts it.\nType what it was for and the amount below, Enter adds it.");
        case AccountPaper::invoice:
        case AccountPaper::extra:
            break;
    }
    return AccountPage::tr(
        "No invoice yet.\nBegin with “Take over what was agreed”: the estimate's lines and the "
        "approved extras; or type lines below, Enter adds them.");
}

} // namespace

AccountPage::AccountPage(QWidget* parent)
    : PlacePage(parent),
      stack_(new QStackedWidget),
      title_(new QLabel),
      sums_(new QLabel),
      waits_(new QLabel),
      tabs_(new QTabWidget),
      answer_(new TypedForm(TypedForm::Shape::row)),
      put_down_(new QPushButton(tr("&Put down the answer"))),
      hour_sums_(new QLabel) {
    title_->setObjectName("title");
    title_->setTextFormat(Qt::PlainText);
    title_->setWordWrap(true);
    title_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    sums_->setObjectName("account_sums");
    sums_->setWordWrap(true);
    sums_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    waits_->setObjectName("trouble");
    waits_->setWordWrap(true);
    tabs_->setObjectName("account_tabs");
    tabs_->setAccessibleName(tr("Parts of the account"));
    tabs_->addTab(make_lines(AccountPaper::estimate), tr("Estimate"));
    tabs_->addTab(make_extras(), tr("Extras"));
    tabs_->addTab(make_lines(AccountPaper::deposit), tr("Deposit"));
    tabs_->addTab(make_hours(), tr("Hours"));
    tabs_->addTab(make_lines(AccountPaper::invoice), tr("Invoice"));
    auto* note = new QLabel(
        tr("This is what was agreed with the customer, not bookkeeping: no taxes, no payments but "
           "the deposit."));
    note->setObjectName("small");
    note->setWordWrap(true);

    auto* content = new QWidget;
    auto* inside = new QVBoxLayout(content);
    inside->setContentsMargins(0, 0, 0, 0);
    inside->addWidget(title_);
    inside->addWidget(sums_);
    inside->addWidget(waits_);
    inside->addWidget(tabs_, 1);
    inside->addWidget(note);
    auto* none = new QLabel(tr("Open a build on the Bench: its account is here."));
    none->setAlignment(Qt::AlignCenter);
    stack_->addWidget(none);
    stack_->addWidget(content);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(stack_);
}

QWidget* AccountPage::make_lines(AccountPaper paper) {
    const bool dated = paper == AccountPaper::deposit;
    std::vector<EntryTable::Column> columns{{tr("What for")}};
    if (dated) {
        columns.push_back({tr("Day"), 120});
    }
    columns.push_back({tr("Amount"), 140, true});
    auto* table = new EntryTable(words::account_paper(paper), columns, empty_text_of(paper));
    table->setObjectName("account_" + words::account_paper(paper).toLower());
    entries_[tab_of(paper)] = table;
    table->form().add_line("text", tr("What for"), {}, 5);
    if (dated) {
        table->form().add_line("dated", tr("Day"), tr("today"), 1);
    }
    table->form().add_line("amount", tr("Amount"), tr("1,250.00"), 1);
    dress_lines(*table, paper);
    if (paper == AccountPaper::invoice) {
        auto* take = new QPushButton(tr("&Take over what was agreed"));
        take->setObjectName("take_over");
        table->buttons().addWidget(take);
        connect(take, &QPushButton::clicked, this, &AccountPage::take_over_what_was_agreed);
    }
    if (!dated) {
        table->buttons().addWidget(paper_button(paper));
    }
    return table;
}

QPushButton* AccountPage::paper_button(AccountPaper paper) {
    const bool estimate = paper == AccountPaper::estimate;
    auto* button = new QPushButton(estimate ? tr("Estimate as P&DF…") : tr("Invoice as P&DF…"));
    connect(button, &QPushButton::clicked, this, [this, paper, estimate] {
        const QString file = QFileDialog::getSaveFileName(
            this, estimate ? tr("Write the estimate") : tr("Write the invoice"),
            estimate ? tr("estimate.pdf") : tr("invoice.pdf"));
        if (!file.isEmpty()) {
            save_paper(paper, file);
        }
    });
    return button;
}

void AccountPage::dress_lines(EntryTable& table, AccountPaper paper) {
    const bool dated = paper == AccountPaper::deposit;
    const auto typed = [&form = table.form(), dated] {
        return TypedLine{form.text("text"), form.text("amount"),
                         dated ? form.text("dated") : std::string()};
    };
    table.add = [this, paper, typed, dated]() -> Result<Done> {
        TypedLine next = typed();
        if (dated && QString::fromStdString(next.dated).trimmed().isEmpty()) {
            next.dated = shop_day(session_->now()).day;
        }
        return done(add_account_line(*session_, build_id_, paper, next));
    };
    table.keep = [this, typed](std::int64_t) {
        return change_account_line(*session_, changing_line_, typed());
    };
    table.remove = [this](std::int64_t id) {
        return remove_from_account(*session_, build_id_, {RecordKind::account_line, id});
    };
    table.show_in_form = [this, &table, dated](std::int64_t id) {
        if (const AccountLine* shown = line(id)) {
            changing_line_ = *shown;
            table.form().set_text("text", QString::fromStdString(shown->text));
            table.form().set_text("amount", words::money(shown->amount));
            if (dated) {
                table.form().set_text("dated", text(shown->dated));
            }
        }
    };
    connect(&table, &EntryTable::failed, this, &AccountPage::failed);
}

QWidget* AccountPage::make_extras() {
    auto* table = new EntryTable(
        tr("Extras"),
        {{tr("What was asked")}, {tr("Answer"), 330}, {tr("Note"), 160}, {tr("Amount"), 110, true}},
        tr("No extras yet.\nWhat came up beside the estimate belongs here: what it was, what it "
           "costs, and whether the customer approved it, how and when, or declined.\nType the "
           "first question below, Enter adds it."));
    table->setObjectName("account_extras");
    entries_[Tab::extras] = table;
    table->form().add_line("subject", tr("What is asked"), {}, 5);
    table->form().add_line("amount", tr("Amount"), tr("not known"), 2);
    table->form().add_line("asked", tr("Asked on"), tr("today"), 2);
    table->form().add_line("note", tr("Note"), {}, 3);
    dress_extras(*table);
    make_answer(table);
    return table;
}

void AccountPage::make_answer(QWidget* into) {
    answer_->add_choice("answer", tr("The answer to the selected extra"),
                        {{tr("approved"), static_cast<int>(ApprovalAnswer::approved)},
                         {tr("declined"), static_cast<int>(ApprovalAnswer::declined)},
                         {tr("none yet: take it off"), static_cast<int>(ApprovalAnswer::asked)}},
                        2);
    answer_->add_line("by_whom", tr("By whom"), {}, 2);
    answer_->add_words("manner", tr("How"), {tr("letter"), tr("message"), tr("spoken")}, 2);
    answer_->add_line("answered", tr("Answered on"), tr("today"), 2);
    put_down_->setObjectName("put_down_answer");
    answer_->add_at_end(put_down_);
    into->layout()->addWidget(answer_);
    connect(put_down_, &QPushButton::clicked, this, &AccountPage::put_down_answer);
    connect(answer_, &TypedForm::entered, this, &AccountPage::put_down_answer);
    connect(entries_[Tab::extras], &EntryTable::row_chosen, this, &AccountPage::show_answer);
}

void AccountPage::dress_extras(EntryTable& table) {
    const auto typed = [&form = table.form()] {
        return TypedExtra{form.text("subject"), form.text("amount"), form.text("asked"),
                          form.text("note")};
    };
    table.add = [this, typed] { return done(add_extra(*session_, build_id_, typed())); };
    table.keep = [this, typed](std::int64_t) {
        return change_extra(*session_, changing_extra_, typed());
    };
    table.remove = [this](std::int64_t id) {
        return remove_from_account(*session_, build_id_, {RecordKind::approval, id});
    };
    table.show_in_form = [this, &table](std::int64_t id) {
        if (const Approval* shown = extra(id)) {
            changing_extra_ = *shown;
            table.form().set_text("subject", QString::fromStdString(shown->subject));
            table.form().set_text("amount",
                                  shown->amount ? words::money(*shown->amount) : QString());
            table.form().set_text("asked", QString::fromStdString(shop_day(shown->asked_at).day));
            table.form().set_text("note", text(shown->note));
        }
    };
    connect(&table, &EntryTable::failed, this, &AccountPage::failed);
}

QWidget* AccountPage::make_hours() {
    auto* table = new EntryTable(
        tr("Hours"),
        {{tr("Kind of work")}, {tr("Who"), 200}, {tr("Day"), 110}, {tr("Hours"), 80, true}},
        tr("No hours yet.\nWho worked how long, at what and on which day belongs here.\nType the "
           "work and the hours below, Enter adds them."));
    table->setObjectName("account_hours");
    entries_[Tab::hours] = table;
    table->form().add_words("work", tr("Kind of work"), {}, 4);
    table->form().add_line("hours", tr("Hours"), tr("2.5, 2:30"), 1);
    table->form().add_choice("person_id", tr("Who"), {{tr("nobody named"), QVariant()}}, 2);
    table->form().add_line("day", tr("Day"), tr("today"), 1);
    dress_hours(*table);
    hour_sums_->setObjectName("hour_sums");
    hour_sums_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    hour_sums_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    hour_sums_->setWordWrap(true);
    hour_sums_->setMargin(8);
    auto* scroll = new QScrollArea;
    scroll->setWidget(hour_sums_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFixedWidth(260);
    hour_sums_->setAutoFillBackground(false); // the page's own ground
    scroll->viewport()->setAutoFillBackground(false);
    auto* panel = new QWidget;
    auto* columns = new QHBoxLayout(panel);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->addWidget(table, 1);
    columns->addWidget(scroll);
    return panel;
}

void AccountPage::dress_hours(EntryTable& table) {
    const auto typed = [&form = table.form()] {
        const QVariant who = form.data("person_id");
        return TypedHours{
            who.isValid() ? std::optional<std::int64_t>(who.toLongLong()) : std::nullopt,
            form.text("day"), form.text("hours"), form.text("work")};
    };
    table.add = [this, typed] { return done(add_hours(*session_, build_id_, typed())); };
    table.keep = [this, typed](std::int64_t) {
        return change_hours(*session_, changing_time_, typed());
    };
    table.remove = [this](std::int64_t id) {
        return remove_from_account(*session_, build_id_, {RecordKind::worked_time, id});
    };
    table.show_in_form = [this, &table](std::int64_t id) {
        if (const WorkedTime* shown = time(id)) {
            changing_time_ = *shown;
            table.form().set_text("work", QString::fromStdString(shown->work));
            table.form().set_text("hours", QString::fromStdString(hours_text(shown->minutes)));
            table.form().set_data(
                "person_id", shown->person_id ? QVariant(static_cast<qlonglong>(*shown->person_id))
                                              : QVariant());
            table.form().set_text("day", QString::fromStdString(shown->day));
        }
    };
    // The next entry is mostly of the same person.
    table.show_fresh = [this, &table] {
        for (const Person& one : session_ ? people_ : std::vector<Person>()) {
            const std::string who = session_->who().toStdString();
            if (one.initials == who || one.name == who) {
                table.form().set_data("person_id", static_cast<qlonglong>(one.id));
            }
        }
    };
    connect(&table, &EntryTable::failed, this, &AccountPage::failed);
}

void AccountPage::take(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    records_ = {};
    state_ = {};
    people_.clear();
    answering_ = {};
    answer_->clear();
    for (const auto& [tab, table] : entries_) {
        table->set_rows({});
        table->reset();
    }
    refresh();
}

void AccountPage::refresh() {
    stack_->setCurrentIndex(session_ != nullptr && build_id_ != 0 ? 1 : 0);
    if (session_ == nullptr || build_id_ == 0 || !isVisible()) {
        return;
    }
    const auto build = load_build(session_->shop(), build_id_);
    auto records = load_account(session_->shop(), build_id_);
    auto people = load_records<Person>(session_->shop(), shop_wide);
    const auto state = records ? account_state(*records) : Result<AccountState>(records.error());
    if (!build || !state || !people) {
        emit failed(words::error_text(!build   ? build.error()
                                      : !state ? state.error()
                                               : people.error()));
        return;
    }
    records_ = std::move(records).value();
    state_ = *state;
    people_ = std::move(people).value();
    currency_ = QString::fromStdString(currency_of(session_->shop()));
    const QString name = QString::fromStdString(build->name);
    title_->setText(tr("Account of %1").arg(name));
    show_sums();
    show_lines(AccountPaper::estimate);
    show_lines(AccountPaper::deposit);
    show_lines(AccountPaper::invoice);
    show_extras();
    show_hours();
    show_hour_sums();
    // The next hours are mostly of whoever works now.
    const TypedForm& typed = entries_[Tab::hours]->form();
    if (typed.text("work").empty() && typed.text("hours").empty() && typed.text("day").empty()) {
        entries_[Tab::hours]->reset();
    }
}

void AccountPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

void AccountPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && session_ != nullptr) {
        show_extras();
    }
}

QString AccountPage::amount(Money money) const {
    return words::money(money, currency_);
}

void AccountPage::show_sums() {
    QStringList sums{
        tr("Estimate <b>%1</b>").arg(amount(state_.estimate).toHtmlEscaped()),
        tr("Extras approved <b>%1</b>").arg(amount(state_.extras_approved).toHtmlEscaped()),
        tr("Deposit <b>%1</b>").arg(amount(state_.deposit).toHtmlEscaped()),
        tr("Invoice <b>%1</b>").arg(amount(state_.invoice).toHtmlEscaped())};
    // A deposit isn't given back because nothing is invoiced yet.
    if (lines_of(records_.lines, AccountPaper::invoice).empty()) {
        sums << tr("To pay: no invoice yet");
    } else if (state_.to_pay < Money{}) {
        sums << tr("To give back <b>%1</b>").arg(amount(-state_.to_pay).toHtmlEscaped());
    } else {
        sums << tr("To pay <b>%1</b>").arg(amount(state_.to_pay).toHtmlEscaped());
    }
    sums << tr("Hours <b>%1</b>").arg(QString::fromStdString(hours_text(state_.minutes)));
    sums_->setText(sums.join(QStringLiteral(" &nbsp;·&nbsp; ")));

    QStringList waits;
    const auto add = [&waits](std::size_t number, const QString& one, const QString& more) {
        if (number > 0) {
            waits << words::counted(static_cast<int>(number), one, more);
        }
    };
    add(static_cast<std::size_t>(state_.asked),
        tr("The build waits for the customer: 1 question without an answer."),
        tr("The build waits for the customer: %1 questions without an answer."));
    add(static_cast<std::size_t>(state_.approved_without_amount),
        tr("1 approved extra has no amount."), tr("%1 approved extras have no amount."));
    add(state_.missing_on_invoice.size(), tr("1 approved extra isn't on the invoice."),
        tr("%1 approved extras aren't on the invoice."));
    add(state_.declined_on_invoice.size(), tr("1 extra on the invoice was declined."),
        tr("%1 extras on the invoice were declined."));
    waits_->setText(waits.join(QStringLiteral("  ")));
    waits_->setVisible(!waits.isEmpty());
}

void AccountPage::show_lines(AccountPaper paper) {
    std::vector<EntryTable::Row> rows;
    for (const AccountLine& one : lines_of(records_.lines, paper)) {
        EntryTable::Row row{one.id, {QString::fromStdString(one.text)}, {}};
        if (paper == AccountPaper::deposit) {
            row.cells << text(one.dated);
        }
        row.cells << words::money(one.amount, currency_);
        rows.push_back(std::move(row));
    }
    entries_[tab_of(paper)]->set_rows(rows);
}

void AccountPage::show_extras() {
    const Palette palette = palette_for(theme_of(this->palette()));
    std::vector<EntryTable::Row> rows;
    for (std::size_t at = 0; at < records_.approvals.size(); ++at) {
        const Approval& one = records_.approvals[at];
        const auto& money = state_.extras[at].amount;
        rows.push_back({one.id,
                        {QString::fromStdString(one.subject), words::answer_line(one),
                         text(one.note), money ? amount(*money) : tr("not known")},
                        answer_sign(one.answer, palette)});
    }
    entries_[Tab::extras]->set_rows(rows);
}

void AccountPage::show_answer() {
    const auto chosen = entries_[Tab::extras]->selected();
    const Approval* asked = chosen ? extra(*chosen) : nullptr;
    answer_->setEnabled(asked != nullptr);
    if (asked != nullptr && same_answer(*asked, answering_)) {
        return; // what is being typed stays
    }
    answering_ = asked != nullptr ? *asked : Approval{};
    answer_->clear();
    if (asked != nullptr && asked->answer != ApprovalAnswer::asked) {
        answer_->set_data("answer", static_cast<int>(asked->answer));
        answer_->set_text("by_whom", text(asked->by_whom));
        answer_->set_text("manner", text(asked->manner));
        answer_->set_text("answered", asked->answered_at ? QString::fromStdString(
                                                               shop_day(*asked->answered_at).day)
                                                         : QString());
    }
}

void AccountPage::show_hours() {
    TypedForm::Choices people{{tr("nobody named"), QVariant()}};
    for (const Person& one : people_) {
        people.emplace_back(QString::fromStdString(one.name), static_cast<qlonglong>(one.id));
    }
    TypedForm& form = entries_[Tab::hours]->form();
    form.offer("person_id", people);
    TypedForm::Choices works;
    for (const WorkMinutes& one : state_.by_work) {
        works.emplace_back(QString::fromStdString(one.work), QVariant());
    }
    form.offer("work", works);
    std::vector<EntryTable::Row> rows;
    for (const WorkedTime& one : records_.times) {
        rows.push_back(
            {one.id,
             {QString::fromStdString(one.work), person(one.person_id),
              QString::fromStdString(one.day), QString::fromStdString(hours_text(one.minutes))},
             {}});
    }
    entries_[Tab::hours]->set_rows(rows);
}

void AccountPage::show_hour_sums() {
    QStringList lines;
    const auto add = [&lines](const QString& what, int minutes) {
        lines << tr("%1  %2").arg(QString::fromStdString(hours_text(minutes)), what);
    };
    if (state_.minutes == 0) {
        hour_sums_->setText(tr("Sums by person and by kind of work stand here."));
        return;
    }
    add(tr("in all"), state_.minutes);
    lines << QString() << tr("By person");
    for (const PersonMinutes& one : state_.by_person) {
        add(person(one.person_id), one.minutes);
    }
    lines << QString() << tr("By kind of work");
    for (const WorkMinutes& one : state_.by_work) {
        add(QString::fromStdString(one.work), one.minutes);
    }
    hour_sums_->setTextFormat(Qt::PlainText);
    hour_sums_->setText(lines.join('\n'));
}

QString AccountPage::person(const std::optional<std::int64_t>& id) const {
    const Person* found = id ? found_in(people_, *id) : nullptr;
    return found ? QString::fromStdString(found->name) : tr("nobody named");
}

const AccountLine* AccountPage::line(std::int64_t id) const {
    return found_in(records_.lines, id);
}

const Approval* AccountPage::extra(std::int64_t id) const {
    return found_in(records_.approvals, id);
}

const WorkedTime* AccountPage::time(std::int64_t id) const {
    return found_in(records_.times, id);
}

void AccountPage::show_tab(Tab tab) {
    tabs_->setCurrentIndex(static_cast<int>(tab));
}

EntryTable& AccountPage::entries(Tab tab) {
    return *entries_[tab];
}

void AccountPage::put_down_answer() {
    const auto chosen = entries_[Tab::extras]->selected();
    const Approval* asked = chosen ? extra(*chosen) : nullptr;
    if (asked == nullptr || session_ == nullptr) {
        return;
    }
    answer_->quiet();
    const auto answer = static_cast<ApprovalAnswer>(answer_->data("answer").toInt());
    const auto put = answer_extra(
        *session_, answering_,
        {answer, answer_->text("by_whom"), answer_->text("manner"), answer_->text("answered")});
    if (!put && !is_waiting(put.error())) {
        answer_->complain(put.error());
    }
}

void AccountPage::take_over_what_was_agreed() {
    if (session_ == nullptr || build_id_ == 0) {
        return;
    }
    const auto taken = take_over(*session_, build_id_);
    if (!taken) {
        if (!is_waiting(taken.error())) {
            emit failed(words::error_text(taken.error()));
        }
        return;
    }
    emit said(*taken == 0
                  ? tr("The invoice has all that was agreed already.")
                  : tr("Took over %1.").arg(words::counted(*taken, tr("1 line"), tr("%1 lines"))));
}

void AccountPage::save_paper(AccountPaper paper, const QString& file) {
    if (session_ == nullptr || build_id_ == 0) {
        return;
    }
    const auto document =
        gather_account(session_->shop(), build_id_, paper, shop_day(session_->now()).day);
    if (!document) {
        const bool empty = document.error().code == ErrorCode::missing_field;
        emit failed(empty ? tr("There is nothing on it yet: type its first line.")
                          : words::error_text(document.error()));
        return;
    }
    const auto written = write_account_paper(*document, file);
    if (!written) {
        emit failed(words::error_in_file(file, written.error()));
        return;
    }
    emit said(tr("Wrote %1.").arg(file));
}

} // namespace rodway
