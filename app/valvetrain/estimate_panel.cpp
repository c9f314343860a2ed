#include "app/valvetrain/estimate_panel.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/valvetrain/row_table.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "db/set_up_store.h"

namespace rodway {

EstimatePanel::EstimatePanel(ValvetrainModel* model, const Words& words, QWidget* parent)
    : TrainPanel(model, parent),
      work_(new WorkBar(words.working)),
      about_(new QLabel),
      table_(new RowTable(words.name, words.table, words.columns)),
      state_(new QPushButton(words.state)),
      of_valve_(new QLabel) {
    const QString name = words.name;
    about_->setObjectName(name + "_about");
    of_valve_->setObjectName(name + "_of_valve");
    state_->setObjectName(name + "_state");
    for (QLabel* label : {about_, of_valve_}) {
        label->setWordWrap(true);
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    }
    table_->setMinimumHeight(180);
    auto* row = new QHBoxLayout;
    row->addWidget(state_);
    row->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    layout->addLayout(row);
    layout->addWidget(work_);
    layout->addWidget(about_);
    layout->addWidget(table_, 1);
    layout->addWidget(of_valve_);
    connect(state_, &QPushButton::clicked, this, &EstimatePanel::state_clicked);
    connect(work_, &WorkBar::stop_wanted, this, [this] {
        request_.stop();
        work_->end();
        about_->setText(tr("Stopped."));
    });
    connect(table_, &RowTable::chosen, this, [this](int at) {
        const std::vector<ValvePosition> valves = rows();
        if (at >= 0 && static_cast<std::size_t>(at) < valves.size()) {
            model_->select(valves[static_cast<std::size_t>(at)]);
        }
    });
}

void EstimatePanel::set_build(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    state_->setEnabled(session_ != nullptr);
    refresh();
}

void EstimatePanel::show_valve() {
    const auto& engine = model_->engine();
    if (engine_ != engine || fields_ != model_->fields()) {
        request_.stop();
        work_->end();
        engine_ = engine;
        fields_ = model_->fields();
        forget();
        show_rows({}, {});
        if (engine_ && fields_) {
            ask();
        }
    }
    show_selected();
}

void EstimatePanel::show_rows(const QString& about, const std::vector<QStringList>& rows) {
    about_->setText(about);
    about_->setVisible(!about.isEmpty());
    table_->set_rows(rows);
    show_selected();
}

void EstimatePanel::show_selected() {
    const std::vector<ValvePosition> valves = rows();
    int row = -1;
    for (std::size_t at = 0; at < valves.size(); ++at) {
        if (model_->selected() == valves[at]) {
            row = static_cast<int>(at);
        }
    }
    table_->mark_row(row);
    const QString words = row >= 0 ? of_valve() : QString();
    of_valve_->setText(words);
    of_valve_->setVisible(!words.isEmpty());
}

QString EstimatePanel::stands(const ValvePosition& valve) const {
    const ValveClearance* line = model_->line_of(valve);
    return line && line->found.minimum
               ? words::inches(line->found.minimum->clearance_mm).remove(" in")
               : tr("–");
}

void EstimatePanel::state_clicked() {
    if (session_ == nullptr) {
        return;
    }
    const auto set_up = newest_set_up(session_->shop(), build_id_);
    if (!set_up) {
        emit failed(words::error_text(set_up.error()));
        return;
    }
    if (*set_up) {
        state(*session_, **set_up);
    }
}

} // namespace rodway
