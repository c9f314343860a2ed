#include "app/sheets/sheets_page.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>
#include <algorithm>

#include "app/edit_stack/waiting_records.h"
#include "app/sheets/sheet_table.h"
#include "app/words/error_text.h"
#include "app/words/sheet_words.h"
#include "app/work/clock.h"
#include "core/sheets/sheet_kinds.h"
#include "db/build_records.h"

namespace rodway {
namespace {

QLabel* subtitle(const QString& text) {
    auto* label = new QLabel(text);
    label->setObjectName("subtitle");
    return label;
}

QLabel* wrapped() {
    auto* label = new QLabel;
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

/// "12 of 16", "done", with the count of boxes that missed their limit.
QString progress(const AssessedSheet& sheet) {
    QString text;
    if (sheet.boxes_filled > 0) {
        text = sheet.boxes_to_fill > 0
                   ? SheetsPage::tr("%1 of %2").arg(sheet.boxes_filled).arg(sheet.boxes_to_fill)
                   : SheetsPage::tr("begun");
    }
    if (sheet.failed > 0) {
        text += SheetsPage::tr(", %n outside", "", sheet.failed);
    }
    if (sheet.too_close > 0) {
        text += SheetsPage::tr(", %n too close", "", sheet.too_close);
    }
    if (!sheet.findings.empty()) {
        text += SheetsPage::tr(", see right");
    }
    return text;
}

} // namespace

SheetsPage::SheetsPage(QWidget* parent) : PlacePage(parent), stack_(new QStackedWidget) {
    auto* content = new QWidget;
    auto* columns = new QHBoxLayout(content);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->addWidget(make_left());
    columns->addWidget(make_middle(), 1);
    columns->addWidget(make_right());
    auto* empty = new QLabel(tr("Open a build on the Bench: its measurement sheets are here."));
    empty->setAlignment(Qt::AlignCenter);
    stack_->addWidget(empty);
    stack_->addWidget(content);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(stack_);
}

SheetsPage::~SheetsPage() = default;

QWidget* SheetsPage::make_left() {
    kinds_ = new QListWidget;
    kinds_->setObjectName("sheet_kinds");
    kinds_->setAccessibleName(tr("Kinds of sheet"));
    kinds_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    kinds_->setWordWrap(true);
    kinds_->setSpacing(1);
    auto* own = new QPushButton(tr("New own sheet…"));
    auto* panel = new QWidget;
    panel->setFixedWidth(230);
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(kinds_, 1);
    layout->addWidget(own);
    connect(own, &QPushButton::clicked, this, &SheetsPage::own_sheet_wanted);
    connect(kinds_, &QListWidget::itemClicked, this, [this] { table_->setFocus(); });
    connect(kinds_, &QListWidget::itemActivated, this, [this] { table_->setFocus(); });
    connect(kinds_, &QListWidget::currentRowChanged, this, [this](int row) {
        if (!filling_ && row >= 0 && sheets_) {
            open_kind(sheets_->kinds()[static_cast<std::size_t>(row)].id);
        }
    });
    return panel;
}

QWidget* SheetsPage::make_middle() {
    title_ = new QLabel;
    title_->setObjectName("title");
    about_ = wrapped();
    tabs_ = new QTabBar;
    tabs_->setAccessibleName(tr("Where it is measured"));
    tabs_->setExpanding(false);
    order_ = new QComboBox;
    order_->setAccessibleName(tr("Order of entry"));
    order_->addItem(tr("By cylinder"), static_cast<int>(EntryOrder::by_number));
    order_->addItem(tr("Front to rear"), static_cast<int>(EntryOrder::front_to_rear));
    order_->addItem(tr("Firing order"), static_cast<int>(EntryOrder::firing_order));
    order_->addItem(tr("Order of full lift"), static_cast<int>(EntryOrder::full_lift));
    instrument_ = new QComboBox;
    instrument_->setAccessibleName(tr("Measured with"));
    instrument_->setMinimumWidth(90);
    table_ = new SheetTable;
    table_->keep = [this](const Quantity& quantity, const std::string& position,
                          const QString& text) { return keep(quantity, position, text); };
    table_->add_position = [this](const QString& text) { return add_position(text); };

    auto* blank = new QPushButton(tr("Print blank…"));
    auto* filled = new QPushButton(tr("Print…"));
    auto* tools = new QHBoxLayout;
    tools->addWidget(new QLabel(tr("Order")));
    tools->addWidget(order_);
    tools->addSpacing(8);
    tools->addWidget(new QLabel(tr("Measured with")));
    tools->addWidget(instrument_);
    tools->addStretch();
    tools->addWidget(blank);
    tools->addWidget(filled);

    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(8, 0, 8, 0);
    layout->addWidget(title_);
    layout->addWidget(about_);
    layout->addLayout(tools);
    layout->addWidget(tabs_);
    layout->addWidget(table_, 1);
    connect(blank, &QPushButton::clicked, this, [this] { emit print_wanted(true); });
    connect(filled, &QPushButton::clicked, this, [this] { emit print_wanted(false); });
    connect(tabs_, &QTabBar::currentChanged, this, [this] {
        if (!filling_) {
            show_table();
            table_->go_to_start();
        }
    });
    connect(order_, &QComboBox::activated, this, [this] { refresh(); });
    connect(table_, &SheetTable::moved, this, &SheetsPage::show_spot);
    connect(table_, &SheetTable::typing, this, &SheetsPage::show_typing);
    return panel;
}

QWidget* SheetsPage::make_right() {
    line_title_ = subtitle({});
    line_title_->setWordWrap(true);
    line_meaning_ = wrapped();
    line_state_ = wrapped();
    line_state_->setObjectName("line_state");
    low_ = new QLineEdit;
    high_ = new QLineEdit;
    source_ = new QLineEdit;
    source_->setPlaceholderText(tr("who says so: the maker, the shop …"));
    limit_for_ = new QComboBox;
    limit_for_->addItems({tr("This build"), tr("Every build of the shop")});
    auto* keep_limit_button = new QPushButton(tr("Keep limit"));
    note_ = new QLineEdit;
    note_->setPlaceholderText(tr("note on this reading, Enter keeps it"));
    findings_ = new QListWidget;
    findings_->setObjectName("findings");
    findings_->setAccessibleName(tr("What follows"));
    findings_->setWordWrap(true);
    findings_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);

