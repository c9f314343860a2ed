#include "app/build/job_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

#include "app/build/ask_panel.h"
#include "app/build/word_list_view.h"
#include "app/words/hold_words.h"
#include "app/words/typed_words.h"
#include "app/work/job_acts.h"
#include "app/work/note_acts.h"

namespace rodway {
namespace {

/// One box of the sheet, and where it is kept.
struct JobField {
    const char* field;
    const char* label;
    std::string Build::*needed; ///< one of the two
    std::optional<std::string> Build::*may_be_empty;
    bool lines; ///< more than one
};

constexpr std::array<JobField, 12> job_fields{{
    {"job_number", QT_TRANSLATE_NOOP("rodway::JobPanel", "Job number"), nullptr, &Build::job_number,
     false},
    {"name", QT_TRANSLATE_NOOP("rodway::JobPanel", "Called"), &Build::name, nullptr, false},
    {"engine", QT_TRANSLATE_NOOP("rodway::JobPanel", "Engine"), &Build::engine, nullptr, false},
    {"use", QT_TRANSLATE_NOOP("rodway::JobPanel", "Use"), nullptr, &Build::use, false},
    {"fuel", QT_TRANSLATE_NOOP("rodway::JobPanel", "Fuel"), nullptr, &Build::fuel, false},
    {"speed_range", QT_TRANSLATE_NOOP("rodway::JobPanel", "Speeds"), nullptr, &Build::speed_range,
     false},
    {"target_power", QT_TRANSLATE_NOOP("rodway::JobPanel", "Power wanted"), nullptr,
     &Build::target_power, false},
    {"state", QT_TRANSLATE_NOOP("rodway::JobPanel", "Waits for"), nullptr, &Build::state, false},
    {"scope", QT_TRANSLATE_NOOP("rodway::JobPanel", "Scope: what is done"), nullptr, &Build::scope,
     true},
    {"exclusions", QT_TRANSLATE_NOOP("rodway::JobPanel", "Exclusions: what isn't"), nullptr,
     &Build::exclusions, true},
    {"terms", QT_TRANSLATE_NOOP("rodway::JobPanel", "Terms accepted, by whom and when"), nullptr,
     &Build::terms, true},
    {"note", QT_TRANSLATE_NOOP("rodway::JobPanel", "Remark"), nullptr, &Build::note, true},
}};
constexpr int lines_px = 70;

QString stored(const Build& build, const JobField& field) {
    return field.needed != nullptr ? utf16(build.*field.needed) : utf16(build.*field.may_be_empty);
}

QString typed_in(QWidget* widget) {
    if (const auto* line = qobject_cast<QLineEdit*>(widget)) {
        return line->text();
    }
    return qobject_cast<QPlainTextEdit*>(widget)->toPlainText();
}

void put_into(QWidget* widget, const QString& text) {
    if (auto* line = qobject_cast<QLineEdit*>(widget)) {
        line->setText(text);
        line->setCursorPosition(0);
    } else {
        qobject_cast<QPlainTextEdit*>(widget)->setPlainText(text);
    }
}

QLabel* heading(const QString& words) {
    auto* label = new QLabel(words);
    label->setObjectName("subtitle");
    return label;
}

QLabel* words_label(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(name);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    return label;
}

} // namespace

JobPanel::JobPanel(Clock clock, QWidget* parent)
    : BuildPanel(std::move(clock), parent),
      customer_(new QComboBox),
      trouble_(words_label("trouble")) {
    trouble_->hide();
    boxes_.reserve(job_fields.size());
    auto* content = new QWidget;
    auto* inside = new QVBoxLayout(content);
    inside->setContentsMargins(0, 0, 6, 0);
    inside->addWidget(make_promise());
    inside->addWidget(trouble_);
    inside->addWidget(make_sheet());
    inside->addWidget(make_castings());
    inside->addStretch();
    auto* scroll = new QScrollArea;
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    content->setAutoFillBackground(false); // the page's own ground
    scroll->viewport()->setAutoFillBackground(false);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(scroll);
}

QWidget* JobPanel::make_box(std::size_t field) {
    const JobField& about = job_fields[field];
    QWidget* widget = nullptr;
    if (about.lines) {
        auto* text = new QPlainTextEdit;
        text->setTabChangesFocus(true);
        text->setFixedHeight(lines_px);
        widget = text;
    } else {
        auto* line = new QLineEdit;
        connect(line, &QLineEdit::returnPressed, this,
                [this, at = boxes_.size()] { keep(boxes_[at]); });
        widget = line;
    }
    widget->setObjectName(about.field);
    widget->setAccessibleName(tr(about.label));
    widget->installEventFilter(this);
    boxes_.push_back({field, widget, {}});
    return widget;
}

QWidget* JobPanel::make_sheet() {
    customer_->setEditable(true);
    customer_->setInsertPolicy(QComboBox::NoInsert);
    customer_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    customer_->setObjectName("customer");
    customer_->setAccessibleName(tr("Customer"));
    customer_->lineEdit()->setAccessibleName(tr("Customer"));
    connect(customer_, &QComboBox::activated, this, &JobPanel::keep_customer);
    connect(customer_->lineEdit(), &QLineEdit::editingFinished, this, &JobPanel::keep_customer);
    auto* left = new QFormLayout;
    auto* right = new QVBoxLayout;
    left->addRow(tr("Customer"), customer_);
    for (std::size_t field = 0; field < job_fields.size(); ++field) {
        const QString label = tr(job_fields[field].label);
        QWidget* box = make_box(field);
        if (job_fields[field].lines) {
            auto* over = new QLabel(label);
            over->setBuddy(box);
            right->addWidget(over);
            right->addWidget(box);
        } else {
            left->addRow(label, box);
        }
    }
    auto* sheet = new QWidget;
    auto* columns = new QHBoxLayout(sheet);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->addLayout(left, 1);
    columns->addSpacing(16);
    columns->addLayout(right, 1);
    return sheet;
}

QWidget* JobPanel::make_promise() {
    promised_ = words_label("promised");
    promises_ = words_label("promises");
    move_it_ = new QPushButton(tr("&Give another day…"));
    move_it_->setObjectName("move_promise");
    move_ = new AskPanel(tr("Give the customer another day"), tr("He was told"));
    move_->form().add_line("promised", tr("Promised for"), tr("such as 2027-03-12"));
    move_->form().add_line("reason", tr("Why it had to move"));
    move_->take = [this] { return keep_promise(); };
    auto* row = new QHBoxLayout;
    row->addWidget(promised_, 1);
    row->addWidget(move_it_);
    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addLayout(row);
    layout->addWidget(promises_);
    layout->addWidget(move_);
    connect(move_it_, &QPushButton::clicked, this, [this] { move_->open(); });
    return panel;
}

QWidget* JobPanel::make_castings() {
    castings_ = new WordListView("castings", tr("Casting numbers"));
    casting_ = new TypedForm(TypedForm::Shape::row);
    casting_->add_line("position", tr("Where it stands"), tr("block, left head"), 2);
    casting_->add_line("number", tr("Number"), {}, 2);
    casting_->add_line("date_code", tr("Date code"), tr("may stay empty"), 1);
    auto* add = new QPushButton(tr("A&dd"));
    add->setObjectName("add_casting");
    casting_->add_at_end(add);
    remove_casting_ = new QPushButton(tr("Remo&ve"));
    remove_casting_->setObjectName("remove_casting");
    auto* panel = new QWidget;
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 8, 0, 0);
    layout->addWidget(heading(tr("Casting and stamped numbers")));
    layout->addWidget(castings_);
    layout->addWidget(casting_);
    layout->addWidget(remove_casting_, 0, Qt::AlignLeft);
    connect(add, &QPushButton::clicked, this, &JobPanel::add_casting);
    connect(casting_, &TypedForm::entered, this, &JobPanel::add_casting);
    connect(remove_casting_, &QPushButton::clicked, this, [this] {
        if (castings_->chosen() != 0) {
            told(take_away(*session_, {RecordKind::casting_number, castings_->chosen()},
                           tr("casting number taken away")));
        }
    });
    return panel;
}

