#include "app/build/ask_panel.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/edit_stack/shop_session.h"

namespace rodway {

AskPanel::AskPanel(const QString& title, const QString& take_text, QWidget* parent)
    : QFrame(parent),
      about_(new QLabel),
      form_(new TypedForm(TypedForm::Shape::columns)),
      take_button_(new QPushButton(take_text)),
      leave_button_(new QPushButton(tr("Leave"))) {
    setObjectName("ask");
    setAccessibleName(title);
    auto* heading = new QLabel(title);
    heading->setObjectName("subtitle");
    about_->setWordWrap(true);
    about_->setTextFormat(Qt::PlainText);
    form_->new_column({});
    auto* buttons = new QHBoxLayout;
    buttons->addStretch();
    buttons->addWidget(take_button_);
    buttons->addWidget(leave_button_);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(heading);
    layout->addWidget(about_);
    layout->addWidget(form_);
    layout->addLayout(buttons);
    hide();
    connect(form_, &TypedForm::entered, this, &AskPanel::take_typed);
    connect(take_button_, &QPushButton::clicked, this, &AskPanel::take_typed);
    connect(leave_button_, &QPushButton::clicked, this, &AskPanel::leave);
}

void AskPanel::open(const QString& about) {
    about_->setText(about);
    about_->setVisible(!about.isEmpty());
    form_->clear();
    emit opened();
    show();
    form_->focus_first();
}

void AskPanel::set_take_text(const QString& text) {
    take_button_->setText(text);
}

void AskPanel::take_typed() {
    form_->quiet();
    const auto done = take();
    if (!done && !is_waiting(done.error())) {
        form_->complain(done.error());
        return;
    }
    leave();
}

void AskPanel::leave() {
    if (isHidden()) {
        return;
    }
    hide();
    form_->clear();
    emit closed();
}

void AskPanel::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        leave();
        return;
    }
    QFrame::keyPressEvent(event);
}

} // namespace rodway
