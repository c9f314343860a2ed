#include "app/shop/record_panel.h"

#include <QFormLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QSplitter>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/widgets/keep_room.h"
#include "app/widgets/plain_tip.h"
#include "app/words/error_text.h"
#include "app/words/record_words.h"
#include "app/work/shop_day.h"
#include "db/build_records.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

constexpr int most_in_a_line = 300;
constexpr int most_in_lines = 4000;
constexpr int longest_in_tip = 1000;
constexpr int widest_column = 240;
constexpr int longest_in_table = 120; ///< beyond that a cell only shows the beginning

std::optional<std::string> at(const FieldTexts& fields, const std::string& name) {
    const auto found = fields.find(name);
    return found == fields.end() ? std::nullopt : std::optional(found->second);
}

void set(FieldTexts& fields, const std::string& name, const std::optional<std::string>& text) {
    if (text) {
        fields[name] = *text;
    } else {
        fields.erase(name);
    }
}

std::vector<Edit> edits_between(const RecordRef& record, const FieldTexts& before,
                                const FieldTexts& after) {
    FieldTexts all = before;
    all.insert(after.begin(), after.end());
    std::vector<Edit> edits;
    for (const auto& [name, any] : all) {
        Edit edit{record, name, at(before, name), at(after, name)};
        if (edit.before == edit.after) continue;
        // A record is there before its fields are.
        edits.insert(name == "exists" ? edits.begin() : edits.end(), std::move(edit));
    }
    return edits;
}

QLabel* plain_label() {
    auto* label = new QLabel;
    label->setTextFormat(Qt::PlainText); // what people typed is no markup
    label->setWordWrap(true);
    return label;
}

} // namespace

RecordPanel::RecordPanel(PanelKind kind, QWidget* parent)
    : QWidget(parent), kind_(std::move(kind)) {
    auto* about = plain_label();
    about->setText(kind_.about);
    auto* split = new QSplitter;
    split->setChildrenCollapsible(false);
    split->addWidget(make_list());
    split->addWidget(make_form());
    split->setStretchFactor(0, 1);
    split->setSizes({560, 340});
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(about);
    layout->addWidget(split, 1);
}

RecordPanel::~RecordPanel() = default;

QWidget* RecordPanel::make_list() {
    table_ = new QTableWidget;
    table_->setObjectName("records");
    table_->setAccessibleName(kind_.add);
    QStringList titles;
    for (const PanelField& field : kind_.fields) {
        if (field.in_table) titles << field.label;
    }
    if (kind_.state) titles << kind_.state_title;
    table_->setColumnCount(static_cast<int>(titles.size()));
    table_->setHorizontalHeaderLabels(titles);
    table_->verticalHeader()->hide();
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setAlternatingRowColors(true);
    table_->setShowGrid(false);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    if (titles.size() == 2) {
        table_->horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
    }
    table_->horizontalHeader()->setMaximumSectionSize(widest_column);
    table_->setWordWrap(false);
    keep_room(*table_);
    empty_ = plain_label();
    empty_->setObjectName("empty");
    empty_->setText(kind_.empty);
    new_ = new QPushButton(tr("New (Ins)"));
    new_->setObjectName("new_record");
    remove_ = new QPushButton(tr("Remove"));
    remove_->setObjectName("remove_record");
    remove_->setVisible(kind_.may_be_removed);
    of_current_.push_back(remove_);
    buttons_ = new QHBoxLayout;
    buttons_->addWidget(new_);
    buttons_->addWidget(remove_);
    buttons_->addStretch();
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(empty_);
    layout->addWidget(table_, 1);
    layout->addLayout(buttons_);
    connect(new_, &QPushButton::clicked, this, &RecordPanel::begin_new);
    connect(remove_, &QPushButton::clicked, this, &RecordPanel::remove);
    auto* insert = new QShortcut(QKeySequence(Qt::Key_Insert), this);
    insert->setContext(Qt::WidgetWithChildrenShortcut);
    connect(insert, &QShortcut::activated, this, &RecordPanel::begin_new);
    connect(table_, &QTableWidget::currentCellChanged, this, [this](int row) {
        const QTableWidgetItem* item = filling_ ? nullptr : table_->item(row, 0);
        if (item != nullptr) go_to(item->data(Qt::UserRole).toLongLong());
    });
    connect(table_, &QTableWidget::itemActivated, this,
            [this] { lines_.front().box->widget()->setFocus(); });
    return side;
}

