#include "app/build/items_panel.h"

#include <QCheckBox>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

#include "app/build/ask_panel.h"
#include "app/build/stage_sign.h"
#include "app/build/word_list_view.h"
#include "app/words/hold_words.h"
#include "app/words/plan_words.h"
#include "app/work/decision_acts.h"
#include "app/work/open_item_acts.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

/// In the order in which they are offered: what is opened by hand most first.
constexpr std::array<OpenItemKind, 6> kinds{OpenItemKind::watch,    OpenItemKind::temporary_part,
                                            OpenItemKind::risk,     OpenItemKind::decision,
                                            OpenItemKind::question, OpenItemKind::other};

QLabel* heading(const QString& words) {
    auto* label = new QLabel(words);
    label->setObjectName("subtitle");
    return label;
}

QLabel* empty_words(const QString& words) {
    auto* label = new QLabel(words);
    label->setWordWrap(true);
    label->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    return label;
}

void add_item_boxes(TypedForm& form) {
    TypedForm::Choices choices;
    for (const OpenItemKind kind : kinds) {
        choices.emplace_back(words::open_item_kind(kind), static_cast<int>(kind));
    }
    form.add_line("title", ItemsPanel::tr("What it is"));
    form.add_choice("kind", ItemsPanel::tr("Kind"), choices);
    form.add_line("position", ItemsPanel::tr("Where"),
                  ItemsPanel::tr("such as 3I; may stay empty"));
    form.add_line("detail", ItemsPanel::tr("More of it"));
    form.add_line("if_it_goes_wrong", ItemsPanel::tr("If it goes wrong"),
                  ItemsPanel::tr("what happens, and what to do"));
    form.add_line("due", ItemsPanel::tr("Due"), ItemsPanel::tr("a day such as 2027-03-12"));
    form.add_choice("gate", ItemsPanel::tr("Holds"), {{ItemsPanel::tr("no gate"), QVariant()}});
    form.add_flag("customer_told", ItemsPanel::tr("The customer was told"));
}

/// What the boxes say, in place of what `item` has.
OpenItem typed_into(const TypedForm& form, OpenItem item) {
    item.kind = static_cast<OpenItemKind>(form.data("kind").toInt());
    item.title = form.text("title");
    item.position = if_typed(form.text("position"));
    item.detail = if_typed(form.text("detail"));
    item.if_it_goes_wrong = if_typed(form.text("if_it_goes_wrong"));
    item.due = if_typed(form.text("due"));
    item.customer_told = form.flag("customer_told");
    const QVariant gate = form.data("gate");
    item.gate_id = gate.isValid() ? std::optional<std::int64_t>(gate.toLongLong()) : std::nullopt;
    return item;
}

} // namespace

ItemsPanel::ItemsPanel(Clock clock, QWidget* parent) : BuildPanel(std::move(clock), parent) {
    make_asks();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(make_items(), 3);
    layout->addWidget(make_decisions(), 2);
}

QWidget* ItemsPanel::make_items() {
    no_items_ = empty_words(
        tr("Nothing is open.\nWhat must not be forgotten belongs here: a temporary part to swap, a "
           "doubtful thread to watch, a risk that was accepted. It follows the engine into its "
           "book until it is closed."));
    items_ = new WordListView("open_items", tr("Open items"));
    items_->setIconSize({stage_sign_px, stage_sign_px});
    closed_too_ = new QCheckBox(tr("Show the closed ones"));
    new_item_ = new QPushButton(tr("&New item…"));
    new_item_->setObjectName("new_item");
    alter_ = new QPushButton(tr("C&hange…"));
    alter_->setObjectName("change_item");
    finish_ = new QPushButton(tr("&Close it…"));
    finish_->setObjectName("close_item");
    told_ = new QPushButton(tr("The customer was &told"));
    told_->setObjectName("item_told");
    auto* buttons = new QHBoxLayout;
    for (QWidget* widget : std::initializer_list<QWidget*>{new_item_, alter_, finish_, told_}) {
        buttons->addWidget(widget);
    }
    buttons->addStretch();
    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    auto* top = new QHBoxLayout;
    top->addWidget(heading(tr("Open items")), 1);
    top->addWidget(closed_too_);
    layout->addLayout(top);
    layout->addWidget(no_items_, 1);
    layout->addWidget(items_, 1);
    layout->addLayout(buttons);
    layout->addWidget(open_);
    layout->addWidget(change_);
    layout->addWidget(close_);
    connect(new_item_, &QPushButton::clicked, this, &ItemsPanel::open_new_item);
    connect(finish_, &QPushButton::clicked, this, [this] {
        if (const OpenItem* item = chosen()) {
            leave_asks();
            close_->open(utf16(item->title));
        }
    });
    connect(alter_, &QPushButton::clicked, this, &ItemsPanel::open_change);
    connect(told_, &QPushButton::clicked, this, &ItemsPanel::tell_customer);
    connect(closed_too_, &QCheckBox::toggled, this, [this] {
        if (shown_ != nullptr) {
            show_items();
        }
    });
    connect(items_, &WordListView::row_chosen, this, [this] {
        change_->leave();
        close_->leave();
        show_item_buttons();
    });
    return panel;
}

