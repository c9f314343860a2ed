#include "app/words/part_words.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct Parts {
    Q_DECLARE_TR_FUNCTIONS(Parts)
};

struct Role {
    const char* word;
    const char* text;
};

constexpr Role roles[] = {
    {"block", QT_TRANSLATE_NOOP("Parts", "Cylinder block")},
    {"core_plug", QT_TRANSLATE_NOOP("Parts", "Core plug")},
    {"gallery_plug", QT_TRANSLATE_NOOP("Parts", "Gallery plug")},
    {"dowel", QT_TRANSLATE_NOOP("Parts", "Dowel")},
    {"thread_insert", QT_TRANSLATE_NOOP("Parts", "Thread insert")},
    {"main_cap", QT_TRANSLATE_NOOP("Parts", "Main cap")},
    {"main_bolt", QT_TRANSLATE_NOOP("Parts", "Main bolt")},
    {"main_bearing", QT_TRANSLATE_NOOP("Parts", "Main bearing")},
    {"thrust_bearing", QT_TRANSLATE_NOOP("Parts", "Thrust bearing")},
    {"cam_bearing", QT_TRANSLATE_NOOP("Parts", "Cam bearing")},
    {"cam_plug", QT_TRANSLATE_NOOP("Parts", "Cam plug")},
    {"crankshaft", QT_TRANSLATE_NOOP("Parts", "Crankshaft")},
    {"crank_key", QT_TRANSLATE_NOOP("Parts", "Crankshaft key")},
    {"pilot_bearing", QT_TRANSLATE_NOOP("Parts", "Pilot bearing")},
    {"connecting_rod", QT_TRANSLATE_NOOP("Parts", "Connecting rod")},
    {"rod_bolt", QT_TRANSLATE_NOOP("Parts", "Rod bolt")},
    {"rod_bearing", QT_TRANSLATE_NOOP("Parts", "Rod bearing")},
    {"pin_bush", QT_TRANSLATE_NOOP("Parts", "Piston pin bush")},
    {"piston", QT_TRANSLATE_NOOP("Parts", "Piston")},
    {"piston_pin", QT_TRANSLATE_NOOP("Parts", "Piston pin")},
    {"pin_lock", QT_TRANSLATE_NOOP("Parts", "Piston pin lock")},
    {"ring", QT_TRANSLATE_NOOP("Parts", "Piston rings")},
    {"damper", QT_TRANSLATE_NOOP("Parts", "Crankshaft damper")},
    {"damper_bolt", QT_TRANSLATE_NOOP("Parts", "Damper bolt")},
    {"flywheel", QT_TRANSLATE_NOOP("Parts", "Flywheel")},
    {"flywheel_bolt", QT_TRANSLATE_NOOP("Parts", "Flywheel bolt")},
    {"camshaft", QT_TRANSLATE_NOOP("Parts", "Camshaft")},
    {"cam_thrust_plate", QT_TRANSLATE_NOOP("Parts", "Cam thrust plate")},
    {"cam_bolt", QT_TRANSLATE_NOOP("Parts", "Cam bolt")},
    {"timing_set", QT_TRANSLATE_NOOP("Parts", "Timing set")},
    {"timing_cover", QT_TRANSLATE_NOOP("Parts", "Timing cover")},
    {"timing_cover_gasket", QT_TRANSLATE_NOOP("Parts", "Timing cover gasket")},
    {"front_seal", QT_TRANSLATE_NOOP("Parts", "Front seal")},
    {"rear_seal", QT_TRANSLATE_NOOP("Parts", "Rear seal")},
    {"head", QT_TRANSLATE_NOOP("Parts", "Cylinder head")},
    {"head_gasket", QT_TRANSLATE_NOOP("Parts", "Head gasket")},
    {"head_bolt", QT_TRANSLATE_NOOP("Parts", "Head bolt")},
    {"intake_valve", QT_TRANSLATE_NOOP("Parts", "Intake valve")},
    {"exhaust_valve", QT_TRANSLATE_NOOP("Parts", "Exhaust valve")},
    {"valve_guide", QT_TRANSLATE_NOOP("Parts", "Valve guide")},
    {"valve_seat", QT_TRANSLATE_NOOP("Parts", "Valve seat")},
    {"valve_seal", QT_TRANSLATE_NOOP("Parts", "Valve seal")},
    {"valve_spring", QT_TRANSLATE_NOOP("Parts", "Valve spring")},
    {"inner_spring", QT_TRANSLATE_NOOP("Parts", "Inner spring")},
    {"spring_shim", QT_TRANSLATE_NOOP("Parts", "Spring shim")},
    {"spring_seat", QT_TRANSLATE_NOOP("Parts", "Spring seat")},
    {"retainer", QT_TRANSLATE_NOOP("Parts", "Spring retainer")},
    {"valve_lock", QT_TRANSLATE_NOOP("Parts", "Valve lock")},
    {"lifter", QT_TRANSLATE_NOOP("Parts", "Lifter")},
    {"lifter_retainer", QT_TRANSLATE_NOOP("Parts", "Lifter retainer")},
    {"pushrod", QT_TRANSLATE_NOOP("Parts", "Pushrod")},
    {"pushrod_tube", QT_TRANSLATE_NOOP("Parts", "Pushrod tube")},
    {"tube_seal", QT_TRANSLATE_NOOP("Parts", "Tube seal")},
    {"guide_plate", QT_TRANSLATE_NOOP("Parts", "Guide plate")},
    {"rocker", QT_TRANSLATE_NOOP("Parts", "Rocker")},
    {"rocker_shaft", QT_TRANSLATE_NOOP("Parts", "Rocker shaft")},
    {"rocker_stand", QT_TRANSLATE_NOOP("Parts", "Rocker stand")},
    {"rocker_stand_shim", QT_TRANSLATE_NOOP("Parts", "Rocker stand shim")},
    {"rocker_bolt", QT_TRANSLATE_NOOP("Parts", "Rocker bolt")},
    {"rocker_stud", QT_TRANSLATE_NOOP("Parts", "Rocker stud")},
    {"adjuster", QT_TRANSLATE_NOOP("Parts", "Rocker adjuster")},
    {"rocker_cover", QT_TRANSLATE_NOOP("Parts", "Rocker cover")},
    {"rocker_cover_gasket", QT_TRANSLATE_NOOP("Parts", "Rocker cover gasket")},
    {"lifter_cover", QT_TRANSLATE_NOOP("Parts", "Lifter cover")},
    {"lifter_cover_gasket", QT_TRANSLATE_NOOP("Parts", "Lifter cover gasket")},
    {"intake_manifold", QT_TRANSLATE_NOOP("Parts", "Intake manifold")},
    {"intake_gasket", QT_TRANSLATE_NOOP("Parts", "Intake gasket")},
    {"intake_end_seal", QT_TRANSLATE_NOOP("Parts", "Intake end seal")},
    {"intake_bolt", QT_TRANSLATE_NOOP("Parts", "Intake bolt")},
    {"carburettor", QT_TRANSLATE_NOOP("Parts", "Carburettor")},
    {"carburettor_gasket", QT_TRANSLATE_NOOP("Parts", "Carburettor gasket")},
    {"fuel_pump", QT_TRANSLATE_NOOP("Parts", "Fuel pump")},
    {"fuel_pump_rod", QT_TRANSLATE_NOOP("Parts", "Fuel pump rod")},
    {"fuel_pump_gasket", QT_TRANSLATE_NOOP("Parts", "Fuel pump gasket")},
    {"exhaust_manifold", QT_TRANSLATE_NOOP("Parts", "Exhaust manifold")},
    {"exhaust_gasket", QT_TRANSLATE_NOOP("Parts", "Exhaust gasket")},
    {"exhaust_bolt", QT_TRANSLATE_NOOP("Parts", "Exhaust bolt")},
    {"distributor", QT_TRANSLATE_NOOP("Parts", "Distributor")},
    {"distributor_gear", QT_TRANSLATE_NOOP("Parts", "Distributor gear")},
    {"distributor_gasket", QT_TRANSLATE_NOOP("Parts", "Distributor gasket")},
    {"ignition_coil", QT_TRANSLATE_NOOP("Parts", "Ignition coil")},
    {"ignition_lead", QT_TRANSLATE_NOOP("Parts", "Ignition lead")},
    {"spark_plug", QT_TRANSLATE_NOOP("Parts", "Spark plug")},
    {"oil_pump", QT_TRANSLATE_NOOP("Parts", "Oil pump")},
    {"oil_pump_drive", QT_TRANSLATE_NOOP("Parts", "Oil pump drive")},
    {"oil_pump_gasket", QT_TRANSLATE_NOOP("Parts", "Oil pump gasket")},
    {"oil_pickup", QT_TRANSLATE_NOOP("Parts", "Oil pickup")},
    {"oil_filter", QT_TRANSLATE_NOOP("Parts", "Oil filter")},
    {"oil_pan", QT_TRANSLATE_NOOP("Parts", "Oil pan")},
    {"oil_pan_gasket", QT_TRANSLATE_NOOP("Parts", "Oil pan gasket")},
    {"oil_pan_bolt", QT_TRANSLATE_NOOP("Parts", "Oil pan bolt")},
    {"oil", QT_TRANSLATE_NOOP("Parts", "Oil")},
    {"break_in_oil", QT_TRANSLATE_NOOP("Parts", "Break-in oil")},
    {"water_pump", QT_TRANSLATE_NOOP("Parts", "Water pump")},
    {"water_pump_gasket", QT_TRANSLATE_NOOP("Parts", "Water pump gasket")},
    {"thermostat", QT_TRANSLATE_NOOP("Parts", "Thermostat")},
    {"thermostat_gasket", QT_TRANSLATE_NOOP("Parts", "Thermostat gasket")},
    {"coolant", QT_TRANSLATE_NOOP("Parts", "Coolant")},
    {"fan", QT_TRANSLATE_NOOP("Parts", "Fan")},
    {"belt", QT_TRANSLATE_NOOP("Parts", "Belt")},
    {"sealant", QT_TRANSLATE_NOOP("Parts", "Sealant")},
    {"thread_sealer", QT_TRANSLATE_NOOP("Parts", "Thread sealer")},
    {"assembly_lubricant", QT_TRANSLATE_NOOP("Parts", "Assembly lubricant")},
    {"heat_tab", QT_TRANSLATE_NOOP("Parts", "Heat tab")},
    {"engine_mount", QT_TRANSLATE_NOOP("Parts", "Engine mount")},
    {"other", QT_TRANSLATE_NOOP("Parts", "Other part")},
};

} // namespace

QString part_role(const std::string& word) {
    for (const Role& role : roles) {
        if (word == role.word) {
            return Parts::tr(role.text);
        }
    }
    return QString::fromStdString(word);
}

} // namespace rodway::words
