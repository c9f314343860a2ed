#include "app/build/gates_panel.h"

#include <QEvent>
#include <QGuiApplication>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/build/ask_panel.h"
#include "app/build/stage_sign.h"
#include "app/words/counted.h"
#include "app/words/hold_words.h"
#include "app/words/plan_words.h"
#include "app/words/typed_words.h"
#include "app/work/sign_offs.h"
#include "app/work/waivers.h"
#include "core/build/stage_sign_off.h"

namespace rodway {
namespace {

QLabel* words_label(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(name);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    return label;
}

QString capital(QString text) {
    if (!text.isEmpty()) {
        text[0] = text[0].toUpper();
    }
    return text;
}

QString spoken_state(CheckState state) {
    switch (state) {
        case CheckState::passed:
            return GatesPanel::tr("met");
        case CheckState::waived:
            return GatesPanel::tr("waived");
        default:
            return GatesPanel::tr("not met");
    }
}

/// The kind of place where something can be done about a hold.
enum class HoldPlace { steps, sheet, parts, cures, items, account, valvetrain, nowhere };

HoldPlace place_of(const Hold& hold) {
    switch (hold.kind) {
        case HoldKind::part_awaited:
            return HoldPlace::parts;
        case HoldKind::cure_running:
            return HoldPlace::cures;
        case HoldKind::open_item:
            return HoldPlace::items;
        case HoldKind::decision_pending:
            return HoldPlace::account;
        case HoldKind::clearance_no_answer:
        case HoldKind::clearance_not_known:
            return HoldPlace::valvetrain;
        case HoldKind::step_open:
        case HoldKind::needs_not_readable:
            return HoldPlace::nowhere;
        default:
            return hold.subject == clearance_check ? HoldPlace::valvetrain : HoldPlace::sheet;
    }
}

QString place_text(HoldPlace place) {
    switch (place) {
        case HoldPlace::sheet:
            return GatesPanel::tr("Open the s&heet");
        case HoldPlace::parts:
            return GatesPanel::tr("Open the &parts");
        case HoldPlace::cures:
            return GatesPanel::tr("To the &cures");
        case HoldPlace::items:
            return GatesPanel::tr("To the open &items");
        case HoldPlace::account:
            return GatesPanel::tr("Open the &account");
        case HoldPlace::valvetrain:
            return GatesPanel::tr("Open the &valvetrain");
        case HoldPlace::steps:
        case HoldPlace::nowhere:
            break;
    }
    return {};
}

} // namespace

GatesPanel::GatesPanel(Clock clock, QWidget* parent)
    : BuildPanel(std::move(clock), parent),
      title_(words_label("subtitle")),
      state_(words_label("gate_state")),
      gates_(new WordListView("gates", tr("Gates of the stage and what holds them"))),
      chosen_(words_label("chosen_hold")),
      go_to_(new QPushButton),
      waive_(new QPushButton(tr("&Waive…"))),
      sign_(new QPushButton(tr("Sign &off…"))),
      withdraw_(new QPushButton(tr("Wi&thdraw the sign-off…"))),
      in_the_way_(words_label("in_the_way")) {
    gates_->setIconSize({stage_sign_px + 2 * level_px, stage_sign_px});
    go_to_->setObjectName("go_to_hold");
    waive_->setObjectName("waive");
    sign_->setObjectName("sign_off");
    withdraw_->setObjectName("withdraw");
    make_asks();
    auto* of_hold = new QHBoxLayout;
    of_hold->addWidget(chosen_, 1);
    of_hold->addWidget(go_to_);
    of_hold->addWidget(waive_);
    auto* of_stage = new QHBoxLayout;
    of_stage->addWidget(in_the_way_, 1);
    of_stage->addWidget(withdraw_);
    of_stage->addWidget(sign_);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title_);
    layout->addWidget(state_);
    layout->addWidget(gates_, 1);
    layout->addLayout(of_hold);
    layout->addWidget(waiver_);
    layout->addLayout(of_stage);
    layout->addWidget(sign_off_);
    layout->addWidget(withdrawal_);
    connect(gates_, &WordListView::row_chosen, this, &GatesPanel::show_chosen);
    connect(go_to_, &QPushButton::clicked, this, &GatesPanel::go_to_hold);
    connect(gates_, &QListWidget::itemActivated, this, &GatesPanel::go_to_hold);
    connect(waive_, &QPushButton::clicked, this, [this] {
        if (const Hold* hold = chosen_hold(); hold != nullptr && hold->may_be_waived()) {
            waiving_ = *hold;
            waiver_->open(words::hold(*hold, shown_->own_titles()));
            waiver_->form().set_text("by", session_->who());
        }
    });
    connect(sign_, &QPushButton::clicked, this, &GatesPanel::open_sign_off);
    connect(withdraw_, &QPushButton::clicked, this, [this] { withdrawal_->open(); });
}