QWidget* ItemsPanel::make_decisions() {
    no_decisions_ = empty_words(
        tr("No decisions yet.\nWhat was asked, what was chosen and why belongs here: nobody "
           "remembers it when the engine comes back."));
    decisions_ = new WordListView("decisions", tr("Decisions"));
    auto* decide = new QPushButton(tr("New &decision…"));
    decide->setObjectName("new_decision");
    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(heading(tr("Decisions")));
    layout->addWidget(no_decisions_, 1);
    layout->addWidget(decisions_, 1);
    layout->addWidget(decide, 0, Qt::AlignLeft);
    layout->addWidget(decide_);
    connect(decide, &QPushButton::clicked, this, [this] { decide_->open(); });
    return panel;
}

void ItemsPanel::make_asks() {
    open_ = new AskPanel(tr("New open item"), tr("Open it"));
    add_item_boxes(open_->form());
    open_->take = [this] { return keep_item(); };
    change_ = new AskPanel(tr("Change the open item"), tr("Keep it so"));
    add_item_boxes(change_->form());
    change_->take = [this] { return keep_change(); };
    close_ = new AskPanel(tr("Close it"), tr("Close"));
    close_->form().add_line("outcome", tr("What came of it"));
    close_->take = [this] { return close_item(); };
    decide_ = new AskPanel(tr("New decision"), tr("Keep it"));
    decide_->form().add_line("question", tr("Question"));
    decide_->form().add_line("choice", tr("Chosen"));
    decide_->form().add_line("reason", tr("Why"));
    decide_->take = [this] { return keep_decision(); };
}

void ItemsPanel::take(ShopSession* session, std::int64_t build_id) {
    BuildPanel::take(session, build_id);
    shown_ = nullptr;
    leave_asks();
    decide_->leave();
    closed_too_->setChecked(false);
    items_->set_rows({});
    decisions_->set_rows({});
}

void ItemsPanel::show_build(const BuildShown& shown, std::int64_t stage_id) {
    shown_ = &shown;
    stage_id_ = stage_id;
    show_items();
    show_decisions();
}

const OpenItem* ItemsPanel::chosen() const {
    if (shown_ == nullptr) {
        return nullptr;
    }
    const auto found =
        std::find_if(shown_->items.begin(), shown_->items.end(),
                     [this](const OpenItem& item) { return item.id == items_->chosen(); });
    return found == shown_->items.end() ? nullptr : &*found;
}

void ItemsPanel::choose_item(std::int64_t id) {
    const auto found = std::find_if(shown_->items.begin(), shown_->items.end(),
                                    [id](const OpenItem& item) { return item.id == id; });
    if (found != shown_->items.end() && found->closed_at) {
        closed_too_->setChecked(true);
    }
    items_->choose(id);
}

QString ItemsPanel::item_text(const OpenItem& item) const {
    const QString where = item.position ? tr(", %1").arg(utf16(item.position)) : QString();
    QStringList lines{
        tr("%1: %2%3").arg(words::open_item_kind(item.kind), utf16(item.title), where)};
    if (item.detail) {
        lines << utf16(item.detail);
    }
    if (item.if_it_goes_wrong) {
        lines << tr("If it goes wrong: %1").arg(utf16(item.if_it_goes_wrong));
    }
    if (item.due && !item.closed_at) {
        lines << (*item.due < shown_->today ? tr("Overdue since %1").arg(words::day(*item.due))
                                            : tr("Due on %1").arg(words::day(*item.due)));
    }
    lines << (item.customer_told ? tr("The customer was told.") : tr("The customer wasn't told."));
    if (item.closed_at) {
        lines << tr("Closed by %1 on %2: %3")
                     .arg(utf16(item.closed_by), words::day_of(*item.closed_at),
                          utf16(item.outcome));
    } else {
        lines << tr("Opened by %1 on %2").arg(utf16(item.opened_by), words::day_of(item.opened_at));
    }
    return lines.join('\n');
}

