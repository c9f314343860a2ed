#include "app/parts/build_parts.h"

#include <QComboBox>
#include <QGridLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QRegularExpression>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/parts/bolt_length_dialog.h"
#include "app/parts/buy_list.h"
#include "app/parts/part_changes.h"
#include "app/parts/part_details.h"
#include "app/parts/part_dialog.h"
#include "app/parts/part_photos.h"
#include "app/parts/part_sign.h"
#include "app/widgets/typed_form.h"
#include "app/words/account_words.h"
#include "app/words/bolt_words.h"
#include "app/words/error_text.h"
#include "app/words/part_state_words.h"
#include "app/work/shop_day.h"
#include "core/build/part_wait.h"
#include "core/engine/bolt_end_fields.h"
#include "core/units/typed_text.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

enum Column { state_column, part_column, place_column, supplier_column, day_column, cost_column };
constexpr int widest_px = 250; ///< of a column that is as wide as its words
enum class Filter { all, to_come, here, fasteners, customers, failed };

QString text(const std::optional<std::string>& utf8) {
    return QString::fromStdString(utf8.value_or(std::string()));
}

QTableWidgetItem* cell(const QString& words) {
    auto* item = new QTableWidgetItem(words);
    item->setToolTip(words);
    return item;
}

QLabel* wrapped(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(name);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

} // namespace

BuildParts::BuildParts(QWidget* parent) : QWidget(parent), stack_(new QStackedWidget) {
    auto* columns = new QHBoxLayout(this);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->addWidget(make_left(), 1);
    right_ = make_right();
    columns->addWidget(right_);
}

QWidget* BuildParts::make_left() {
    auto* add = new QPushButton(tr("&Add part…"));
    auto* change = new QPushButton(tr("C&hange…"));
    auto* replace = new QPushButton(tr("&Replace…"));
    auto* remove = new QPushButton(tr("Remo&ve"));
    need_part_ = {change, replace, remove};
    filter_ = new QComboBox;
    filter_->setObjectName("parts_shown");
    filter_->setAccessibleName(tr("Parts shown"));
    filter_->addItems({tr("All parts"), tr("Still to come"), tr("Here, not fitted"),
                       tr("Fasteners"), tr("The customer's own"), tr("Failed and kept")});
    auto* tools = new QHBoxLayout;
    for (QPushButton* button : {add, change, replace, remove}) {
        tools->addWidget(button);
    }
    tools->addStretch();
    tools->addWidget(filter_);

    table_ = new QTableWidget(0, cost_column + 1);
    table_->setObjectName("parts");
    table_->setAccessibleName(tr("Parts of the build"));
    table_->setHorizontalHeaderLabels(
        {tr("State"), tr("Part"), tr("Where"), tr("Supplier, order"), tr("Day"), tr("Cost")});
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->horizontalHeaderItem(cost_column)->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Interactive);
    table_->horizontalHeader()->setSectionResizeMode(part_column, QHeaderView::Stretch);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setDefaultSectionSize(30);
    table_->setColumnWidth(state_column, 104);
    table_->setColumnWidth(supplier_column, 130);
    table_->setColumnWidth(cost_column, 76);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setAlternatingRowColors(true);
    table_->setShowGrid(false);
    table_->setTabKeyNavigation(false);
    table_->setIconSize({part_sign_px, part_sign_px});
    table_->installEventFilter(this);

    auto* empty = wrapped("no_parts");
    empty->setText(
        tr("No parts yet.\nWhat the engine needs belongs here: what is on order and promised, what "
           "came and was measured, the customer's own parts, fasteners with their thread and "
           "length, and what failed and is kept.\nBegin with “Add part…”: its name is enough."));
    empty->setAlignment(Qt::AlignCenter);
    stack_->addWidget(table_);
    stack_->addWidget(empty);
    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 8, 0);
    layout->addLayout(tools);
    layout->addWidget(stack_, 1);
    connect(add, &QPushButton::clicked, this, &BuildParts::add);
    connect(change, &QPushButton::clicked, this, &BuildParts::change);
    connect(replace, &QPushButton::clicked, this, &BuildParts::replace);
    connect(remove, &QPushButton::clicked, this, &BuildParts::remove);
    connect(filter_, &QComboBox::currentIndexChanged, this, [this] { show_rows(); });
    connect(table_, &QTableWidget::itemActivated, this, &BuildParts::change);
    connect(table_, &QTableWidget::currentCellChanged, this, [this] {
        if (!filling_) {
            show_selected();
        }
    });
    return panel;
}

