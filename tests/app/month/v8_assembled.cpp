#include <stdexcept>

#include "tests/app/month/month.h"

namespace rodway::tests {
namespace {

void told_of_late_bolts(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-14T14:00:00Z");
    month.who("PO");
    month.place("Bench");
    hand.tab("Wait for a part");
    hand.see("Solvik V8 · Intake bolts, waisted"); // overdue today
    hand.look("bench-late-bolts");
    hand.tab("In hand");
    month.open_build("Solvik");
    month.place("Parts");
    hand.tab("Buy list, all builds");
    hand.look("buy-list");
    hand.tab("This build");
    month.mark("Intake bolts, waisted", "Promised for", "2026-12-15");
    month.stage("Parts", "Job");
    hand.press("Give another day…");
    hand.type("Promised for", "2026-12-29", "Give the customer another day");
    hand.type("Why it had to move", "Intake bolts came a week late",
              "Give the customer another day");
    hand.press("He was told");
    hand.look("solvik-another-day");
}

/// The right bolts in place of those off the shelf, and what that means for the rods.
void swap_bolts(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-16T10:00:00Z");
    month.who("MH");
    month.open_build("Solvik");
    month.place("Parts");
    month.mark("Intake bolts, waisted", "Fitted");
    month.mark("Intake bolts off the shelf", "Given back");
    hand.look("solvik-bolts-swapped");
    month.stage("Final assembly: top end");
    month.tick_all();
    month.stage("Pushrod clearance", "Gates");
    hand.see("Intake bolts, waisted");
    hand.look("solvik-stale-by-bolts");
    month.fill_sheet(
        "Pushrod clearance", "Each valve", "Pushrod clearance",
        Month::inches({83, 62, 94, 74, 22, 64, 80, 79, 52, 60, 65, 80, 82, 77, 86, 57}, 3));
    month.stage("Pushrod clearance", "Gates");
    hand.look("solvik-walked-again");
    month.sign_off("MH");
}

void prime(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-17T10:00:00Z");
    month.open_build("Solvik");
    QStringList lash;
    for (int cylinder = 0; cylinder < 8; ++cylinder) {
        lash << ".018\""
             << ".020\"";
    }
    month.fill_sheet("Lash", "Each valve", "Lash, cold", lash);
    month.at("2026-12-17T15:00:00Z");
    month.stage("Distributor and priming");
    month.tick_all();
    month.stage("Distributor and priming", "Cures and open items");
    month.start_cure("Rocker cover gaskets, both sides", "24 h", "Every sealant and paint cured");
    month.stage("Distributor and priming", "Gates");
    hand.look("solvik-cure-begun");
    month.waive("Sheet not begun: Fasteners",
                "Every joint is on the torque wrench's own print, kept with the job",
                "Mirela Haugan");
}

} // namespace

void v8_assembled(Month& month) {
    Hand& hand = month.hand();
    told_of_late_bolts(month);
    month.at("2026-12-15T10:00:00Z");
    month.who("JF");
    month.open_build("Solvik");
    month.place("Parts");
    month.mark("Intake bolts, waisted", "Received");
    month.mark("Intake bolts, waisted", "Measured");
    hand.look("solvik-bolts-came");
    month.who("MH");
    for (const char* title : {"Final assembly: block", "Final assembly: crank"}) {
        month.stage(title);
        month.tick_all();
    }
    swap_bolts(month);
    prime(month);

    month.at("2026-12-18T10:00:00Z");
    month.place("Bench");
    hand.see("Today, 18 December 2026");
    hand.see("Cures: Rocker cover gaskets");
    hand.look("bench-cure-overnight");
    month.open_build("Solvik");
    month.stage("Distributor and priming", "Gates");
    hand.see("Next: wait. Cures: Rocker cover gaskets");
    if (hand.can_press("Sign off…")) {
        throw std::runtime_error("signed off while sealant is wet");
    }
    hand.look("solvik-held-by-cure");
    month.at("2026-12-18T15:30:00Z");
    month.open_build("Solvik");
    month.stage("Distributor and priming", "Gates");
    month.sign_off("MH");
    hand.look("solvik-may-start");
}

} // namespace rodway::tests