void GatesPanel::make_asks() {
    waiver_ = new AskPanel(tr("Go on past this, on purpose"), tr("Waive it"));
    waiver_->form().add_line("reason", tr("Reason"));
    waiver_->form().add_line("until", tr("Until"), tr("a day such as 2027-03-12; empty: for good"));
    waiver_->form().add_line("by", tr("In the name of"));
    waiver_->form().add_flag("customer_told", tr("The customer was told"));
    waiver_->take = [this] { return keep_waiver(); };
    sign_off_ = new AskPanel(tr("Sign the stage off"), tr("Sign off"));
    sign_off_->form().add_line("note", tr("Note"), tr("may stay empty"));
    sign_off_->take = [this] { return keep_sign_off(); };
    withdrawal_ = new AskPanel(tr("Withdraw the sign-off"), tr("Withdraw it"));
    withdrawal_->form().add_line("reason", tr("Reason"));
    withdrawal_->take = [this] { return keep_withdrawal(); };
    // One question at a time.
    for (AskPanel* ask : {waiver_, sign_off_, withdrawal_}) {
        connect(ask, &AskPanel::opened, this, [this, ask] {
            for (AskPanel* other : {waiver_, sign_off_, withdrawal_}) {
                if (other != ask) {
                    other->leave();
                }
            }
        });
        connect(ask, &AskPanel::closed, gates_, [this] { gates_->setFocus(); });
    }
}

void GatesPanel::take(ShopSession* session, std::int64_t build_id) {
    BuildPanel::take(session, build_id);
    shown_ = nullptr;
    stage_id_ = 0;
    holds_.clear();
    for (AskPanel* ask : {waiver_, sign_off_, withdrawal_}) {
        ask->leave();
    }
    gates_->set_rows({});
}

void GatesPanel::show_build(const BuildShown& shown, std::int64_t stage_id) {
    if (stage_id != stage_id_) {
        for (AskPanel* ask : {waiver_, sign_off_, withdrawal_}) {
            ask->leave();
        }
    }
    shown_ = &shown;
    stage_id_ = stage_id;
    const StageWithSteps* stage = shown.stage(stage_id);
    title_->setText(stage == nullptr ? QString() : utf16(stage->stage.title));
    show_state();
    show_gates();
    show_chosen();
}

const StageShown* GatesPanel::standing() const {
    return shown_ != nullptr && shown_->standing ? shown_->standing->stage(stage_id_) : nullptr;
}

const SignOff* GatesPanel::signed_off() const {
    const StageShown* stage = standing();
    if (stage == nullptr || !stage->state.sign_off_id) {
        return nullptr;
    }
    const auto& all = shown_->sign_offs;
    const auto found = std::find_if(all.begin(), all.end(), [&](const SignOff& one) {
        return one.id == *stage->state.sign_off_id;
    });
    return found == all.end() ? nullptr : &*found;
}

