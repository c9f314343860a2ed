#include "app/valvetrain/panel_chooser.h"

#include <QButtonGroup>
#include <QGridLayout>
#include <QScrollArea>
#include <QSettings>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/widgets/choice_button.h"

namespace rodway {
namespace {

constexpr int buttons_in_a_row = 4;

} // namespace

PanelChooser::PanelChooser(QWidget* parent)
    : QWidget(parent),
      grid_(new QGridLayout),
      buttons_(new QButtonGroup(this)),
      stack_(new QStackedWidget) {
    grid_->setSpacing(2);
    grid_->setContentsMargins(0, 0, 0, 0);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(4, 0, 0, 0);
    layout->addLayout(grid_);
    layout->addWidget(stack_, 1);
    connect(buttons_, &QButtonGroup::idClicked, this, &PanelChooser::chosen);
}

void PanelChooser::add(const char* word, const QString& name, QWidget* panel) {
    auto* button = new ChoiceButton(name);
    button->setObjectName("panel_button");
    button->setAccessibleName(tr("Panel: %1").arg(QString(name).remove('&')));
    button->setFocusPolicy(Qt::StrongFocus);
    button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    button->setMinimumHeight(28);
    const int at = static_cast<int>(words_.size());
    buttons_->addButton(button, at);
    grid_->addWidget(button, at / buttons_in_a_row, at % buttons_in_a_row);
    auto* scroll = new QScrollArea;
    scroll->setWidget(panel);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    stack_->addWidget(scroll);
    words_.emplace_back(word);
    button->setChecked(at == stack_->currentIndex());
}

void PanelChooser::set_who(const QString& who) {
    who_ = who;
    show_panel(QSettings().value(key(), words_.front()).toString());
}

void PanelChooser::show_panel(const QString& word) {
    const auto found = std::find(words_.begin(), words_.end(), word);
    const int at = found == words_.end() ? 0 : static_cast<int>(found - words_.begin());
    buttons_->button(at)->setChecked(true);
    stack_->setCurrentIndex(at);
}

QString PanelChooser::shown() const {
    return words_[static_cast<std::size_t>(stack_->currentIndex())];
}

void PanelChooser::chosen(int at) {
    stack_->setCurrentIndex(at);
    QSettings().setValue(key(), words_[static_cast<std::size_t>(at)]);
}

QString PanelChooser::key() const {
    // A person's initials may hold a slash, which would be a group of the settings.
    return "valvetrain/panel/" + QString::fromLatin1(who_.toUtf8().toHex());
}

} // namespace rodway
