#include <QComboBox>
#include <QCompleter>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>

#include "app/shop/record_panel.h"

namespace rodway {
namespace {

/// A list that is longer is searched by typing.
constexpr int most_to_see_at_once = 12;
constexpr int lines_shown = 3;

QWidget* make_widget(const PanelField& field, QWidget* parent) {
    if (field.choices) {
        auto* box = new QComboBox(parent);
        box->setFocusPolicy(Qt::StrongFocus);
        box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
        box->setMinimumContentsLength(16);
        return box;
    }
    if (!field.several_lines) {
        auto* box = new QLineEdit(parent);
        box->setPlaceholderText(field.hint);
        return box;
    }
    auto* box = new QPlainTextEdit(parent);
    box->setTabChangesFocus(true);
    box->setPlaceholderText(field.hint);
    box->setFixedHeight(box->fontMetrics().lineSpacing() * lines_shown + 12);
    return box;
}

} // namespace

PanelBox::PanelBox(const PanelField& field, QWidget* parent)
    : QObject(parent), widget_(make_widget(field, parent)) {
    widget_->setObjectName("field_" + QString::fromStdString(field.name));
    widget_->setAccessibleName(field.label);
    if (!field.hint.isEmpty()) {
        widget_->setAccessibleDescription(field.hint);
    }
    widget_->installEventFilter(this);
    const auto changed = [this] {
        if (!setting_) emit typed();
    };
    if (auto* line = qobject_cast<QLineEdit*>(widget_)) {
        connect(line, &QLineEdit::textChanged, this, changed);
    } else if (auto* text = qobject_cast<QPlainTextEdit*>(widget_)) {
        connect(text, &QPlainTextEdit::textChanged, this, changed);
    } else if (auto* list = qobject_cast<QComboBox*>(widget_)) {
        connect(list, &QComboBox::currentTextChanged, this, changed);
        connect(list, &QComboBox::activated, this, &PanelBox::done);
    }
}

QString PanelBox::text() const {
    if (const auto* line = qobject_cast<QLineEdit*>(widget_)) return line->text();
    if (const auto* text = qobject_cast<QPlainTextEdit*>(widget_)) return text->toPlainText();
    return static_cast<QComboBox*>(widget_)->currentText();
}

void PanelBox::set_text(const QString& text) {
    if (text == this->text()) {
        return; // the cursor stays where it is
    }
    setting_ = true;
    if (auto* line = qobject_cast<QLineEdit*>(widget_)) {
        line->setText(text);
    } else if (auto* lines = qobject_cast<QPlainTextEdit*>(widget_)) {
        lines->setPlainText(text);
    } else {
        auto* list = static_cast<QComboBox*>(widget_);
        list->setCurrentIndex(list->findText(text));
        if (list->isEditable()) list->setEditText(text);
    }
    setting_ = false;
}

void PanelBox::set_choices(const QStringList& words) {
    auto* list = qobject_cast<QComboBox*>(widget_);
    QStringList there;
    for (int row = 0; row < list->count(); ++row) there << list->itemText(row);
    if (there == words) return;
    setting_ = true;
    const QString text = list->currentText();
    list->clear();
    list->addItems(words);
    list->setEditable(words.size() > most_to_see_at_once);
    if (list->isEditable()) {
        list->setInsertPolicy(QComboBox::NoInsert);
        list->completer()->setCompletionMode(QCompleter::PopupCompletion);
        list->completer()->setFilterMode(Qt::MatchContains);
        list->lineEdit()->setPlaceholderText(tr("type part of its name"));
        list->lineEdit()->setAccessibleName(list->accessibleName());
        list->lineEdit()->installEventFilter(this);
    }
    list->setCurrentIndex(list->findText(text));
    if (list->isEditable()) list->setEditText(text);
    setting_ = false;
}

bool PanelBox::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
        // In a box of several lines Enter is a new line.
        const bool goes_on =
            qobject_cast<QPlainTextEdit*>(widget_) == nullptr || key->modifiers() != Qt::NoModifier;
        if (enter && goes_on) {
            emit entered();
            return true;
        }
    }
    if (event->type() == QEvent::Wheel && !widget_->hasFocus()) {
        event->ignore(); // scrolling past a list must not choose from it
        return qobject_cast<QComboBox*>(widget_) != nullptr;
    }
    if (event->type() == QEvent::FocusOut) {
        const auto why = static_cast<QFocusEvent*>(event)->reason();
        if (why != Qt::PopupFocusReason && why != Qt::ActiveWindowFocusReason) emit done();
    }
    return QObject::eventFilter(watched, event);
}

} // namespace rodway
