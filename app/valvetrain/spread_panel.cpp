#include "app/valvetrain/spread_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

#include "app/valvetrain/row_table.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "app/words/spread_words.h"

namespace rodway {
namespace {

QSpinBox* box(const char* name, const QString& accessible_name, int low, int high, int value) {
    auto* spin = new QSpinBox;
    spin->setObjectName(name);
    spin->setAccessibleName(accessible_name);
    spin->setToolTip(accessible_name);
    spin->setRange(low, high);
    spin->setValue(value);
    spin->setGroupSeparatorShown(true);
    return spin;
}

} // namespace

SpreadPanel::SpreadPanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent),
      builds_(box("spread_builds", tr("How many builds are drawn"), 40, 100000, 1000)),
      seed_(box("spread_seed", tr("The same number draws the same builds"), 1, 1000000, 1)),
      draw_(new QPushButton(tr("Draw"))),
      work_(new WorkBar(tr("Drawing builds…"))),
      about_(new QLabel),
      table_(new RowTable(
          "spread", tr("Least clearance of every valve over the builds"),
          {tr("Valve"), tr("Stands"), tr("Middle"), tr("19 in 20"), tr("Under limit")})) {
    builds_->setSingleStep(500);
    draw_->setObjectName("spread_draw");
    about_->setObjectName("spread_about");
    about_->setWordWrap(true);
    table_->set_numbers({1, 2, 3, 4});
    table_->setMinimumHeight(200);
    auto* row = new QHBoxLayout;
    row->addWidget(new QLabel(tr("Builds")));
    row->addWidget(builds_);
    row->addWidget(new QLabel(tr("Seed")));
    row->addWidget(seed_);
    row->addWidget(draw_);
    row->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    layout->addLayout(row);
    layout->addWidget(work_);
    layout->addWidget(about_);
    layout->addWidget(table_, 1);
    connect(draw_, &QPushButton::clicked, this, &SpreadPanel::draw);
    connect(work_, &WorkBar::stop_wanted, this, [this] {
        // What is drawn so far is an answer too.
        if (stop_) {
            stop_->request_stop();
        }
    });
    connect(table_, &RowTable::chosen, this, [this](int at) {
        if (spread_ && static_cast<std::size_t>(at) < spread_->valves.size()) {
            model_->select(spread_->valves[static_cast<std::size_t>(at)].valve);
        }
    });
}

void SpreadPanel::show_valve() {
    const auto& engine = model_->engine();
    if (engine_ != engine) {
        request_.stop();
        work_->end();
        engine_ = engine;
        spread_.reset();
        table_->set_rows({});
    }
    const bool stated = engine && !engine->doubt.inputs.empty();
    draw_->setEnabled(stated);
    if (!stated) {
        about_->setText(
            tr("Nothing to draw yet: the set-up doesn't say how well its sizes are "
               "known (doubt/inputs/…). Put down for each how far it may be off, and "
               "from where that is known: then many builds can be drawn that differ "
               "so."));
    } else if (!spread_ && !busy()) {
        about_->setText(
            tr("Draws builds that differ as the set-up says its sizes may, and works "
               "out every valve's least clearance in each."));
    }
    show_row();
}

void SpreadPanel::show_row() {
    for (std::size_t row = 0; spread_ && row < spread_->valves.size(); ++row) {
        if (model_->selected() == spread_->valves[row].valve) {
            table_->mark_row(static_cast<int>(row));
        }
    }
}

void SpreadPanel::draw() {
    if (!model_->engine()) {
        return;
    }
    SpreadRequest request;
    request.builds = builds_->value();
    request.seed = static_cast<std::uint64_t>(seed_->value());
    auto done = std::make_shared<std::atomic<int>>(0);
    auto stop = std::make_shared<std::stop_source>();
    stop_ = stop;
    spread_.reset();
    request_.ask<Drawn>(
        [engine = model_->engine(), request, done, stop](const std::stop_token& newer) {
            const std::stop_callback give_up(newer, [&] { stop->request_stop(); });
            return Drawn{build_spread(*engine, request, stop->get_token(), done.get())};
        },
        [this, request](const Drawn& drawn) {
            work_->end();
            if (!drawn.spread) {
                about_->setText(words::error_text(drawn.spread.error()));
                return;
            }
            spread_ = *drawn.spread;
            show_spread(request);
        });
    work_->begin([done, of = request.builds] { return static_cast<double>(done->load()) / of; });
}

void SpreadPanel::show_spread(const SpreadRequest& request) {
    about_->setText(spread_->builds == 0 ? tr("Stopped before the first build.")
                                         : words::spread(*spread_, request.seed,
                                                         model_->engine()->rod_clearance_limit_mm));
    std::vector<QStringList> rows;
    for (const ValveSpread& valve : spread_->valves) {
        const ValveClearance* line = model_->line_of(valve.valve);
        const QString stands = line && line->found.minimum
                                   ? words::inches(line->found.minimum->clearance_mm).remove(" in")
                                   : tr("–");
        const QString middle =
            valve.middle_mm ? words::inches(*valve.middle_mm).remove(" in") : tr("–");
        rows.push_back({words::valve(valve.valve), stands, middle, words::spread_range(valve),
                        words::share(valve.below_limit)});
    }
    table_->set_rows(rows);
    show_row();
}

} // namespace rodway
