#include "app/compare/compare_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCompleter>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/widgets/keep_room.h"
#include "app/words/error_text.h"
#include "app/work/output_file.h"
#include "db/build_store.h"

namespace rodway {
namespace {

enum Column {
    section_column,
    what_column,
    position_column,
    first_column,
    second_column,
    sign_column,
    difference_column,
    column_count
};

} // namespace

ComparePage::ComparePage(QWidget* parent)
    : PlacePage(parent),
      first_(new QLabel),
      second_(new QComboBox),
      only_different_(new QCheckBox(tr("Only what differs"))),
      filter_(new QLineEdit),
      csv_(new QPushButton(tr("Write as CSV…"))),
      state_(new QLabel),
      table_(new QTableWidget(0, column_count)) {
    auto* title = new QLabel(tr("Compare"));
    title->setObjectName("title");
    first_->setTextFormat(Qt::PlainText);
    first_->setObjectName("subtitle");
    first_->setWordWrap(true);
    second_->setObjectName("other_build");
    second_->setAccessibleName(tr("The build to put beside it"));
    second_->setEditable(true);
    second_->setInsertPolicy(QComboBox::NoInsert);
    second_->setMinimumWidth(260);
    second_->lineEdit()->setPlaceholderText(tr("type part of a build's name"));
    second_->lineEdit()->setAccessibleName(second_->accessibleName());
    second_->completer()->setCompletionMode(QCompleter::PopupCompletion);
    second_->completer()->setFilterMode(Qt::MatchContains);
    only_different_->setChecked(true);
    only_different_->setObjectName("only_different");
    filter_->setObjectName("compare_filter");
    filter_->setAccessibleName(tr("Filter"));
    filter_->setPlaceholderText(tr("only lines with these words"));
    filter_->setClearButtonEnabled(true);
    state_->setObjectName("compare_state");
    state_->setWordWrap(true);
    state_->setTextFormat(Qt::PlainText);
    table_->setObjectName("comparison");
    table_->setAccessibleName(tr("Both builds, line by line"));
    table_->verticalHeader()->hide();
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setAlternatingRowColors(true);
    table_->setShowGrid(false);
    table_->setWordWrap(false);
    keep_room(*table_);
    auto* header = table_->horizontalHeader();
    header->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    header->setSectionResizeMode(QHeaderView::Stretch);
    for (const int narrow : {section_column, position_column, sign_column}) {
        header->setSectionResizeMode(narrow, QHeaderView::ResizeToContents);
    }
    header->setMaximumSectionSize(360);
    auto* choice = new QHBoxLayout;
    choice->addWidget(first_, 1);
    choice->addWidget(new QLabel(tr("beside")));
    choice->addWidget(second_);
    choice->addStretch(1);
    choice->addWidget(csv_);
    auto* tools = new QHBoxLayout;
    tools->addWidget(only_different_);
    tools->addWidget(filter_, 1);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title);
    layout->addLayout(choice);
    layout->addLayout(tools);
    layout->addWidget(state_);
    layout->addWidget(table_, 1);
    layout->addStretch(); // what is said stands at the top while there is no table
    const auto chosen = [this] {
        const int row = second_->findText(second_->currentText(), Qt::MatchFixedString);
        if (row >= 0) {
            compare_with(second_->itemData(row).toLongLong());
        } else if (!second_->currentText().trimmed().isEmpty()) {
            state_->setText(tr("There is no build called “%1”. Type part of a name, and choose "
                               "from the list.")
                                .arg(second_->currentText().left(80)));
        }
    };
    connect(second_, &QComboBox::activated, this, chosen);
    connect(second_->lineEdit(), &QLineEdit::returnPressed, this, chosen);
    connect(only_different_, &QCheckBox::toggled, this, &ComparePage::fill_table);
    connect(filter_, &QLineEdit::textChanged, this, &ComparePage::fill_table);
    connect(csv_, &QPushButton::clicked, this, &ComparePage::ask_csv);
}

void ComparePage::take(ShopSession* session, std::int64_t build_id) {
    if (session != session_) other_id_ = 0;
    session_ = session;
    build_id_ = build_id;
    comparison_.reset();
    refresh();
}

void ComparePage::showEvent(QShowEvent* event) {
    PlacePage::showEvent(event);
    refresh();
}

