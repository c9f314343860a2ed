#include "app/words/cautions.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct Cautions {
    Q_DECLARE_TR_FUNCTIONS(Cautions)
};

struct Caution {
    const char* key;
    const char* text;
};

/// Without the sentence that all of them end in.
constexpr Caution texts[] = {
    {"lifting",
     QT_TRANSLATE_NOOP("Cautions",
                       "Lift with rated tackle, on a stand rated for the weight, and never stand "
                       "under a load. Keep fingers out from under castings.")},
    {"barring_over",
     QT_TRANSLATE_NOOP("Cautions",
                       "Turn the crank by hand, never with the starter, while a shaft is loose. "
                       "Back the adjusters off first; loosen and tighten shaft bolts evenly in "
                       "small steps. Keep fingers clear of springs and rockers.")},
    {"torque",
     QT_TRANSLATE_NOOP(
         "Cautions",
         "Torque, order, lubricant and angle are the fastener maker's, whatever is shown here. "
         "Pull a wrench, never push it; a stretched or necked bolt doesn't go back in.")},
    {"springs", QT_TRANSLATE_NOOP("Cautions",
                                  "A compressed spring can fly. Use a compressor that fits, wear "
                                  "eye protection, and keep your face out of its line.")},
    {"solvents",
     QT_TRANSLATE_NOOP("Cautions",
                       "Solvents and hot tanks burn skin and lungs and catch fire. Ventilate, wear "
                       "gloves and goggles, keep flames away, and read the label.")},
    {"press", QT_TRANSLATE_NOOP("Cautions",
                                "Pressed and heated parts burst, slip and burn. Stand aside of the "
                                "press, wear eye protection and gloves that bear the heat.")},
    {"machining",
     QT_TRANSLATE_NOOP("Cautions",
                       "Guards on, eyes and lungs protected, no loose sleeves or gloves near what "
                       "turns. Grinding dust kills engines too: close what is open.")},
    {"compressed_air",
     QT_TRANSLATE_NOOP(
         "Cautions",
         "Air drives chips and oil into eyes and skin, and a cylinder under air turns the crank. "
         "Wear goggles, keep the pressure low, lock the crank and stay clear of it.")},
    {"sealants", QT_TRANSLATE_NOOP("Cautions",
                                   "Sealants, glues and paints give off fumes and hurt skin. "
                                   "Ventilate, wear gloves, and keep to the times on the label.")},
    {"fuel", QT_TRANSLATE_NOOP("Cautions",
                               "Fuel vapour lies low and catches fire from a spark. No flame, no "
                               "sparks, extinguisher at hand, rags in a closed can.")},
    {"ignition",
     QT_TRANSLATE_NOOP("Cautions",
                       "Ignition voltage can stop a heart, and a spark turns an engine that was "
                       "thought safe. Battery off while hands are in it; earth the leads.")},
    {"drill_prime", QT_TRANSLATE_NOOP("Cautions",
                                      "A drill that meets the pump's load twists hard: hold it "
                                      "with its side handle, and know which way the pump turns.")},
    {"first_start",
     QT_TRANSLATE_NOOP("Cautions",
                       "Fan guard on, fumes led outside, extinguisher at hand, nobody in line with "
                       "fan, belts or flywheel. One person at the switch, ready to stop.")},
    {"running_engine",
     QT_TRANSLATE_NOOP("Cautions",
                       "Hot oil, hot metal and turning parts: keep hair, sleeves and hands away, "
                       "never open a hot cooling system, and lead the fumes outside.")},
    {"dyno", QT_TRANSLATE_NOOP("Cautions",
                               "Nobody in line with the coupling or flywheel while it runs. Guards "
                               "on, hearing protected, fumes led out, extinguisher at hand; water "
                               "and fuel lines looked at before every pull.")},
};

QString what_can_hurt(const QString& key) {
    for (const Caution& one : texts) {
        if (key == one.key) {
            return Cautions::tr(one.text);
        }
    }
    return {};
}

} // namespace

QString caution(const QString& key) {
    const QString text = what_can_hurt(key);
    return text.isEmpty()
               ? text
               : Cautions::tr("%1 Makers' instructions and local rules come first.").arg(text);
}

QString clearance_caution() {
    return Cautions::tr(
        "Computed from the set-up as typed: it is no better than those measurements. Confirm the "
        "tightest rods by hand on the engine as it will run, and again after any change of gasket, "
        "lifter, rod, rocker or manifold bolt. Makers' instructions come first.");
}

} // namespace rodway::words