QWidget* BuildParts::make_right() {
    title_ = wrapped("subtitle");
    details_ = wrapped("part_details");
    photos_ = new PartPhotos;
    bolts_ = wrapped("bolts_in_holes");
    to_set_up_ = new QPushButton(tr("Take this length into the set-&up…"));

    auto* content = new QWidget;
    auto* layout = new QVBoxLayout(content);
    layout->setContentsMargins(0, 0, 6, 0);
    layout->addWidget(title_);
    layout->addWidget(details_);
    layout->addWidget(bolts_);
    layout->addWidget(to_set_up_);
    layout->addSpacing(6);
    layout->addWidget(make_marks());
    layout->addSpacing(6);
    layout->addWidget(photos_);
    layout->addStretch();
    auto* scroll = new QScrollArea;
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFixedWidth(312);
    connect(photos_, &PartPhotos::failed, this, &BuildParts::failed);
    connect(to_set_up_, &QPushButton::clicked, this, &BuildParts::take_length_into_set_up);
    return scroll;
}

QWidget* BuildParts::make_marks() {
    marks_ = new TypedForm(TypedForm::Shape::row);
    marks_->add_line("day", tr("Day of the mark"), tr("today"));
    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(marks_);
    auto* grid = new QGridLayout;
    const std::pair<QString, PartMark> buttons[] = {
        {tr("&Ordered"), PartMark::ordered},   {tr("Pro&mised for"), PartMark::promised},
        {tr("Re&ceived"), PartMark::received}, {tr("Measure&d"), PartMark::measured},
        {tr("&Fitted"), PartMark::fitted},     {tr("Given bac&k"), PartMark::returned}};
    int at = 0;
    for (const auto& [label, mark_of_button] : buttons) {
        auto* button = new QPushButton(label);
        button->setObjectName(QString::fromStdString("mark_" + part_mark_word(mark_of_button)));
        grid->addWidget(button, at / 3, at % 3);
        ++at;
        need_part_.push_back(button);
        connect(button, &QPushButton::clicked, this,
                [this, mark_of_button = mark_of_button] { mark(mark_of_button); });
    }
    layout->addLayout(grid);
    auto* off = new QPushButton(tr("Take the &last mark off"));
    need_part_.push_back(off);
    layout->addWidget(off, 0, Qt::AlignLeft);
    connect(off, &QPushButton::clicked, this, &BuildParts::take_last_mark_off);
    make_failed_row(layout);
    return panel;
}

void BuildParts::make_failed_row(QVBoxLayout* into) {
    failure_ = new TypedForm(TypedForm::Shape::row);
    failure_->add_line("failed", tr("How it failed"), {}, 3);
    failure_->add_line("kept_until", tr("Kept until"), tr("2026-03-01"), 2);
    auto* failed_button = new QPushButton(tr("Fa&iled"));
    failed_button->setObjectName("mark_failed");
    need_part_.push_back(failed_button);
    failure_->add_at_end(failed_button);
    into->addWidget(failure_);
    connect(failed_button, &QPushButton::clicked, this, &BuildParts::mark_as_failed);
    connect(failure_, &TypedForm::entered, this, &BuildParts::mark_as_failed);
}

bool BuildParts::eventFilter(QObject* watched, QEvent* event) {
    if (watched == table_ && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Delete) {
            remove();
            return true;
        }
        if (key == Qt::Key_Insert) {
            add();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void BuildParts::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && session_ != nullptr) {
        show_rows();
    }
}

void BuildParts::take(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    plan_ = {};
    marks_->clear();
    failure_->clear();
    show_rows();
}

void BuildParts::refresh() {
    if (session_ == nullptr || build_id_ == 0) {
        return;
    }
    today_ = shop_day(session_->now()).day;
    auto loaded = load_plan_and_parts(session_->shop(), build_id_);
    if (!loaded) {
        emit failed(words::error_text(loaded.error()));
        return;
    }
    plan_ = std::move(loaded).value();
    show_rows();
}

bool BuildParts::is_shown(const PartRecord& part) const {
    const auto wait = part_wait(part, today_);
    switch (static_cast<Filter>(filter_->currentIndex())) {
        case Filter::all:
            return true;
        case Filter::to_come:
            return wait && is_to_come(*wait);
        case Filter::here:
            return wait == PartWait::not_measured || wait == PartWait::not_fitted;
        case Filter::fasteners:
            return part.thread || part.tightening || part.drive;
        case Filter::customers:
            return part.owner == PartOwner::customer;
        case Filter::failed:
            return part.failed.has_value();
    }
    return true;
}

