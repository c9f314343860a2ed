#include "app/valvetrain/numbers_panel.h"

#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>

#include "app/valvetrain/train_figures.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/units/angle.h"

namespace rodway {
namespace {

QString cell(const QString& text) {
    return "<td>" + text.toHtmlEscaped() + "</td>";
}

/// The figures as a table; beside them those of the engine as it stands, where they differ.
QString figures_text(const std::vector<FigureGroup>& now, const std::vector<FigureGroup>& stands) {
    QString text = "<table cellspacing=\"0\" cellpadding=\"1\">";
    for (std::size_t at = 0; at < now.size(); ++at) {
        text += "<tr><td colspan=\"2\"><b>" + now[at].heading.toHtmlEscaped() + "</b></td></tr>";
        for (std::size_t row = 0; row < now[at].figures.size(); ++row) {
            const auto& [name, value] = now[at].figures[row];
            if (value.isEmpty()) {
                continue;
            }
            text +=
                "<tr>" + cell(name + "\u00a0\u00a0").replace(' ', "&nbsp;") + cell(value) + "</tr>";
            const bool beside = at < stands.size() && row < stands[at].figures.size();
            const QString before = beside ? stands[at].figures[row].second : value;
            if (before != value && !before.isEmpty()) {
                text += "<tr>" + cell({}) + cell(NumbersPanel::tr("was %1").arg(before)) + "</tr>";
            }
        }
    }
    return text + "</table>";
}

} // namespace

NumbersPanel::NumbersPanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent), more_(new QToolButton) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    title_ = add_label("subtitle");
    least_ = add_label("figure");
    verdict_ = add_label("verdict");
    figures_ = add_label("figures");
    now_ = add_label("now");
    more_->setText(tr("Details of the search"));
    more_->setCheckable(true);
    more_->setAutoRaise(true);
    more_->setArrowType(Qt::RightArrow);
    more_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    more_->setFocusPolicy(Qt::StrongFocus);
    layout->addWidget(more_);
    details_ = add_label("details");
    details_->hide();
    layout->addStretch();
    connect(more_, &QToolButton::toggled, this, [this](bool shown) {
        details_->setVisible(shown);
        more_->setArrowType(shown ? Qt::DownArrow : Qt::RightArrow);
    });
}

QLabel* NumbersPanel::add_label(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(name);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    layout()->addWidget(label);
    return label;
}

void NumbersPanel::show_valve() {
    const ValveClearance* line = model_->selected_line();
    const auto& engine = model_->engine();
    for (QLabel* label : {least_, verdict_, figures_, details_}) {
        label->clear();
    }
    more_->setVisible(false);
    if (!engine || !line) {
        title_->setText(tr("No valve selected"));
        return;
    }
    title_->setText(tr("Rod %1").arg(words::valve(line->position)));
    if (!line->found.minimum) {
        verdict_->setText(words::status(*line));
        return;
    }
    title_->setText(tr("%1: %2").arg(words::valve(line->position), words::feature(line->found)));
    const QString doubt =
        line->doubt_mm ? tr(" ± %1").arg(words::inches(*line->doubt_mm)) : QString();
    least_->setText(QString(words::inches(line->found.minimum->clearance_mm)).remove(" in") +
                    (doubt.isEmpty() ? tr(" in") : doubt));
    least_->setToolTip(words::doubt(*line));
    verdict_->setText(QString("<b>%1.</b> %2")
                          .arg(words::verdict(*line->verdict).toHtmlEscaped(),
                               words::verdict_reason(*line, *engine).toHtmlEscaped()));
    const bool trying = !model_->variant().changes_nothing();
    const ValveClearance* stands = trying ? model_->selected_as_it_stands() : nullptr;
    figures_->setText(figures_text(
        train_figures(*engine, *line),
        stands ? train_figures(*model_->as_it_stands(), *stands) : std::vector<FigureGroup>()));
    details_->setText(tr("Nothing in the whole turn is less by more than %1 mm (proved, %2 poses). "
                         "The doubt: %3.")
                          .arg(QString::number(line->found.bound_mm, 'f', 6))
                          .arg(line->found.evaluations)
                          .arg(words::doubt(*line)));
    more_->setVisible(true);
}

void NumbersPanel::show_crank() {
    now_->clear();
    const ValveClearance* line = model_->selected_line();
    const auto& engine = model_->engine();
    if (!engine || !line || !line->found.minimum) {
        return;
    }
    const Train& train = *engine->train(line->position);
    const auto closed = train_surroundings(*engine, train);
    if (!closed || !closed->surroundings) {
        return;
    }
    const double lobe = engine->lobe_lift_mm(line->position, model_->crank());
    const auto here = least_clearance_at(*closed->surroundings, lobe);
    const auto stands = train_at_lift(train, closed->surroundings->linkage, lobe);
    if (here && stands) {
        now_->setText(tr("<b>Crank at %1:</b> clearance %2, valve lift %3, ratio %4; the rod "
                         "leans %5 from its lifter, %6 in its cup.")
                          .arg(words::crank_degrees(model_->crank().in_deg()),
                               words::inches(here->clearance_mm),
                               words::inches(stands->net_lift_mm),
                               QString::number(stands->gross_ratio, 'f', 2),
                               words::crank_degrees(degrees(stands->rod_to_lifter_rad)),
                               words::crank_degrees(degrees(stands->rod_to_adjuster_rad))));
    }
}

} // namespace rodway