void JobPanel::take(ShopSession* session, std::int64_t build_id) {
    if (session == nullptr) {
        keep_all(); // while the session is still there
    }
    BuildPanel::take(session, build_id);
    shown_ = nullptr;
    move_->leave();
    casting_->clear();
    trouble_->hide();
    for (Box& box : boxes_) {
        box.as_shown.clear();
        put_into(box.widget, {});
    }
    customer_shown_.clear();
    customer_->clear();
    customer_->clearEditText(); // a list without entries keeps its words
    castings_->set_rows({});
}

void JobPanel::show_build(const BuildShown& shown, std::int64_t) {
    shown_ = &shown;
    show_boxes();
    show_customer();
    show_promise();
    show_castings();
}

void JobPanel::show_boxes() {
    for (Box& box : boxes_) {
        const QString text = stored(shown_->build, job_fields[box.field]);
        // What is being typed, or was refused, stays.
        if (typed_in(box.widget) == box.as_shown) {
            box.as_shown = text;
            if (typed_in(box.widget) != text) {
                put_into(box.widget, text);
                box.as_shown = typed_in(box.widget);
            }
        }
    }
}

void JobPanel::show_customer() {
    const QSignalBlocker quiet(customer_);
    const bool typing = customer_->currentText() != customer_shown_;
    const QString text = typing ? customer_->currentText() : utf16(shown_->build.customer);
    customer_->clear();
    for (const Customer& one : shown_->customers) {
        if (!one.erased) {
            customer_->addItem(utf16(one.name), static_cast<qlonglong>(one.id));
        }
    }
    customer_->setCurrentIndex(-1);
    customer_->setEditText(text);
    customer_->lineEdit()->setCursorPosition(0);
    if (!typing) {
        customer_shown_ = text;
    }
}

