#include "app/build/notes_panel.h"

#include <QCheckBox>
#include <QKeyEvent>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/build/place_chooser.h"
#include "app/build/word_list_view.h"
#include "app/words/hold_words.h"
#include "app/words/typed_words.h"

namespace rodway {
namespace {

constexpr int text_px = 74;

} // namespace

NotesPanel::NotesPanel(Clock clock, PlaceChooser& place, QWidget* parent)
    : BuildPanel(std::move(clock), parent),
      place_(place),
      empty_(new QLabel(tr("No notes here yet.\nType below what somebody will want to know later: "
                           "what was found, what was odd, what to tell the customer."))),
      notes_(new WordListView("notes", tr("Notes; a ticked one goes into the book"))),
      text_(new QPlainTextEdit),
      trouble_(new QLabel),
      in_book_(new QCheckBox(tr("For the &book"))),
      keep_(new QPushButton(tr("&Keep the note"))),
      leave_(new QPushButton(tr("Leave as it was"))),
      change_(new QPushButton(tr("C&hange"))),
      remove_(new QPushButton(tr("&Remove"))) {
    empty_->setWordWrap(true);
    empty_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    text_->setObjectName("note_text");
    text_->setAccessibleName(tr("New note; Enter keeps it"));
    text_->setPlaceholderText(tr("a note; Enter keeps it, Shift and Enter begins a new line"));
    text_->setTabChangesFocus(true);
    text_->setFixedHeight(text_px);
    text_->installEventFilter(this);
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    trouble_->hide();
    keep_->setObjectName("keep_note");
    change_->setObjectName("change_note");
    remove_->setObjectName("remove_note");
    leave_->hide();
    auto* title = new QLabel(tr("Notes (ticked: for the book)"));
    title->setObjectName("subtitle");
    auto* of_note = new QHBoxLayout;
    of_note->addWidget(change_);
    of_note->addWidget(remove_);
    of_note->addStretch();
    auto* of_text = new QHBoxLayout;
    of_text->addWidget(in_book_);
    of_text->addStretch();
    of_text->addWidget(leave_);
    of_text->addWidget(keep_);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(title);
    layout->addWidget(empty_, 1);
    layout->addWidget(notes_, 1);
    layout->addLayout(of_note);
    layout->addWidget(text_);
    layout->addWidget(trouble_);
    layout->addLayout(of_text);
    connect(keep_, &QPushButton::clicked, this, &NotesPanel::keep_typed);
    connect(leave_, &QPushButton::clicked, this, &NotesPanel::leave_change);
    connect(change_, &QPushButton::clicked, this, &NotesPanel::begin_change);
    connect(remove_, &QPushButton::clicked, this, &NotesPanel::remove_chosen);
    connect(notes_, &WordListView::row_checked, this, &NotesPanel::put_into_book);
    connect(notes_, &WordListView::row_chosen, this, [this] {
        change_->setEnabled(notes_->chosen() != 0);
        remove_->setEnabled(notes_->chosen() != 0);
    });
    connect(&place_, &PlaceChooser::chosen, this, [this] {
        if (shown_ != nullptr) {
            show_notes();
        }
    });
}

void NotesPanel::take(ShopSession* session, std::int64_t build_id) {
    BuildPanel::take(session, build_id);
    shown_ = nullptr;
    leave_change();
    notes_->set_rows({});
}

void NotesPanel::show_build(const BuildShown& shown, std::int64_t) {
    shown_ = &shown;
    show_notes();
}

const Note* NotesPanel::note(std::int64_t id) const {
    if (shown_ == nullptr) {
        return nullptr;
    }
    const auto found = std::find_if(shown_->notes.begin(), shown_->notes.end(),
                                    [id](const Note& one) { return one.id == id; });
    return found == shown_->notes.end() ? nullptr : &*found;
}

void NotesPanel::choose(std::int64_t note_id) {
    place_.choose_build();
    notes_->choose(note_id);
}

void NotesPanel::show_notes() {
    std::vector<WordListView::Row> rows;
    // The newest first: it is what was meant when it was just kept.
    for (auto one = shown_->notes.rbegin(); one != shown_->notes.rend(); ++one) {
        if (!place_.covers(one->stage_id, one->step_id)) {
            continue;
        }
        const QString where = belongs_text(*shown_, one->stage_id, one->step_id, one->position);
        QString by = tr("%1, %2").arg(utf16(one->written_by), words::time_of(one->written_at));
        if (!where.isEmpty()) {
            by = tr("%1; %2").arg(by, where);
        }
        WordListView::Row row{one->id, tr("%1\n(%2)").arg(utf16(one->text), by), {}};
        row.checked = one->in_book;
        row.spoken = one->in_book ? tr("For the book: %1").arg(row.text) : row.text;
        rows.push_back(std::move(row));
    }
    notes_->set_rows(rows);
    empty_->setVisible(rows.empty());
    notes_->setVisible(!rows.empty());
    change_->setVisible(!rows.empty());
    remove_->setVisible(!rows.empty());
    change_->setEnabled(notes_->chosen() != 0);
    remove_->setEnabled(notes_->chosen() != 0);
}

void NotesPanel::keep_typed() {
    if (!has_build()) {
        return;
    }
    const std::string text = text_->toPlainText().toStdString();
    Result<Done> done = Done{};
    if (changing_.id == 0) {
        done = only_done(keep_note(*session_, place_.at(build_id_), text, in_book_->isChecked()));
    } else {
        Note after = changing_;
        after.text = text;
        after.in_book = in_book_->isChecked();
        done = change_note(*session_, changing_, after);
    }
    if (!done && !is_waiting(done.error())) {
        trouble_->setText(words::typed_error(done.error(), {}));
        trouble_->show();
        text_->setFocus();
        return;
    }
    leave_change();
}

void NotesPanel::begin_change() {
    if (const Note* chosen = note(notes_->chosen())) {
        changing_ = *chosen;
        text_->setPlainText(utf16(chosen->text));
        in_book_->setChecked(chosen->in_book);
        keep_->setText(tr("&Keep the change"));
        leave_->show();
        text_->setFocus();
    }
}

void NotesPanel::leave_change() {
    changing_ = {};
    text_->clear();
    in_book_->setChecked(false);
    keep_->setText(tr("&Keep the note"));
    leave_->hide();
    trouble_->hide();
}

void NotesPanel::remove_chosen() {
    const qint64 id = notes_->chosen();
    if (id != 0) {
        if (changing_.id == id) {
            leave_change();
        }
        told(take_away(*session_, {RecordKind::note, id}, tr("note taken away")));
    }
}

void NotesPanel::put_into_book(std::int64_t id, bool in_book) {
    if (const Note* chosen = note(id)) {
        Note after = *chosen;
        after.in_book = in_book;
        told(change_note(*session_, *chosen, after));
    }
    // What was refused goes back to what is stored, once this click has been dealt with.
    QMetaObject::invokeMethod(
        this,
        [this] {
            if (shown_ != nullptr) {
                show_notes();
            }
        },
        Qt::QueuedConnection);
}

bool NotesPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == text_ && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
        if (enter && !(key->modifiers() & Qt::ShiftModifier)) {
            keep_typed();
            return true;
        }
        if (key->key() == Qt::Key_Escape && changing_.id != 0) {
            leave_change();
            return true;
        }
    }
    return BuildPanel::eventFilter(watched, event);
}

} // namespace rodway
