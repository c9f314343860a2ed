#include "app/describe/describe_page.h"

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

#include "app/describe/dimension_panel.h"
#include "app/describe/dimension_picture.h"
#include "app/describe/open_sizes_panel.h"
#include "app/describe/outline_panel.h"
#include "app/edit_stack/shop_session.h"
#include "app/words/describe_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "core/engine/set_up_fields.h"
#include "db/build_store.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

constexpr std::array steps_of_sizes{DescribeStep::block, DescribeStep::lifters,
                                    DescribeStep::rods,  DescribeStep::rockers,
                                    DescribeStep::tubes, DescribeStep::gaps};
constexpr int first_of_sizes = 1;
constexpr int open_step = first_of_sizes + static_cast<int>(steps_of_sizes.size());

QScrollArea* scrolling(QWidget* content) {
    auto* scroll = new QScrollArea;
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    return scroll;
}

} // namespace

DescribePage::DescribePage(QWidget* parent)
    : PlacePage(parent),
      model_(new DescribeModel(this)),
      title_(new QLabel),
      empty_(new QLabel),
      work_(new QWidget),
      steps_(new QListWidget),
      panels_(new QStackedWidget),
      outline_(new OutlinePanel),
      open_(new OpenSizesPanel(model_)),
      picture_(new DimensionPicture),
      side_(nullptr),
      how_(new QLabel),
      lit_stand_(new QLabel),
      state_(new QLabel),
      go_there_(new QPushButton(tr("Go there"))),
      valvetrain_(new QPushButton(tr("See the valvetrain"))),
      fit_(new QPushButton(tr("Fit the tubes to gaps taken by hand"))) {
    title_->setObjectName("title");
    title_->setWordWrap(true);
    empty_->setAlignment(Qt::AlignCenter);
    empty_->setWordWrap(true);
    auto* across = new QHBoxLayout;
    across->addWidget(make_steps());
    across->addWidget(panels_, 3);
    side_ = make_picture();
    across->addWidget(side_, 2);
    auto* down = new QVBoxLayout(work_);
    down->setContentsMargins(0, 0, 0, 0);
    down->addLayout(across, 1);
    down->addWidget(make_foot());
    show_step(0);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title_);
    layout->addWidget(work_, 1);
    layout->addWidget(empty_, 1);
    connect(model_, &DescribeModel::answered, this, [this] {
        for (DimensionPanel* panel : sizes_) {
            panel->refresh();
        }
        open_->refresh();
        show_state();
    });
}

QWidget* DescribePage::make_steps() {
    steps_->setObjectName("describe_steps");
    steps_->setAccessibleName(tr("Steps of describing the engine"));
    steps_->setFixedWidth(220);
    for (int step = 0; step <= open_step; ++step) {
        steps_->addItem(QString());
    }
    panels_->addWidget(scrolling(outline_));
    connect(outline_, &OutlinePanel::finished, this, [this] {
        steps_->setCurrentRow(first_of_sizes);
        sizes_.front()->go_to_first();
    });
    connect(outline_, &OutlinePanel::failed, this, &PlacePage::failed);
    connect(outline_, &OutlinePanel::said, this, &PlacePage::said);
    for (const DescribeStep step : steps_of_sizes) {
        auto* panel = new DimensionPanel(step, model_);
        sizes_.push_back(panel);
        panels_->addWidget(scrolling(panel));
        connect(panel, &DimensionPanel::lit, this, &DescribePage::show_lit);
        connect(panel, &DimensionPanel::finished, this, &DescribePage::go_on);
        connect(panel, &DimensionPanel::failed, this, &PlacePage::failed);
        connect(panel, &DimensionPanel::lift_table_wanted, this, &DescribePage::lift_table_wanted);
    }
    panels_->addWidget(open_);
    connect(open_, &OpenSizesPanel::size_wanted, this,
            [this](const QString& path) { go_to_field(path.toStdString()); });
    connect(open_, &OpenSizesPanel::lit, this, &DescribePage::show_lit);
    connect(open_, &OpenSizesPanel::failed, this, &PlacePage::failed);
    connect(open_, &OpenSizesPanel::said, this, &PlacePage::said);
    connect(steps_, &QListWidget::currentRowChanged, this, &DescribePage::show_step);
    steps_->setCurrentRow(0);
    return steps_;
}

