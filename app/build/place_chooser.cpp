#include "app/build/place_chooser.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <algorithm>

#include "app/build/build_panel.h"

namespace rodway {
namespace {

/// What the combo's entries stand for: 0 the build, the stage's id negative, a step's id.
constexpr qlonglong whole_build = 0;

} // namespace

PlaceChooser::PlaceChooser(QWidget* parent)
    : QWidget(parent), where_(new QComboBox), position_(new QLineEdit) {
    where_->setObjectName("remarks_of");
    where_->setAccessibleName(tr("Notes and photos of"));
    where_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    position_->setObjectName("remark_position");
    position_->setAccessibleName(tr("Position that new ones get"));
    position_->setPlaceholderText(tr("such as 3I; may stay empty"));
    auto* of = new QLabel(tr("Notes and photos of"));
    of->setBuddy(where_);
    auto* at = new QLabel(tr("New ones at"));
    at->setBuddy(position_);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(of);
    layout->addWidget(where_, 3);
    layout->addSpacing(8);
    layout->addWidget(at);
    layout->addWidget(position_, 1);
    connect(where_, &QComboBox::currentIndexChanged, this, &PlaceChooser::chosen);
}

void PlaceChooser::clear() {
    const QSignalBlocker quiet(where_);
    shown_ = nullptr;
    stage_id_ = 0;
    where_->clear();
    position_->clear();
}

void PlaceChooser::show_build(const BuildShown& shown, std::int64_t stage_id) {
    const QSignalBlocker quiet(where_);
    const bool first = where_->count() == 0;
    const bool of_stage = first || where_->currentIndex() > 0;
    const QVariant before = where_->currentData();
    shown_ = &shown;
    stage_id_ = stage_id;
    where_->clear();
    where_->addItem(tr("the whole build"), whole_build);
    if (const StageWithSteps* stage = shown.stage(stage_id)) {
        where_->addItem(tr("stage: %1").arg(utf16(stage->stage.title)),
                        static_cast<qlonglong>(-stage_id));
        for (const Step& step : stage->steps) {
            where_->addItem(tr("step: %1").arg(utf16(step.title)), static_cast<qlonglong>(step.id));
        }
    }
    const int there = first ? -1 : where_->findData(before);
    where_->setCurrentIndex(there >= 0 ? there : of_stage && where_->count() > 1 ? 1 : 0);
}

void PlaceChooser::choose_step(std::int64_t step_id) {
    where_->setCurrentIndex(std::max(0, where_->findData(static_cast<qlonglong>(step_id))));
}

void PlaceChooser::choose_build() {
    where_->setCurrentIndex(0);
}

KeptAt PlaceChooser::at(std::int64_t build_id) const {
    KeptAt at;
    at.build_id = build_id;
    at.position = position_->text().toStdString();
    const qlonglong chosen = where_->currentData().toLongLong();
    if (chosen < 0) {
        at.stage_id = -chosen;
    } else if (chosen > 0) {
        at.stage_id = stage_id_;
        at.step_id = chosen;
    }
    return at;
}

bool PlaceChooser::covers(const std::optional<std::int64_t>& stage_id,
                          const std::optional<std::int64_t>& step_id) const {
    const qlonglong chosen = where_->currentData().toLongLong();
    if (chosen == whole_build) {
        return true;
    }
    if (chosen > 0) {
        return step_id == chosen;
    }
    const Step* step = step_id && shown_ != nullptr ? shown_->step(*step_id) : nullptr;
    return stage_id == stage_id_ || (step != nullptr && step->stage_id == stage_id_);
}

QString belongs_text(const BuildShown& shown, const std::optional<std::int64_t>& stage_id,
                     const std::optional<std::int64_t>& step_id,
                     const std::optional<std::string>& position) {
    const StageWithSteps* stage = step_id    ? shown.stage_of_step(*step_id)
                                  : stage_id ? shown.stage(*stage_id)
                                             : nullptr;
    const Step* step = step_id ? shown.step(*step_id) : nullptr;
    QStringList where;
    if (stage != nullptr) {
        where << utf16(stage->stage.title);
    }
    if (step != nullptr) {
        where << utf16(step->title);
    }
    const QString place = where.join(QStringLiteral(" › "));
    if (!position) {
        return place;
    }
    return place.isEmpty() ? utf16(position)
                           : PlaceChooser::tr("%1, %2").arg(place, utf16(position));
}

} // namespace rodway
