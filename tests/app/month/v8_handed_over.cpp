#include "tests/app/month/month.h"

namespace rodway::tests {

void v8_handed_over(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-21T10:00:00Z");
    month.who("MH");
    month.open_build("Solvik");
    hand.look("solvik-first-start");
    for (const char* title : {"First start and break-in", "After the first run"}) {
        month.stage(title);
        month.tick_all();
    }
    month.stage("Dyno");
    for (const char* step : {"Guards, hearing", "Air of the day", "Which standard", "Pulls: raw",
                             "Lash, plugs and leaks"}) {
        month.leave_out(step, "The customer takes it to a dyno of his own");
    }
    hand.look("solvik-no-dyno");

    month.at("2026-12-28T10:00:00Z");
    month.open_build("Solvik");
    month.place("Account");
    hand.tab("Hours");
    // More than a day has is refused, and what was typed stays to be mended.
    hand.type("Kind of work", "assembly");
    hand.type("Day", "2026-12-16");
    hand.type("Hours", "31:30");
    hand.key(Qt::Key_Return);
    hand.see("between one minute and 24 hours");
    hand.look("solvik-hours-refused");
    hand.type("Hours", "8:30");
    hand.key(Qt::Key_Return);
    hand.type("Kind of work", "first start");
    hand.type("Hours", "6.5");
    hand.type("Day", "2026-12-21");
    hand.key(Qt::Key_Return);
    hand.look("solvik-hours");
    month.stage("Hand-off");
    month.tick_all();
    month.stage("Hand-off", "Gates");
    hand.look("solvik-before-hand-off");
    month.sign_off("MH");
    month.who("PO");
    month.invoice("solvik");
    month.place("History");
    hand.look("solvik-history");

    month.at("2026-12-29T10:00:00Z");
    month.put_away("Solvik V8");
    hand.tab("Put away");
    hand.settle();
    hand.look("bench-put-away");
}

} // namespace rodway::tests
