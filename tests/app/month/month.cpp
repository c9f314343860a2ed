#include "tests/app/month/month.h"

#include <QSettings>
#include <QTest>
#include <stdexcept>

#include "app/build/build_page.h"

namespace rodway::tests {

namespace {

const QString steps_list = "Steps of the stage; Space ticks";
const QString gates_list = "Gates of the stage and what holds them";

} // namespace

Month::Month() {
    QSettings().clear();
    qputenv("TZ", "UTC"); // the record's days are those of a shop at Greenwich
    window_ = std::make_unique<MainWindow>([this] { return now_; });
    window_->show();
    // Where there is no window manager, nobody else gives it the keyboard.
    static_cast<void>(QTest::qWaitForWindowExposed(window_.get()));
    window_->activateWindow();
    if (!QTest::qWaitForWindowActive(window_.get()) ||
        !window_->make_shop(file("shop.rodway"), true)) {
        throw std::runtime_error("no window on a demo shop");
    }
    hand_ = std::make_unique<Hand>(*window_, qEnvironmentVariable("RODWAY_SHOTS"),
                                   [this] { return window_->build_page().is_busy(); });
}

QString Month::close() {
    window_->close();
    window_.reset();
    return file("shop.rodway");
}

void Month::who(const QString& person) {
    hand().pick("Who is working", person);
}

void Month::place(const QString& name) {
    hand().place(name);
    hand().settle();
}

void Month::choose_on_bench(const QString& words) {
    place("Bench");
    hand().type("Only builds with these words", words);
    hand().key(Qt::Key_Return);
    hand().choose("Builds", words);
    hand().settle();
}

void Month::open_build(const QString& words) {
    choose_on_bench(words);
    hand().key(Qt::Key_Return);
    hand().see("For ");
    hand().settle();
}

void Month::stage(const QString& title, const QString& tab) {
    place("Build");
    hand().choose("Stages", title);
    hand().tab(tab);
    hand().settle();
}

void Month::tick_rows(int first, int behind) {
    if (first >= behind) {
        return;
    }
    hand().choose_row(steps_list, first);
    for (int row = first; row < behind; ++row) {
        if (!hand().is_ticked(steps_list, row)) {
            hand().key(Qt::Key_Space);
            if (!hand().is_ticked(steps_list, row)) {
                throw std::runtime_error("Space doesn't tick " +
                                         hand().rows(steps_list)[row].toStdString());
            }
        }
        hand().key(Qt::Key_Down);
    }
    hand().settle();
}

void Month::tick_all() {
    tick_rows(0, static_cast<int>(hand().rows(steps_list).size()));
}

void Month::tick_up_to(const QString& words) {
    const QStringList steps = hand().rows(steps_list);
    for (int row = 0; row < steps.size(); ++row) {
        if (steps[row].startsWith(words)) {
            tick_rows(0, row);
            return;
        }
    }
    throw std::runtime_error("no such step: " + words.toStdString());
}

void Month::tick_one(const QString& words) {
    const QStringList steps = hand().rows(steps_list);
    for (int row = 0; row < steps.size(); ++row) {
        if (steps[row].startsWith(words)) {
            tick_rows(row, row + 1);
            return;
        }
    }
    throw std::runtime_error("no such step: " + words.toStdString());
}

void Month::waive(const QString& hold, const QString& reason, const QString& in_name_of) {
    const QString ask = "Go on past this, on purpose";
    hand().choose(gates_list, hold);
    hand().press("Waive…");
    hand().type("Reason", reason, ask);
    hand().type("In the name of", in_name_of, ask);
    hand().set("The customer was told", true, ask);
    hand().press("Waive it", ask);
    hand().settle();
}

void Month::sign_off(const QString& by) {
    hand().settle();
    hand().press("Sign off…");
    hand().press("Sign off as " + by, "Sign the stage off");
    hand().settle();
    hand().see("Signed off by " + by);
}

void Month::leave_out(const QString& step, const QString& why) {
    hand().choose(steps_list, step);
    hand().press("Not needed…");
    hand().type("Why", why, "Not needed in this build");
    hand().key(Qt::Key_Return);
    hand().settle();
}

void Month::start_cure(const QString& what, const QString& full, const QString& step) {
    const QString ask = "Start a cure";
    hand().press("Start a cure…");
    hand().type("What and where", what, ask);
    hand().type("Fully cured after", full, ask);
    hand().pick("Its step waits", step, ask);
    hand().look("cure-asked");
    hand().press("It is on now", ask);
    hand().settle();
}

void Month::invoice(const QString& name) {
    place("Account");
    hand().tab("Invoice");
    hand().press("Take over what was agreed");
    hand().look("invoice-" + name);
    hand().give_file([this] { hand().press("Invoice as PDF…"); }, file(name + ".pdf"));
}

void Month::put_away(const QString& name) {
    choose_on_bench(name);
    hand().press("Put it away");
    hand().type("Only builds with these words", {});
    hand().look("put-away-" + name);
}

void Month::new_build(const NewBuild& build) {
    place("Bench");
    hand().answer([&] { hand().press("New build…"); },
                  [&] {
                      hand().type("Name", build.name);
                      hand().type("Customer", build.customer);
                      hand().type("Engine", build.engine);
                      hand().type("Promised", build.promised);
                      if (!build.set_up.isEmpty()) {
                          hand().type("Set-up", build.set_up);
                      }
                      hand().pick("Stage plan", build.plan);
                      hand().look("new-build-" + build.name);
                      hand().press("Add build");
                  });
    hand().settle();
}

QStringList Month::inches(const QList<int>& digits, int places) {
    QStringList all;
    for (const int number : digits) {
        all << QString(".%1\"").arg(number, places, 10, QChar('0'));
    }
    return all;
}

void Month::account_lines(const QString& tab, const QList<QPair<QString, QString>>& lines) {
    place("Account");
    hand().tab(tab);
    for (const auto& [text, amount] : lines) {
        hand().type("What for", text);
        hand().type("Amount", amount);
        hand().key(Qt::Key_Return);
    }
}

void Month::add_part(const NewPart& part) {
    hand().answer([&] { hand().press("Add part…"); },
                  [&] {
                      hand().type("What it is", part.item);
                      hand().pick("In the engine", part.role);
                      hand().type("How many", part.count);
                      hand().type("Supplier", part.supplier);
                      hand().type("Cost, all of them", part.cost);
                      hand().type("Thread", part.thread);
                      hand().type("Under its head", part.length);
                      hand().set("Temporary: another must replace it", part.temporary);
                      hand().press("Keep");
                  });
}

void Month::mark(const QString& part, const QString& mark, const QString& day) {
    hand().choose("Parts of the build", part);
    if (!day.isEmpty()) {
        hand().type("Day of the mark", day);
    }
    hand().press(mark);
}

void Month::fill_sheet(const QString& title, const QString& tab, const QString& heading,
                       const QStringList& values) {
    place("Sheets");
    hand().choose("Kinds of sheet", title);
    if (!tab.isEmpty()) {
        hand().tab(tab);
    }
    hand().fill_column(heading, values);
}

} // namespace rodway::tests
