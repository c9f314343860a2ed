#pragma once

#include "app/build/build_panel.h"

class QCheckBox;
class QLabel;
class QPlainTextEdit;
class QPushButton;

namespace rodway {

class PlaceChooser;
class WordListView;

/// What was noted of the build, its stage or its step. A note is typed below; Enter keeps it, and
/// Shift with Enter begins a line. A ticked note goes into the book.
class NotesPanel : public BuildPanel {
    Q_OBJECT

  public:
    NotesPanel(Clock clock, PlaceChooser& place, QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void show_build(const BuildShown& shown, std::int64_t stage_id) override;
    void choose(std::int64_t note_id);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void show_notes();
    void keep_typed();
    void begin_change();
    void leave_change();
    void remove_chosen();
    void put_into_book(std::int64_t id, bool in_book);
    [[nodiscard]] const Note* note(std::int64_t id) const;

    const BuildShown* shown_ = nullptr;
    PlaceChooser& place_;
    Note changing_; ///< as it stood when it went into the box; id 0: none is being changed
    QLabel* empty_;
    WordListView* notes_;
    QPlainTextEdit* text_;
    QLabel* trouble_;
    QCheckBox* in_book_;
    QPushButton* keep_;
    QPushButton* leave_;
    QPushButton* change_;
    QPushButton* remove_;
};

} // namespace rodway