QWidget* RecordPanel::make_form() {
    heading_ = plain_label();
    heading_->setObjectName("subtitle");
    auto* form = new QFormLayout;
    form->setRowWrapPolicy(QFormLayout::WrapAllRows);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    form->setVerticalSpacing(2);
    for (const PanelField& field : kind_.fields) {
        auto* holder = new QWidget;
        auto* rows = new QVBoxLayout(holder);
        rows->setContentsMargins(0, 0, 0, 4);
        rows->setSpacing(0);
        auto* box = new PanelBox(field, holder);
        auto* trouble = plain_label();
        trouble->setObjectName("trouble_" + QString::fromStdString(field.name));
        trouble->setProperty("trouble", true);
        trouble->hide();
        rows->addWidget(box->widget());
        rows->addWidget(trouble);
        auto* label = new QLabel(field.label);
        label->setBuddy(box->widget());
        form->addRow(label, holder);
        lines_.push_back({field, box, trouble});
    }
    for (std::size_t which = 0; which < lines_.size(); ++which) {
        PanelBox* box = lines_[which].box;
        connect(box, &PanelBox::typed, this, [this, which] { typed(lines_[which]); });
        connect(box, &PanelBox::done, this, [this, which] { keep(lines_[which]); });
        connect(box, &PanelBox::entered, this, [this, which] { entered(which); });
    }
    add_ = new QPushButton(kind_.add);
    add_->setObjectName("add_record");
    connect(add_, &QPushButton::clicked, this, &RecordPanel::add);
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->setContentsMargins(8, 0, 4, 0);
    layout->addWidget(heading_);
    layout->addLayout(form);
    layout->addWidget(add_, 0, Qt::AlignLeft);
    layout->addStretch(1);
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setMinimumWidth(280);
    area->setFocusPolicy(Qt::NoFocus);
    area->setWidget(side);
    return area;
}

QPushButton* RecordPanel::add_button(const QString& text) {
    auto* button = new QPushButton(text);
    buttons_->insertWidget(buttons_->count() - 1, button);
    button->setEnabled(current_ != 0);
    of_current_.push_back(button);
    return button;
}

void RecordPanel::take(ShopSession* session) {
    session_ = session;
    rows_.clear();
    drafts_.clear();
    current_ = 0;
    refresh();
}

void RecordPanel::refresh() {
    rows_.clear();
    choices_.clear();
    if (session_ != nullptr) {
        const auto rows = rows_of_kind(session_->shop(), kind_.kind, shop_wide);
        if (!rows) {
            emit failed(words::error_text(rows.error()));
            return;
        }
        for (const auto& [id, fields] : *rows) {
            if (!kind_.belongs || kind_.belongs(fields)) rows_.emplace(id, fields);
        }
        for (Line& line : lines_) {
            if (!line.field.choices) continue;
            choices_[line.field.name] = line.field.choices(session_->shop());
            QStringList words;
            for (const auto& [stored, word] : choices_[line.field.name]) words << word;
            line.box->set_choices(words);
        }
    }
    if (current_ != 0 && rows_.count(current_) == 0) {
        drafts_.erase(current_);
        current_ = 0;
    }
    fill_table();
    fill_form();
}

std::string RecordPanel::today() const {
    return session_ == nullptr ? std::string() : shop_day(session_->now()).day;
}

void RecordPanel::fill_table() {
    filling_ = true;
    const std::string day = today();
    table_->setRowCount(static_cast<int>(rows_.size()));
    int row = 0;
    int selected = -1;
    for (const auto& [id, fields] : rows_) {
        int column = 0;
        const auto put = [&](const QString& text) {
            QTableWidgetItem* item = table_->item(row, column);
            if (item == nullptr) {
                item = new QTableWidgetItem;
                table_->setItem(row, column, item);
            }
            item->setText(text.left(longest_in_table));
            item->setToolTip(plain_tip(text.left(longest_in_tip)));
            item->setData(Qt::UserRole, static_cast<qlonglong>(id));
            ++column;
        };
        for (const PanelField& field : kind_.fields) {
            if (field.in_table) put(shown(field, fields).simplified());
        }
        if (kind_.state) put(kind_.state(fields, day));
        if (id == current_) selected = row;
        ++row;
    }
    table_->setCurrentCell(selected, selected < 0 ? -1 : std::max(0, table_->currentColumn()));
    if (selected < 0) table_->clearSelection();
    empty_->setVisible(rows_.empty());
    table_->setVisible(!rows_.empty());
    filling_ = false;
}

void RecordPanel::fill_form() {
    const bool fresh = current_ == 0;
    Drafts& drafts = drafts_[current_];
    for (Line& line : lines_) {
        const auto draft = drafts.find(line.field.name);
        if (draft == drafts.end()) {
            line.box->set_text(shown(line.field, stored()));
            continue;
        }
        // Written meanwhile, by what waited or in another window.
        const auto read_now = read(line.field, draft->second.text);
        if (!fresh && draft->second.trouble.isEmpty() && read_now &&
            *read_now == at(stored(), line.field.name) && !line.box->widget()->hasFocus()) {
            drafts.erase(draft);
            line.box->set_text(shown(line.field, stored()));
            continue;
        }
        line.box->set_text(draft->second.text);
    }
    const QString title = called(stored());
    heading_->setText(fresh || title.isEmpty() ? kind_.fresh : title);
    add_->setVisible(fresh);
    for (QPushButton* button : of_current_) button->setEnabled(!fresh);
    setEnabled(session_ != nullptr);
    show_troubles();
}

