#include "app/build/stage_panel.h"

#include <QEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>

#include "app/build/ask_panel.h"
#include "app/build/stage_sign.h"
#include "app/build/word_list_view.h"
#include "app/edit_stack/waiting_records.h"
#include "app/words/cautions.h"
#include "app/words/counted.h"
#include "app/words/hold_words.h"
#include "app/words/part_state_words.h"
#include "app/words/part_words.h"
#include "app/words/sheet_words.h"
#include "app/work/step_acts.h"
#include "core/build/part_role.h"

namespace rodway {
namespace {

constexpr int step_px = 320;

QLabel* words_label(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(name);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    // One long word must not make the page wider than the window.
    label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    return label;
}

void show_words(QLabel* label, const QString& words) {
    label->setText(words);
    label->setVisible(!words.isEmpty());
}

QString caution_text(const std::optional<std::string>& key) {
    const QString caution = words::caution(utf16(key));
    return caution.isEmpty() ? caution : StagePanel::tr("Caution. %1").arg(caution);
}

} // namespace

StagePanel::StagePanel(Clock clock, QWidget* parent)
    : BuildPanel(std::move(clock), parent),
      title_(words_label("subtitle")),
      caution_(words_label("caution")),
      standing_(words_label("stage_standing")),
      to_gates_(new QPushButton(tr("&Gates and sign-off"))) {
    caution_->setAccessibleName(tr("Caution"));
    auto* columns = new QHBoxLayout;
    columns->addWidget(make_steps(), 1);
    columns->addSpacing(10);
    columns->addWidget(make_step());
    auto* foot = new QHBoxLayout;
    foot->addWidget(standing_, 1);
    foot->addWidget(to_gates_);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title_);
    layout->addWidget(caution_);
    layout->addLayout(columns, 1);
    layout->addLayout(foot);
    connect(to_gates_, &QPushButton::clicked, this, &StagePanel::gates_wanted);
}

QWidget* StagePanel::make_steps() {
    steps_ = new WordListView("steps", tr("Steps of the stage; Space ticks"));
    steps_->setIconSize({stage_sign_px, stage_sign_px});
    connect(steps_, &WordListView::row_chosen, this, [this] {
        not_needed_->leave();
        show_step();
    });
    connect(steps_, &WordListView::row_checked, this, &StagePanel::tick);
    return steps_;
}

QWidget* StagePanel::make_step() {
    step_title_ = words_label("subtitle");
    step_state_ = words_label("step_state");
    step_caution_ = words_label("caution");
    detail_ = words_label("step_detail");
    waits_ = words_label("step_waits");
    parts_ = words_label("step_parts");
    remarks_ = words_label("step_remarks");
    sheet_ = new QPushButton;
    sheet_->setObjectName("open_sheet");
    to_parts_ = new QPushButton(tr("Open the &parts"));
    to_remarks_ = new QPushButton(tr("&Note or photo of this step"));
    leave_out_ = new QPushButton(tr("Not nee&ded…"));
    take_in_ = new QPushButton(tr("Nee&ded after all"));
    not_needed_ = new AskPanel(tr("Not needed in this build"), tr("Leave it out"));
    not_needed_->form().add_line("not_needed", tr("Why"));
    not_needed_->take = [this]() -> Result<Done> {
        const Step* step = step_in_hand();
        return step == nullptr ? Result<Done>(Done{})
                               : only_done(leave_step_out(*session_, *step,
                                                          not_needed_->form().text("not_needed")));
    };
    auto* content = new QWidget;
    auto* layout = new QVBoxLayout(content);
    layout->setContentsMargins(0, 0, 6, 0);
    layout->setSpacing(8);
    for (QWidget* widget : std::initializer_list<QWidget*>{
             step_title_, step_state_, step_caution_, detail_, waits_, sheet_, parts_, to_parts_,
             remarks_, to_remarks_, leave_out_, take_in_, not_needed_}) {
        layout->addWidget(widget);
    }
    layout->addStretch();
    auto* scroll = new QScrollArea;
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFixedWidth(step_px);
    content->setAutoFillBackground(false); // the page's own ground
    scroll->viewport()->setAutoFillBackground(false);
    connect(sheet_, &QPushButton::clicked, this, [this] {
        if (const Step* step = step_in_hand(); step != nullptr && step->sheet_kind) {
            emit sheet_wanted(utf16(step->sheet_kind));
        }
    });
    connect(to_parts_, &QPushButton::clicked, this, &StagePanel::parts_wanted);
    connect(to_remarks_, &QPushButton::clicked, this, [this] { emit remarks_wanted(step_id()); });
    connect(leave_out_, &QPushButton::clicked, this, [this] { not_needed_->open(); });
    connect(take_in_, &QPushButton::clicked, this, &StagePanel::take_in_again);
    return scroll;
}