void JobPanel::show_promise() {
    const auto& promised = shown_->build.promised;
    promised_->setText(promised ? tr("Promised for %1").arg(words::day(*promised))
                                : tr("No day was promised yet."));
    move_it_->setText(promised ? tr("&Give another day…") : tr("&Give a day…"));
    QStringList lines;
    for (auto one = shown_->promises.rbegin(); one != shown_->promises.rend(); ++one) {
        const QString told =
            tr("Told on %1: %2").arg(words::day_of(one->told_at), words::day(one->promised));
        lines << (one->reason ? tr("%1, because: %2").arg(told, utf16(one->reason)) : told);
    }
    promises_->setText(lines.join('\n'));
    promises_->setVisible(!lines.isEmpty());
}

void JobPanel::show_castings() {
    std::vector<WordListView::Row> rows;
    for (const CastingNumber& one : shown_->castings) {
        QString text = tr("%1: %2").arg(utf16(one.position), utf16(one.number));
        if (one.date_code) {
            text = tr("%1, date code %2").arg(text, utf16(one.date_code));
        }
        rows.push_back({one.id, text, {}});
    }
    castings_->set_rows(rows);
    castings_->setVisible(!rows.empty());
    castings_->fit_to_rows(180);
    remove_casting_->setVisible(!rows.empty());
}

void JobPanel::refuse(const Error& error, const QString& label) {
    if (!is_waiting(error)) {
        trouble_->setText(words::typed_error(error, label));
        trouble_->show();
    }
}

void JobPanel::keep(Box& box) {
    if (!has_build() || shown_ == nullptr || typed_in(box.widget) == box.as_shown) {
        return;
    }
    const JobField& field = job_fields[box.field];
    Build after = shown_->build;
    const std::string text = typed_in(box.widget).toStdString();
    if (field.needed != nullptr) {
        after.*field.needed = text;
    } else {
        after.*field.may_be_empty = text;
    }
    trouble_->hide();
    const QString before = box.as_shown;
    box.as_shown = typed_in(box.widget); // so that what is kept is shown in the form it is kept in
    const auto done = change_job(*session_, shown_->build, after);
    if (!done) {
        if (!is_waiting(done.error())) {
            box.as_shown = before;
        }
        refuse(done.error(), tr(field.label));
    }
}

void JobPanel::keep_customer() {
    const QString text = customer_->currentText();
    if (!has_build() || shown_ == nullptr || text == customer_shown_) {
        return;
    }
    Build after = shown_->build;
    after.customer = text.toStdString();
    const auto listed = std::find_if(
        shown_->customers.begin(), shown_->customers.end(),
        [&](const Customer& one) { return !one.erased && utf16(one.name) == text.trimmed(); });
    after.customer_id =
        listed == shown_->customers.end() ? std::nullopt : std::optional(listed->id);
    trouble_->hide();
    const QString before = customer_shown_;
    customer_shown_ = text;
    const auto done = change_job(*session_, shown_->build, after);
    if (!done) {
        if (!is_waiting(done.error())) {
            customer_shown_ = before;
        }
        refuse(done.error(), tr("Customer"));
    }
}

void JobPanel::keep_all() {
    for (Box& box : boxes_) {
        keep(box);
    }
    keep_customer();
}

Result<Done> JobPanel::keep_promise() {
    const TypedForm& form = move_->form();
    return move_promise(*session_, shown_->build, form.text("promised"), form.text("reason"));
}

void JobPanel::add_casting() {
    if (!has_build()) {
        return;
    }
    casting_->quiet();
    CastingNumber number;
    number.build_id = build_id_;
    number.position = casting_->text("position");
    number.number = casting_->text("number");
    number.date_code = if_typed(casting_->text("date_code"));
    const auto id = add_casting_number(*session_, number);
    if (!id && !is_waiting(id.error())) {
        casting_->complain(id.error());
        return;
    }
    casting_->clear();
    casting_->focus_first();
}

bool JobPanel::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::FocusOut) {
        for (Box& box : boxes_) {
            if (box.widget == watched) {
                keep(box);
            }
        }
    }
    return BuildPanel::eventFilter(watched, event);
}

} // namespace rodway