void BuildParts::show_rows() {
    const auto chosen = selected();
    filling_ = true;
    table_->setRowCount(0);
    const Palette palette = palette_for(theme_of(this->palette()));
    int row = 0;
    int chosen_row = 0;
    for (const PartRecord& part : plan_.parts) {
        if (!is_shown(part)) {
            continue;
        }
        table_->insertRow(row);
        auto* state = cell(words::part_state(part, today_));
        state->setIcon(part_sign(part, today_, palette));
        state->setData(Qt::UserRole, static_cast<qlonglong>(part.id));
        table_->setItem(row, state_column, state);
        table_->setItem(row, part_column, cell(words::part_title(part)));
        table_->setItem(row, place_column, cell(text(part.position)));
        const QStringList bought{text(part.supplier), text(part.order_number)};
        table_->setItem(row, supplier_column,
                        cell(part.owner == PartOwner::customer
                                 ? tr("the customer's own")
                                 : QStringList(bought.filter(QRegularExpression("."))).join(", ")));
        table_->setItem(row, day_column, cell(words::part_day(part, today_)));
        auto* cost = cell(part.cost ? words::money(*part.cost) : QString());
        cost->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
        table_->setItem(row, cost_column, cost);
        if (chosen && chosen->id == part.id) {
            chosen_row = row;
        }
        ++row;
    }
    // What is long in them is read in full beside the table; names have what is left.
    for (const int whole : {place_column, day_column}) {
        table_->resizeColumnToContents(whole);
        table_->setColumnWidth(whole, std::min(table_->columnWidth(whole), widest_px));
    }
    stack_->setCurrentIndex(plan_.parts.empty() ? 1 : 0);
    table_->setCurrentCell(row > 0 ? chosen_row : -1, part_column);
    filling_ = false;
    show_selected();
}

const PartRecord* BuildParts::part(std::int64_t id) const {
    const auto found = std::find_if(plan_.parts.begin(), plan_.parts.end(),
                                    [id](const PartRecord& one) { return one.id == id; });
    return found == plan_.parts.end() ? nullptr : &*found;
}

std::optional<PartRecord> BuildParts::selected() const {
    const QTableWidgetItem* item = table_->item(table_->currentRow(), state_column);
    const PartRecord* found = item ? part(item->data(Qt::UserRole).toLongLong()) : nullptr;
    return found ? std::optional(*found) : std::nullopt;
}

void BuildParts::select(std::int64_t part_id) {
    for (int row = 0; row < table_->rowCount(); ++row) {
        if (table_->item(row, state_column)->data(Qt::UserRole).toLongLong() == part_id) {
            table_->setCurrentCell(row, part_column);
        }
    }
}

void BuildParts::show_selected() {
    const auto chosen = selected();
    for (QPushButton* button : need_part_) {
        button->setEnabled(chosen.has_value());
    }
    // Nothing is there to be said of, or to be marked.
    right_->setVisible(!plan_.parts.empty());
    photos_->take(session_, chosen);
    bolts_->hide();
    to_set_up_->hide();
    if (!chosen) {
        title_->setText(plan_.parts.empty() ? QString() : tr("No part of this kind"));
        details_->clear();
        return;
    }
    show_details(*chosen);
    show_bolts(*chosen);
}

void BuildParts::show_details(const PartRecord& part) {
    title_->setText(words::part_title(part));
    details_->setText(part_details(part, plan_, today_).join('\n'));
}

void BuildParts::show_bolts(const PartRecord& part) {
    const auto taken = part.length ? readings(session_->shop(), build_id_)
                                   : Result<std::vector<Reading>>(std::vector<Reading>());
    if (!taken) {
        emit failed(words::error_text(taken.error()));
        return;
    }
    const auto bolts = bolts_in_place(part, TakenReadings(*taken));
    if (!bolts) {
        bolts_->setText(words::error_text(bolts.error()));
        bolts_->show();
        return;
    }
    const QString heading = words::bolts_need_a_look(*bolts) ? tr("▲ At the holes it goes into:")
                                                             : tr("At the holes it goes into:");
    QStringList lines = words::bolt_lines(*bolts);
    if (!lines.isEmpty()) {
        lines.prepend(heading);
        bolts_->setText(lines.join('\n'));
        bolts_->show();
    }
    const auto set_up = newest_set_up(session_->shop(), build_id_);
    to_set_up_->setVisible(part.length && set_up && *set_up &&
                           !bolt_ends_of((*set_up)->fields).empty());
}

bool BuildParts::took(const Result<Done>& done, TypedForm& form) {
    form.quiet();
    if (done || is_waiting(done.error())) {
        return true;
    }
    form.complain(done.error());
    return false;
}

