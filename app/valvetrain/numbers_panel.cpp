#include "app/valvetrain/numbers_panel.h"

#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>
#include <cmath>

#include "app/valvetrain/valvetrain_model.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "core/units/angle.h"

namespace rodway {
namespace {

QString figures_text(const ValveClearance& line, const Engine& engine) {
    const auto row = [](const QString& name, const QString& value) {
        return QString("<tr><td>%1&nbsp;&nbsp;</td><td>%2</td></tr>")
            .arg(name.toHtmlEscaped(), value.toHtmlEscaped());
    };
    const RodClearance& minimum = *line.found.minimum;
    const auto& at = minimum.in_passage;
    const QString nearest = at && minimum.kind == FeatureKind::port_tube
                                ? words::wall(at->wall, engine)
                                : QString::fromStdString(minimum.feature);
    return "<table>" +
           row(NumbersPanel::tr("On the heel"),
               words::both_units(line.found.on_heel->clearance_mm)) +
           row(NumbersPanel::tr("At full lift"),
               words::both_units(line.found.at_full_lift->clearance_mm)) +
           row(NumbersPanel::tr("Least"), words::when(line)) +
           row(NumbersPanel::tr("Nearest"), nearest) +
           (at ? row(NumbersPanel::tr("Where"),
                     NumbersPanel::tr("%1, %2").arg(words::end(at->end),
                                                    words::clock(at->clock_hours))) +
                     row(NumbersPanel::tr("Depth"), NumbersPanel::tr("%1 from the rocker end")
                                                        .arg(words::inches(at->depth_mm)))
               : QString()) +
           "</table>";
}

} // namespace

NumbersPanel::NumbersPanel(const ValvetrainModel* model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      title_(new QLabel),
      least_(new QLabel),
      verdict_(new QLabel),
      figures_(new QLabel),
      now_(new QLabel),
      more_(new QToolButton),
      details_(new QLabel) {
    title_->setObjectName("subtitle");
    least_->setObjectName("figure");
    verdict_->setObjectName("verdict");
    more_->setText(tr("Details of the search"));
    more_->setCheckable(true);
    more_->setAutoRaise(true);
    more_->setArrowType(Qt::RightArrow);
    more_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    details_->hide();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(4);
    for (QLabel* label : {title_, least_, verdict_, figures_, now_}) {
        label->setWordWrap(true);
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
        layout->addWidget(label);
    }
    layout->addWidget(more_);
    details_->setWordWrap(true);
    layout->addWidget(details_);
    connect(more_, &QToolButton::toggled, this, [this](bool shown) {
        details_->setVisible(shown);
        more_->setArrowType(shown ? Qt::DownArrow : Qt::RightArrow);
    });
}

void NumbersPanel::refresh() {
    const ValveClearance* line = model_->selected_line();
    const auto& engine = model_->engine();
    for (QLabel* label : {least_, verdict_, figures_, now_, details_}) {
        label->clear();
    }
    more_->setVisible(false);
    if (!engine || !line) {
        title_->setText(tr("No valve selected"));
        return;
    }
    title_->setText(tr("Rod %1 in its tube").arg(words::valve(line->position)));
    if (!line->found.minimum) {
        verdict_->setText(words::status(*line));
        return;
    }
    const QString doubt =
        line->doubt_mm ? tr(" ± %1").arg(words::inches(*line->doubt_mm)) : QString();
    least_->setText(QString(words::inches(line->found.minimum->clearance_mm)).remove(" in") +
                    (doubt.isEmpty() ? tr(" in") : doubt));
    least_->setToolTip(words::doubt(*line));
    verdict_->setText(QString("<b>%1.</b> %2")
                          .arg(words::verdict(*line->verdict).toHtmlEscaped(),
                               words::verdict_reason(*line, *engine).toHtmlEscaped()));
    figures_->setText(figures_text(*line, *engine));

    const Train* train = engine->train(line->position);
    const auto closed = train_surroundings(*engine, *train);
    if (!closed || !closed->surroundings) {
        return;
    }
    const Linkage& linkage = closed->surroundings->linkage;
    const double lobe = engine->lobe_lift_mm(line->position, model_->crank());
    const auto here = least_clearance_at(*closed->surroundings, lobe);
    const auto pose = linkage.at(lobe);
    if (here && pose) {
        now_->setText(tr("At %1: clearance %2, valve lift %3")
                          .arg(words::crank_degrees(model_->crank().in_deg()),
                               words::inches(here->clearance_mm),
                               words::inches(linkage.valve_lift_mm(*pose))));
        const Vec3 rod = pose->upper_ball_K - pose->lower_ball_K;
        const double lean =
            degrees(std::acos(std::min(1.0, rod.normalized().dot(linkage.lifter_axis_K()))));
        details_->setText(
            tr("Nothing in the whole turn is less by more than %1 mm (proved, %2 poses). Adjuster "
               "%3 from "
               "where it was found. Rod leans %4 from its lifter here.")
                .arg(QString::number(line->found.bound_mm, 'f', 6))
                .arg(line->found.evaluations)
                .arg(words::signed_inches(linkage.adjuster_in_mm()), words::crank_degrees(lean)));
        more_->setVisible(true);
    }
}

} // namespace rodway
