#pragma once

#include <gtest/gtest.h>

#include <QElapsedTimer>
#include <QTemporaryDir>
#include <QTimer>
#include <functional>
#include <memory>
#include <set>

#include "app/window/main_window.h"
#include "app/window/place_page.h"
#include "tests/app/every_box/boxes.h"

namespace rodway::tests {

/// Walks the whole window, opens what opens, and types nonsense into every box there is. Of each
/// attempt it is asked what was stored, act by act, and what was said. Nothing names the boxes: one
/// that is added is found, and so is one that is never reached.
class EveryBox : public ::testing::Test {
  protected:
    void SetUp() override;
    void TearDown() override;

    /// Every place, tab, section and panel of the window as it is now, and whatever their buttons
    /// with an ellipsis open. No box of a place may be left.
    /// `places`: only these; empty: all.
    void walk_window(const QStringList& places = {});
    void open(std::int64_t build_id);
    /// Whatever the entries of the menus with an ellipsis open.
    void walk_menus();
    [[nodiscard]] int boxes_tried() const { return static_cast<int>(tried_.size()); }
    [[nodiscard]] int attempts() const { return attempts_; }
    [[nodiscard]] ShopSession& session() { return *window_->session(); }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;

  private:
    QString was_in_; ///< the folder in which the tests run

    void connect_watch();
    void visit_with_tabs(const QString& where);
    void visit(const QString& where);
    void visit_boxes(QWidget& root, const QString& where);
    /// `quiet`: the words in view before anything was typed into this box.
    void attempt(const Box& box, const QString& text, const QStringList& quiet,
                 const QString& what);
    void judge(const QString& typed, std::int64_t acts_before, bool said, const QString& what);
    void visit_openers(const QString& where);
    /// Presses it and works in what it opens, again and again until all is tried.
    void work_in(const std::function<void()>& press, const QString& where);
    void work_in_boxes(QWidget& root, const QString& where);
    /// Boxes in a place's tree that no walk came to.
    [[nodiscard]] QStringList never_reached(const QWidget& page) const;
    void choose_first_rows();
    void come_back();
    void fill_beside(const Box& box);
    void press_beside(const Box& box);
    void put_away_surprises();
    void settle();

    /// What a walk leaves to be tried in something that closes when it takes a box.
    struct Progress {
        std::size_t box = 0;
        int text = 0;
        bool finished = false;
    };
    Progress progress_;
    QWidget* expected_ = nullptr; ///< the dialog that is being worked in
    bool opening_ = false;        ///< a dialog may come that is asked for
    QString surprise_;            ///< what another one said, before it was put away
    QTimer watch_;
    QToolButton* place_ = nullptr; ///< where the walk is
    QWidget* page_ = nullptr;
    std::int64_t build_id_ = 0;
    std::set<QString> tried_;
    std::set<QString> reached_; ///< boxes by what they are called
    int attempts_ = 0;
};

} // namespace rodway::tests
