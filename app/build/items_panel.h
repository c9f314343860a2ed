#pragma once

#include "app/build/build_panel.h"

class QCheckBox;
class QLabel;
class QPushButton;

namespace rodway {

class AskPanel;
class TypedForm;
class WordListView;

/// What must not be forgotten on the build until somebody closes it, and what was decided.
class ItemsPanel : public BuildPanel {
    Q_OBJECT

  public:
    explicit ItemsPanel(Clock clock, QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void show_build(const BuildShown& shown, std::int64_t stage_id) override;
    void choose_item(std::int64_t id);
    [[nodiscard]] AskPanel& opening() { return *open_; }
    [[nodiscard]] AskPanel& changing() { return *change_; }
    [[nodiscard]] AskPanel& closing() { return *close_; }
    [[nodiscard]] AskPanel& deciding() { return *decide_; }

  private:
    QWidget* make_items();
    QWidget* make_decisions();
    void make_asks();
    void show_items();
    void show_decisions();
    void show_item_buttons();
    /// `held`: a gate that is among them whether it is known yet or not.
    void offer_gates(TypedForm& form, std::optional<std::int64_t> held) const;
    void open_new_item();
    void open_change();
    void leave_asks();
    Result<Done> keep_item();
    Result<Done> keep_change();
    Result<Done> close_item();
    Result<Done> keep_decision();
    void tell_customer();
    [[nodiscard]] const OpenItem* chosen() const;
    [[nodiscard]] QString item_text(const OpenItem& item) const;

    const BuildShown* shown_ = nullptr;
    std::int64_t stage_id_ = 0;
    QLabel* no_items_;
    WordListView* items_;
    QCheckBox* closed_too_;
    QPushButton* new_item_;
    QPushButton* alter_;
    QPushButton* finish_;
    QPushButton* told_;
    AskPanel* open_;
    AskPanel* change_;
    AskPanel* close_;
    OpenItem before_; ///< what is being changed, as it stood when its boxes were filled
    QLabel* no_decisions_;
    WordListView* decisions_;
    AskPanel* decide_;
};

} // namespace rodway