QWidget* DescribePage::make_picture() {
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->setContentsMargins(8, 0, 0, 0);
    how_->setWordWrap(true);
    lit_stand_->setWordWrap(true);
    lit_stand_->setObjectName("small");
    auto* typing =
        new QLabel(tr("Type 9.278 or 235.6 mm; 9.278 ±.005 if you know it better or "
                      "worse than usual; 9.278 box; 9.3 ? for a guess; “same” for what "
                      "stands beside it. Enter keeps it and goes on."));
    typing->setWordWrap(true);
    typing->setObjectName("small");
    layout->addWidget(picture_, 1);
    layout->addWidget(how_);
    layout->addWidget(lit_stand_);
    layout->addWidget(typing);
    return side;
}

QWidget* DescribePage::make_foot() {
    auto* foot = new QWidget;
    auto* row = new QHBoxLayout(foot);
    row->setContentsMargins(0, 4, 0, 0);
    state_->setWordWrap(true);
    state_->setObjectName("describe_state");
    row->addWidget(state_, 1);
    row->addWidget(go_there_);
    row->addWidget(fit_);
    row->addWidget(valvetrain_);
    connect(go_there_, &QPushButton::clicked, this, [this] { go_to_field(go_to_); });
    connect(valvetrain_, &QPushButton::clicked, this, &DescribePage::valvetrain_wanted);
    connect(fit_, &QPushButton::clicked, this, &DescribePage::fit_wanted);
    return foot;
}

void DescribePage::take(ShopSession* session, std::int64_t build_id) {
    Build build;
    if (session != nullptr && build_id != 0) {
        const auto loaded = load_build(session->shop(), build_id);
        if (!loaded) {
            emit failed(words::error_text(loaded.error()));
            return;
        }
        build = *loaded;
    }
    if (session_ != session || build_.id != build.id) {
        model_->clear();
        steps_->setCurrentRow(0);
    }
    session_ = session;
    build_ = build;
    refresh();
}

void DescribePage::refresh() {
    const bool any = session_ != nullptr && build_.id != 0;
    title_->setText(any ? tr("Engine: %1").arg(QString::fromStdString(build_.name)) : tr("Engine"));
    set_up_.reset();
    if (any) {
        const auto set_up = newest_set_up(session_->shop(), build_.id);
        if (!set_up) {
            emit failed(words::error_text(set_up.error()));
            return;
        }
        set_up_ = *set_up;
    }
    const bool by_places = set_up_ && !is_described(set_up_->fields);
    work_->setVisible(any && !by_places);
    empty_->setVisible(!any || by_places);
    empty_->setText(
        by_places ? tr("The set-up in hand of this build says where everything sits, place by "
                       "place, as it came from a file. It is looked at in the place Valvetrain.\n"
                       "To describe an engine by what you measure, begin with a build that has no "
                       "set-up yet.")
                  : tr("Open a build from the Bench to describe its engine."));
    if (set_up_ && !by_places) {
        model_->set_fields(set_up_->fields);
    } else {
        model_->clear();
    }
    outline_->take(session_, build_.id, set_up_);
    for (DimensionPanel* panel : sizes_) {
        panel->take(session_, set_up_);
    }
    open_->take(session_, set_up_);
    show_counts();
    show_state();
}

void DescribePage::showEvent(QShowEvent* event) {
    PlacePage::showEvent(event);
    if (!set_up_) {
        outline_->go_to_first();
    }
}

int DescribePage::step_of(const std::string& path) const {
    const auto parts = path_parts(path);
    if (parts[0] == "lobes") {
        return first_of_sizes + 1;
    }
    const EngineDimension* dimension = parts.size() > 2 ? dimension_called(parts[2]) : nullptr;
    if (parts[0] != "described" || dimension == nullptr) {
        return 0;
    }
    const auto at = std::find(steps_of_sizes.begin(), steps_of_sizes.end(), dimension->step);
    return first_of_sizes + static_cast<int>(at - steps_of_sizes.begin());
}

void DescribePage::go_to_field(const std::string& path) {
    const int step = step_of(path);
    steps_->setCurrentRow(step);
    if (step == 0) {
        outline_->go_to(path);
    } else if (!sizes_[static_cast<std::size_t>(step - first_of_sizes)]->go_to(path)) {
        sizes_[static_cast<std::size_t>(step - first_of_sizes)]->go_to_first();
    }
}

