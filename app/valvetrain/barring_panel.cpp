#include "app/valvetrain/barring_panel.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <cmath>

#include "app/valvetrain/row_table.h"
#include "app/words/barring_words.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "core/barring/heel_arcs.h"
#include "core/barring/turn.h"

namespace rodway {
namespace {

/// Nearer than this the crank stands at a stop.
constexpr double there_deg = 0.05;

QLabel* wrapped(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(name);
    label->setWordWrap(true);
    return label;
}

} // namespace

BarringPanel::BarringPanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent),
      task_(new QComboBox),
      margin_(new QDoubleSpinBox),
      margin_label_(new QLabel(tr("Margin"))),
      start_(new QPushButton(tr("Start here"))),
      turning_(wrapped("barring_turning")),
      table_(new RowTable("barring", tr("Where to stop"), {})),
      turn_(wrapped("barring_turn")),
      notes_(wrapped("barring_notes")) {
    task_->setObjectName("barring_task");
    task_->setAccessibleName(tr("What the engine is barred over for"));
    task_->addItems({tr("Open now"), tr("Loosen a rocker shaft"), tr("Order of full lift"),
                     tr("Lash: EO/IC"), tr("Lash: fewest stops")});
    margin_->setObjectName("barring_margin");
    margin_->setAccessibleName(tr("Crank degrees kept clear at both ends of every heel"));
    margin_->setToolTip(margin_->accessibleName());
    margin_->setRange(0.0, 180.0);
    margin_->setDecimals(0);
    margin_->setValue(usual_heel_margin_deg);
    margin_->setSuffix(QString(u'\u00b0'));
    margin_label_->setBuddy(margin_);
    start_->setObjectName("barring_start");
    start_->setToolTip(tr("The list begins where the crank stands"));
    QFont bold = turn_->font();
    bold.setBold(true);
    turn_->setFont(bold);
    auto* row = new QHBoxLayout;
    row->addWidget(task_, 1);
    row->addWidget(margin_label_);
    row->addWidget(margin_);
    row->addWidget(start_);
    table_->setMinimumHeight(200);
    auto* caution = wrapped("small");
    caution->setText(words::caution("barring_over"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    layout->addLayout(row);
    layout->addWidget(turning_);
    layout->addWidget(table_, 1);
    layout->addWidget(turn_);
    layout->addWidget(notes_);
    layout->addWidget(caution);
    connect(task_, &QComboBox::currentIndexChanged, this, &BarringPanel::start_here);
    connect(start_, &QPushButton::clicked, this, &BarringPanel::start_here);
    connect(margin_, &QDoubleSpinBox::valueChanged, this, &BarringPanel::refresh);
    connect(table_, &RowTable::chosen, this, &BarringPanel::go_to);
    connect(table_, &QTableWidget::currentCellChanged, this, &BarringPanel::say_turn);
}

void BarringPanel::show_task(BarringTask task) {
    task_->setCurrentIndex(static_cast<int>(task));
}

BarringTask BarringPanel::task() const {
    return static_cast<BarringTask>(task_->currentIndex());
}

void BarringPanel::start_here() {
    from_ = model_->crank();
    refresh();
}

void BarringPanel::show_valve() {
    const auto& engine = model_->engine();
    const bool lash = task() == BarringTask::lash_walk || task() == BarringTask::lash_stops ||
                      task() == BarringTask::open_now;
    margin_->setVisible(lash);
    margin_label_->setVisible(lash);
    start_->setVisible(task() != BarringTask::open_now && task() != BarringTask::loosen_shaft);
    if (!engine) {
        turning_->clear();
        list_ = {};
        table_->set_rows({});
        return;
    }
    make_list();
}

void BarringPanel::make_list() {
    const Engine& engine = *model_->engine();
    const bool here = task() == BarringTask::open_now;
    const CrankAngle from = here ? model_->crank() : from_;
    const auto found = barring_list(task(), engine, from, margin_->value());
    list_ = found ? *found : BarringList{};
    QString turning = tr("The engine turns %1; bar it over only that way.")
                          .arg(words::turning(engine.layout.turning));
    if (start_->isVisibleTo(this)) {
        turning += tr(" The list begins at %1.").arg(words::crank_degrees(from.in_deg()));
    }
    turning_->setText(found ? turning : words::error_text(found.error()));
    notes_->setText(list_.notes.join("\n"));
    const QStringList columns = list_.columns + QStringList{tr("Crank"), tr("Turn by")};
    if (table_->columnCount() != columns.size() ||
        table_->horizontalHeaderItem(0)->text() != columns.front()) {
        table_->set_columns(columns);
        if (task() == BarringTask::loosen_shaft) {
            table_->set_stretched(2);
            table_->set_width(0, 104);
            table_->set_width(1, 66);
        } else if (task() == BarringTask::lash_stops) {
            table_->set_width(1, 150);
        }
    }
}

QString BarringPanel::turn_text(const BarringStop& stop) const {
    if (!stop.at) {
        return {};
    }
    const auto turn = turn_to(model_->engine()->layout, model_->crank(), *stop.at);
    const bool here = turn && (turn->degrees < there_deg || turn->degrees > 720.0 - there_deg);
    return !turn ? QString() : here ? tr("here") : words::crank_degrees(turn->degrees);
}

void BarringPanel::show_crank() {
    if (!model_->engine()) {
        return;
    }
    if (task() == BarringTask::open_now) {
        const auto found = barring_list(BarringTask::open_now, *model_->engine(), model_->crank(),
                                        margin_->value());
        list_ = found ? *found : BarringList{};
    }
    std::vector<QStringList> rows;
    int here = -1;
    for (const BarringStop& stop : list_.stops) {
        const QString turn = turn_text(stop);
        if (turn == tr("here") && here < 0 && task() != BarringTask::open_now) {
            here = static_cast<int>(rows.size());
        }
        rows.push_back(
            stop.texts +
            QStringList{stop.at ? words::crank_degrees(stop.at->in_deg()) : QString(), turn});
    }
    const int last = table_->columnCount() - 1;
    table_->set_numbers({last - 1, last});
    table_->set_rows(rows);
    table_->mark_row(here);
    say_turn();
}

void BarringPanel::say_turn() {
    const int row = table_->currentRow();
    if (!model_->engine() || row < 0 || row >= static_cast<int>(list_.stops.size()) ||
        !list_.stops[static_cast<std::size_t>(row)].at) {
        turn_->setText(
            tr("Choose a line to see which way and how far to turn; Enter or a click "
               "turns the crank there."));
        return;
    }
    const CrankAngle to = *list_.stops[static_cast<std::size_t>(row)].at;
    const auto turn = turn_to(model_->engine()->layout, model_->crank(), to);
    if (!turn) {
        turn_->setText(words::error_text(turn.error()));
        return;
    }
    if (turn->degrees < there_deg || turn->degrees > 720.0 - there_deg) {
        turn_->setText(tr("The crank stands there: %1.").arg(words::crank_degrees(to.in_deg())));
        return;
    }
    const QString hand = turn->from_front == Turning::clockwise
                             ? tr("clockwise seen from the front, counter-clockwise from the "
                                  "flywheel end")
                             : tr("counter-clockwise seen from the front, clockwise from the "
                                  "flywheel end");
    turn_->setText(
        tr("Turn %1 %2, to %3.")
            .arg(words::crank_degrees(turn->degrees), hand, words::crank_degrees(to.in_deg())));
}

void BarringPanel::go_to(int row) {
    if (row < 0 || row >= static_cast<int>(list_.stops.size())) {
        return;
    }
    const BarringStop stop = list_.stops[static_cast<std::size_t>(row)];
    if (stop.valve) {
        model_->select(*stop.valve);
    }
    if (stop.at) {
        model_->set_crank(*stop.at);
    }
}

} // namespace rodway