void StagePanel::take(ShopSession* session, std::int64_t build_id) {
    BuildPanel::take(session, build_id);
    shown_ = nullptr;
    stage_id_ = 0;
    not_needed_->leave();
    steps_->set_rows({});
}

void StagePanel::show_build(const BuildShown& shown, std::int64_t stage_id) {
    shown_ = &shown;
    const bool other = stage_id != stage_id_;
    if (other) {
        not_needed_->leave();
    }
    stage_id_ = stage_id;
    const StageWithSteps* stage = shown.stage(stage_id);
    title_->setText(stage == nullptr ? tr("This build has no stages. Its plan can be changed under "
                                          "Shop, Stage plans, and taken over under Build.")
                                     : utf16(stage->stage.title));
    show_words(caution_, stage == nullptr ? QString() : caution_text(stage->stage.caution));
    to_gates_->setVisible(stage != nullptr);
    show_steps();
    if (other && stage != nullptr) {
        choose_next_step(*stage);
    }
    show_step();
}

/// The first that is still to be done: what the stage was chosen for.
void StagePanel::choose_next_step(const StageWithSteps& stage) {
    const auto next = std::find_if(stage.steps.begin(), stage.steps.end(), [](const Step& step) {
        return !step.ticked_at && !step.not_needed;
    });
    steps_->choose(next == stage.steps.end() ? 0 : next->id);
}

const Step* StagePanel::step_in_hand() const {
    return shown_ == nullptr ? nullptr : shown_->step(steps_->chosen());
}

std::int64_t StagePanel::step_id() const {
    return steps_->chosen();
}

QString StagePanel::waits_for(const Step& step) const {
    const StageShown* standing =
        shown_->standing ? shown_->standing->stage(step.stage_id) : nullptr;
    QStringList lines;
    if (standing != nullptr) {
        for (const Hold& hold : standing->holds.holds) {
            if (hold.step_id == step.id && hold.kind != HoldKind::step_open && hold.stands()) {
                lines << words::hold(hold, shown_->own_titles());
            }
        }
    }
    return lines.join('\n');
}

QString StagePanel::step_text(const Step& step, bool waits) const {
    QString text = utf16(step.title);
    if (step.ticked_at) {
        text += tr("\n%1, %2").arg(utf16(step.ticked_by), words::day_of(*step.ticked_at));
    }
    if (step.not_needed) {
        text += tr("\nNot needed: %1").arg(utf16(step.not_needed));
    }
    return waits ? tr("%1   not saved yet").arg(text) : text;
}

void StagePanel::show_steps() {
    const StageWithSteps* stage = shown_->stage(stage_id_);
    const Palette palette = palette_for(theme_of(this->palette()));
    std::vector<WordListView::Row> rows;
    int done = 0;
    for (const Step& stored : stage == nullptr ? std::vector<Step>() : stage->steps) {
        const WaitingAct* waits = waiting_tick(session_->waiting(), stored.id);
        const Step step = waits != nullptr ? ticked_by(*waits, stored) : stored;
        done += step.ticked_at || step.not_needed ? 1 : 0;
        WordListView::Row row{step.id, step_text(step, waits != nullptr), {}};
        row.checked = step.ticked_at.has_value();
        const QString held = step.ticked_at || step.not_needed ? QString() : waits_for(step);
        if (!held.isEmpty()) {
            row.sign = stage_sign(StageLook::held, palette);
            row.text += tr("\nWaits: %1").arg(held.section('\n', 0, 0));
        }
        row.spoken = step.ticked_at ? tr("Ticked: %1").arg(row.text) : row.text;
        rows.push_back(std::move(row));
    }
    steps_->set_rows(rows);
    const StageShown* standing = shown_->standing ? shown_->standing->stage(stage_id_) : nullptr;
    QString words;
    if (stage != nullptr) {
        words = tr("%1 of %2 steps done").arg(done).arg(rows.size());
        const StageLook look = stage_look(*shown_, *stage);
        words = standing == nullptr ? tr("%1. Working out what else it waits for…").arg(words)
                : look == StageLook::passed ? tr("%1.").arg(words)
                                            : tr("%1; %2.").arg(words, stage_look_text(look));
    }
    standing_->setText(words);
}