void RecordPanel::show_troubles() {
    const Drafts& drafts = drafts_[current_];
    for (Line& line : lines_) {
        const auto draft = drafts.find(line.field.name);
        const QString trouble = draft == drafts.end() ? QString() : draft->second.trouble;
        line.trouble->setText(trouble);
        line.trouble->setVisible(!trouble.isEmpty());
    }
}

bool RecordPanel::go_to(std::int64_t id) {
    if (rows_.count(id) == 0) return false;
    if (id != current_) {
        current_ = id;
        fill_form();
        emit current_changed();
    }
    fill_table();
    return true;
}

void RecordPanel::begin_new() {
    current_ = 0;
    fill_table();
    fill_form();
    emit current_changed();
    lines_.front().box->widget()->setFocus();
}

void RecordPanel::fill(const std::string& field, const QString& text) {
    for (Line& line : lines_) {
        if (line.field.name != field) continue;
        line.box->set_text(text);
        typed(line);
        keep(line);
    }
}

const FieldTexts& RecordPanel::stored() const {
    static const FieldTexts nothing;
    const auto found = rows_.find(current_);
    return found == rows_.end() ? nothing : found->second;
}

QString RecordPanel::shown(const PanelField& field, const FieldTexts& fields) {
    const auto text = at(fields, field.name);
    if (field.choices) {
        for (const auto& [stored, word] : choices_[field.name]) {
            if (stored == text.value_or(std::string())) return word;
        }
    }
    if (!text) return {};
    return field.show ? field.show(*text) : QString::fromStdString(*text);
}

QString RecordPanel::called(const FieldTexts& fields) {
    return shown(kind_.fields.front(), fields).simplified().left(longest_in_table);
}

Result<std::optional<std::string>> RecordPanel::read(const PanelField& field,
                                                     const QString& typed) {
    using Text = std::optional<std::string>;
    const QString text = field.several_lines ? typed.trimmed() : typed.simplified();
    const RecordField* known = find_field(table_of(kind_.kind), field.name);
    RODWAY_ASSERT(known != nullptr);
    if (field.choices) {
        QStringList words;
        for (const auto& [stored, word] : choices_[field.name]) {
            if (word.compare(text, Qt::CaseInsensitive) == 0) {
                return stored.empty() ? Text() : Text(stored);
            }
            words << word;
        }
        if (!text.isEmpty()) {
            return Error{ErrorCode::not_a_choice, {}, text.toStdString(), {}, {}, {}};
        }
    }
    if (text.isEmpty()) {
        if (known->needed) return Error{ErrorCode::empty_text, {}, {}, {}, {}, {}};
        return Text();
    }
    const int most = field.several_lines ? most_in_lines : most_in_a_line;
    if (text.size() > most) {
        const Limits limits{1.0, static_cast<double>(most), {}};
        return Error{
            ErrorCode::out_of_range, {}, std::to_string(text.size()), "characters", {}, limits};
    }
    std::string stored = text.toStdString();
    if (field.read) {
        auto found = field.read(stored, today());
        if (!found) return found.error();
        stored = std::move(found).value();
    }
    if (const auto good = check_text(*known, stored); !good) return good.error();
    return Text(std::move(stored));
}

std::optional<PanelRefusal> RecordPanel::check(FieldTexts& after, std::int64_t id) {
    return kind_.check ? kind_.check(session_->shop(), id, after, rows_, today()) : std::nullopt;
}

void RecordPanel::refuse(const PanelRefusal& refusal) {
    Drafts& drafts = drafts_[current_];
    auto draft = drafts.find(refusal.field);
    if (draft == drafts.end()) {
        draft = drafts.emplace(refusal.field, Draft{}).first;
        draft->second.before = at(stored(), refusal.field);
        for (const Line& line : lines_) {
            if (line.field.name == refusal.field) draft->second.text = line.box->text();
        }
    }
    draft->second.trouble = refusal.why;
    show_troubles();
}

bool RecordPanel::told(const Error& error, const std::string& field) {
    if (is_waiting(error)) return true; // told by its own bar
    Error here = error;
    if (here.field == field) here.field.clear();
    QString why = words::error_text(here);
    if (error.code == ErrorCode::out_of_range && error.expected == "characters") {
        why = tr("At most %1 characters fit here; this has %2.")
                  .arg(static_cast<int>(error.limits->high))
                  .arg(QString::fromStdString(error.value));
    }
    for (const Line& line : lines_) {
        if (line.field.name == field && error.code == ErrorCode::not_an_amount &&
            !line.field.wanted.isEmpty()) {
            why = line.field.wanted;
        }
    }
    refuse({field, why});
    return false;
}

