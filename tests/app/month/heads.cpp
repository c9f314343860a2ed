#include "tests/app/month/month.h"

namespace rodway::tests {

void heads_begun(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-04T12:00:00Z");
    month.who("JF");
    month.open_build("Tveit");
    for (const char* title : {"Arrival and as found", "Cleaning and inspection"}) {
        month.stage(title);
        month.tick_all();
    }
    month.stage("Cleaning and inspection", "Gates");
    month.sign_off("JF");
    month.at("2026-12-04T15:00:00Z");
    month.stage("Machining");
    month.tick_up_to("Sealant of the tubes cured");
    month.stage("Machining", "Cures and open items");
    month.start_cure("Tube seals, both heads", "24 h", "Sealant of the tubes cured");
    hand.look("tveit-tubes-cure");
}

void heads_handed_over(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-11T12:00:00Z");
    month.who("JF");
    month.open_build("Tveit");
    month.stage("Machining", "Cures and open items");
    hand.see("cured");
    for (const char* title : {"Machining", "Assembly"}) {
        month.stage(title);
        month.tick_all();
    }
    month.fill_sheet("Valves and guides", "Each valve", "Stem clearance",
                     Month::inches({16, 21, 15, 22, 16, 21, 16, 20}, 4));
    month.fill_sheet("Heads", "Each cylinder", "Chamber volume", {"48.2", "48.1", "48.4", "48.2"});
    hand.look("tveit-chambers");

    month.at("2026-12-14T09:00:00Z");
    month.open_build("Tveit");
    month.stage("Hand-off");
    month.tick_all();
    month.stage("Hand-off", "Gates");
    hand.look("tveit-springs-not-measured");
    month.waive("Sheet not begun: Springs",
                "The customer fits springs of his own; told to measure heights and loads",
                "Jonas Fellvik");
    month.sign_off("JF");
    hand.look("tveit-signed");
    month.who("PO");
    month.invoice("tveit");
    month.put_away("Tveit heads");
}

} // namespace rodway::tests
