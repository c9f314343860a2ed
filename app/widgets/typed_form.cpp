#include "app/widgets/typed_form.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCompleter>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>

#include "app/words/typed_words.h"
#include "core/base/assert.h"

namespace rodway {
namespace {

constexpr int narrowest_px = 60; ///< long choices mustn't make a form wider than the window

QLabel* heading(const QString& text) {
    auto* label = new QLabel(text);
    label->setObjectName("subtitle");
    return label;
}

} // namespace

TypedForm::TypedForm(Shape shape, QWidget* parent)
    : QWidget(parent),
      shape_(shape),
      across_(new QHBoxLayout),
      ends_(new QHBoxLayout),
      trouble_(new QLabel) {
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    trouble_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    trouble_->hide();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    auto* whole = new QHBoxLayout;
    whole->addLayout(across_, 1);
    whole->addLayout(ends_);
    layout->addLayout(whole);
    layout->addWidget(trouble_);
}

void TypedForm::new_column(const QString& title) {
    RODWAY_ASSERT(shape_ == Shape::columns);
    if (column_ != nullptr) {
        across_->addSpacing(16);
    }
    column_ = new QFormLayout;
    column_->setVerticalSpacing(4);
    column_->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    across_->addLayout(column_, 1);
    if (!title.isEmpty()) {
        new_group(title);
    }
}

void TypedForm::new_group(const QString& title) {
    column_->addRow(heading(title));
}

void TypedForm::put(const char* field, const QString& label, QWidget* widget, int share) {
    widget->setAccessibleName(label);
    widget->setObjectName(field);
    widget->setMinimumWidth(narrowest_px);
    boxes_.push_back({field, label, widget});
    if (shape_ == Shape::columns) {
        column_->addRow(label, widget);
        return;
    }
    auto* over = new QVBoxLayout;
    auto* name = new QLabel(label);
    name->setBuddy(widget);
    over->setSpacing(2);
    over->addWidget(name);
    over->addWidget(widget);
    across_->addLayout(over, share);
}

QLineEdit* TypedForm::add_line(const char* field, const QString& label, const QString& hint,
                               int share) {
    auto* edit = new QLineEdit;
    edit->setPlaceholderText(hint);
    put(field, label, edit, share);
    connect(edit, &QLineEdit::returnPressed, this, &TypedForm::entered);
    return edit;
}

QComboBox* TypedForm::add_choice(const char* field, const QString& label, const Choices& choices,
                                 int share) {
    auto* box = new QComboBox;
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    put(field, label, box, share);
    offer(field, choices);
    return box;
}

QComboBox* TypedForm::add_words(const char* field, const QString& label, const QStringList& offered,
                                int share) {
    auto* box = new QComboBox;
    box->setEditable(true);
    box->setInsertPolicy(QComboBox::NoInsert);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    // What is typed stays what it is: nothing is completed by itself.
    box->completer()->setCompletionMode(QCompleter::PopupCompletion);
    put(field, label, box, share);
    box->lineEdit()->setAccessibleName(label);
    box->addItems(offered);
    box->setCurrentIndex(-1);
    connect(box->lineEdit(), &QLineEdit::returnPressed, this, &TypedForm::entered);
    return box;
}

QCheckBox* TypedForm::add_flag(const char* field, const QString& label) {
    auto* box = new QCheckBox(label);
    box->setObjectName(field);
    box->setAccessibleName(label);
    boxes_.push_back({field, label, box});
    if (shape_ == Shape::columns) {
        column_->addRow(QString(), box);
    } else {
        across_->addWidget(box);
    }
    return box;
}

void TypedForm::add_at_end(QWidget* widget) {
    ends_->addWidget(widget, 0, Qt::AlignBottom);
}

const TypedForm::Box* TypedForm::find(const std::string& field) const {
    const auto found = std::find_if(boxes_.begin(), boxes_.end(),
                                    [&](const Box& box) { return box.field == field; });
    return found == boxes_.end() ? nullptr : &*found;
}

std::string TypedForm::text(const std::string& field) const {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr);
    if (const auto* edit = qobject_cast<const QLineEdit*>(box->widget)) {
        return edit->text().toStdString();
    }
    const auto* words = qobject_cast<const QComboBox*>(box->widget);
    RODWAY_ASSERT(words != nullptr);
    return words->currentText().toStdString();
}

QVariant TypedForm::data(const std::string& field) const {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr);
    return qobject_cast<const QComboBox*>(box->widget)->currentData();
}

bool TypedForm::flag(const std::string& field) const {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr);
    return qobject_cast<const QCheckBox*>(box->widget)->isChecked();
}

void TypedForm::set_text(const std::string& field, const QString& text) {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr);
    if (auto* edit = qobject_cast<QLineEdit*>(box->widget)) {
        edit->setText(text);
        edit->setCursorPosition(0);
    } else if (auto* words = qobject_cast<QComboBox*>(box->widget)) {
        words->setEditText(text);
    }
}

void TypedForm::set_data(const std::string& field, const QVariant& data) {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr);
    auto* choice = qobject_cast<QComboBox*>(box->widget);
    choice->setCurrentIndex(std::max(0, choice->findData(data)));
}

void TypedForm::set_flag(const std::string& field, bool on) {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr);
    qobject_cast<QCheckBox*>(box->widget)->setChecked(on);
}

void TypedForm::offer(const std::string& field, const Choices& choices) {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr);
    auto* choice = qobject_cast<QComboBox*>(box->widget);
    const QString typed = choice->currentText();
    const QVariant chosen = choice->currentData();
    choice->clear();
    for (const auto& [text, value] : choices) {
        choice->addItem(text, value);
        choice->setItemData(choice->count() - 1, text, Qt::ToolTipRole);
    }
    if (choice->isEditable()) {
        choice->setCurrentIndex(-1);
        choice->setEditText(typed);
    } else {
        choice->setCurrentIndex(std::max(0, choice->findData(chosen)));
    }
}

void TypedForm::set_shown(const std::string& field, bool shown) {
    const Box* box = find(field);
    RODWAY_ASSERT(box != nullptr && shape_ == Shape::columns);
    for (int at = 0; at < across_->count(); ++at) {
        auto* column = qobject_cast<QFormLayout*>(across_->itemAt(at)->layout());
        if (column != nullptr && column->indexOf(box->widget) >= 0) {
            column->setRowVisible(box->widget, shown);
        }
    }
}

void TypedForm::clear() {
    for (const Box& box : boxes_) {
        if (auto* edit = qobject_cast<QLineEdit*>(box.widget)) {
            edit->clear();
        } else if (auto* flag = qobject_cast<QCheckBox*>(box.widget)) {
            flag->setChecked(false);
        } else if (auto* choice = qobject_cast<QComboBox*>(box.widget)) {
            choice->setCurrentIndex(choice->isEditable() ? -1 : 0);
            if (choice->isEditable()) {
                choice->clearEditText();
            }
        }
    }
    quiet();
}

void TypedForm::focus_first() {
    if (!boxes_.empty()) {
        boxes_.front().widget->setFocus();
    }
}

void TypedForm::complain(const Error& error) {
    const Box* box = find(error.field);
    trouble_->setText(words::typed_error(
        error, box != nullptr ? box->label : QString::fromStdString(error.field)));
    trouble_->show();
    if (box != nullptr) {
        box->widget->setFocus();
    }
}

void TypedForm::quiet() {
    trouble_->hide();
    trouble_->clear();
}

QString TypedForm::trouble() const {
    return trouble_->text();
}

} // namespace rodway