void BuildParts::ask(const PartRecord& asked) {
    if (session_ == nullptr || build_id_ == 0) {
        return;
    }
    std::int64_t kept_id = asked.id;
    PartDialog dialog(
        asked, plan_.steps, today_,
        [&](const PartRecord& typed) -> Result<Done> {
            if (typed.id == 0) {
                const auto id = add_part(*session_, typed);
                kept_id = id ? *id : 0;
                return id || is_waiting(id.error()) ? Result<Done>(Done{})
                                                    : Result<Done>(id.error());
            }
            const auto done = change_part(*session_, asked, typed);
            return done || is_waiting(done.error()) ? Result<Done>(Done{}) : done;
        },
        this);
    if (dialog.exec() == QDialog::Accepted) {
        select(kept_id);
        table_->setFocus();
        emit said(
            tr("Kept “%1”.")
                .arg(dialog.part() ? QString::fromStdString(dialog.part()->item) : QString()));
    }
}

void BuildParts::add() {
    ask(fresh_part(build_id_, today_));
}

void BuildParts::change() {
    if (const auto chosen = selected()) {
        ask(*chosen);
    }
}

void BuildParts::replace() {
    if (const auto chosen = selected()) {
        ask(replacement_of(*chosen, today_));
    }
}

void BuildParts::remove() {
    const auto chosen = selected();
    if (!chosen || session_ == nullptr) {
        return;
    }
    const auto done = remove_part(*session_, *chosen);
    if (done || is_waiting(done.error())) {
        emit said(
            tr("Removed “%1”. Undo brings it back.").arg(QString::fromStdString(chosen->item)));
    } else if (done.error().code == ErrorCode::changed_since && done.error().field == "exists") {
        emit failed(tr("“%1” stays: %2 speaks of it. Mark it as given back, or as failed, instead.")
                        .arg(QString::fromStdString(chosen->item),
                             QString::fromStdString(done.error().value).replace('_', ' ')));
    } else {
        emit failed(words::error_text(done.error()));
    }
}

void BuildParts::mark(PartMark mark) {
    const auto chosen = selected();
    if (!chosen || session_ == nullptr) {
        return;
    }
    const std::string typed = QString::fromStdString(marks_->text("day")).trimmed().toStdString();
    if (typed.empty() && mark == PartMark::promised) {
        marks_->complain(Error{ErrorCode::empty_text, "day", {}, {}, {}, {}});
        return;
    }
    auto done = mark_parts(*session_, {*chosen}, mark, typed.empty() ? today_ : typed, today_);
    if (!done && done.error().field == part_mark_word(mark)) {
        Error error = done.error();
        error.field = "day"; // the box in which it was typed
        done = error;
    }
    if (took(done, *marks_)) {
        marks_->clear();
        emit said(tr("Marked “%1”.").arg(QString::fromStdString(chosen->item)));
    }
}

void BuildParts::take_last_mark_off() {
    const auto chosen = selected();
    if (!chosen || session_ == nullptr) {
        return;
    }
    const std::pair<PartMark, bool> newest_first[] = {
        {PartMark::failed, chosen->failed.has_value()},
        {PartMark::returned, chosen->returned.has_value()},
        {PartMark::fitted, chosen->fitted.has_value()},
        {PartMark::measured, chosen->measured.has_value()},
        {PartMark::received, chosen->received.has_value()},
        {PartMark::promised, chosen->promised.has_value()},
        {PartMark::ordered, chosen->ordered.has_value()}};
    for (const auto& [mark, is_set] : newest_first) {
        if (is_set) {
            took(mark_parts(*session_, {*chosen}, mark, std::nullopt, today_), *marks_);
            return;
        }
    }
}

void BuildParts::mark_as_failed() {
    const auto chosen = selected();
    if (chosen && session_ != nullptr &&
        took(mark_failed(*session_, *chosen, failure_->text("failed"), failure_->text("kept_until"),
                         today_),
             *failure_)) {
        failure_->clear();
    }
}

void BuildParts::take_length_into_set_up() {
    const auto chosen = selected();
    const auto set_up = chosen ? newest_set_up(session_->shop(), build_id_)
                               : Result<std::optional<SetUpRecord>>(std::optional<SetUpRecord>());
    if (!set_up || !*set_up || !chosen->length) {
        return;
    }
    const auto length = parse_length(*chosen->length, BareNumber::inches);
    if (!length) {
        emit failed(words::error_text(length.error()));
        return;
    }
    BoltLengthDialog dialog(*session_, **set_up, *chosen, length->middle(), this);
    if (dialog.exec() == QDialog::Accepted) {
        emit said(
            tr("The new set-up is in hand; the one before is kept. Look at the clearance "
               "in Valvetrain."));
    }
}

} // namespace rodway
