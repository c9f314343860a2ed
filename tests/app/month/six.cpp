#include "tests/app/month/month.h"

namespace rodway::tests {
namespace {

const QString items = "Open items";

void ask_the_question(Month& month) {
    Hand& hand = month.hand();
    month.stage("What came, and as what", "Cures and open items");
    hand.press("New item…");
    hand.type("What it is", "Do the rods clear with the new cam?", "New open item");
    hand.pick("Kind", "Question", "New open item");
    hand.set("The customer was told", true, "New open item");
    hand.press("Open it");
    hand.look("lindal-question");
}

void fit_the_intake(Month& month) {
    month.place("Parts");
    month.add_part({.item = "Intake gasket, customer's", .role = "Intake gasket"});
    month.add_part({.item = "Intake bolts, customer's",
                    .role = "Intake bolt",
                    .count = "10",
                    .thread = "3/8-16",
                    .length = "1-1/4"});
    for (const char* part : {"Intake gasket", "Intake bolts"}) {
        for (const char* mark : {"Received", "Measured", "Fitted"}) {
            month.mark(part, mark);
        }
    }
    month.hand().look("lindal-parts");
}

} // namespace

void six_begun(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-09T12:00:00Z");
    month.who("JF");
    month.open_build("Lindal");
    ask_the_question(month);
    for (const char* title :
         {"What came, and as what", "Pieces measured", "Cam in and degreed", "Heads on"}) {
        month.stage(title);
        month.tick_all();
    }
    month.fill_sheet("Degreeing", "Against the stop", "Reading at the stop",
                     {"21 ATDC", "21 BTDC"});
    month.stage("Heads on", "Gates");
    month.sign_off("JF");
    fit_the_intake(month);
    month.stage("Intake dry-fitted");
    month.tick_all();
    month.stage("Intake dry-fitted", "Gates");
    hand.look("lindal-before-rods");
    month.sign_off("JF");
}

void six_handed_over(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-14T10:00:00Z");
    month.who("JF");
    month.open_build("Lindal");
    for (const char* title : {"Rods in and geometry", "Pushrod clearance", "Piston to valve"}) {
        month.stage(title);
        month.tick_all();
    }
    month.fill_sheet("Pushrod clearance", "Each valve", "Pushrod clearance",
                     Month::inches({95, 90, 101, 97, 99, 98, 90, 16, 100, 102, 94, 88}, 3));
    hand.look("lindal-rods-walked");
    month.stage("Answer");
    month.tick_all();
    month.stage("Pushrod clearance", "Gates");
    hand.look("lindal-question-holds");
    hand.see("Do the rods clear");
    hand.press("To the open items");
    hand.choose(items, "Do the rods clear");
    hand.press("Close it…");
    hand.type("What came of it", "They clear; 4E has 14 thou, the least", "Close it");
    hand.press("Close", "Close it");
    month.stage("Pushrod clearance", "Gates");
    month.sign_off("JF");
    month.stage("Answer", "Gates");
    month.sign_off("JF");
    hand.look("lindal-signed");
    month.who("PO");
    month.invoice("lindal");
    month.put_away("Lindal six");
}

} // namespace rodway::tests
