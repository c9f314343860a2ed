#pragma once

#include <QList>
#include <QPair>
#include <QTemporaryDir>
#include <memory>
#include <string>

#include "app/window/main_window.h"
#include "tests/app/month/hand.h"

namespace rodway::tests {

/// A month of work at the window on the demo shop, with a clock that goes from day to day. The
/// words of the window are all that its users go by.
class Month {
  public:
    Month();

    /// The clock shows this UTC time from now on.
    void at(const std::string& utc) { now_ = utc; }
    /// Whose the work is from now on: as the list at the window's head has it.
    void who(const QString& person);
    void place(const QString& name);
    /// From the Bench, by words of its name.
    void open_build(const QString& words);
    /// The Build place, at one of its tabs and one of its stages.
    void stage(const QString& title, const QString& tab = "Stage");

    void tick_all();
    /// The steps before the one with these words.
    void tick_up_to(const QString& words);
    void tick_one(const QString& words);
    void waive(const QString& hold, const QString& reason, const QString& in_name_of);
    void sign_off(const QString& by);
    void leave_out(const QString& step, const QString& why);
    /// Of the stage shown; `step` is the one that waits.
    void start_cure(const QString& what, const QString& full, const QString& step);
    void invoice(const QString& file);
    void put_away(const QString& name);

    struct NewBuild {
        QString name;
        QString customer;
        QString engine;
        QString promised;
        QString set_up; ///< file
        QString plan;
    };
    void new_build(const NewBuild& build);
    struct NewPart {
        QString item = {};
        QString role = {};
        QString count = "1";
        QString supplier = {};
        QString cost = {};
        QString thread = {};
        QString length = {};
        bool temporary = false;
    };
    void add_part(const NewPart& part);
    /// Marks the part chosen; an empty day is today.
    void mark(const QString& part, const QString& mark, const QString& day = {});
    void fill_sheet(const QString& title, const QString& tab, const QString& heading,
                    const QStringList& values);
    /// Clicks in the table of builds, at the row of this one.
    void choose_on_bench(const QString& words);

    /// Lines of one paper of the account, on its tab.
    void account_lines(const QString& tab, const QList<QPair<QString, QString>>& lines);
    /// A set-up file as the builder keeps it beside the engine: a demo engine's, with some words
    /// replaced.
    QString set_up_file(const QString& demo, const QString& name,
                        const QList<QPair<QString, QString>>& changes);

    /// Inches as builders type them, from their last digits: 24 of four places is .0024".
    [[nodiscard]] static QStringList inches(const QList<int>& digits, int places);

    [[nodiscard]] Hand& hand() { return *hand_; }
    [[nodiscard]] QString file(const QString& name) const { return folder_.filePath(name); }
    /// The shop's file, once the window is closed.
    [[nodiscard]] QString close();

  private:
    void tick_rows(int first, int behind);

    QTemporaryDir folder_;
    std::string now_ = "2026-12-01T10:00:00Z";
    std::unique_ptr<MainWindow> window_;
    std::unique_ptr<Hand> hand_;
};

// The three builds, day by day; each leaves the window anywhere.

/// 1 December: three customers call; jobs, estimates and deposits.
void first_calls(Month& month);
/// 2 to 4 December: the V8 comes in; an extra approved, one declined; parts ordered.
void v8_taken_in(Month& month);
/// 4 December: the heads; sealant on their tubes.
void heads_begun(Month& month);
/// 7 to 9 December: the V8's mock-up, until a rod touches its tube.
void v8_mocked_up(Month& month);
/// 9 December: the six, up to its intake.
void six_begun(Month& month);
/// 10 and 11 December: why the V8's rod touches, what cures it; a mistake undone.
void v8_rod_cured(Month& month);
/// 11 to 14 December: the heads to their hand-off; what wasn't measured is waived.
void heads_handed_over(Month& month);
/// 14 December: the six to its hand-off.
void six_handed_over(Month& month);
/// 14 to 18 December: the V8's late bolts; a stale check; a cure overnight.
void v8_assembled(Month& month);
/// 21 to 29 December: the V8 from its first start to its hand-off.
void v8_handed_over(Month& month);

} // namespace rodway::tests