void StagePanel::show_step() {
    const Step* stored = step_in_hand();
    for (QWidget* widget : std::initializer_list<QWidget*>{
             step_title_, step_state_, step_caution_, detail_, waits_, sheet_, parts_, to_parts_,
             remarks_, to_remarks_, leave_out_, take_in_}) {
        widget->setVisible(stored != nullptr);
    }
    if (stored == nullptr) {
        return;
    }
    const WaitingAct* not_saved = waiting_tick(session_->waiting(), stored->id);
    const Step step = not_saved != nullptr ? ticked_by(*not_saved, *stored) : *stored;
    step_title_->setText(utf16(step.title));
    QStringList state;
    if (step.ticked_at) {
        state << tr("Ticked by %1 on %2.")
                     .arg(utf16(step.ticked_by), words::time_of(*step.ticked_at));
    }
    if (step.not_needed) {
        state << tr("Not needed: %1").arg(utf16(step.not_needed));
    }
    if (not_saved != nullptr) {
        state << tr("Not saved yet.");
    }
    show_words(step_state_, state.join('\n'));
    // The stage's own stands above already.
    const StageWithSteps* stage = shown_->stage(step.stage_id);
    const bool as_stage = stage != nullptr && stage->stage.caution == step.caution;
    show_words(step_caution_, as_stage ? QString() : caution_text(step.caution));
    show_words(detail_, utf16(step.detail));
    sheet_->setVisible(step.sheet_kind.has_value());
    if (step.sheet_kind) {
        const QString title = words::sheet_title(*step.sheet_kind, shown_->own_titles());
        sheet_->setText(tr("Open the &sheet: %1").arg(QString(title).replace('&', "&&")));
    }
    show_parts(step);
    show_waits(step);
    const auto of_step = [&](const auto& record) { return record.step_id == step.id; };
    const auto notes = std::count_if(shown_->notes.begin(), shown_->notes.end(), of_step);
    const auto photos = std::count_if(shown_->photos.begin(), shown_->photos.end(), of_step);
    show_words(
        remarks_,
        notes + photos == 0
            ? QString()
            : tr("Of this step: %1, %2.")
                  .arg(words::counted(static_cast<int>(notes), tr("1 note"), tr("%1 notes")),
                       words::counted(static_cast<int>(photos), tr("1 photo"), tr("%1 photos"))));
    leave_out_->setVisible(!step.not_needed && !step.ticked_at);
    take_in_->setVisible(step.not_needed.has_value());
}

void StagePanel::show_parts(const Step& step) {
    const auto roles = step.part_roles
                           ? parse_part_roles(*step.part_roles)
                           : Result<std::vector<std::string>>(std::vector<std::string>());
    QStringList lines;
    const auto line = [&](const PartRecord& part) {
        lines << tr("%1: %2").arg(words::part_title(part), words::part_day(part, shown_->today));
    };
    for (const PartRecord& part : shown_->parts) {
        if (part.step_id == step.id) {
            line(part);
        }
    }
    for (const std::string& role : roles ? *roles : std::vector<std::string>()) {
        bool listed = false;
        for (const PartRecord& part : shown_->parts) {
            if (part.role == role) {
                listed = true;
                if (part.step_id != step.id) {
                    line(part);
                }
            }
        }
        if (!listed) {
            lines << tr("%1: not on the build's list of parts").arg(words::part_role(role));
        }
    }
    to_parts_->setVisible(!lines.isEmpty());
    show_words(parts_, lines.isEmpty() ? QString() : tr("Parts\n%1").arg(lines.join('\n')));
}

void StagePanel::show_waits(const Step& step) {
    const QString waits = waits_for(step);
    show_words(waits_, waits.isEmpty() ? waits : tr("Waits for\n%1").arg(waits));
}

void StagePanel::tick(std::int64_t step_id, bool ticked) {
    const Step* step = shown_ == nullptr ? nullptr : shown_->step(step_id);
    if (step == nullptr || session_ == nullptr) {
        return;
    }
    // What isn't saved yet is let go rather than taken back by a second act.
    if (const WaitingAct* waits = waiting_tick(session_->waiting(), step_id)) {
        session_->drop(waits->key);
    } else {
        const QString title = utf16(step->title);
        told(session_->act(
            ticked ? edits_to_tick(*step, session_->who().toStdString(), clock_())
                   : edits_to_untick(*step),
            ticked ? tr("tick “%1”").arg(title) : tr("tick taken back from “%1”").arg(title)));
    }
    // The box goes back to what is stored once this click has been dealt with.
    QMetaObject::invokeMethod(
        this,
        [this] {
            if (shown_ != nullptr) {
                show_steps();
                show_step();
            }
        },
        Qt::QueuedConnection);
}

void StagePanel::take_in_again() {
    if (const Step* step = step_in_hand()) {
        told(take_step_in(*session_, *step));
    }
}

void StagePanel::changeEvent(QEvent* event) {
    BuildPanel::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && shown_ != nullptr) {
        show_steps();
    }
}

} // namespace rodway
