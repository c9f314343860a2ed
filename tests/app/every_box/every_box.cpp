#include "tests/app/every_box/every_box.h"

#include <QAbstractItemView>
#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QDialog>
#include <QDir>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMenuBar>
#include <QPushButton>
#include <QSettings>
#include <QTabBar>
#include <QTest>
#include <QToolButton>
#include <algorithm>

#include "app/build/build_page.h"
#include "app/shop/record_panel.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/widgets/typed_form.h"
#include "db/history.h"
#include "tests/app/every_box/meant.h"
#include "tests/app/window/place_test.h"

namespace rodway::tests {
namespace {

constexpr int patience_ms = 20000;
constexpr int answer_ms = 500; ///< of what a file is read for
constexpr int most_rounds = 2000;
constexpr int texts_by_cell = 1; ///< a sheet has hundreds of boxes: together they get all texts
constexpr auto pressed_mark = "pressed";
const QString ellipsis = QStringLiteral("…");

const std::set<QString> lists_that_lead = {"shop_sections", "describe_steps", "sheet_kinds"};

bool is_usable(const QWidget& widget) {
    return widget.isVisible() && widget.isEnabled();
}

QString plain(QString words) {
    return words.remove('&').replace('\n', ' ');
}

/// Places make some of their boxes anew when they show something else.
QString known_by(const QWidget& widget) {
    return QString("%1 “%2”").arg(name_of_box(widget), widget.objectName());
}

/// As records keep a line: blanks at its ends and doubled ones count for nothing.
QString squeezed(const QString& text) {
    return QString::fromStdString(text.toStdString()).simplified();
}

} // namespace

void EveryBox::SetUp() {
    ASSERT_TRUE(folder_.isValid());
    // A file's name typed into a box is one of this folder.
    was_in_ = QDir::currentPath();
    ASSERT_TRUE(QDir::setCurrent(folder_.path()));
    QSettings().clear();
    window_ = std::make_unique<MainWindow>();
    window_->resize(1920, 1080);
    window_->show();
    ASSERT_TRUE(window_->make_shop(folder_.filePath("shop.rodway"), true));
    ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
    connect_watch();
}

void EveryBox::open(std::int64_t build_id) {
    build_id_ = build_id;
    window_->open_build(build_id);
    settle();
}

void EveryBox::TearDown() {
    watch_.stop();
    window_.reset();
    QDir::setCurrent(was_in_);
}

void EveryBox::connect_watch() {
    watch_.setInterval(10);
    QObject::connect(&watch_, &QTimer::timeout, window_.get(), [this] { put_away_surprises(); });
    watch_.start();
}

/// A dialog that nobody asked for says something too; it is left without an answer.
void EveryBox::put_away_surprises() {
    if (QWidget* popup = QApplication::activePopupWidget()) {
        popup->close();
    }
    QWidget* modal = QApplication::activeModalWidget();
    if (modal == nullptr || modal == expected_ || opening_) {
        return;
    }
    surprise_ += modal->windowTitle() + ' ' + words_in_view(*modal).join(' ') + ' ';
    if (auto* dialog = qobject_cast<QDialog*>(modal)) {
        dialog->reject();
    } else {
        modal->close();
    }
}

void EveryBox::settle() {
    for (int i = 0; i < 3; ++i) {
        QCoreApplication::processEvents();
    }
    while (QWidget* popup = QApplication::activePopupWidget()) {
        popup->close();
        QCoreApplication::processEvents();
    }
}

/// Of every list the first row, so that what is done to one can be done.
void EveryBox::choose_first_rows() {
    for (auto* view : window_->findChildren<QAbstractItemView*>()) {
        const QAbstractItemModel* model = view->model();
        if (!view->isVisible() || model == nullptr || view->currentIndex().isValid()) {
            continue;
        }
        // A heading in a list isn't chosen.
        for (int row = 0; row < model->rowCount(); ++row) {
            if (model->flags(model->index(row, 0)).testFlag(Qt::ItemIsSelectable)) {
                view->setCurrentIndex(model->index(row, 0));
                break;
            }
        }
    }
    settle();
}

/// A build that was begun is the open one, though it was taken back.
void EveryBox::come_back() {
    if (place_ != nullptr && window_->place_in_front() != page_) {
        window_->open_build(build_id_);
        place_->click();
        settle();
    }
}

void EveryBox::walk_window(const QStringList& places) {
    for (QToolButton* place : window_->findChildren<QToolButton*>("place")) {
        if (!place->isEnabled() || (!places.isEmpty() && !places.contains(plain(place->text())))) {
            continue;
        }
        place->click();
        settle();
        place_ = place;
        page_ = window_->place_in_front();
        ASSERT_TRUE(
            QTest::qWaitFor([&] { return !window_->valvetrain().model().busy(); }, patience_ms));
        const QString where = plain(place->text());
        visit_with_tabs(where);
        for (auto* list : window_->findChildren<QListWidget*>()) {
            for (int row = 0; lists_that_lead.contains(list->objectName()) && list->isVisible() &&
                              row < list->count();
                 ++row) {
                list->setCurrentRow(row);
                settle();
                visit_with_tabs(where + ", " + list->item(row)->text().section('\n', 0, 0));
            }
        }
        for (auto* panel : window_->findChildren<QToolButton*>("panel_button")) {
            if (panel->isVisible()) {
                panel->click();
                settle();
                visit_with_tabs(where + ", " + plain(panel->text()));
            }
        }
        EXPECT_EQ(never_reached(*page_).join("; ").toStdString(), "") << where.toStdString();
    }
}

void EveryBox::visit_with_tabs(const QString& where) {
    visit(where);
    for (QTabBar* tabs : window_->findChildren<QTabBar*>()) {
        for (int tab = 0; tabs->isVisible() && tab < tabs->count(); ++tab) {
            tabs->setCurrentIndex(tab);
            settle();
            visit(where + ", " + plain(tabs->tabText(tab)));
        }
    }
}

void EveryBox::visit(const QString& where) {
    choose_first_rows();
    visit_boxes(*window_, where);
    visit_openers(where);
}

void EveryBox::visit_boxes(QWidget& root, const QString& where) {
    std::vector<std::pair<Box, QPointer<QWidget>>> boxes;
    for (const Box& box : boxes_in(root)) {
        boxes.emplace_back(box, box.widget);
    }
    const QStringList texts = awkward_texts();
    for (const auto& [box, widget] : boxes) {
        const bool cell = box.row >= 0;
        const QString what = where + ": " + box.name;
        const QString key = QString("%1 %2").arg(quintptr(box.widget)).arg(cell ? box.name : "");
        if (!widget || !widget->isVisible() || tried_.contains(key)) {
            continue;
        }
        tried_.insert(key);
        reached_.insert(known_by(*widget));
        const int first = cell ? static_cast<int>(tried_.size()) * texts_by_cell : 0;
        const int count = cell ? texts_by_cell : static_cast<int>(texts.size());
        const QStringList quiet = words_in_view(*window_);
        for (int i = 0; i < count && widget && widget->isVisible(); ++i) {
            attempt(box, texts[(first + i) % texts.size()], quiet, what);
        }
    }
}

/// What stands beside boxes that were refused.
QString troubles_in(const QWidget& root) {
    QStringList all;
    for (const auto* label : root.findChildren<QLabel*>()) {
        if (label->isVisible() &&
            (label->objectName().startsWith("trouble") || label->property("trouble").toBool())) {
            all << label->text();
        }
    }
    return all.join(" | ");
}

bool takes_several(QWidget* widget) {
    return qobject_cast<TypedForm*>(widget) != nullptr ||
           qobject_cast<QDialog*>(widget) != nullptr ||
           qobject_cast<RecordPanel*>(widget) != nullptr;
}

/// The form that a box belongs to: what is taken with it.
QWidget* form_of(const Box& box) {
    QWidget* form = box.widget->parentWidget();
    while (qobject_cast<QComboBox*>(form) != nullptr ||
           qobject_cast<QAbstractSpinBox*>(form) != nullptr) {
        form = form->parentWidget();
    }
    for (QWidget* outer = form; outer != nullptr; outer = outer->parentWidget()) {
        if (takes_several(outer)) {
            return outer;
        }
    }
    return form;
}

void EveryBox::fill_beside(const Box& box) {
    if (box.row >= 0) {
        return;
    }
    QWidget* form = form_of(box);
    const bool is_form = takes_several(form);
    for (auto* line : form->findChildren<QLineEdit*>()) {
        if (!is_form && !line->objectName().startsWith("gap_") &&
            !line->objectName().startsWith("limit_")) {
            continue; // each box is kept by itself
        }
        auto* list = qobject_cast<QComboBox*>(line->parentWidget());
        QString text = plausible(list != nullptr ? list->objectName() : line->objectName());
        text = text.isEmpty() ? plausible(name_of_box(*line)) : text;
        if (line != box.widget && line->text().isEmpty() && !text.isEmpty()) {
            line->setText(text);
        }
    }
}

/// Where Enter takes nothing, the form's own buttons do.
void EveryBox::press_beside(const Box& box) {
    static const QStringList others = {"Remove", "Leave",    "Cancel", "Close",
                                       "New",    "Take the", "Undo"};
    QWidget* form = box.row < 0 ? form_of(box) : nullptr;
    for (int level = 0; form != nullptr && !form->isWindow() && level < 4;
         ++level, form = form->parentWidget()) {
        for (auto* button : form->findChildren<QPushButton*>()) {
            const QString name = plain(button->text());
            const bool takes =
                !name.endsWith(ellipsis) &&
                std::none_of(others.begin(), others.end(),
                             [&](const QString& other) { return name.startsWith(other); });
            if (takes && is_usable(*button)) {
                button->click();
                settle();
                return;
            }
        }
    }
}

void EveryBox::attempt(const Box& box, const QString& text, const QStringList& quiet,
                       const QString& what) {
    ++attempts_;
    surprise_.clear();
    if (QWidget* window = box.widget->window(); !window->isActiveWindow()) {
        QApplication::setActiveWindow(window); // what is kept as one leaves it needs the keyboard
        settle();
    }
    fill_beside(box);
    const QPointer<QWidget> widget = box.widget;
    const auto* line = qobject_cast<const QLineEdit*>(box.widget);
    const QString stood = line != nullptr ? line->text() : QString();
    const auto newest = last_act(session().shop());
    ASSERT_TRUE(newest.ok());
    const QString typed = put_in(box, text);
    settle();
    const auto answered = [&] {
        QWidget* modal = QApplication::activeModalWidget();
        return !surprise_.isEmpty() || words_in_view(modal != nullptr ? *modal : *window_) != quiet;
    };
    const auto nothing_yet = [&] {
        return widget && widget->isVisible() && *last_act(session().shop()) == *newest &&
               !answered();
    };
    if (nothing_yet()) {
        press_beside(box);
    }
    if (nothing_yet() && !typed.trimmed().isEmpty() && !may_be_silent(what)) {
        static_cast<void>(QTest::qWaitFor([&] { return !nothing_yet(); }, answer_ms));
    }
    // A box that counts lets no letter in: there is nothing to answer.
    const bool counts = qobject_cast<QAbstractSpinBox*>(box.widget->parentWidget()) != nullptr;
    judge(typed, *newest, counts || answered(), what);
    if (widget && line != nullptr) {
        qobject_cast<QLineEdit*>(widget.data())->setText(stood);
    }
}

/// Whatever was stored must be words where words are meant, and exactly those that were typed; what
/// wasn't stored must have been answered.
void EveryBox::judge(const QString& typed, std::int64_t acts_before, bool said,
                     const QString& what) {
    const QString about = what + ", “" + typed.left(40) + "”";
    const auto newest = last_act(session().shop());
    ASSERT_TRUE(newest.ok());
    if (*newest == acts_before) {
        EXPECT_TRUE(said || typed.trimmed().isEmpty() || may_be_silent(what))
            << about.toStdString() << ": neither stored nor answered\n"
            << troubles_in(QApplication::activeModalWidget() != nullptr
                               ? *QApplication::activeModalWidget()
                               : *window_)
                   .toStdString();
        return;
    }
    for (std::int64_t number = acts_before + 1; number <= *newest; ++number) {
        const auto act = load_act(session().shop(), number);
        ASSERT_TRUE(act.ok());
        bool meant = false;
        for (const Edit& edit : act->edits) {
            const QString stored = QString::fromStdString(edit.after.value_or(std::string()));
            // A letter is found in any words: then only the whole of it counts.
            const bool is_typed =
                squeezed(typed).size() > 3
                    ? squeezed(stored).contains(squeezed(typed))
                    : !squeezed(typed).isEmpty() && squeezed(stored) == squeezed(typed);
            if (!is_typed) {
                continue;
            }
            const bool words = takes_any_words(edit, *act);
            EXPECT_TRUE(words) << about.toStdString() << " stored as "
                               << words_of(edit).toStdString();
            EXPECT_EQ(squeezed(stored).toStdString(), squeezed(typed).toStdString())
                << about.toStdString() << " in " << words_of(edit).toStdString();
            meant = meant || words;
        }
        EXPECT_TRUE(meant) << about.toStdString() << ": something else was stored, "
                           << (act->edits.empty() ? std::string()
                                                  : words_of(act->edits.back()).toStdString());
    }
    while (session().undo_text() && *last_act(session().shop()) < acts_before + 20) {
        const auto undone = session().undo();
        EXPECT_TRUE(undone.ok()) << about.toStdString();
        if (!undone || undone->undoes == acts_before + 1) {
            break;
        }
    }
    settle();
}

void EveryBox::visit_openers(const QString& where) {
    QList<QPointer<QAbstractButton>> openers;
    for (auto* button : window_->findChildren<QAbstractButton*>()) {
        if (is_usable(*button) && button->text().endsWith(ellipsis) &&
            button->window() == window_.get()) {
            openers << button;
        }
    }
    for (const auto& opener : openers) {
        if (!opener || !is_usable(*opener) || opener->property(pressed_mark).toBool()) {
            continue;
        }
        opener->setProperty(pressed_mark, true);
        const QString name = plain(opener->text());
        work_in(
            [opener] {
                if (opener && opener->isEnabled()) {
                    opener->click();
                }
            },
            where + ", " + name);
    }
}

void EveryBox::walk_menus() {
    for (QMenu* menu : window_->menuBar()->findChildren<QMenu*>()) {
        for (QAction* action : menu->actions()) {
            if (action->isEnabled() && action->text().endsWith(ellipsis)) {
                work_in([action] { action->trigger(); }, "menu, " + plain(action->text()));
            }
        }
    }
}

void EveryBox::work_in(const std::function<void()>& press, const QString& where) {
    progress_ = {};
    for (int round = 0; !progress_.finished && round < most_rounds; ++round) {
        // What a build waits for is worked out anew behind every act.
        ASSERT_TRUE(QTest::qWaitFor([&] { return !window_->build_page().is_busy(); }, patience_ms));
        choose_first_rows();
        bool dialog_seen = false;
        opening_ = true;
        QTimer::singleShot(0, window_.get(), [&] {
            opening_ = false;
            if (auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget())) {
                dialog_seen = true;
                expected_ = dialog;
                work_in_boxes(*dialog, where);
                expected_ = nullptr;
                if (dialog->isVisible()) {
                    dialog->reject();
                }
                dialog->hide(); // one that asks whether to leave isn't left by its own answer
            }
        });
        press();
        settle();
        QTest::qWait(1);
        opening_ = false;
        if (dialog_seen) {
            come_back();
            continue;
        }
        QFrame* ask = nullptr;
        for (auto* frame : window_->findChildren<QFrame*>("ask")) {
            ask = frame->isVisible() ? frame : ask;
        }
        if (ask == nullptr) {
            break;
        }
        work_in_boxes(*ask, where);
        if (ask->isVisible()) {
            QTest::keyClick(ask, Qt::Key_Escape);
        }
    }
}

