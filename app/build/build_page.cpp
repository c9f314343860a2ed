#include "app/build/build_page.h"

#include <QApplication>
#include <QClipboard>
#include <QDragEnterEvent>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QShortcut>
#include <QStackedWidget>
#include <QTabWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/build/cures_panel.h"
#include "app/build/gates_panel.h"
#include "app/build/items_panel.h"
#include "app/build/job_panel.h"
#include "app/build/notes_panel.h"
#include "app/build/photos_panel.h"
#include "app/build/place_chooser.h"
#include "app/build/stage_panel.h"
#include "app/build/stage_sign.h"
#include "app/build/word_list_view.h"
#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/words/next_words.h"

namespace rodway {
namespace {

constexpr int rail_px = 280;
constexpr int look_at_clock_ms = 20000;
constexpr int locked_again_ms = 3000;

QLabel* words_label(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(name);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    return label;
}

} // namespace

BuildPage::BuildPage(Clock clock, PhotoFolder::Patience patience, QWidget* parent)
    : PlacePage(parent),
      clock_(std::move(clock)),
      patience_(patience),
      stack_(new QStackedWidget),
      title_(words_label("title")),
      details_(words_label("build_details")),
      next_(words_label("next_thing")) {
    setAcceptDrops(true);
    title_->setIndent(0);
    auto* content = new QWidget;
    auto* columns = new QHBoxLayout;
    columns->addWidget(make_rail());
    columns->addSpacing(8);
    columns->addWidget(make_tabs(), 1);
    auto* inside = new QVBoxLayout(content);
    inside->setContentsMargins(0, 0, 0, 0);
    inside->addWidget(make_head());
    inside->addLayout(columns, 1);
    auto* none = new QLabel(tr("Open a build on the Bench: its stages and steps are here."));
    none->setAlignment(Qt::AlignCenter);
    stack_->addWidget(none);
    stack_->addWidget(content);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(stack_);
    connect_panels();
    auto* paste = new QShortcut(QKeySequence::Paste, this);
    paste->setContext(Qt::WidgetWithChildrenShortcut);
    connect(paste, &QShortcut::activated, this, [this] {
        if (const QMimeData* pasted = QApplication::clipboard()->mimeData()) {
            photos_->add_from(*pasted);
        }
    });
    connect(&minute_, &QTimer::timeout, this, &BuildPage::look_at_clock);
    minute_.start(look_at_clock_ms);
}

BuildPage::~BuildPage() = default;

QWidget* BuildPage::make_head() {
    auto* valvetrain = new QPushButton(tr("&Valvetrain"));
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(title_);
    words->addWidget(details_);
    words->addWidget(next_);
    auto* head = new QWidget;
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    row->addLayout(words, 1);
    row->addWidget(valvetrain, 0, Qt::AlignTop);
    connect(valvetrain, &QPushButton::clicked, this, &BuildPage::valvetrain_wanted);
    return head;
}

QWidget* BuildPage::make_rail() {
    rail_ = new WordListView("stage_rail", tr("Stages"));
    rail_->setIconSize({stage_sign_px, stage_sign_px});
    rail_->setFixedWidth(rail_px);
    connect(rail_, &WordListView::row_chosen, this, [this] {
        chosen_by_hand_ = true;
        show_panels();
    });
    return rail_;
}

QWidget* BuildPage::make_tabs() {
    tabs_ = new QTabWidget;
    tabs_->setObjectName("build_tabs");
    tabs_->setAccessibleName(tr("Parts of the build's page"));
    stage_ = new StagePanel(clock_);
    gates_ = new GatesPanel(clock_);
    cures_ = new CuresPanel(clock_);
    items_ = new ItemsPanel(clock_);
    job_ = new JobPanel(clock_);
    auto* waiting = new QWidget;
    auto* columns = new QHBoxLayout(waiting);
    columns->addWidget(cures_, 1);
    columns->addSpacing(12);
    columns->addWidget(items_, 1);
    tabs_->addTab(stage_, tr("Stage"));
    tabs_->addTab(gates_, tr("Gates"));
    tabs_->addTab(waiting, tr("Cures and open items"));
    tabs_->addTab(make_remarks(), tr("Notes and photos"));
    tabs_->addTab(job_, tr("Job"));
    panels_ = {stage_, gates_, cures_, items_, notes_, photos_, job_};
    return tabs_;
}

QWidget* BuildPage::make_remarks() {
    place_ = new PlaceChooser;
    notes_ = new NotesPanel(clock_, *place_);
    photos_ = new PhotosPanel(clock_, *place_, patience_);
    auto* columns = new QHBoxLayout;
    columns->addWidget(notes_, 1);
    columns->addSpacing(12);
    columns->addWidget(photos_, 1);
    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->addWidget(place_);
    layout->addLayout(columns, 1);
    return panel;
}

void BuildPage::connect_panels() {
    for (BuildPanel* panel : panels_) {
        connect(panel, &BuildPanel::failed, this, &BuildPage::failed);
        connect(panel, &BuildPanel::said, this, &BuildPage::said);
    }
    connect(stage_, &StagePanel::sheet_wanted, this, &BuildPage::sheet_wanted);
    connect(stage_, &StagePanel::parts_wanted, this, &BuildPage::parts_wanted);
    connect(stage_, &StagePanel::gates_wanted, this, [this] { show_tab(Tab::gates); });
    connect(stage_, &StagePanel::remarks_wanted, this, [this](qint64 step_id) {
        show_tab(Tab::notes_and_photos);
        place_->choose_step(step_id);
    });
    connect(gates_, &GatesPanel::sheet_wanted, this, &BuildPage::sheet_wanted);
    connect(gates_, &GatesPanel::parts_wanted, this, &BuildPage::parts_wanted);
    connect(gates_, &GatesPanel::account_wanted, this, &BuildPage::account_wanted);
    connect(gates_, &GatesPanel::valvetrain_wanted, this, &BuildPage::valvetrain_wanted);
    connect(gates_, &GatesPanel::cures_wanted, this, [this] { show_tab(Tab::cures_and_items); });
    connect(gates_, &GatesPanel::items_wanted, this, [this] { show_tab(Tab::cures_and_items); });
}

void BuildPage::show_tab(Tab tab) {
    tabs_->setCurrentIndex(static_cast<int>(tab));
}

void BuildPage::show_stage(std::int64_t stage_id) {
    chosen_by_hand_ = true;
    rail_->choose(stage_id);
}

void BuildPage::add_photos(const QStringList& files) {
    photos_->add(files);
}

void BuildPage::take(ShopSession* session, std::int64_t build_id) {
    for (BuildPanel* panel : panels_) {
        panel->take(session, build_id);
    }
    session_ = session;
    build_id_ = build_id;
    shown_.reset();
    place_->clear();
    rail_->set_rows({});
    chosen_by_hand_ = false; // behind it, for an emptied rail chooses too
    show_tab(Tab::stage);
    refresh();
}

void BuildPage::refresh() {
    stack_->setCurrentIndex(session_ != nullptr && build_id_ != 0 ? 1 : 0);
    if (session_ == nullptr || build_id_ == 0 || !isVisible()) {
        return;
    }
    auto loaded = load_build_shown(session_->shop(), build_id_);
    if (!loaded) {
        emit failed(words::error_text(loaded.error()));
        return;
    }
    std::optional<BuildStanding> standing;
    if (shown_) {
        standing = std::move(shown_->standing);
    }
    shown_ = std::move(loaded).value();
    shown_->standing = std::move(standing);
    show_everything();
    ask_standing();
}

void BuildPage::showEvent(QShowEvent* event) {
    PlacePage::showEvent(event);
    refresh();
}

/// A file of its own on a thread of its own: the sweep of every valve's train takes a while.
void BuildPage::ask_standing() {
    const Moment moment = Moment::at(clock_());
    const std::string path = session_->shop().path();
    const std::int64_t build_id = build_id_;
    request_.ask<Result<BuildStanding>>(
        [path, build_id, moment](std::stop_token) -> Result<BuildStanding> {
            auto opened = ShopFile::open_to_look(path);
            if (!opened) {
                return opened.error();
            }
            ShopFile shop = std::move(opened).value();
            return load_build_standing(shop, build_id, moment);
        },
        [this, build_id](Result<BuildStanding> standing) {
            if (build_id != build_id_ || !shown_) {
                return;
            }
            if (!standing && standing.error().code == ErrorCode::locked_file) {
                QTimer::singleShot(locked_again_ms, this, &BuildPage::refresh);
                return; // how it stood before is shown until then
            }
            if (!standing) {
                emit failed(words::error_text(standing.error()));
                return;
            }
            shown_->standing = std::move(standing).value();
            show_everything();
        });
}

void BuildPage::show_everything() {
    const Moment moment = Moment::at(clock_());
    shown_->now_utc = moment.now_utc;
    shown_->today = moment.today;
    show_head();
    show_rail();
    show_panels();
}

QString BuildPage::next_text() const {
    if (!shown_->standing) {
        return tr("Working out what is next…");
    }
    const NextThing& next = shown_->standing->state.next;
    const Step* step = next.step_id ? shown_->step(*next.step_id) : nullptr;
    const StageWithSteps* stage = next.stage_id ? shown_->stage(*next.stage_id) : nullptr;
    switch (next.kind) {
        case NextKind::step:
            return step == nullptr ? QString() : tr("Next: %1").arg(utf16(step->title));
        case NextKind::wait:
        case NextKind::hold:
            return (words::only_time_helps(*next.hold) ? tr("Next: wait. %1")
                                                       : tr("Next: clear this. %1"))
                .arg(words::hold(*next.hold, shown_->own_titles()));
        case NextKind::sign_off:
            return stage == nullptr ? QString()
                                    : tr("Next: sign off “%1”.").arg(utf16(stage->stage.title));
        case NextKind::nothing:
            return shown_->stages.empty() ? QString() : tr("Every stage is done.");
    }
    return {};
}

void BuildPage::show_head() {
    const Build& build = shown_->build;
    title_->setText(utf16(build.name));
    details_->setText(tr("For %1. %2. %3")
                          .arg(utf16(build.customer), utf16(build.engine),
                               build.promised
                                   ? tr("Promised for %1.").arg(words::day(*build.promised))
                                   : tr("No day was promised yet.")));
    next_->setText(next_text());
    next_->setVisible(!next_->text().isEmpty());
}

QString BuildPage::stage_text(const StageWithSteps& stage) const {
    const auto done = std::count_if(stage.steps.begin(), stage.steps.end(), [](const Step& step) {
        return step.ticked_at || step.not_needed;
    });
    const StageLook look = stage_look(*shown_, stage);
    const QString text = tr("%1\n%2 of %3 steps; %4")
                             .arg(utf16(stage.stage.title), QString::number(done),
                                  QString::number(stage.steps.size()), stage_look_text(look));
    const StageShown* standing =
        shown_->standing ? shown_->standing->stage(stage.stage.id) : nullptr;
    if (standing != nullptr && look == StageLook::signed_off) {
        for (const SignOff& one : shown_->sign_offs) {
            // The steps are done then; who signed must be seen in a narrow rail.
            if (one.id == standing->state.sign_off_id) {
                return tr("%1\n%2 by %3")
                    .arg(utf16(stage.stage.title), stage_look_text(look), utf16(one.signed_by));
            }
        }
    }
    return text;
}

std::int64_t BuildPage::stage_in_hand() const {
    if (shown_->standing && shown_->standing->state.next.stage_id) {
        return *shown_->standing->state.next.stage_id;
    }
    for (const StageWithSteps& stage : shown_->stages) {
        const bool whole =
            std::all_of(stage.steps.begin(), stage.steps.end(),
                        [](const Step& step) { return step.ticked_at || step.not_needed; });
        if (!whole) {
            return stage.stage.id;
        }
    }
    return shown_->stages.empty() ? 0 : shown_->stages.front().stage.id;
}

void BuildPage::show_rail() {
    const Palette palette = palette_for(theme_of(this->palette()));
    std::vector<WordListView::Row> rows;
    for (const StageWithSteps& stage : shown_->stages) {
        rows.push_back(
            {stage.stage.id, stage_text(stage), stage_sign(stage_look(*shown_, stage), palette)});
    }
    const QSignalBlocker quiet(rail_);
    rail_->set_rows(rows);
    if (!chosen_by_hand_) {
        // Until somebody chooses one, the work's own place; and there it stays while he works.
        rail_->choose(stage_in_hand());
        chosen_by_hand_ = shown_->standing.has_value();
    }
}

void BuildPage::show_panels() {
    if (!shown_) {
        return;
    }
    place_->show_build(*shown_, rail_->chosen());
    for (BuildPanel* panel : panels_) {
        panel->show_build(*shown_, rail_->chosen());
    }
}

void BuildPage::look_at_clock() {
    if (shown_ && isVisible() && cures_->count_down()) {
        ask_standing();
    }
}

bool BuildPage::shows(RecordKind kind) const {
    switch (kind) {
        case RecordKind::build:
        case RecordKind::casting_number:
        case RecordKind::promise:
        case RecordKind::stage:
        case RecordKind::step:
        case RecordKind::gate:
        case RecordKind::waiver:
        case RecordKind::cure:
        case RecordKind::open_item:
        case RecordKind::decision:
        case RecordKind::sign_off:
        case RecordKind::note:
        case RecordKind::photo:
            return true;
        default:
            return false;
    }
}

std::optional<std::int64_t> BuildPage::stage_of(const RecordRef& record) const {
    if (record.kind == RecordKind::stage) {
        return record.id;
    }
    if (record.kind == RecordKind::step) {
        const Step* step = shown_->step(record.id);
        return step == nullptr ? std::nullopt : std::optional(step->stage_id);
    }
    if (record.kind == RecordKind::sign_off) {
        for (const SignOff& one : shown_->sign_offs) {
            if (one.id == record.id) {
                return one.stage_id;
            }
        }
    }
    return std::nullopt;
}

void BuildPage::go_to_record(const RecordRef& record) {
    if (!shown_) {
        return;
    }
    if (const auto stage = stage_of(record)) {
        show_stage(*stage);
    }
    switch (record.kind) {
        case RecordKind::gate:
        case RecordKind::waiver:
        case RecordKind::sign_off:
            show_tab(Tab::gates);
            break;
        case RecordKind::cure:
        case RecordKind::decision:
            show_tab(Tab::cures_and_items);
            break;
        case RecordKind::open_item:
            show_tab(Tab::cures_and_items);
            items_->choose_item(record.id);
            break;
        case RecordKind::note:
            show_tab(Tab::notes_and_photos);
            notes_->choose(record.id);
            break;
        case RecordKind::photo:
            show_tab(Tab::notes_and_photos);
            photos_->choose(record.id);
            break;
        case RecordKind::build:
        case RecordKind::casting_number:
        case RecordKind::promise:
            show_tab(Tab::job);
            break;
        default:
            show_tab(Tab::stage);
            break;
    }
}

void BuildPage::changeEvent(QEvent* event) {
    PlacePage::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && shown_) {
        show_everything();
    }
}

void BuildPage::dragEnterEvent(QDragEnterEvent* event) {
    if (event->mimeData()->hasUrls() || event->mimeData()->hasImage()) {
        event->acceptProposedAction();
    }
}

void BuildPage::dropEvent(QDropEvent* event) {
    if (!photos_->add_from(*event->mimeData())) {
        emit failed(tr("What was dropped isn't a picture that lies on this computer."));
    }
    event->acceptProposedAction();
}

} // namespace rodway
