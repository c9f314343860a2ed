#include "app/valvetrain/causes_panel.h"

#include <QComboBox>
#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

#include "app/valvetrain/row_table.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/cause_words.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "core/units/angle.h"
#include "core/units/length.h"

namespace rodway {
namespace {

/// Below this a dimension does nothing that anybody could measure: a thou for 200.
constexpr double no_effect = 0.005;

QString thou(double mm) {
    return QString::number(Length::mm(mm).in_thou(), 'f', 1);
}

/// What the clearance must be to pass: the limit and the doubt of the engine.
double wanted_mm(const ValveClearance& line, const Engine& engine) {
    return engine.rod_clearance_limit_mm + line.doubt_mm.value_or(0.0);
}

} // namespace

CausesPanel::CausesPanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent),
      where_(new QLabel),
      held_(new QComboBox),
      aim_(new QLabel),
      table_(new RowTable("causes", tr("What each dimension does to the least clearance"),
                          {tr("Dimension"), tr("Rate"), tr("To pass"), tr("Nearest")})),
      work_(new WorkBar(tr("How much of each…"))),
      doubt_title_(new QLabel),
      doubt_(new RowTable("doubt", tr("What the doubt is made of"),
                          {tr("What is not known"), tr("Stated"), tr("Takes"), tr("Gives")})) {
    where_->setObjectName("causes_where");
    held_->setObjectName("causes_held");
    held_->setAccessibleName(tr("What is held"));
    held_->addItem(tr("Lash set again, same rod"), static_cast<int>(Held::adjuster_reset));
    held_->addItem(tr("Adjuster unmoved, another rod"), static_cast<int>(Held::rod_rechosen));
    aim_->setObjectName("causes_aim");
    doubt_title_->setObjectName("causes_doubt");
    for (QLabel* label : {where_, aim_, doubt_title_}) {
        label->setWordWrap(true);
    }
    table_->set_numbers({1, 2});
    table_->set_width(3, 116);
    table_->setToolTip(
        tr("A rate is thou of clearance gained (+) or lost (-) for one thou more of "
           "the dimension, or for one degree"));
    table_->setMinimumHeight(180);
    doubt_->set_numbers({2, 3});
    auto* held_row = new QHBoxLayout;
    held_row->addWidget(new QLabel(tr("Held")));
    held_row->addWidget(held_, 1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    layout->addWidget(where_);
    layout->addLayout(held_row);
    layout->addWidget(aim_);
    layout->addWidget(table_, 3);
    layout->addWidget(work_);
    layout->addWidget(doubt_title_);
    layout->addWidget(doubt_, 2);
    doubt_->setMinimumHeight(110);
    connect(held_, &QComboBox::currentIndexChanged, this, &CausesPanel::refresh);
    connect(work_, &WorkBar::stop_wanted, this, [this] {
        request_.stop();
        work_->end();
    });
}

Held CausesPanel::held() const {
    return static_cast<Held>(held_->currentData().toInt());
}

void CausesPanel::show_valve() {
    request_.stop();
    work_->end();
    shown_.clear();
    table_->set_rows({});
    doubt_->set_rows({});
    doubt_->hide();
    aim_->clear();
    doubt_title_->clear();
    const ValveClearance* line = model_->selected_line();
    const auto& engine = model_->engine();
    if (!engine || !line) {
        where_->setText(tr("No valve selected"));
        return;
    }
    const auto found = causes_of(*engine, *engine->train(line->position));
    if (!found) {
        where_->setText(words::error_text(found.error()));
        return;
    }
    if (!*found) {
        where_->setText(words::status(*line));
        return;
    }
    show_causes(**found, *engine);
    show_doubt();
    ask_sizes();
}

void CausesPanel::show_causes(const MinimumCauses& found, const Engine& engine) {
    const QString valve = words::valve(*model_->selected());
    QStringList places;
    for (const ClearancePlace& place : found.places) {
        places << tr("<b>%1: %2</b> %3, %4.")
                      .arg(valve, words::inches(place.clearance_mm), words::lift_of(place),
                           words::place(place, engine).toHtmlEscaped());
    }
    if (places.size() > 1) {
        places << tr("These places tie, so more and less of a thing may act unlike.");
    }
    where_->setText(places.join("<br>"));
    std::vector<QStringList> rows;
    for (const Cause& cause : found.causes) {
        const auto& rate =
            held() == Held::adjuster_reset ? cause.adjuster_reset : cause.rod_rechosen;
        if (!rate || rate->size() < no_effect) {
            continue;
        }
        const ParameterKind kind = cause.parameter.kind;
        const QString growing = words::growing(cause.parameter, engine.layout);
        rows.push_back({is_angle(kind) ? tr("%1 (per degree)").arg(growing) : growing,
                        words::rate(*rate, kind), QString(),
                        words::place(found.places[rate->when_more.place], engine)});
        shown_.push_back(cause);
    }
    table_->set_rows(rows);
}

void CausesPanel::show_doubt() {
    const ValveClearance& line = *model_->selected_line();
    if (!line.doubt) {
        doubt_title_->setText(
            line.doubt_mm ? tr("The doubt of %1 is assumed as a whole: the set-up doesn't say "
                               "what it is made of (doubt/…).")
                                .arg(words::inches(*line.doubt_mm))
                          : words::no_doubt(*model_->engine()));
        return;
    }
    doubt_title_->setText(
        tr("Doubt ± %1: less by up to %2, more by up to %3. Chance of reaching the limit: %4 %.")
            .arg(words::inches(*line.doubt_mm), words::inches(line.doubt->minus_mm),
                 words::inches(line.doubt->plus_mm))
            .arg(100.0 * line.doubt->chance_of_limit, 0, 'f', 0));
    std::vector<QStringList> rows;
    for (const DoubtContribution& share : line.doubt->contributions) {
        const bool lean = share.input && is_angle(share.input->kind);
        const QString size = lean ? QString("%1°").arg(degrees(share.size), 0, 'f', 2)
                                  : tr("%1 thou").arg(thou(share.size));
        rows.push_back({words::doubt_kind(share, model_->engine()->layout),
                        tr("%1, %2").arg(size, words::doubt_source(share.source)),
                        "-" + thou(share.takes_mm), "+" + thou(share.gives_mm)});
    }
    doubt_->set_rows(rows);
    doubt_->show();
}

void CausesPanel::ask_sizes() {
    const ValveClearance& line = *model_->selected_line();
    const double wanted = wanted_mm(line, *model_->engine());
    if (line.found.minimum->clearance_mm >= wanted) {
        aim_->setText(
            tr("It passes: nothing has to change. A rate is thou of clearance gained (+) "
               "or lost (-) for one thou more."));
        return;
    }
    aim_->setText(
        tr("Rates: thou gained (+) or lost (-) for one thou more. To pass, it must come to "
           "%1: the limit and its doubt; each change by itself, worked out anew.")
            .arg(words::inches(wanted)));
    request_.ask<Sizes>(
        [engine = model_->engine(), valve = line.position, causes = shown_, held = held(),
         wanted](const std::stop_token& stop) {
            Sizes sizes;
            for (const Cause& cause : causes) {
                if (stop.stop_requested()) {
                    break;
                }
                sizes.causes.push_back(
                    {cause, cure_size(*engine, valve, cause.parameter, held, wanted)});
            }
            return sizes;
        },
        [this, wanted](const Sizes& sizes) { show_sizes(sizes, wanted); });
    work_->begin();
}

void CausesPanel::show_sizes(const Sizes& sizes, double wanted) {
    work_->end();
    for (std::size_t row = 0; row < sizes.causes.size(); ++row) {
        const auto& cure = sizes.causes[row].cure;
        QTableWidgetItem* cell = table_->item(static_cast<int>(row), 2);
        const ParameterKind kind = sizes.causes[row].cause.parameter.kind;
        if (!cure) {
            cell->setText(tr("–"));
        } else if (cure->reaches) {
            cell->setText(words::change_of(cure->change, kind));
            cell->setToolTip(tr("%1 then: %2 is wanted")
                                 .arg(words::inches(cure->clearance_mm), words::inches(wanted)));
        } else {
            cell->setText(tr("can't alone"));
            cell->setToolTip(
                tr("%1 at the most, with %2: then something else is nearest")
                    .arg(words::inches(cure->clearance_mm), words::change_of(cure->change, kind)));
        }
    }
}

} // namespace rodway