/// Goes on where it stopped when the last one closed.
void EveryBox::work_in_boxes(QWidget& root, const QString& where) {
    const bool asks_for_a_file = qobject_cast<QFileDialog*>(&root) != nullptr;
    const std::vector<Box> boxes = asks_for_a_file ? std::vector<Box>() : boxes_in(root);
    const QStringList texts = awkward_texts();
    const QPointer<QWidget> open = &root;
    for (; progress_.box < boxes.size(); ++progress_.box, progress_.text = 0) {
        const Box& box = boxes[progress_.box];
        tried_.insert(where + ": " + box.name);
        reached_.insert(known_by(*box.widget));
        const QStringList quiet = words_in_view(root);
        while (progress_.text < texts.size()) {
            attempt(box, texts[progress_.text++], quiet, where + ": " + box.name);
            if (!open || !open->isVisible()) {
                return;
            }
        }
    }
    progress_.finished = true;
}

QStringList EveryBox::never_reached(const QWidget& page) const {
    QStringList never;
    for (const QWidget* widget : page.findChildren<QWidget*>()) {
        const bool inside_a_cell =
            qobject_cast<const QAbstractItemView*>(widget->parentWidget()->parentWidget());
        if (takes_words(*widget) && !inside_a_cell && !reached_.contains(known_by(*widget)) &&
            !is_tried_elsewhere(*widget)) {
            never << known_by(*widget);
        }
    }
    return never;
}

} // namespace rodway::tests
