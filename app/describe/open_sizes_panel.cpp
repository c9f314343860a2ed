#include "app/describe/open_sizes_panel.h"

#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <cmath>

#include "app/words/describe_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "app/work/describe_acts.h"

namespace rodway {
namespace {

constexpr double thou_mm = 0.0254;
constexpr int path_role = Qt::UserRole;
constexpr int dimension_role = Qt::UserRole + 1;
constexpr int owner_role = Qt::UserRole + 2;

QTableWidgetItem* cell(const QString& text) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    item->setToolTip(text);
    return item;
}

QTableWidget* table(const QString& name, const QStringList& heads) {
    auto* made = new QTableWidget(0, static_cast<int>(heads.size()));
    made->setAccessibleName(name);
    made->setHorizontalHeaderLabels(heads);
    made->verticalHeader()->hide();
    made->setSelectionBehavior(QAbstractItemView::SelectRows);
    made->setSelectionMode(QAbstractItemView::SingleSelection);
    made->setTabKeyNavigation(false);
    made->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    return made;
}

} // namespace

OpenSizesPanel::OpenSizesPanel(const DescribeModel* model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      about_(new QLabel),
      sizes_(table(tr("Sizes by what they are worth"), {tr("Size"), tr("Stands"), tr("Worth")})),
      valves_(table(tr("Clearances as described"), {tr("Valve"), tr("Least"), tr("Open")})),
      doubt_(new QLabel),
      take_doubt_(new QPushButton) {
    about_->setWordWrap(true);
    doubt_->setWordWrap(true);
    sizes_->setObjectName("open_sizes");
    valves_->setObjectName("described_clearances");
    sizes_->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    sizes_->horizontalHeader()->setSectionResizeMode(2, QHeaderView::ResizeToContents);
    for (const int column : {1, 2}) {
        valves_->horizontalHeader()->setSectionResizeMode(column, QHeaderView::ResizeToContents);
    }
    valves_->setMaximumWidth(240);
    auto* tables = new QHBoxLayout;
    tables->addWidget(sizes_, 1);
    tables->addWidget(valves_);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(about_);
    layout->addLayout(tables, 1);
    layout->addWidget(doubt_);
    layout->addWidget(take_doubt_, 0, Qt::AlignLeft);
    connect(sizes_, &QTableWidget::itemActivated, this, [this](const QTableWidgetItem* item) {
        emit size_wanted(sizes_->item(item->row(), 0)->data(path_role).toString());
    });
    connect(sizes_, &QTableWidget::currentItemChanged, this, [this](QTableWidgetItem* now) {
        if (now != nullptr) {
            const QTableWidgetItem* first = sizes_->item(now->row(), 0);
            emit lit(first->data(dimension_role).toString(), first->data(owner_role).toString());
        }
    });
    connect(take_doubt_, &QPushButton::clicked, this, &OpenSizesPanel::take_doubt);
    refresh();
}

void OpenSizesPanel::take(ShopSession* session, const std::optional<SetUpRecord>& set_up) {
    session_ = session;
    set_up_ = set_up;
    refresh();
}

void OpenSizesPanel::refresh() {
    const auto& worth = model_->worth();
    const bool any = worth.has_value();
    for (QWidget* widget : std::initializer_list<QWidget*>{sizes_, valves_, doubt_, take_doubt_}) {
        widget->setVisible(any);
    }
    if (!any) {
        about_->setText(
            model_->busy() && model_->missing().empty()
                ? tr("Being worked out…")
                : tr("As soon as nothing is needed any more, every size stands here with what not "
                     "knowing it better is worth in thousandths of clearance: measure next what "
                     "is worth most."));
        return;
    }
    about_->setText(
        tr("Measure next what is worth most: Enter goes to its box. Each worth is what "
           "the least clearance changes by if that size is wrong by its ±."));
    show_sizes(*worth);
    show_valves(*worth);
}

void OpenSizesPanel::show_sizes(const DescriptionWorth& worth) {
    const int row_now = sizes_->currentRow();
    const QSignalBlocker quiet(sizes_);
    sizes_->setRowCount(static_cast<int>(worth.sizes.size()));
    int row = 0;
    for (const SizeWorth& one : worth.sizes) {
        auto* name = cell(tr("%1 %2").arg(words::stand_sign(one.size),
                                          words::dimension_of(*one.dimension, one.size.owner)));
        name->setData(path_role,
                      QString::fromStdString(described_path(one.size.owner, *one.dimension)));
        name->setData(dimension_role, QString::fromStdString(std::string(one.dimension->name)));
        name->setData(owner_role, QString::fromStdString(one.size.owner));
        sizes_->setItem(row, 0, name);
        sizes_->setItem(row, 1, cell(words::size_stand(*one.dimension, one.size)));
        sizes_->setItem(row++, 2, cell(words::worth(one.worth_mm, one.valve)));
    }
    if (row_now >= 0 && row_now < sizes_->rowCount()) {
        sizes_->setCurrentCell(row_now, 0);
    }
}

void OpenSizesPanel::show_valves(const DescriptionWorth& worth) {
    valves_->setRowCount(static_cast<int>(worth.valves.size()));
    int row = 0;
    for (const DescribedClearance& line : worth.valves) {
        valves_->setItem(row, 0, cell(QString::fromStdString(position_name(line.valve))));
        valves_->setItem(row, 1,
                         cell(line.clearance_mm ? words::inches(*line.clearance_mm) : tr("none")));
        valves_->setItem(row++, 2,
                         cell(line.doubt_mm ? tr("± %1").arg(words::inches(*line.doubt_mm))
                                            : tr("can't be said")));
    }
    const auto largest = largest_doubt_mm();
    take_doubt_->setVisible(largest.has_value());
    if (!largest) {
        doubt_->setText(
            tr("With one of the sizes off by its ± a train would not close: no ± can "
               "be stated for the engine yet."));
        return;
    }
    const auto stands = set_up_ ? set_up_->fields.find("doubt/assumed") : SetUpFields::iterator();
    const bool stated = set_up_ && stands != set_up_->fields.end();
    doubt_->setText(
        stated ? tr("The engine's ± as it is stated now: %1 %2. By the sizes above it is %3 at the "
                    "valve known least.")
                     .arg(QString::fromStdString(stands->second.text),
                          QString::fromStdString(stands->second.unit), words::inches(*largest))
               : tr("No ± is stated for the engine yet: without one no clearance passes. By the "
                    "sizes above it is %1 at the valve known least.")
                     .arg(words::inches(*largest)));
    take_doubt_->setText(tr("State ± %1 for this engine").arg(words::inches(*largest)));
}

std::optional<double> OpenSizesPanel::largest_doubt_mm() const {
    double largest = 0.0;
    for (const DescribedClearance& line : model_->worth()->valves) {
        if (!line.doubt_mm) {
            return std::nullopt;
        }
        largest = std::max(largest, *line.doubt_mm);
    }
    // Up to the next half thousandth: a ± must not say less than it is.
    return std::ceil(largest / (thou_mm / 2.0)) * thou_mm / 2.0;
}

void OpenSizesPanel::take_doubt() {
    const auto largest = model_->worth() ? largest_doubt_mm() : std::nullopt;
    if (session_ == nullptr || !set_up_ || !largest) {
        return;
    }
    const std::string digits = QString::number(*largest / 25.4, 'f', 4).toStdString();
    const auto kept =
        keep_set_up_fields(*session_, geometry_of(*set_up_),
                           {{"doubt/assumed", TypedValue{digits, "in"}},
                            {"doubt/assumed_for", TypedValue{described_mark(set_up_->fields), {}}}},
                           tr("± of the engine as its sizes make it"));
    if (!kept) {
        emit failed(words::error_text(kept.error()));
        return;
    }
    emit said(tr("The engine's clearances now stand with ± %1.").arg(words::inches(*largest)));
}

void OpenSizesPanel::go_to_first() {
    sizes_->setFocus();
    if (sizes_->currentRow() < 0 && sizes_->rowCount() > 0) {
        sizes_->setCurrentCell(0, 0);
    }
}

} // namespace rodway