void GatesPanel::show_state() {
    const StageShown* stage = standing();
    const SignOff* signature = signed_off();
    withdraw_->setVisible(signature != nullptr);
    sign_->setEnabled(false);
    in_the_way_->clear();
    if (stage == nullptr) {
        state_->setText(shown_->stages.empty() ? tr("A build without stages has no gates.")
                                               : tr("Working out what holds it…"));
        return;
    }
    QStringList words;
    if (signature != nullptr) {
        words << tr("Signed off by %1 on %2%3.")
                     .arg(utf16(signature->signed_by), words::time_of(signature->signed_at),
                          signature->verdict == "waived" ? tr(", with exceptions") : QString());
    }
    if (stage->state.overtaken) {
        words << tr(
            "Overtaken: something that was signed has changed since, or holds it again. "
            "The sign-off stays in the history; the stage is open until it is signed "
            "anew.");
    }
    state_->setText(words.join(' '));
    state_->setVisible(!words.isEmpty());
    const int standing_holds = stage->state.standing;
    const bool anew = signature == nullptr || stage->state.overtaken;
    sign_->setEnabled(standing_holds == 0 && anew);
    in_the_way_->setText(
        standing_holds > 0
            ? words::counted(
                  standing_holds,
                  tr("1 thing stands in the way of signing it off: it is in the list above."),
                  tr("%1 things stand in the way of signing it off: they are in the list above."))
        : anew ? tr("Nothing stands in the way: it may be signed off.")
               : tr("Signed off, and nothing has changed since."));
}

void GatesPanel::add_holds(std::vector<WordListView::Row>& rows, const std::vector<Hold>& holds,
                           int level) {
    const Palette palette = palette_for(theme_of(this->palette()));
    for (const Hold& hold : holds) {
        QString text = words::hold(hold, shown_->own_titles());
        if (hold.waived) {
            text += '\n' + capital(words::waived(*hold.waived));
        }
        // The same thing under two gates is two rows, each with an id of its own.
        const qint64 id = static_cast<qint64>(holds_.size()) + 1;
        holds_[id] = hold;
        rows.push_back({id, text, set_in_sign(hold_sign({hold}), level, palette)});
    }
}

std::vector<WordListView::Row> GatesPanel::gate_rows() {
    std::vector<WordListView::Row> rows;
    const StageShown* stage = standing();
    const Palette palette = palette_for(theme_of(this->palette()));
    for (const GateState& gate : stage->gates.gates) {
        const auto& all = shown_->standing->state.facts.records.gates;
        const auto record = std::find_if(all.begin(), all.end(),
                                         [&](const Gate& one) { return one.id == gate.gate_id; });
        WordListView::Row title{0, tr("Gate: %1").arg(utf16(record->title)), {}};
        title.bold = true;
        rows.push_back(title);
        for (const NeedState& need : gate.needs.value_or(std::vector<NeedState>())) {
            const CheckState state = hold_sign(need.holds);
            WordListView::Row row{0, capital(words::needs({need.need}, shown_->own_titles())),
                                  set_in_sign(state, 0, palette)};
            row.spoken = tr("%1: %2").arg(row.text, spoken_state(state));
            row.text = row.spoken;
            rows.push_back(row);
            add_holds(rows, need.holds, 1);
        }
        add_holds(rows, gate.others, 0);
    }
    if (!stage->gates.others.empty()) {
        WordListView::Row title{
            0,
            stage->gates.gates.empty() ? tr("What holds it") : tr("What else holds the stage"),
            {}};
        title.bold = true;
        rows.push_back(title);
        add_holds(rows, stage->gates.others, 0);
    }
    if (rows.empty()) {
        rows.push_back({0,
                        tr("This stage has no gates: once its steps are done, the work goes on. "
                           "Gates are put into the stage plan."),
                        {}});
    }
    return rows;
}

void GatesPanel::show_gates() {
    const Hold* before = chosen_hold();
    const std::string key = before != nullptr ? before->key : std::string();
    holds_.clear();
    gates_->set_rows(standing() == nullptr ? std::vector<WordListView::Row>() : gate_rows());
    for (const auto& [id, hold] : holds_) {
        if (hold.key == key) {
            gates_->choose(id);
            break;
        }
    }
}