void ComparePage::refresh() {
    if (session_ == nullptr) {
        comparison_.reset();
        fill_table();
        return;
    }
    if (!isVisible()) return;
    fill_builds();
    compare();
}

void ComparePage::fill_builds() {
    const auto builds = load_builds(session_->shop());
    if (!builds) {
        emit failed(words::error_text(builds.error()));
        return;
    }
    first_->clear();
    // What is being typed into the box stays.
    const QString typed = second_->currentText();
    const QSignalBlocker quiet(second_);
    second_->clear();
    for (const Build& build : *builds) {
        const QString name = QString::fromStdString(build.name);
        if (build.id == build_id_) {
            first_->setText(name);
        } else {
            second_->addItem(tr("%1 (%2)").arg(name, QString::number(build.id)),
                             static_cast<qlonglong>(build.id));
        }
    }
    const int row = second_->findData(static_cast<qlonglong>(other_id_));
    second_->setCurrentIndex(row);
    if (row < 0) second_->setEditText(typed);
}

void ComparePage::compare_with(std::int64_t build_id) {
    other_id_ = build_id;
    const int row = second_->findData(static_cast<qlonglong>(build_id));
    const QSignalBlocker quiet(second_);
    second_->setCurrentIndex(row);
    compare();
}

void ComparePage::compare() {
    comparison_.reset();
    if (session_ != nullptr && build_id_ != 0 && other_id_ != 0 && other_id_ != build_id_) {
        auto both = compare_builds(session_->shop(), build_id_, other_id_);
        if (both) {
            comparison_ = std::move(both).value();
        } else {
            emit failed(words::error_text(both.error()));
        }
    }
    fill_table();
}

void ComparePage::fill_table() {
    csv_->setEnabled(comparison_.has_value());
    table_->setVisible(comparison_.has_value());
    if (!comparison_) {
        table_->setRowCount(0);
        state_->setText(
            tr("Choose a build to put beside this one: its readings, set-up and parts "
               "stand here line by line, each with how it differs."));
        return;
    }
    const auto name = [](const Build& build) { return QString::fromStdString(build.name); };
    table_->setHorizontalHeaderLabels({tr("Sheet"), tr("What"), tr("Where"),
                                       name(comparison_->first), name(comparison_->second),
                                       QString(), tr("Difference")});
    const QStringList words = filter_->text().simplified().split(' ', Qt::SkipEmptyParts);
    table_->setRowCount(0);
    int different = 0;
    for (const ComparedLine& line : comparison_->lines) {
        const bool differs =
            line.difference != Difference::none && line.difference != Difference::within_doubt;
        different += differs ? 1 : 0;
        if (only_different_->isChecked() && !differs) continue;
        const QStringList texts{compared_heading(line, comparison_->own_titles),
                                compared_what(line, comparison_->own_titles),
                                QString::fromStdString(line.position),
                                QString::fromStdString(line.first.value_or("")),
                                QString::fromStdString(line.second.value_or("")),
                                difference_sign(line.difference),
                                difference_text(line)};
        const QString all = texts.join(' ');
        if (!std::all_of(words.begin(), words.end(), [&](const QString& word) {
                return all.contains(word, Qt::CaseInsensitive);
            })) {
            continue;
        }
        const int row = table_->rowCount();
        table_->insertRow(row);
        for (int column = 0; column < column_count; ++column) {
            table_->setItem(row, column, new QTableWidgetItem(texts[column].simplified()));
        }
    }
    state_->setText(tr("%1 of %2 lines differ; %3 shown.")
                        .arg(different)
                        .arg(comparison_->lines.size())
                        .arg(table_->rowCount()));
}

void ComparePage::ask_csv() {
    const QString file =
        QFileDialog::getSaveFileName(this, tr("Write the comparison"), tr("comparison.csv"));
    if (!file.isEmpty()) write_csv(file);
}

void ComparePage::write_csv(const QString& file) {
    if (!comparison_) return;
    const auto written = write_output(file, comparison_csv(*comparison_));
    if (written) {
        emit said(tr("Wrote %1.").arg(file));
    } else {
        emit failed(words::error_in_file(file, written.error()));
    }
}

} // namespace rodway