    auto* limits = new QFormLayout;
    limits->addRow(tr("From"), low_);
    limits->addRow(tr("To"), high_);
    limits->addRow(tr("Source"), source_);
    limits->addRow(tr("For"), limit_for_);
    limits->addRow(QString(), keep_limit_button);
    auto* panel = new QWidget;
    panel->setFixedWidth(270);
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(line_title_);
    layout->addWidget(line_meaning_);
    layout->addWidget(line_state_);
    layout->addWidget(note_);
    layout->addWidget(subtitle(tr("Limit")));
    layout->addLayout(limits);
    layout->addWidget(subtitle(tr("What follows")));
    layout->addWidget(findings_, 1);
    connect(keep_limit_button, &QPushButton::clicked, this, &SheetsPage::keep_limit);
    connect(note_, &QLineEdit::returnPressed, this, &SheetsPage::keep_note);
    return panel;
}

void SheetsPage::take(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    added_.clear();
    sheets_.reset();
    refresh();
}

void SheetsPage::refresh() {
    stack_->setCurrentIndex(session_ != nullptr && build_id_ != 0 ? 1 : 0);
    if (session_ == nullptr || build_id_ == 0 || !isVisible()) {
        return;
    }
    auto loaded = BuildSheets::load(session_->shop(), build_id_,
                                    waiting_readings(session_->waiting(), build_id_));
    if (!loaded) {
        emit failed(words::error_text(loaded.error()));
        return;
    }
    sheets_ = std::make_unique<BuildSheets>(std::move(loaded).value());
    for (const Error& error : sheets_->limits_not_read()) {
        emit failed(tr("A limit can't be read. %1").arg(words::error_text(error)));
    }
    if (sheets_->kind(kind_) == nullptr) {
        kind_ = sheets_->kinds().front().id;
    }
    fill_instruments();
    show_kinds();
    show_places();
    show_table();
}

void SheetsPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

void SheetsPage::open_kind(const std::string& kind) {
    const bool other = kind != kind_;
    kind_ = kind;
    if (!sheets_) {
        refresh();
        return;
    }
    show_kinds();
    show_places();
    show_table();
    if (other) {
        table_->go_to_start();
    }
}

void SheetsPage::show_kinds() {
    filling_ = true;
    const auto& kinds = sheets_->kinds();
    while (kinds_->count() > static_cast<int>(kinds.size())) {
        delete kinds_->takeItem(kinds_->count() - 1);
    }
    for (std::size_t which = 0; which < kinds.size(); ++which) {
        const int row = static_cast<int>(which);
        if (row >= kinds_->count()) {
            kinds_->addItem(QString());
        }
        const QString state = progress(sheets_->assess(kinds[which], order()));
        const QString title = title_of(kinds[which].id);
        kinds_->item(row)->setText(state.isEmpty() ? title : tr("%1\n    %2").arg(title, state));
        if (kinds[which].id == kind_) {
            kinds_->setCurrentRow(row);
        }
    }
    filling_ = false;
}

void SheetsPage::show_places() {
    filling_ = true;
    const SheetKind& kind = *sheets_->kind(kind_);
    const std::vector<Place> before = places_;
    places_.clear();
    for (const Quantity& quantity : kind.quantities) {
        if (std::find(places_.begin(), places_.end(), quantity.place) == places_.end()) {
            places_.push_back(quantity.place);
        }
    }
    if (places_ != before) {
        while (tabs_->count() > 0) {
            tabs_->removeTab(0);
        }
        for (const Place place : places_) {
            tabs_->addTab(words::place_heading(place));
        }
    }
    const bool built_in = find_sheet_kind(kind_) != nullptr;
    title_->setText(title_of(kind_));
    about_->setText(built_in ? words::sheet_text(kind_).about : tr("A sheet of the shop's own."));
    filling_ = false;
}

void SheetsPage::show_table() {
    sheet_ = sheets_->assess(*sheets_->kind(kind_), order());
    const auto added = added_.find({kind_, place()});
    table_->show_lines(sheet_, place(),
                       added == added_.end() ? std::vector<std::string>() : added->second,
                       [this](const Quantity& quantity) { return title_of(quantity.id); });
    show_spot();
    show_findings();
}

void SheetsPage::show_spot() {
    const auto spot = table_->spot();
    line_title_->setText(spot ? title_of(spot->quantity.id) : QString());
    line_meaning_->clear();
    line_state_->clear();
    // A note is an edit of its own, which a reading without its id can't have yet.
    note_->setEnabled(spot && spot->box && spot->box->taken &&
                      spot->box->taken->reading.id < id_to_come);
    note_->clear();
    if (!spot) {
        return;
    }
    if (const SheetKind* kind = sheet_of_quantity(spot->quantity.id)) {
        const words::QuantityText& text =
            words::sheet_text(kind->id).quantities.at(spot->quantity.id);
        line_meaning_->setText(text.measured.isEmpty() ? text.meaning
                                                       : text.meaning + "\n" + text.measured);
    }
    if (!spot->box) {
        return;
    }
    const SheetBox& box = *spot->box;
    QStringList lines;
    if (box.taken) {
        lines << tr("%1: %2, %3 %4")
                     .arg(words::sheet_position(box.position, spot->quantity.place),
                          QString::fromStdString(box.taken->reading.text),
                          QString::fromStdString(box.taken->reading.taken_by),
                          QString::fromStdString(box.taken->reading.taken_at.substr(0, 10)));
        if (box.taken->reading.id >= id_to_come) {
            lines << tr("Not saved yet.");
        }
        note_->setText(QString::fromStdString(box.taken->reading.note.value_or("")));
    }
    for (const std::int64_t id : box.taken ? box.taken->retaken : std::vector<std::int64_t>()) {
        for (const Reading& reading : sheets_->readings()) {
            if (reading.id == id) {
                lines << tr("before: %1, %2 %3")
                             .arg(QString::fromStdString(reading.text),
                                  QString::fromStdString(reading.taken_by),
                                  QString::fromStdString(reading.taken_at.substr(0, 10)));
            }
        }
    }
    if (box.figure) {
        lines << tr("Worked out: %1").arg(words::amount(*box.figure, spot->quantity));
    }
    lines << words::sheet_verdict(box.verdict);
    if (box.limit) {
        lines << words::limit(*box.limit, spot->quantity);
    }
    lines.removeAll(QString());
    line_state_->setText(lines.join('\n'));
}

void SheetsPage::show_typing(const QString& text) {
    const auto spot = table_->spot();
    if (!spot || !spot->box || text.trimmed().isEmpty()) {
        show_spot();
        return;
    }
    const auto reading =
        reading_to_keep(spot->quantity, spot->box->position, text.trimmed().toStdString());
    if (!reading) {
        line_state_->setText(words::error_text(reading.error()));
        return;
    }
    Taken taken;
    taken.value = *read_value(*reading, spot->quantity);
    const auto range = taken.range();
    QString says = range ? words::amount(*range, spot->quantity) : text.trimmed();
    const auto reach = taken.reach();
    if (reach && spot->box->limit) {
        says += '\n' + words::sheet_verdict(judge(*reach, *spot->box->limit)) + '\n' +
                words::limit(*spot->box->limit, spot->quantity);
    }
    line_state_->setText(says);
}

void SheetsPage::show_findings() {
    findings_->clear();
    for (const SheetFinding& one : sheet_.findings) {
        const auto line =
            std::find_if(sheet_.lines.begin(), sheet_.lines.end(),
                         [&](const SheetLine& here) { return here.quantity.id == one.quantity; });
        if (line != sheet_.lines.end()) {
            findings_->addItem(words::finding(one, line->quantity, sheets_->own_titles()));
        }
    }
    for (const NotRead& one : sheets_->taken().not_read()) {
        const SheetKind* kind = sheet_of_quantity(one.reading.quantity);
        if (kind != nullptr && kind->id == kind_) {
            findings_->addItem(tr("%1, %2: “%3” can't be read. %4")
                                   .arg(title_of(one.reading.quantity),
                                        QString::fromStdString(one.reading.position),
                                        QString::fromStdString(one.reading.text),
                                        words::error_text(one.error)));
        }
    }
    if (findings_->count() == 0) {
        findings_->addItem(tr("Nothing to point out."));
    }
}

void SheetsPage::fill_instruments() {
    const QVariant chosen = instrument_->currentData();
    instrument_->clear();
    instrument_->addItem(tr("not stated"));
    if (const auto instruments = load_records<Instrument>(session_->shop(), shop_wide)) {
        for (const Instrument& one : *instruments) {
            if (!one.retired) {
                instrument_->addItem(QString::fromStdString(one.name),
                                     static_cast<qlonglong>(one.id));
            }
        }
    }
    instrument_->setCurrentIndex(std::max(0, instrument_->findData(chosen)));
}

bool SheetsPage::keep(const Quantity& quantity, const std::string& position, const QString& text) {
    if (session_ == nullptr || !sheets_) {
        return false;
    }
    const auto read = reading_to_keep(quantity, position, text.toStdString());
    if (!read) {
        emit failed(words::error_text(read.error()));
        return false;
    }
    const QString where = words::sheet_position(position, quantity.place);
    const auto id = session_->create(
        RecordKind::reading,
        [&](std::int64_t reading_id) {
            Reading reading = *read;
            reading.id = reading_id;
            reading.build_id = build_id_;
            reading.set_up_id = sheets_->set_up_id();
            reading.taken_by = session_->who().toStdString();
            reading.taken_at = now_utc();
            if (instrument_->currentData().isValid()) {
                reading.instrument_id = instrument_->currentData().toLongLong();
            }
            return edits_to_create(reading);
        },
        tr("%1, %2").arg(title_of(quantity.id), where));
    if (!id && !is_waiting(id.error())) {
        emit failed(words::error_text(id.error()));
        return false;
    }
    if (id) { // what waits is told by its own bar
        emit said(tr("Kept %1 for %2.").arg(text, where));
    }
    return true;
}

std::optional<std::string> SheetsPage::add_position(const QString& text) {
    if (!sheets_) {
        return std::nullopt;
    }
    const auto kept = kept_position(text.toStdString(), place());
    if (!kept) {
        emit failed(words::error_text(kept.error()));
        return std::nullopt;
    }
    added_[{kind_, place()}].push_back(*kept);
    show_table();
    return *kept;
}

void SheetsPage::keep_limit() {
    const auto spot = table_->spot();
    if (!spot || session_ == nullptr) {
        return;
    }
    LimitRecord limit;
    const auto typed = [](const QLineEdit& edit) {
        const QString text = edit.text().trimmed();
        return text.isEmpty() ? std::optional<std::string>() : text.toStdString();
    };
    limit.quantity = spot->quantity.id;
    limit.low = typed(*low_);
    limit.high = typed(*high_);
    if (!spot->quantity.unit.empty()) {
        limit.unit = spot->quantity.unit;
    }
    limit.source = source_->text().trimmed().toStdString();
    if (limit_for_->currentIndex() == 0) {
        limit.build_id = build_id_;
    }
    if (limit.source.empty()) {
        emit failed(tr("Say where the limit comes from: the maker, the shop, or whoever says so."));
        return;
    }
    if (const auto read = read_limit(limit, spot->quantity); !read) {
        emit failed(words::error_text(read.error()));
        return;
    }
    const auto id = session_->create(
        RecordKind::limit,
        [&](std::int64_t limit_id) {
            limit.id = limit_id;
            return edits_to_create(limit);
        },
        tr("limit of %1").arg(title_of(spot->quantity.id)));
    if (!id && !is_waiting(id.error())) {
        emit failed(words::error_text(id.error()));
        return;
    }
    low_->clear();
    high_->clear();
    if (id) {
        emit said(tr("Kept the limit of %1.").arg(title_of(spot->quantity.id)));
    }
}

void SheetsPage::keep_note() {
    const auto spot = table_->spot();
    if (!spot || !spot->box || !spot->box->taken || session_ == nullptr) {
        return;
    }
    const Reading& before = spot->box->taken->reading;
    Reading after = before;
    const QString text = note_->text().trimmed();
    after.note = text.isEmpty() ? std::optional<std::string>() : text.toStdString();
    const auto done = session_->act(edits_to_change(before, after),
                                    tr("note on %1").arg(title_of(spot->quantity.id)));
    if (!done && !is_waiting(done.error())) {
        emit failed(words::error_text(done.error()));
        return;
    }
    if (done) {
        emit said(tr("Kept the note."));
    }
    table_->setFocus();
}

QString SheetsPage::title_of(const std::string& id) const {
    return words::sheet_title(id, sheets_->own_titles());
}

EntryOrder SheetsPage::order() const {
    return static_cast<EntryOrder>(order_->currentData().toInt());
}

Place SheetsPage::place() const {
    const auto which = static_cast<std::size_t>(std::max(0, tabs_->currentIndex()));
    return which < places_.size() ? places_[which] : Place::engine;
}

} // namespace rodway
