#include "app/bench/bench_page.h"

#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/bench/stage_rail.h"
#include "app/words/error_text.h"
#include "db/build_store.h"

namespace rodway {
namespace {

enum Column {
    name_column,
    customer_column,
    rail_column,
    next_column,
    promised_column,
    column_count
};

} // namespace

BenchPage::BenchPage(QWidget* parent)
    : PlacePage(parent), stack_(new QStackedWidget), table_(new QTableWidget) {
    auto* title = new QLabel(tr("Bench"));
    title->setObjectName("title");
    auto* add = new QPushButton(tr("New build…"));
    auto* top = new QHBoxLayout;
    top->addWidget(title);
    top->addStretch();
    top->addWidget(add);

    table_->setObjectName("bench");
    table_->setAccessibleName(tr("Builds"));
    table_->setColumnCount(column_count);
    table_->setHorizontalHeaderLabels(
        {tr("Build"), tr("Customer and engine"), tr("Stages"), tr("Next to do"), tr("Promised")});
    table_->setItemDelegateForColumn(rail_column, new RailDelegate(table_));
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setDefaultSectionSize(54);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setShowGrid(false);
    table_->setAlternatingRowColors(true);
    table_->setWordWrap(true);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    table_->horizontalHeader()->setSectionResizeMode(promised_column,
                                                     QHeaderView::ResizeToContents);
    table_->setTabKeyNavigation(false);

    auto* empty = new QLabel(
        tr("No builds yet.\nA build is one customer's engine: its stages, readings and parts.\n"
           "Begin with “New build…”, from a set-up file or without one."));
    empty->setAlignment(Qt::AlignCenter);
    stack_->addWidget(table_);
    stack_->addWidget(empty);
    auto* layout = new QVBoxLayout(this);
    layout->addLayout(top);
    layout->addWidget(stack_, 1);

    connect(add, &QPushButton::clicked, this, &BenchPage::new_build_wanted);
    connect(table_, &QTableWidget::itemActivated, this, [this](QTableWidgetItem* item) {
        emit build_opened(table_->item(item->row(), 0)->data(Qt::UserRole).toLongLong());
    });
}

void BenchPage::take(ShopSession* session, std::int64_t) {
    session_ = session;
    refresh();
}

qint64 BenchPage::selected_build() const {
    const QTableWidgetItem* item = table_->item(table_->currentRow(), name_column);
    return item ? item->data(Qt::UserRole).toLongLong() : 0;
}

void BenchPage::refresh() {
    if (!session_) {
        table_->setRowCount(0);
        return;
    }
    const auto builds = load_builds(session_->shop());
    if (!builds) {
        emit failed(words::error_text(builds.error()));
        return;
    }
    const int current = table_->currentRow();
    table_->setRowCount(0);
    for (const Build& build : *builds) {
        const auto stages = stages_with_steps(session_->shop(), build.id);
        if (!stages) {
            emit failed(words::error_text(stages.error()));
            return;
        }
        QString next = tr("All steps are ticked");
        for (auto stage = stages->rbegin(); stage != stages->rend(); ++stage) {
            for (auto step = stage->steps.rbegin(); step != stage->steps.rend(); ++step) {
                if (!step->ticked_at) {
                    next = QString::fromStdString(stage->stage.title + ": " + step->title);
                }
            }
        }
        const int row = table_->rowCount();
        table_->insertRow(row);
        auto* name = new QTableWidgetItem(QString::fromStdString(build.name));
        QFont bold = table_->font();
        bold.setBold(true);
        name->setFont(bold);
        name->setData(Qt::UserRole, static_cast<qlonglong>(build.id));
        auto* rail = new QTableWidgetItem;
        rail->setData(RailDelegate::rail_role, QVariant::fromValue(rail_of(*stages)));
        table_->setItem(row, name_column, name);
        table_->setItem(
            row, customer_column,
            new QTableWidgetItem(QString::fromStdString(build.customer + "\n" + build.engine)));
        table_->setItem(row, rail_column, rail);
        table_->setItem(row, next_column, new QTableWidgetItem(next));
        table_->setItem(row, promised_column,
                        new QTableWidgetItem(QString::fromStdString(build.promised.value_or(""))));
    }
    table_->setCurrentCell(std::max(0, std::min(current, table_->rowCount() - 1)), 0);
    stack_->setCurrentIndex(builds->empty() ? 1 : 0);
}

} // namespace rodway
