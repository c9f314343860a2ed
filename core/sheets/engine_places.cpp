#include "core/sheets/engine_places.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <string_view>

#include "core/barring/full_lift_order.h"

namespace rodway {
namespace {

std::vector<int> in_order(const EnginePlaces& places, EntryOrder order) {
    switch (order) {
        case EntryOrder::by_number:
            return places.cylinders;
        case EntryOrder::front_to_rear:
            return places.front_to_rear;
        case EntryOrder::firing_order:
        case EntryOrder::full_lift:
            return places.firing_order;
    }
    return {};
}

std::vector<ValvePosition> valves_in_order(const EnginePlaces& places, EntryOrder order) {
    if (order == EntryOrder::full_lift) {
        return places.full_lift_order;
    }
    std::vector<ValvePosition> valves;
    for (const int cylinder : in_order(places, order)) {
        for (const ValvePosition& valve : places.valves) {
            if (valve.cylinder == cylinder) {
                valves.push_back(valve);
            }
        }
    }
    return valves;
}

/// Every name with every one of these words behind it, words changing fastest.
std::vector<std::string> times(const std::vector<std::string>& names,
                               std::initializer_list<std::string_view> words) {
    std::vector<std::string> all;
    for (const std::string& name : names) {
        for (const std::string_view word : words) {
            all.push_back(name + ' ' + std::string(word));
        }
    }
    return all;
}

std::vector<std::string> journals(int count) {
    std::vector<std::string> names;
    for (int number = 1; number <= count; ++number) {
        names.push_back('J' + std::to_string(number));
    }
    return names;
}

std::vector<std::string> cylinder_names(const EnginePlaces& places, EntryOrder order) {
    std::vector<std::string> names;
    for (const int number : in_order(places, order)) {
        names.push_back(std::to_string(number));
    }
    return names;
}

std::vector<std::string> valve_names(const EnginePlaces& places, EntryOrder order) {
    std::vector<std::string> names;
    for (const ValvePosition& valve : valves_in_order(places, order)) {
        names.push_back(position_name(valve));
    }
    return names;
}

} // namespace

EnginePlaces places_on(const Engine& engine) {
    EnginePlaces places;
    const EngineLayout& layout = engine.layout;
    for (const Cylinder& cylinder : layout.cylinders) {
        places.cylinders.push_back(cylinder.number);
    }
    places.front_to_rear = places.cylinders;
    std::stable_sort(places.front_to_rear.begin(), places.front_to_rear.end(), [&](int a, int b) {
        return layout.cylinder(a).centre_x_mm < layout.cylinder(b).centre_x_mm;
    });
    places.firing_order = places.cylinders;
    std::stable_sort(places.firing_order.begin(), places.firing_order.end(), [&](int a, int b) {
        return layout.firing_angle(a).in_deg() < layout.firing_angle(b).in_deg();
    });
    if (layout.banks.size() == 2) {
        places.banks = {"left", "right"};
    }
    for (const Train& train : engine.trains) {
        places.valves.push_back(train.position);
    }
    for (const ValvePosition& valve : engine.valves_without_train()) {
        places.valves.push_back(valve);
    }
    std::sort(places.valves.begin(), places.valves.end());
    if (const auto stops = full_lift_order(engine, CrankAngle{})) {
        for (const FullLiftStop& stop : *stops) {
            places.full_lift_order.insert(places.full_lift_order.end(), stop.valves.begin(),
                                          stop.valves.end());
        }
    }
    std::vector<int> in_bank(layout.banks.size(), 0);
    for (const Cylinder& cylinder : layout.cylinders) {
        ++in_bank[cylinder.bank];
    }
    places.main_journals = 1 + *std::max_element(in_bank.begin(), in_bank.end());
    places.cam_journals = places.main_journals;
    return places;
}

std::vector<std::string> usual_positions(Place place, const EnginePlaces& places,
                                         EntryOrder order) {
    switch (place) {
        case Place::engine:
            return {""};
        case Place::bank:
            return places.banks.empty() ? std::vector<std::string>{""} : places.banks;
        case Place::cylinder:
            return cylinder_names(places, order);
        case Place::bore:
            return times(cylinder_names(places, order),
                         {"top thrust", "top pin", "middle thrust", "middle pin", "bottom thrust",
                          "bottom pin"});
        case Place::cylinder_side:
            return times(cylinder_names(places, order), {"thrust", "antithrust"});
        case Place::ring:
            return times(cylinder_names(places, order), {"top", "second"});
        case Place::rod_pin:
            return times(cylinder_names(places, order), {"front vertical", "front horizontal"});
        case Place::valve:
        case Place::lobe:
            return valve_names(places, order);
        case Place::valve_tube:
            return times(valve_names(places, order),
                         {"top along", "top across", "middle along", "middle across",
                          "bottom along", "bottom across"});
        case Place::valve_lift:
            return times(valve_names(places, order), {"half", "full"});
        case Place::card_lobe:
            return {"I", "E"};
        case Place::main_journal:
            return journals(places.main_journals);
        case Place::cam_journal:
            return journals(places.cam_journals);
        case Place::stop_side:
            return {"forward", "backward"};
        default:
            return {};
    }
}

} // namespace rodway
