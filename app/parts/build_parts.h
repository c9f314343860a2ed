#pragma once

#include <QWidget>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/work/part_acts.h"
#include "core/build/arrival.h"
#include "core/build/records.h"

class QComboBox;
class QLabel;
class QPushButton;
class QStackedWidget;
class QTableWidget;
class QVBoxLayout;

namespace rodway {

class PartPhotos;
class TypedForm;

/// The parts of the build in hand: a list, and beside it what is known of the selected one, the
/// marks to set on it, its photos, and what its length comes to at the holes it goes into.
class BuildParts : public QWidget {
    Q_OBJECT

  public:
    explicit BuildParts(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id);
    void refresh();
    [[nodiscard]] QTableWidget& table() { return *table_; }
    [[nodiscard]] TypedForm& marks() { return *marks_; }
    [[nodiscard]] PartPhotos& photos() { return *photos_; }
    /// The selected part; nothing if none is.
    [[nodiscard]] std::optional<PartRecord> selected() const;
    void select(std::int64_t part_id);

    // What the buttons do, with what their dialogs would ask.
    void add();
    void change();
    void replace();
    void remove();
    void mark(PartMark mark);
    void take_last_mark_off();

  signals:
    void failed(const QString& text);
    void said(const QString& text);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    QWidget* make_left();
    QWidget* make_right();
    QWidget* make_marks();
    void make_failed_row(QVBoxLayout* into);
    void ask(const PartRecord& part);
    void show_rows();
    void show_selected();
    void show_details(const PartRecord& part);
    void show_bolts(const PartRecord& part);
    void mark_as_failed();
    void take_length_into_set_up();
    [[nodiscard]] bool is_shown(const PartRecord& part) const;
    [[nodiscard]] const PartRecord* part(std::int64_t id) const;
    /// Says what went wrong, if anything did, in the marks' form.
    bool took(const Result<Done>& done, TypedForm& form);

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::string today_;
    PlanAndParts plan_;
    bool filling_ = false;

    QStackedWidget* stack_;
    QTableWidget* table_;
    QComboBox* filter_;
    QWidget* right_;
    QLabel* title_;
    QLabel* details_;
    TypedForm* marks_;
    TypedForm* failure_;
    PartPhotos* photos_;
    QLabel* bolts_;
    QPushButton* to_set_up_;
    std::vector<QPushButton*> need_part_;
};

} // namespace rodway