const Hold* GatesPanel::chosen_hold() const {
    const auto found = holds_.find(gates_->chosen());
    return found == holds_.end() ? nullptr : &found->second;
}

void GatesPanel::show_chosen() {
    const Hold* hold = chosen_hold();
    waive_->setEnabled(hold != nullptr && hold->may_be_waived() && hold->stands());
    const HoldPlace place = hold == nullptr ? HoldPlace::nowhere : place_of(*hold);
    go_to_->setVisible(place != HoldPlace::nowhere);
    go_to_->setText(place_text(place));
    if (hold == nullptr) {
        chosen_->clear();
    } else if (!hold->may_be_waived()) {
        chosen_->setText(
            tr("Contact can't be waived: parts that touch bend, score or break whatever anybody "
               "signs. Cure it, and measure it again."));
    } else {
        chosen_->setText(hold->waived ? capital(words::waived(*hold->waived)) : QString());
    }
}

void GatesPanel::go_to_hold() {
    const Hold* hold = chosen_hold();
    if (hold == nullptr) {
        return;
    }
    switch (place_of(*hold)) {
        case HoldPlace::sheet:
            emit sheet_wanted(utf16(hold->subject));
            break;
        case HoldPlace::parts:
            emit parts_wanted();
            break;
        case HoldPlace::cures:
            emit cures_wanted();
            break;
        case HoldPlace::items:
            emit items_wanted();
            break;
        case HoldPlace::account:
            emit account_wanted();
            break;
        case HoldPlace::valvetrain:
            emit valvetrain_wanted();
            break;
        case HoldPlace::steps:
        case HoldPlace::nowhere:
            break;
    }
}

void GatesPanel::open_sign_off() {
    sign_off_->set_take_text(tr("Sign off as %1").arg(QString(session_->who()).replace('&', "&&")));
    const StageShown* stage = standing();
    const int waived = stage == nullptr ? 0 : stage->state.waived;
    sign_off_->open(
        waived == 0
            ? tr("What the checks say now is kept with it.")
            : words::counted(
                  waived,
                  tr("What the checks say now is kept with it, and 1 exception that is waived."),
                  tr("What the checks say now is kept with it, and %1 exceptions that are "
                     "waived.")));
}

Result<Done> GatesPanel::keep_waiver() {
    const TypedForm& form = waiver_->form();
    return only_done(waive(*session_, build_id_, Holds{{waiving_}, {}}, waiving_.key,
                           {form.text("reason"), form.flag("customer_told"),
                            if_typed(form.text("until")), form.text("by")}));
}

/// By the shop as it stands now, whatever was worked out before: what is frozen must be what is
/// there.
Result<Done> GatesPanel::keep_sign_off() {
    QGuiApplication::setOverrideCursor(Qt::WaitCursor);
    const auto state = load_build_state(session_->shop(), build_id_, Moment::at(clock_()));
    QGuiApplication::restoreOverrideCursor();
    if (!state) {
        return state.error();
    }
    const auto signed_now =
        sign_off(*session_, state->facts, stage_id_, if_typed(sign_off_->form().text("note")),
                 state->facts.now_utc);
    if (signed_now) {
        emit said(tr("Signed off: %1").arg(title_->text()));
    } else if (signed_now.error().expected == "held_up") {
        QStringList lines;
        for (const Hold& hold : may_sign_off(state->facts, stage_id_).standing) {
            lines << words::hold(hold, state->own_titles);
        }
        emit failed(tr("It can't be signed off yet:\n%1").arg(lines.join('\n')));
        return Done{};
    }
    return only_done(signed_now);
}

Result<Done> GatesPanel::keep_withdrawal() {
    const auto state = load_build_state(session_->shop(), build_id_, Moment::at(clock_()));
    if (!state) {
        return state.error();
    }
    return only_done(take_back_sign_off(*session_, state->facts.records, stage_id_,
                                        withdrawal_->form().text("reason")));
}

void GatesPanel::changeEvent(QEvent* event) {
    BuildPanel::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && shown_ != nullptr) {
        show_gates();
        show_chosen();
    }
}

} // namespace rodway