void RecordPanel::typed(Line& line) {
    Drafts& drafts = drafts_[current_];
    auto draft = drafts.find(line.field.name);
    if (draft == drafts.end()) {
        draft = drafts.emplace(line.field.name, Draft{}).first;
        draft->second.before = at(stored(), line.field.name);
    }
    draft->second.text = line.box->text();
    draft->second.trouble.clear();
    line.trouble->hide();
}

void RecordPanel::entered(std::size_t which) {
    if (!keep(lines_[which])) return;
    if (which + 1 < lines_.size()) {
        lines_[which + 1].box->widget()->setFocus();
    } else if (current_ == 0) {
        add();
    } else {
        table_->setFocus();
    }
}

bool RecordPanel::keep(Line& line) {
    Drafts& drafts = drafts_[current_];
    const auto draft = drafts.find(line.field.name);
    if (session_ == nullptr || draft == drafts.end()) return true;
    const bool fresh = current_ == 0;
    if (fresh && draft->second.text.trimmed().isEmpty()) {
        drafts.erase(draft);
        return true;
    }
    const auto text = read(line.field, draft->second.text);
    if (!text) return told(text.error(), line.field.name);
    if (fresh) return true; // kept when it is added
    FieldTexts before = stored();
    set(before, line.field.name, draft->second.before);
    FieldTexts after = before;
    set(after, line.field.name, *text);
    if (const auto refusal = check(after, current_)) {
        refuse({line.field.name, refusal->why});
        return false;
    }
    const std::vector<Edit> edits = edits_between({kind_.kind, current_}, before, after);
    if (edits.empty()) {
        drafts.erase(draft);
        line.box->set_text(shown(line.field, stored()));
        show_troubles();
        return true;
    }
    const QString what = tr("%1 of %2").arg(line.field.label.toLower(), called(before));
    const auto done = session_->act(edits, what);
    if (done) {
        drafts_[current_].erase(line.field.name);
        fill_form();
        emit said(tr("Kept: %1.").arg(what));
        return true;
    }
    // Whoever looks at it and says it again means it.
    drafts_[current_][line.field.name].before = at(stored(), line.field.name);
    return told(done.error(), line.field.name);
}

void RecordPanel::add() {
    if (session_ == nullptr || current_ != 0) return;
    FieldTexts fields{{"exists", "1"}};
    std::optional<std::size_t> wrong;
    for (std::size_t which = 0; which < lines_.size(); ++which) {
        const Line& line = lines_[which];
        const auto text = read(line.field, line.box->text());
        if (text) {
            set(fields, line.field.name, *text);
        } else {
            static_cast<void>(told(text.error(), line.field.name));
            wrong = wrong.value_or(which);
        }
    }
    if (!wrong) {
        if (const auto refusal = check(fields, 0)) {
            refuse(*refusal);
            for (std::size_t which = 0; which < lines_.size(); ++which) {
                if (lines_[which].field.name == refusal->field) wrong = which;
            }
            if (!wrong) emit failed(refusal->why);
            wrong = wrong.value_or(0);
        }
    }
    if (wrong) {
        lines_[*wrong].box->widget()->setFocus();
        return;
    }
    const QString what = called(fields);
    const auto id = session_->create(
        kind_.kind,
        [&](std::int64_t new_id) {
            return edits_between({kind_.kind, new_id}, {}, fields);
        },
        tr("new %1 “%2”").arg(words::record_kind(kind_.kind), what));
    if (!id && !is_waiting(id.error())) {
        emit failed(words::error_text(id.error()));
        return;
    }
    drafts_.erase(0);
    if (id) {
        emit said(tr("Added “%1”.").arg(what));
    }
    begin_new(); // the next one, as a list is typed in
}

void RecordPanel::remove() {
    if (session_ == nullptr || current_ == 0) return;
    const QString what = called(stored());
    const auto edits = edits_to_remove(session_->shop(), {kind_.kind, current_});
    const auto done =
        edits ? session_->act(*edits, tr("removal of “%1”").arg(what)) : Result<Act>(edits.error());
    if (done) {
        emit said(tr("Removed “%1”. Undo brings it back.").arg(what));
    } else if (done.error().code == ErrorCode::changed_since && done.error().field == "exists") {
        emit failed(tr("“%1” stays: %2 refers to it.")
                        .arg(what, QString::fromStdString(done.error().value).replace('_', ' ')));
    } else if (!is_waiting(done.error())) {
        emit failed(words::error_text(done.error()));
    }
}

} // namespace rodway
