#include "app/valvetrain/survey_table.h"

#include <QHeaderView>

#include "app/edit_stack/waiting_records.h"
#include "app/valvetrain/by_hand.h"
#include "app/widgets/box_delegate.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/words/lengths.h"
#include "core/sheets/rod_clearance_reading.h"
#include "db/reading_store.h"

namespace rodway {

SurveyTable::SurveyTable(ValvetrainModel* model, QWidget* parent)
    : QTableWidget(parent), model_(model) {
    setObjectName("survey");
    setAccessibleName(tr("Clearance of every valve"));
    setColumnCount(column_count);
    setHorizontalHeaderLabels({tr("Valve"), tr("Least"), tr("Verdict"), tr("By hand"), tr("Says")});
    verticalHeader()->hide();
    verticalHeader()->setDefaultSectionSize(26);
    horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(hand_verdict_column, QHeaderView::Stretch);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                    QAbstractItemView::AnyKeyPressed);
    auto* hand = new BoxDelegate(this);
    setItemDelegateForColumn(hand_column, hand);
    connect(hand, &BoxDelegate::entered, this, [this] { go_down_from(currentRow()); });
    // Felt again and found the same: a reading of its own, which may be no longer stale.
    connect(hand, &BoxDelegate::typed_again, this,
            [this](const QModelIndex& index) { keep_reading(index.row()); });
    connect(this, &QTableWidget::itemChanged, this, [this](QTableWidgetItem* item) {
        if (!filling_ && item->column() == hand_column) {
            keep_reading(item->row());
        }
    });
    connect(this, &QTableWidget::currentCellChanged, this, [this](int row) {
        if (!filling_ && row >= 0 && static_cast<std::size_t>(row) < model_->lines().size()) {
            model_->select(model_->lines()[static_cast<std::size_t>(row)].position);
        }
    });
}

void SurveyTable::set_build(ShopSession* session, std::int64_t build_id,
                            std::optional<std::int64_t> set_up_id) {
    session_ = session;
    build_id_ = build_id;
    set_up_id_ = set_up_id;
}

QTableWidgetItem* SurveyTable::cell(int row, int column) {
    QTableWidgetItem* found = item(row, column);
    if (!found) {
        found = new QTableWidgetItem;
        if (column != hand_column) {
            found->setFlags(found->flags() & ~Qt::ItemIsEditable);
        }
        setItem(row, column, found);
    }
    return found;
}

void SurveyTable::refresh() {
    filling_ = true;
    std::vector<Reading> taken;
    if (session_ && build_id_ != 0) {
        const auto found = readings(session_->shop(), build_id_);
        if (!found) {
            emit failed(words::error_text(found.error()));
        } else {
            taken = *found;
            for (const Reading& waits : waiting_readings(session_->waiting(), build_id_)) {
                taken.push_back(waits);
            }
        }
    }
    setRowCount(static_cast<int>(model_->lines().size()));
    const bool trying = !model_->variant().changes_nothing();
    horizontalHeaderItem(computed_column)->setText(trying ? tr("Tried") : tr("Least"));
    for (int row = 0; row < rowCount(); ++row) {
        const ValveClearance& line = model_->lines()[static_cast<std::size_t>(row)];
        cell(row, valve_column)->setText(words::valve(line.position));
        cell(row, computed_column)
            ->setText(line.found.minimum
                          ? words::inches(line.found.minimum->clearance_mm).remove(" in")
                          : QString(u'\u2013'));
        cell(row, computed_column)->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
        const QString verdict = line.verdict ? words::verdict(*line.verdict) : tr("No answer");
        cell(row, verdict_column)->setText(verdict);
        cell(row, verdict_column)
            ->setToolTip(line.found.minimum ? words::verdict_reason(line, *model_->engine())
                                            : words::status(line));
        const ValveClearance* stands = trying ? line_as_it_stands(line.position) : nullptr;
        cell(row, computed_column)
            ->setToolTip(
                stands && stands->found.minimum
                    ? tr("%1 as it stands").arg(words::inches(stands->found.minimum->clearance_mm))
                    : QString());
        const Reading* last = last_by_hand(taken, line.position);
        const QString hand = last ? QString::fromStdString(last->text) : QString();
        QString by = last ? tr("%1, %2").arg(QString::fromStdString(last->taken_by),
                                             words::day_of(last->taken_at))
                          : QString();
        const bool waits = last && last->id >= id_to_come;
        if (waits) {
            by = tr("Not saved yet. %1").arg(by);
        }
        QFont look = font();
        look.setUnderline(waits);
        cell(row, hand_column)->setFont(look);
        cell(row, hand_column)->setText(hand);
        cell(row, hand_column)->setToolTip(by);
        judge_hand(row);
        if (last && set_up_id_ && last->set_up_id != set_up_id_) {
            say_stale(row);
        }
    }
    filling_ = false;
    show_selected();
}

