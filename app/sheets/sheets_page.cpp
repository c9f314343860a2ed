#include "app/sheets/sheets_page.h"

#include <QComboBox>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/edit_stack/waiting_records.h"
#include "app/sheets/before_panel.h"
#include "app/sheets/box_panel.h"
#include "app/sheets/limit_panel.h"
#include "app/sheets/remarks_panel.h"
#include "app/sheets/row_panel.h"
#include "app/sheets/sheet_picture.h"
#include "app/sheets/sheet_table.h"
#include "app/widgets/low_tabs.h"
#include "app/words/box_words.h"
#include "app/words/error_text.h"
#include "app/words/sheet_words.h"
#include "app/work/sheet_remarks.h"
#include "core/sheets/sheet_kinds.h"
#include "db/build_records.h"

namespace rodway {
namespace {

constexpr int aside_px = 312;
constexpr int picture_px = 224; ///< at first; whoever wants it larger pulls

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
    connect(kinds_, &QListWidget::itemClicked, this, &SheetsPage::go_to_sheet);
    connect(kinds_, &QListWidget::itemActivated, this, &SheetsPage::go_to_sheet);
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
    about_ = new QLabel;
    about_->setWordWrap(true);
    about_->setTextInteractionFlags(Qt::TextSelectableByMouse);
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
    picture_ = new SheetPicture;
    table_->keep = [this](const Quantity& quantity, const std::string& position,
                          const QString& text) { return keep(quantity, position, text); };
    another_ = new QLineEdit;
    another_->setObjectName("another_position");
    another_->setAccessibleName(tr("Another position"));
    connect(another_, &QLineEdit::returnPressed, this, &SheetsPage::add_position);

    import_pull_ = new QPushButton(tr("Import a pull…"));
    import_pull_->setObjectName("import_pull");
    connect(import_pull_, &QPushButton::clicked, this, &SheetsPage::import_pull);
    auto* blank = new QPushButton(tr("Print blank…"));
    auto* filled = new QPushButton(tr("Print…"));
    auto* tools = new QHBoxLayout;
    tools->addWidget(new QLabel(tr("Order")));
    tools->addWidget(order_);
    tools->addSpacing(8);
    tools->addWidget(new QLabel(tr("Measured with")));
    tools->addWidget(instrument_);
    tools->addStretch();
    tools->addWidget(import_pull_);
    tools->addWidget(blank);
    tools->addWidget(filled);

    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(8, 0, 8, 0);
    layout->addWidget(title_);
    layout->addWidget(about_);
    layout->addLayout(tools);
    layout->addWidget(tabs_);
    auto* parts = new QSplitter(Qt::Vertical);
    auto* rows = new QWidget;
    auto* rows_layout = new QVBoxLayout(rows);
    rows_layout->setContentsMargins(0, 0, 0, 0);
    rows_layout->addWidget(table_, 1);
    rows_layout->addWidget(another_);
    parts->addWidget(rows);
    parts->addWidget(picture_);
    parts->setStretchFactor(0, 1);
    parts->setStretchFactor(1, 0);
    parts->setChildrenCollapsible(false);
    parts->setSizes({1000, picture_px});
    layout->addWidget(parts, 1);
    connect(picture_, &SheetPicture::position_chosen, this, &SheetsPage::go_to);
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
    box_ = new BoxPanel;
    findings_ = new QListWidget;
    findings_->setObjectName("findings");
    findings_->setAccessibleName(tr("What follows"));
    findings_->setWordWrap(true);
    findings_->setAlternatingRowColors(true);
    findings_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    limits_ = new LimitPanel;
    rows_ = new RowPanel;
    before_ = new BeforePanel;
    remarks_ = new RemarksPanel;
    aside_ = new LowTabs;
    aside_->setObjectName("aside");
    aside_->setAccessibleName(tr("Beside the sheet"));
    aside_->setDocumentMode(true);
    aside_->addTab(findings_, tr("Follows"));
    aside_->addTab(limits_, tr("Limits"));
    aside_->addTab(rows_, tr("Rows"));
    aside_->addTab(before_, tr("Before"));
    aside_->addTab(remarks_, tr("Notes"));
    aside_->setTabToolTip(0, tr("What follows from the readings"));
    aside_->setTabToolTip(1, tr("What the quantity in hand may be, and who says so"));
    aside_->setTabToolTip(2, tr("Least, most, spread and mean of each row"));
    aside_->setTabToolTip(3, tr("What we did last time"));
    aside_->setTabToolTip(4, tr("Notes and photos of this sheet"));

