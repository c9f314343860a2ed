#include "app/build/cures_panel.h"

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/build/ask_panel.h"
#include "app/build/stage_sign.h"
#include "app/build/word_list_view.h"
#include "app/words/cure_words.h"
#include "app/words/hold_words.h"
#include "app/work/cure_acts.h"
#include "app/work/label_minutes.h"

namespace rodway {
namespace {

/// A label's time as typed; nothing where nothing was.
Result<std::optional<int>> label_minutes(const std::string& typed, const char* field) {
    if (!if_typed(typed)) {
        return std::optional<int>();
    }
    const auto minutes = parse_label_minutes(typed);
    if (!minutes) {
        Error error = minutes.error();
        error.field = field;
        return error;
    }
    return std::optional(*minutes);
}

CheckState sign_of(CureStage stage) {
    switch (stage) {
        case CureStage::wet:
            return CheckState::not_yet;
        case CureStage::may_be_handled:
            return CheckState::stale; // half of it has passed
        case CureStage::cured:
            return CheckState::passed;
        case CureStage::not_known:
            return CheckState::no_answer;
        case CureStage::ended:
            return CheckState::waived;
    }
    return CheckState::not_yet;
}

} // namespace

CuresPanel::CuresPanel(Clock clock, QWidget* parent)
    : BuildPanel(std::move(clock), parent),
      empty_(new QLabel(
          tr("Nothing cures on this build.\nSealants, adhesives and paints belong here: what was "
             "put on where, and the times on its label. The step's gate waits until it has cured "
             "fully."))),
      cures_(new WordListView("cures", tr("What cures"))),
      begin_(new QPushButton(tr("&Start a cure…"))),
      finish_(new QPushButton(tr("&End it by hand…"))) {
    cures_->setIconSize({stage_sign_px, stage_sign_px});
    empty_->setWordWrap(true);
    empty_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    begin_->setObjectName("start_cure");
    finish_->setObjectName("end_cure");
    auto* title = new QLabel(tr("Cures"));
    title->setObjectName("subtitle");
    make_asks();
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(begin_);
    buttons->addWidget(finish_);
    buttons->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(title);
    layout->addWidget(empty_, 1);
    layout->addWidget(cures_, 1);
    layout->addLayout(buttons);
    layout->addWidget(start_);
    layout->addWidget(end_);
    connect(begin_, &QPushButton::clicked, this, &CuresPanel::open_start);
    connect(finish_, &QPushButton::clicked, this, [this] {
        if (const Cure* cure = chosen()) {
            start_->leave();
            end_->open(utf16(cure->place));
        }
    });
    connect(cures_, &WordListView::row_chosen, this, [this] {
        const Cure* cure = chosen();
        finish_->setEnabled(cure != nullptr && !cure->ended);
        end_->leave();
    });
}

void CuresPanel::make_asks() {
    start_ = new AskPanel(tr("Start a cure"), tr("It is on now"));
    TypedForm& form = start_->form();
    form.add_line("place", tr("What and where"), tr("left rocker cover, lower face"));
    form.add_choice("product", tr("Product"), {{tr("by its label"), QVariant()}});
    form.add_line("handling_minutes", tr("May be handled after"),
                  tr("such as 1 h; empty: unknown"));
    form.add_line("full_minutes", tr("Fully cured after"), tr("such as 24 h; empty: unknown"));
    form.add_choice("step", tr("Its step waits"), {{tr("none: no gate waits for it"), QVariant()}});
    form.add_line("note", tr("Note"));
    start_->take = [this] { return start(); };
    auto* product = form.findChild<QComboBox*>("product");
    connect(product, &QComboBox::activated, this, &CuresPanel::show_product);
    end_ = new AskPanel(tr("End it by hand"), tr("It is cured, or off"));
    end_->form().add_line("note", tr("Why"), tr("found hard; or taken off"));
    end_->take = [this] { return end(); };
}

void CuresPanel::take(ShopSession* session, std::int64_t build_id) {
    BuildPanel::take(session, build_id);
    shown_ = nullptr;
    start_->leave();
    end_->leave();
    cures_->set_rows({});
}

void CuresPanel::show_build(const BuildShown& shown, std::int64_t stage_id) {
    shown_ = &shown;
    stage_id_ = stage_id;
    show_cures();
}

const Cure* CuresPanel::chosen() const {
    if (shown_ == nullptr) {
        return nullptr;
    }
    const auto found =
        std::find_if(shown_->cures.begin(), shown_->cures.end(),
                     [this](const Cure& cure) { return cure.id == cures_->chosen(); });
    return found == shown_->cures.end() ? nullptr : &*found;
}

QString CuresPanel::cure_text(const Cure& cure, const CureState& state) const {
    QStringList lines{tr("%1: %2").arg(utf16(cure.place), words::cure_stage(state))};
    lines << words::countdown(state);
    const auto product =
        std::find_if(shown_->products.begin(), shown_->products.end(),
                     [&](const Product& one) { return one.id == cure.product_id; });
    QString by =
        tr("Put on by %1 on %2").arg(utf16(cure.applied_by), words::time_of(cure.applied_at));
    if (product != shown_->products.end()) {
        by = tr("%1: %2").arg(by, utf16(product->name));
    }
    lines << by;
    if (const Step* step = cure.step_id ? shown_->step(*cure.step_id) : nullptr) {
        lines << tr("Step: %1").arg(utf16(step->title));
    }
    if (cure.note) {
        lines << utf16(cure.note);
    }
    return lines.join('\n');
}

void CuresPanel::show_cures() {
    const Palette palette = palette_for(theme_of(this->palette()));
    const std::string now = clock_();
    struct Shown {
        const Cure* cure;
        CureState state;
    };
    std::vector<Shown> cures;
    for (const Cure& cure : shown_->cures) {
        cures.push_back({&cure, cure_state(cure, now)});
    }
    // What still cures stands first, then the newest.
    std::stable_sort(cures.begin(), cures.end(), [](const Shown& a, const Shown& b) {
        return a.state.is_running() != b.state.is_running()
                   ? a.state.is_running()
                   : a.cure->applied_at > b.cure->applied_at;
    });
    std::vector<WordListView::Row> rows;
    stages_shown_.clear();
    for (const Cure& cure : shown_->cures) {
        stages_shown_.push_back(cure_state(cure, now).stage);
    }
    for (const auto& [cure, state] : cures) {
        rows.push_back(
            {cure->id, cure_text(*cure, state), set_in_sign(sign_of(state.stage), 0, palette)});
    }
    cures_->set_rows(rows);
    empty_->setVisible(rows.empty());
    cures_->setVisible(!rows.empty());
    const Cure* cure = chosen();
    finish_->setEnabled(cure != nullptr && !cure->ended);
}

bool CuresPanel::count_down() {
    if (shown_ == nullptr) {
        return false;
    }
    const std::vector<CureStage> before = stages_shown_;
    show_cures();
    return stages_shown_ != before;
}

void CuresPanel::open_start() {
    if (shown_ == nullptr) {
        return;
    }
    end_->leave();
    start_->open();
    TypedForm& form = start_->form();
    TypedForm::Choices products{{tr("by its label"), QVariant()}};
    for (const Product& product : shown_->products) {
        products.emplace_back(utf16(product.name), QVariant(static_cast<qlonglong>(product.id)));
    }
    form.offer("product", products);
    TypedForm::Choices steps{{tr("none: no gate waits for it"), QVariant()}};
    QVariant first;
    const StageWithSteps* stage = shown_->stage(stage_id_);
    for (const Step& step : stage == nullptr ? std::vector<Step>() : stage->steps) {
        const QVariant id(static_cast<qlonglong>(step.id));
        steps.emplace_back(utf16(step.title), id);
        if (!first.isValid() && !step.ticked_at && !step.not_needed) {
            first = id;
        }
    }
    form.offer("step", steps);
    form.set_data("step", first);
}

/// The product's times, to be seen and changed where the label on the tin says otherwise.
void CuresPanel::show_product() {
    TypedForm& form = start_->form();
    const qlonglong id = form.data("product").toLongLong();
    const auto product = std::find_if(shown_->products.begin(), shown_->products.end(),
                                      [id](const Product& one) { return one.id == id; });
    const auto time = [](const std::optional<int>& minutes) {
        return minutes ? label_minutes_text(*minutes) : QString();
    };
    const bool any = product != shown_->products.end();
    form.set_text("handling_minutes", any ? time(product->handling_minutes) : QString());
    form.set_text("full_minutes", any ? time(product->full_minutes) : QString());
}

Result<Done> CuresPanel::start() {
    const TypedForm& form = start_->form();
    const auto handling = label_minutes(form.text("handling_minutes"), "handling_minutes");
    const auto full = label_minutes(form.text("full_minutes"), "full_minutes");
    if (!handling || !full) {
        return !handling ? handling.error() : full.error();
    }
    Cure cure;
    cure.build_id = build_id_;
    cure.place = form.text("place");
    cure.handling_minutes = *handling;
    cure.full_minutes = *full;
    cure.applied_at = clock_();
    cure.note = if_typed(form.text("note"));
    if (const QVariant step = form.data("step"); step.isValid()) {
        cure.step_id = step.toLongLong();
    }
    // The times in the boxes count, seen and changed by who read the label.
    if (const QVariant product = form.data("product"); product.isValid()) {
        cure.product_id = product.toLongLong();
    }
    return only_done(start_cure(*session_, cure));
}

Result<Done> CuresPanel::end() {
    const Cure* cure = chosen();
    if (cure == nullptr) {
        return Done{};
    }
    const auto note = if_typed(end_->form().text("note"));
    if (!note) {
        return Error{ErrorCode::empty_text, "note", {}, {}, {}, {}};
    }
    // What was noted when it was put on stays.
    const std::string all = cure->note ? *cure->note + "; " + *note : *note;
    return only_done(end_cure(*session_, *cure, all, clock_()));
}

} // namespace rodway
