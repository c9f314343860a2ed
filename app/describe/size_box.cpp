#include "app/describe/size_box.h"

#include <QEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include "app/words/typed_words.h"

namespace rodway {

SizeBox::SizeBox(const QString& name, bool small, Keep keep, QWidget* parent)
    : QWidget(parent),
      name_(name),
      keep_(std::move(keep)),
      edit_(new QLineEdit),
      sign_(new QLabel),
      stand_(new QLabel),
      trouble_(new QLabel),
      small_(small) {
    edit_->setAccessibleName(name);
    edit_->setMinimumWidth(small ? 74 : 100);
    edit_->installEventFilter(this);
    sign_->setMinimumWidth(14);
    stand_->setObjectName("small");
    stand_->setWordWrap(true);
    stand_->setVisible(!small);
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    trouble_->hide();
    auto* row = new QHBoxLayout;
    row->setSpacing(4);
    row->addWidget(edit_, 1);
    row->addWidget(sign_);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 2);
    layout->setSpacing(1);
    layout->addLayout(row);
    layout->addWidget(stand_);
    layout->addWidget(trouble_);
    connect(edit_, &QLineEdit::returnPressed, this, [this] {
        if (keep_typed()) {
            emit done();
        }
    });
}

bool SizeBox::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::FocusIn) {
        emit focused();
    } else if (event->type() == QEvent::FocusOut) {
        keep_typed();
    } else if (event->type() == QEvent::KeyPress &&
               static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        trouble_->hide();
        edit_->setText(kept_);
    }
    return QWidget::eventFilter(watched, event);
}

bool SizeBox::keep_typed() {
    QString text = edit_->text().trimmed();
    if (text.compare(tr("same"), Qt::CaseInsensitive) == 0 || text == "\"") {
        text = same_ ? same_() : QString();
        if (text.isEmpty()) {
            refuse(tr("There is nothing beside it that this could be the same as."));
            return false;
        }
    }
    if (text == kept_) {
        trouble_->hide();
        edit_->setText(kept_);
        return true;
    }
    edit_->setModified(false); // what is kept now may be shown while it is being kept
    const auto kept = keep_(text.toStdString());
    if (!kept) {
        edit_->setModified(true);
        refuse(words::typed_error(kept.error(), QString()));
        return false;
    }
    trouble_->hide();
    kept_ = text;
    edit_->setText(text);
    return true;
}

void SizeBox::refuse(const QString& why) {
    trouble_->setText(why);
    trouble_->show();
    edit_->setAccessibleDescription(why);
}

QString SizeBox::trouble() const {
    return trouble_->isHidden() ? QString() : trouble_->text();
}

void SizeBox::show_kept(const QString& text, const QString& sign, const QString& stand) {
    sign_->setText(sign);
    sign_->setToolTip(stand);
    stand_->setText(stand);
    edit_->setToolTip(tr("%1: %2").arg(name_, stand));
    const bool being_typed = edit_->hasFocus() && edit_->isModified();
    kept_ = text;
    if (trouble_->isHidden() && !being_typed) {
        edit_->setText(text);
        edit_->setAccessibleDescription(stand);
    }
}

} // namespace rodway