    auto* panel = new QWidget;
    panel->setFixedWidth(aside_px);
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(box_);
    layout->addWidget(aside_, 1);
    connect(box_, &BoxPanel::note_wanted, this, &SheetsPage::keep_note);
    connect(aside_, &QTabWidget::currentChanged, this, &SheetsPage::show_aside);
    connect(limits_, &LimitPanel::keep_wanted, this, &SheetsPage::keep_limit);
    connect(limits_, &LimitPanel::remove_wanted, this, &SheetsPage::remove_limit);
    connect(before_, &BeforePanel::failed, this, &SheetsPage::failed);
    connect(remarks_, &RemarksPanel::note_wanted, this, &SheetsPage::keep_remark);
    connect(remarks_, &RemarksPanel::photos_wanted, this, &SheetsPage::keep_photos);
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
    auto loaded =
        BuildSheets::load(session_->shop(), build_id_,
                          waiting_readings(session_->waiting(), build_id_), sheets_.get());
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
        const QString state = words::progress(sheets_->assess(kinds[which], order()));
        const QString title = title_of(kinds[which].id);
        kinds_->item(row)->setText(state.isEmpty() ? title : tr("%1\n    %2").arg(title, state));
        if (kinds[which].id == kind_) {
            kinds_->setCurrentRow(row);
        }
    }
    if (kinds_->currentItem() != nullptr) {
        kinds_->scrollToItem(kinds_->currentItem()); // it may have grown by its second line
    }
    filling_ = false;
}

void SheetsPage::show_places() {
    import_pull_->setVisible(kind_ == "dyno_pull");
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
    picture_->set_sheet(*sheets_, sheet_);
    SheetTable::MorePositions more;
    more.before = expected_bolts(picture_->joints(), place());
    if (const auto added = added_.find({kind_, place()}); added != added_.end()) {
        more.behind = added->second;
    }
    table_->show_lines(sheet_, place(), more,
                       [this](const Quantity& quantity) { return title_of(quantity.id); });
    another_->setVisible(place() != Place::engine);
    another_->setPlaceholderText(
        tr("another position, such as %1; Enter adds it")
            .arg(QString::fromUtf8(shape_of(place()).example.data(),
                                   static_cast<int>(shape_of(place()).example.size()))));
    show_spot();
    show_findings();
    show_remarks();
}

void SheetsPage::show_spot() {
    const auto spot = table_->spot();
    const auto line = std::find_if(
        sheet_.lines.begin(), sheet_.lines.end(),
        [&](const SheetLine& one) { return spot && one.quantity.id == spot->quantity.id; });
    box_->show_spot(spot, sheets_ ? sheets_->own_titles() : words::OwnTitles());
    picture_->show_box(line == sheet_.lines.end() ? nullptr : &*line,
                       spot && spot->box ? spot->box->position : std::string());
    show_aside();
}

void SheetsPage::show_aside() {
    const auto spot = table_->spot();
    if (!sheets_) {
        return;
    }
    if (spot) {
        limits_->show_box(spot->quantity, spot->box, sheets_->limit_records());
    } else {
        limits_->show_nothing();
    }
    remarks_->show_place(place(),
                         spot && spot->box ? std::optional(spot->box->position) : std::nullopt);
    // These two ask for more than a glance, so only who looks at them pays.
    if (aside_->currentWidget() == rows_) {
        rows_->show_rows(sheet_, spot ? spot->quantity.id : std::string(),
                         [this](const Quantity& quantity) { return title_of(quantity.id); });
    }
    if (aside_->currentWidget() == before_) {
        if (spot) {
            before_->show_builds(session_->shop(), build_id_, spot->quantity,
                                 spot->box ? spot->box->position : std::string());
        } else {
            before_->show_nothing();
        }
    }
}

