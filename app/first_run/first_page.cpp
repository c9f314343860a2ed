#include "app/first_run/first_page.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace rodway {

FirstPage::FirstPage(QWidget* parent) : QWidget(parent) {
    auto* layout = new QVBoxLayout(this);
    auto* title = new QLabel(tr("Rodway"));
    title->setObjectName("title");
    auto* what =
        new QLabel(tr("A shop file holds your builds: stages and ticks, readings, set-ups and "
                      "photos. Everything you do "
                      "is kept at once; nothing asks to be saved."));
    what->setWordWrap(true);
    auto* open = new QPushButton(tr("Open a shop file…"));
    auto* fresh = new QPushButton(tr("Begin a new shop file…"));
    auto* demo = new QPushButton(tr("Look round in a demo shop…"));
    layout->addStretch();
    for (QWidget* widget :
         {static_cast<QWidget*>(title), static_cast<QWidget*>(what), static_cast<QWidget*>(open),
          static_cast<QWidget*>(fresh), static_cast<QWidget*>(demo)}) {
        widget->setMaximumWidth(520);
        layout->addWidget(widget);
    }
    layout->addStretch();
    layout->setAlignment(Qt::AlignHCenter);
    connect(open, &QPushButton::clicked, this, &FirstPage::open_wanted);
    connect(fresh, &QPushButton::clicked, this, [this] { emit new_wanted(false); });
    connect(demo, &QPushButton::clicked, this, [this] { emit new_wanted(true); });
}

} // namespace rodway
