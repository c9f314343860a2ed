#include "app/window/who_box.h"

#include <QAbstractItemView>
#include <QStyleOptionComboBox>
#include <QStylePainter>
#include <QWheelEvent>
#include <algorithm>

#include "app/work/shop_day.h"
#include "db/build_records.h"

namespace rodway {
namespace {

constexpr int initials_role = Qt::UserRole;
constexpr int command_role = Qt::UserRole + 1;
enum Command { none, other, people };
constexpr int popup_width = 260;

} // namespace

WhoBox::WhoBox(QWidget* parent) : QComboBox(parent) {
    setObjectName("who");
    setAccessibleName(tr("Who is working"));
    setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    setMinimumContentsLength(3);
    setMinimumHeight(36);
    view()->setMinimumWidth(popup_width);
    connect(this, &QComboBox::activated, this, &WhoBox::take);
    show_people(nullptr);
}

void WhoBox::show_people(ShopSession* session) {
    const QSignalBlocker quiet(this);
    clear();
    setEnabled(session != nullptr);
    who_.clear();
    if (session == nullptr) return;
    who_ = session->who();
    const std::string today = shop_day(session->now()).day;
    if (const auto all = load_records<Person>(session->shop(), shop_wide)) {
        for (const Person& person : *all) {
            if (person.left && *person.left < today) continue;
            const QString name = QString::fromStdString(person.name);
            const QString initials = QString::fromStdString(person.initials.value_or(person.name));
            addItem(initials == name ? name : tr("%1  %2").arg(initials, name), initials);
        }
    }
    int in_hand = findData(who_, initials_role);
    if (in_hand < 0) {
        insertItem(0, who_, who_);
        in_hand = 0;
    }
    insertSeparator(count());
    addItem(tr("Other initials…"));
    setItemData(count() - 1, other, command_role);
    addItem(tr("People of the shop…"));
    setItemData(count() - 1, people, command_role);
    setCurrentIndex(in_hand);
    setToolTip(tr("Who is working: %1 (F2)").arg(itemText(in_hand)));
}

void WhoBox::take(int row) {
    const int command = itemData(row, command_role).toInt();
    if (command != none) {
        setCurrentIndex(findData(who_, initials_role));
        if (command == other) {
            emit other_wanted();
        } else {
            emit people_wanted();
        }
        return;
    }
    if (const QString who = itemData(row, initials_role).toString(); who != who_) {
        emit chosen(who);
    }
}

/// A name too long for the box ends in dots, and not in half a letter.
void WhoBox::paintEvent(QPaintEvent*) {
    QStylePainter painter(this);
    QStyleOptionComboBox option;
    initStyleOption(&option);
    const QRect room =
        style()->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, this);
    constexpr int inset_px = 2; // on both sides, as styles draw it
    option.currentText =
        fontMetrics().elidedText(option.currentText, Qt::ElideRight, room.width() - 2 * inset_px);
    painter.drawComplexControl(QStyle::CC_ComboBox, option);
    painter.drawControl(QStyle::CE_ComboBoxLabel, option);
}

/// A turn of the wheel on the way elsewhere must not change whose the edits are.
void WhoBox::wheelEvent(QWheelEvent* event) {
    event->ignore();
}

} // namespace rodway