void SheetsPage::show_remarks() {
    const auto found = sheet_remarks(session_->shop(), build_id_, kind_);
    if (!found) {
        emit failed(words::error_text(found.error()));
        return;
    }
    remarks_->show_remarks(session_->shop(), *found);
    const auto count = found->notes.size() + found->photos.size();
    aside_->setTabText(4, count > 0 ? tr("Notes %1").arg(count) : tr("Notes"));
}

void SheetsPage::go_to_sheet() {
    // Where only the bench knows the positions, one is typed first.
    if (table_->rowCount() > 0) {
        table_->setFocus();
    } else {
        another_->setFocus();
    }
}

void SheetsPage::go_to(const std::string& position, bool type) {
    if (!table_->go_to(position)) {
        auto& added = added_[{kind_, place()}];
        added.push_back(position);
        show_table();
        table_->go_to(position);
    }
    if (type) {
        table_->setFocus();
    }
}

void SheetsPage::show_typing(const QString& text) {
    const auto spot = table_->spot();
    if (!spot || !spot->box || text.trimmed().isEmpty()) {
        show_spot();
        return;
    }
    box_->show_typing(*spot, text.trimmed());
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
            reading.taken_at = session_->now();
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

void SheetsPage::add_position() {
    if (!sheets_ || another_->text().trimmed().isEmpty()) {
        return;
    }
    const auto kept = kept_position(another_->text().toStdString(), place());
    if (!kept) {
        emit failed(words::error_text(kept.error()));
        return;
    }
    another_->clear();
    go_to(*kept, true);
}

template <typename Value>
bool SheetsPage::told(const Result<Value>& done) {
    if (!done && !is_waiting(done.error())) {
        emit failed(words::error_text(done.error()));
        return false;
    }
    return true;
}

void SheetsPage::keep_limit(LimitRecord limit) {
    const auto spot = table_->spot();
    if (!spot || session_ == nullptr) {
        return;
    }
    if (limit.build_id) {
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
    const QString title = title_of(spot->quantity.id);
    const auto id = session_->create(
        RecordKind::limit,
        [&](std::int64_t limit_id) {
            limit.id = limit_id;
            return edits_to_create(limit);
        },
        tr("limit of %1").arg(title));
    if (told(id)) {
        limits_->clear_entry();
    }
    if (id) { // what waits is told by its own bar
        emit said(tr("Kept the limit of %1.").arg(title));
    }
}

void SheetsPage::remove_limit(std::int64_t id) {
    const auto edits = edits_to_remove(session_->shop(), {RecordKind::limit, id});
    const auto done = edits ? session_->act(*edits, tr("limit")) : Result<Act>(edits.error());
    if (told(done) && done) {
        emit said(tr("The limit is taken away; Undo brings it back."));
    }
}

void SheetsPage::keep_note(const QString& text) {
    const auto spot = table_->spot();
    if (!spot || !spot->box || !spot->box->taken || session_ == nullptr) {
        return;
    }
    const Reading& before = spot->box->taken->reading;
    Reading after = before;
    after.note = text.isEmpty() ? std::optional<std::string>() : text.toStdString();
    const auto done = session_->act(edits_to_change(before, after),
                                    tr("note on %1").arg(title_of(spot->quantity.id)));
    if (told(done)) {
        table_->setFocus();
    }
    if (done) {
        emit said(tr("Kept the note."));
    }
}

void SheetsPage::keep_remark(const QString& text, const std::string& position) {
    if (session_ == nullptr) {
        return;
    }
    const auto id = keep_sheet_note(*session_, {build_id_, kind_, position}, text.toStdString());
    if (told(id)) {
        remarks_->clear_entry();
    }
    if (id) {
        emit said(tr("Kept the note."));
    }
}

void SheetsPage::keep_photos(const QStringList& files, const std::string& position) {
    for (const QString& file : files) {
        if (session_ == nullptr) {
            return;
        }
        const auto id = keep_sheet_photo(*session_, {build_id_, kind_, position}, file);
        if (told(id) && id) {
            emit said(tr("Kept %1.").arg(QFileInfo(file).fileName()));
        }
    }
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
