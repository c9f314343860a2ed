#include <stdexcept>

#include "tests/app/month/month.h"

namespace rodway::tests {
namespace {

void ask_extras(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-02T14:00:00Z");
    month.who("PO");
    month.place("Account");
    hand.tab("Extras");
    hand.type("What is asked", "Exhaust guides: eight new ones");
    hand.type("Amount", "312");
    hand.key(Qt::Key_Return);
    hand.type("What is asked", "Roller cam and lifters in place of flat ones");
    hand.type("Amount", "1,100");
    hand.key(Qt::Key_Return);
    hand.look("solvik-extras-asked");
}

void answer_extras(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-03T10:00:00Z");
    month.who("PO");
    month.open_build("Solvik");
    month.place("Account");
    hand.tab("Extras");
    hand.choose("Extras", "Exhaust guides");
    hand.pick("The answer to the selected extra", "approved");
    hand.type("By whom", "Runa Solvik");
    hand.type("How", "letter");
    hand.press("Put down the answer");
    hand.choose("Extras", "Roller cam");
    hand.pick("The answer to the selected extra", "declined");
    hand.type("By whom", "Runa Solvik");
    hand.type("How", "message");
    hand.press("Put down the answer");
    hand.look("solvik-extras-answered");
}

void list_parts(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-04T10:00:00Z");
    month.who("PO");
    month.open_build("Solvik");
    month.place("Parts");
    hand.look("solvik-no-parts");
    month.add_part({.item = "Intake gaskets, composite",
                    .role = "Intake gasket",
                    .count = "2",
                    .supplier = "Quayside Gaskets",
                    .cost = "38"});
    hand.look("solvik-first-part");
    month.mark("Intake gaskets", "Ordered", "2026-12-02");
    month.mark("Intake gaskets", "Received");
    month.mark("Intake gaskets", "Measured");
    month.add_part({.item = "Intake bolts off the shelf",
                    .role = "Intake bolt",
                    .count = "16",
                    .thread = "3/8-16",
                    .length = "1-1/4",
                    .temporary = true});
    month.mark("Intake bolts off the shelf", "Received");
    month.mark("Intake bolts off the shelf", "Measured");
    // What is to take their place in the end comes from far away.
    hand.choose("Parts of the build", "Intake bolts off the shelf");
    hand.answer([&] { hand.press("Replace…"); },
                [&] {
                    hand.type("What it is", "Intake bolts, waisted");
                    hand.type("Supplier", "Lowfield Fasteners");
                    hand.type("Cost, all of them", "96.50");
                    hand.look("solvik-replacement");
                    hand.press("Keep");
                });
    month.mark("Intake bolts, waisted", "Ordered");
    month.mark("Intake bolts, waisted", "Promised for", "2026-12-09");
    hand.look("solvik-parts");
}

} // namespace

void v8_taken_in(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-02T10:00:00Z");
    month.who("MH");
    month.open_build("Solvik");
    month.stage("Arrival and as found");
    hand.look("solvik-arrival");
    month.tick_all();
    month.stage("Teardown");
    month.tick_all();
    ask_extras(month);
    month.who("MH");
    month.stage("Teardown", "Gates");
    hand.look("solvik-teardown-held");
    hand.see("Exhaust guides");
    if (hand.can_press("Sign off…")) {
        throw std::runtime_error("signed off before the customer answered");
    }
    answer_extras(month);
    month.who("MH");
    month.stage("Teardown", "Gates");
    month.sign_off("MH");
    hand.look("solvik-teardown-signed");
    list_parts(month);
}

} // namespace rodway::tests