void DescribePage::show_step(int step) {
    // Before the boxes come: the first may get the keyboard at once, and lights up what it is for.
    picture_->show_dimension({});
    how_->clear();
    lit_stand_->clear();
    if (side_ != nullptr) {
        side_->setVisible(step >= first_of_sizes && step < open_step);
    }
    panels_->setCurrentIndex(std::max(step, 0));
}

void DescribePage::show_lit(const QString& name, const QString& owner) {
    const EngineDimension* dimension = dimension_called(name.toStdString());
    picture_->show_dimension(name.toStdString());
    if (dimension == nullptr) {
        how_->clear();
        lit_stand_->clear();
        return;
    }
    how_->setText(words::how_to_measure(*dimension));
    lit_stand_->setText(tr("%1, usually %2.")
                            .arg(words::measuring_tool(dimension->tool),
                                 words::size_doubt(*dimension, dimension->usual_doubt)));
    if (const SizeWorth* worth = model_->worth_of(*dimension, owner.toStdString())) {
        lit_stand_->setText(tr("%1 %2: %3.")
                                .arg(lit_stand_->text(),
                                     words::dimension_of(*dimension, owner.toStdString()),
                                     words::worth(worth->worth_mm, worth->valve)));
    }
}

void DescribePage::go_on() {
    const int next = steps_->currentRow() + 1;
    steps_->setCurrentRow(next);
    if (next < open_step) {
        sizes_[static_cast<std::size_t>(next - first_of_sizes)]->go_to_first();
    } else {
        open_->go_to_first();
    }
}

void DescribePage::show_counts() {
    const QStringList names{
        tr("1 Layout"),  tr("2 Block"), tr("3 Cam, lifters"), tr("4 Rods"),
        tr("5 Rockers"), tr("6 Tubes"), tr("7 Gaps"),         tr("8 What to measure next")};
    std::vector<int> needed(static_cast<std::size_t>(names.size()), 0);
    for (const MissingSize& missing : model_->missing()) {
        ++needed[static_cast<std::size_t>(step_of(missing.path))];
    }
    for (int step = 0; step < steps_->count(); ++step) {
        const int count = needed[static_cast<std::size_t>(step)];
        steps_->item(step)->setText(
            count == 0 ? names[step] : tr("%1 – %n needed", nullptr, count).arg(names[step]));
        steps_->item(step)->setFlags(step == 0 || model_->description()
                                         ? Qt::ItemIsEnabled | Qt::ItemIsSelectable
                                         : Qt::NoItemFlags);
    }
}

void DescribePage::show_state() {
    go_to_.clear();
    QString text;
    if (!model_->description() && !model_->trouble()) {
        text = tr("Begin with the layout: how cylinders and valves stand.");
    } else if (model_->trouble()) {
        text = tr("It can't be built so. %1").arg(words::error_text(*model_->trouble()));
        go_to_ = model_->trouble()->field;
    } else if (!model_->missing().empty()) {
        const MissingSize& first = model_->missing().front();
        text = tr("Still needed for a first clearance: %n size(s). Next: %1.", nullptr,
                  static_cast<int>(model_->missing().size()))
                   .arg(first.dimension ? words::dimension_of(*first.dimension, first.owner)
                                        : words::lobe_need(first.path));
        go_to_ = first.path;
    } else if (!model_->worth()) {
        text = tr("Nothing is needed any more: the clearances are being worked out…");
    } else {
        const DescribedClearance* least = nullptr;
        for (const DescribedClearance& line : model_->worth()->valves) {
            if (line.clearance_mm && (!least || *line.clearance_mm < *least->clearance_mm)) {
                least = &line;
            }
        }
        text = least == nullptr
                   ? tr("No train closes: look at the sizes again.")
                   : tr("Least clearance: %1 %2 %3. What would sharpen it most is under “What to "
                        "measure next”.")
                         .arg(QString::fromStdString(position_name(least->valve)),
                              words::inches(*least->clearance_mm),
                              least->doubt_mm ? tr("± %1").arg(words::inches(*least->doubt_mm))
                                              : tr("(with a ± that can't be said yet)"));
    }
    state_->setText(text);
    go_there_->setVisible(!go_to_.empty());
    valvetrain_->setEnabled(model_->description() && model_->missing().empty() &&
                            !model_->trouble());
    fit_->setEnabled(valvetrain_->isEnabled());
}

} // namespace rodway
