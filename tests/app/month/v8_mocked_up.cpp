#include "tests/app/month/month.h"

namespace rodway::tests {
namespace {

QStringList times(int count, const QString& text) {
    QStringList all;
    for (int which = 0; which < count; ++which) {
        all << text;
    }
    return all;
}

void short_block(Month& month) {
    Hand& hand = month.hand();
    for (const char* title : {"Inspection and machining", "Parts", "Short-block mock-up"}) {
        month.stage(title);
        month.tick_all();
    }
    month.fill_sheet("Main bearings", "Each main journal", "Main clearance",
                     Month::inches({24, 25, 24, 26, 27}, 4));
    hand.look("solvik-main-bearings");
    month.fill_sheet("Rod bearings", "Each cylinder", "Rod bearing clearance",
                     Month::inches({22, 23, 22, 22, 24, 22, 23, 22}, 4));
    month.fill_sheet("Rings", "Each ring", "Ring gap", times(16, ".022\""));
    hand.look("solvik-rings");
    month.fill_sheet("Deck clearance", "Each cylinder, by side", "Deck clearance",
                     times(16, "in the hole .010\""));
    hand.look("solvik-deck");
    month.fill_sheet("Degreeing", "Against the stop", "Reading at the stop",
                     {"19.5 ATDC", "19.5 BTDC"});
    hand.look("solvik-degreeing");
    month.fill_sheet("Springs", "Each valve", "Installed height", times(16, "1.850\""));
    hand.look("solvik-springs");
    for (const char* title : {"Camshaft and degreeing", "Heads"}) {
        month.stage(title);
        month.tick_all();
    }
    month.stage("Heads", "Gates");
    hand.look("solvik-before-heads");
    month.sign_off("MH");
}

void top_end(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-08T10:00:00Z");
    month.open_build("Solvik");
    for (const char* title : {"Valvetrain mock-up", "Piston to valve"}) {
        month.stage(title);
        month.tick_all();
    }
    QStringList room;
    for (int cylinder = 0; cylinder < 8; ++cylinder) {
        room << ".105"
             << ".130";
    }
    month.fill_sheet("Piston to valve", "Each valve", "Piston to valve", room);
    hand.look("solvik-piston-to-valve");
    month.place("Parts");
    month.mark("Intake gaskets", "Fitted");
    month.mark("Intake bolts off the shelf", "Fitted");
    hand.look("solvik-stand-ins-fitted");
    month.stage("Intake dry-fitted");
    month.tick_all();
    month.stage("Intake dry-fitted", "Gates");
    hand.look("solvik-before-rods");
    month.waive("Intake bolts, waisted",
                "Mock-up on shelf bolts of the same length; the waisted ones before first start",
                "Mirela Haugan");
    hand.look("solvik-bolts-waived");
    month.sign_off("MH");
}

} // namespace

void v8_mocked_up(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-07T10:00:00Z");
    month.who("MH");
    month.open_build("Solvik");
    short_block(month);
    top_end(month);

    month.at("2026-12-09T10:00:00Z");
    month.open_build("Solvik");
    QStringList walked =
        Month::inches({75, 55, 90, 70, 0, 60, 75, 74, 45, 55, 60, 75, 78, 74, 82, 52}, 3);
    walked[4] = "touches"; // 3I
    month.fill_sheet("Pushrod clearance", "Each valve", "Pushrod clearance", walked);
    hand.look("solvik-rod-touches");
    month.stage("Pushrod clearance");
    month.tick_all();
    month.stage("Pushrod clearance", "Gates");
    hand.look("solvik-contact-holds");
}

} // namespace rodway::tests