void SurveyTable::say_stale(int row) {
    cell(row, hand_verdict_column)->setText(tr("Stale"));
    cell(row, hand_verdict_column)
        ->setToolTip(tr("It was felt in a set-up before the one in hand, and says nothing of this "
                        "one: feel it again."));
}

const ValveClearance* SurveyTable::line_as_it_stands(const ValvePosition& valve) const {
    for (const ValveClearance& line : model_->lines_as_it_stands()) {
        if (line.position == valve) {
            return &line;
        }
    }
    return nullptr;
}

void SurveyTable::judge_hand(int row) {
    const QString text = cell(row, hand_column)->text().trimmed();
    QTableWidgetItem* verdict = cell(row, hand_verdict_column);
    verdict->setText({});
    verdict->setToolTip({});
    if (text.isEmpty() || !model_->engine()) {
        return;
    }
    const auto reading = parse_rod_clearance(text.toStdString(), true);
    const QString says =
        reading ? words::verdict(
                      judge(*reading, RodClearanceLimits{model_->engine()->rod_clearance_limit_mm}))
                : tr("Not kept: %1").arg(words::error_text(reading.error()));
    verdict->setText(says);
    verdict->setToolTip(says);
}

void SurveyTable::keep_reading(int row) {
    filling_ = true;
    judge_hand(row);
    filling_ = false;
    const QString text = cell(row, hand_column)->text().trimmed();
    refused_ = !text.isEmpty();
    if (!session_ || text.isEmpty()) {
        return;
    }
    const auto parsed = parse_rod_clearance(text.toStdString(), true);
    if (!parsed) {
        emit failed(words::error_text(parsed.error()));
        return;
    }
    const ValvePosition position = model_->lines()[static_cast<std::size_t>(row)].position;
    const auto id = session_->create(
        RecordKind::reading,
        [&](std::int64_t reading_id) {
            Reading reading;
            reading.id = reading_id;
            reading.build_id = build_id_;
            reading.set_up_id = set_up_id_;
            reading.quantity = std::string(rod_clearance_quantity);
            reading.position = position_name(position);
            reading.text = text.toStdString();
            reading.unit = "in";
            reading.taken_by = session_->who().toStdString();
            reading.taken_at = session_->now();
            return edits_to_create(reading);
        },
        tr("reading of %1").arg(words::valve(position)));
    if (!id) {
        refused_ = !is_waiting(id.error()); // one that waits is kept: the next may be typed
        if (refused_) emit failed(words::error_text(id.error()));
        return;
    }
    refused_ = false;
    emit said(tr("Kept %1 for %2.").arg(text, words::valve(position)));
}

void SurveyTable::go_down_from(int row) {
    if (!refused_ && row + 1 < rowCount()) {
        setCurrentCell(row + 1, hand_column);
    }
}

void SurveyTable::show_selected() {
    for (int row = 0; row < rowCount(); ++row) {
        if (model_->selected() == model_->lines()[static_cast<std::size_t>(row)].position &&
            row != currentRow()) {
            filling_ = true;
            setCurrentCell(row, hand_column);
            filling_ = false;
        }
    }
}

} // namespace rodway