void ItemsPanel::show_items() {
    const Palette palette = palette_for(theme_of(this->palette()));
    std::vector<WordListView::Row> rows;
    for (const bool closed : {false, true}) {
        for (const OpenItem& item : shown_->items) {
            if (item.closed_at.has_value() != closed || (closed && !closed_too_->isChecked())) {
                continue;
            }
            const bool late = item.due && *item.due < shown_->today;
            const CheckState sign = closed ? CheckState::passed
                                    : late ? CheckState::failed
                                           : CheckState::not_yet;
            rows.push_back({item.id, item_text(item), set_in_sign(sign, 0, palette)});
        }
    }
    items_->set_rows(rows);
    no_items_->setVisible(rows.empty());
    items_->setVisible(!rows.empty());
    show_item_buttons();
}

void ItemsPanel::show_item_buttons() {
    const OpenItem* item = chosen();
    alter_->setEnabled(item != nullptr && !item->closed_at);
    finish_->setEnabled(item != nullptr && !item->closed_at);
    told_->setEnabled(item != nullptr && !item->customer_told);
}

void ItemsPanel::show_decisions() {
    std::vector<WordListView::Row> rows;
    for (const Decision& decision : shown_->decisions) {
        QStringList lines{tr("%1: %2").arg(utf16(decision.question), utf16(decision.choice))};
        if (decision.reason) {
            lines << tr("Why: %1").arg(utf16(decision.reason));
        }
        lines << tr("%1, %2").arg(utf16(decision.decided_by), words::day_of(decision.decided_at));
        rows.push_back({decision.id, lines.join('\n'), {}});
    }
    decisions_->set_rows(rows);
    no_decisions_->setVisible(rows.empty());
    decisions_->setVisible(!rows.empty());
}

void ItemsPanel::leave_asks() {
    for (AskPanel* ask : {open_, change_, close_}) {
        ask->leave();
    }
}

void ItemsPanel::offer_gates(TypedForm& form, std::optional<std::int64_t> held) const {
    TypedForm::Choices gates{{tr("no gate"), QVariant()}};
    bool has_held = !held;
    if (shown_->standing) {
        for (const Gate& gate : shown_->standing->state.facts.records.gates) {
            const StageWithSteps* stage = shown_->stage(gate.stage_id);
            gates.emplace_back(stage == nullptr
                                   ? utf16(gate.title)
                                   : tr("%1: %2").arg(utf16(stage->stage.title), utf16(gate.title)),
                               QVariant(static_cast<qlonglong>(gate.id)));
            has_held = has_held || gate.id == *held;
        }
    }
    if (!has_held) {
        gates.emplace_back(tr("the gate it holds now"), QVariant(static_cast<qlonglong>(*held)));
    }
    form.offer("gate", gates);
}

void ItemsPanel::open_new_item() {
    if (shown_ == nullptr) {
        return;
    }
    leave_asks();
    open_->open();
    offer_gates(open_->form(), {});
}

void ItemsPanel::open_change() {
    const OpenItem* item = chosen();
    if (item == nullptr || item->closed_at) {
        return;
    }
    leave_asks();
    change_->open(utf16(item->title));
    TypedForm& form = change_->form();
    offer_gates(form, item->gate_id);
    before_ = *item;
    form.set_text("title", utf16(item->title));
    form.set_data("kind", static_cast<int>(item->kind));
    form.set_text("position", utf16(item->position));
    form.set_text("detail", utf16(item->detail));
    form.set_text("if_it_goes_wrong", utf16(item->if_it_goes_wrong));
    form.set_text("due", utf16(item->due));
    form.set_data("gate",
                  item->gate_id ? QVariant(static_cast<qlonglong>(*item->gate_id)) : QVariant());
    form.set_flag("customer_told", item->customer_told);
}

Result<Done> ItemsPanel::keep_item() {
    OpenItem item;
    item.build_id = build_id_;
    return only_done(add_open_item(*session_, typed_into(open_->form(), item)));
}

Result<Done> ItemsPanel::keep_change() {
    return change_open_item(*session_, before_, typed_into(change_->form(), before_));
}

Result<Done> ItemsPanel::close_item() {
    const OpenItem* item = chosen();
    return item == nullptr
               ? Result<Done>(Done{})
               : only_done(close_open_item(*session_, *item, close_->form().text("outcome")));
}

Result<Done> ItemsPanel::keep_decision() {
    const TypedForm& form = decide_->form();
    Decision decision;
    decision.build_id = build_id_;
    decision.question = form.text("question");
    decision.choice = form.text("choice");
    decision.reason = form.text("reason");
    return only_done(add_decision(*session_, decision));
}

void ItemsPanel::tell_customer() {
    const OpenItem* item = chosen();
    if (item == nullptr) {
        return;
    }
    OpenItem told_item = *item;
    told_item.customer_told = true;
    told(session_->act(edits_to_change(*item, told_item), tr("customer told")));
}

} // namespace rodway
