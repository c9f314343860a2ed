#include <stdexcept>

#include "tests/app/month/month.h"

namespace rodway::tests {
namespace {

const QString gates = "Gates of the stage and what holds them";

/// Nobody may go on past contact: the window says so and offers no way.
void try_to_waive_contact(Month& month) {
    Hand& hand = month.hand();
    month.stage("Pushrod clearance", "Gates");
    hand.choose(gates, "Contact: Pushrod clearance, 3I");
    hand.see("Contact can't be waived");
    if (hand.can_press("Waive…") || hand.can_press("Sign off…")) {
        throw std::runtime_error("contact can be waived");
    }
    hand.look("solvik-contact-not-waived");
}

/// Which wall, and which way the gasket must go: thinner is worse.
void look_for_the_cause(Month& month) {
    Hand& hand = month.hand();
    month.place("Valvetrain");
    hand.see("Contact");
    hand.choose("Clearance of every valve", "3I");
    hand.see("inboard wall");
    hand.look("solvik-3I-inboard-wall");
    hand.type("What if: Gasket, left", "+.020");
    hand.key(Qt::Key_Return);
    hand.see("TRIED: 3I");
    hand.see("Pass");
    hand.look("solvik-what-if-thicker");
    hand.type("What if: Gasket, left", "");
    hand.key(Qt::Key_Return);
}

void fit_thicker_gaskets(Month& month) {
    Hand& hand = month.hand();
    month.place("Parts");
    hand.choose("Parts of the build", "Intake gaskets, composite");
    hand.answer([&] { hand.press("Replace…"); },
                [&] {
                    hand.type("What it is", "Intake gaskets, thick");
                    hand.type("Size", ".075 crushed");
                    hand.type("Supplier", "Quayside Gaskets");
                    hand.type("Cost, all of them", "44");
                    hand.press("Keep");
                });
    month.mark("Intake gaskets, thick", "Received");
    month.mark("Intake gaskets, thick", "Measured");
    month.mark("Intake gaskets, thick", "Fitted");
    month.mark("Intake gaskets, composite", "Given back");
    hand.look("solvik-thick-gaskets");
    const QString thick = month.set_up_file(
        "v8-port-tubes", "solvik thick gaskets.json",
        {{"\"gasket_in\": 0.06,", "\"gasket_in\": 0.075,"}, {"Halden 402 V8", "Solvik 402 V8"}});
    hand.answer([&] { hand.menu("Build", "Import set-up…"); },
                [&] {
                    hand.type("File", thick);
                    hand.see("16 trains");
                    hand.look("solvik-set-up-before-it-is-taken");
                    hand.key(Qt::Key_Return);
                });
    month.place("Valvetrain");
    hand.choose("Clearance of every valve", "3I");
    hand.look("solvik-3I-clears");
}

/// All of them again, for the intake stands higher now; one is mistyped and taken back.
void walk_again(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-11T10:00:00Z");
    month.open_build("Solvik");
    month.stage("Pushrod clearance", "Gates");
    hand.look("solvik-stale-by-gasket");
    month.fill_sheet("Pushrod clearance", "Each valve", "Pushrod clearance",
                     Month::inches({83, 62, 94, 74, 230}, 3));
    hand.see("stands apart"); // 3I was meant to be .023
    hand.look("solvik-mistyped");
    hand.menu("Edit", "Undo");
    hand.look("solvik-taken-back");
    hand.fill_column("Pushrod clearance",
                     Month::inches({23, 64, 80, 79, 52, 60, 65, 80, 82, 77, 86, 57}, 3), 4);
    month.stage("Pushrod clearance", "Cures and open items");
    hand.press("New decision…");
    hand.type("Question", "Which intake gaskets", "New decision");
    hand.type("Chosen", "The thick ones, .075 crushed", "New decision");
    hand.type("Why", "With the thin ones 3I touched the inboard wall of its tube", "New decision");
    hand.press("Keep it");
    hand.look("solvik-decision");
    month.stage("Pushrod clearance", "Gates");
    hand.look("solvik-before-final");
    month.sign_off("MH");
}

} // namespace

void v8_rod_cured(Month& month) {
    month.at("2026-12-10T10:00:00Z");
    month.who("MH");
    month.open_build("Solvik");
    try_to_waive_contact(month);
    look_for_the_cause(month);
    fit_thicker_gaskets(month);
    walk_again(month);
}

} // namespace rodway::tests
