#include "tests/twins/slow_stale.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>

#include "core/build/engine_place.h"
#include "core/engine/field_value.h"
#include "core/sheets/reading_value.h"
#include "core/sheets/sheet_kinds.h"
#include "core/units/typed_text.h"

namespace rodway::twins {
namespace {

using Fields = std::map<std::string, std::string>;
using Kind = std::map<std::int64_t, Fields>;

/// The records of a build as they stood.
struct Shop {
    Kind parts;
    Kind set_ups;
    Kind readings;

    Shop(const std::vector<BuildChange>& changes, std::int64_t last_act) {
        for (const BuildChange& change : changes) {
            if (change.act > last_act) {
                return;
            }
            Kind& kind = change.edit.record.kind == RecordKind::part     ? parts
                         : change.edit.record.kind == RecordKind::set_up ? set_ups
                                                                         : readings;
            Fields& fields = kind[change.edit.record.id];
            if (change.edit.after) {
                fields[change.edit.field] = *change.edit.after;
            } else {
                fields.erase(change.edit.field);
            }
            if (fields.empty()) {
                kind.erase(change.edit.record.id);
            }
        }
    }
};

std::string at(const Fields& fields, const std::string& field) {
    const auto found = fields.find(field);
    return found == fields.end() ? std::string() : found->second;
}

// Parts ------------------------------------------------------------------------------------------

bool may_be_in(const Fields& part) {
    const char* days[] = {"needed", "ordered", "promised", "received", "measured", "fitted"};
    const bool undated = std::none_of(std::begin(days), std::end(days),
                                      [&](auto day) { return part.contains(day); });
    return !part.contains("returned") && (part.contains("fitted") || undated);
}

bool is_in(const Kind& parts, std::int64_t id) {
    const auto found = parts.find(id);
    if (found == parts.end() || !may_be_in(found->second)) {
        return false;
    }
    return std::none_of(parts.begin(), parts.end(), [&](const auto& other) {
        return other.first != id && at(other.second, "replaces_id") == std::to_string(id) &&
               may_be_in(other.second);
    });
}

bool same_length(const std::string& one, const std::string& other) {
    const auto a = parse_length(one, BareNumber::inches);
    const auto b = parse_length(other, BareNumber::inches);
    return one == other || (a && b && std::abs((a->middle() - b->middle()).in_mm()) < 1e-6);
}

struct Sizes {
    int known = 0;
    int different = 0;
};

/// The engine after every act from the check's on.
struct Since {
    std::vector<Shop> shops;

    Since(const std::vector<BuildChange>& changes, std::int64_t act) {
        shops.emplace_back(changes, act);
        for (const BuildChange& change : changes) {
            if (change.act > act) {
                act = change.act;
                shops.emplace_back(changes, act);
            }
        }
    }
    [[nodiscard]] const Shop& then() const { return shops.front(); }
    [[nodiscard]] const Shop& now() const { return shops.back(); }
};

/// A field of a part when it was first known.
std::string first_known(const Since& since, std::int64_t id, const std::string& field) {
    for (const Shop& shop : since.shops) {
        if (shop.parts.contains(id) && shop.parts.at(id).contains(field)) {
            return shop.parts.at(id).at(field);
        }
    }
    return {};
}

/// How a part is now beside what another, or itself, was.
Sizes compared(const Since& since, std::int64_t was, std::int64_t is) {
    Sizes sizes;
    for (const char* field : {"length", "size", "thread"}) {
        const std::string before = first_known(since, was, field);
        const std::string after = at(since.now().parts.at(is), field);
        if (!before.empty() && !after.empty()) {
            ++sizes.known;
            sizes.different += same_length(before, after) ? 0 : 1;
        }
    }
    return sizes;
}

/// Back along "in place of": the nearest that was in the engine, and the farthest there is.
struct Line {
    std::optional<std::int64_t> in_engine;
    std::optional<std::int64_t> farthest;
};
Line line_of(const Since& since, std::int64_t id) {
    Line line;
    std::set<std::int64_t> seen{id};
    std::string before = at(since.now().parts.at(id), "replaces_id");
    while (!before.empty() && seen.insert(std::stoll(before)).second) {
        const std::int64_t number = std::stoll(before);
        if (!since.now().parts.contains(number) && !since.then().parts.contains(number)) {
            return line;
        }
        if (is_in(since.then().parts, number)) {
            line.in_engine = number;
            return line;
        }
        line.farthest = number;
        const Kind& known =
            since.now().parts.contains(number) ? since.now().parts : since.then().parts;
        before = at(known.at(number), "replaces_id");
    }
    return line;
}

bool part_changed(std::int64_t id, const std::string& role, bool fitting_counts,
                  const Since& since) {
    const Shop& then = since.then();
    const Shop& now = since.now();
    const auto of_role = [&](const Shop& shop) {
        return is_in(shop.parts, id) && at(shop.parts.at(id), "role") == role;
    };
    const bool was = of_role(then);
    const bool is = of_role(now);
    if (is) {
        const Line line = was ? Line() : line_of(since, id);
        const auto before = line.in_engine || fitting_counts ? line.in_engine : line.farthest;
        const Sizes sizes = compared(since, before.value_or(id), id);
        const std::string fitted = at(now.parts.at(id), "fitted");
        if (sizes.different > 0) {
            return true;
        }
        if (!fitting_counts) {
            return before && sizes.known == 0;
        }
        return was ? at(then.parts.at(id), "fitted") != fitted : !fitted.empty() || before;
    }
    if (!was || !fitting_counts) {
        return false;
    }
    const Fields& before = then.parts.at(id);
    const bool exists = now.parts.contains(id);
    if (exists && at(now.parts.at(id), "role") != role) {
        return true;
    }
    for (const auto& [other, fields] : now.parts) {
        if (other != id && at(fields, "replaces_id") == std::to_string(id) && may_be_in(fields)) {
            // Told by the part that came, if that is of the same role.
            return at(fields, "role") != role;
        }
    }
    return (exists && now.parts.at(id).contains("returned")) || before.contains("fitted");
}

bool reaches_from(const std::string& position, const EnginePlace& place, DependenceReach reach,
                  const BanksOfCylinders& banks) {
    const auto places = places_of_part(position);
    return places.empty() || std::any_of(places.begin(), places.end(), [&](const auto& one) {
               return reaches(one, place, reach, banks);
           });
}

bool any_part_changed(const Dependence& on, bool fitting_counts, const EnginePlace& place,
                      const Since& since, const BanksOfCylinders& banks) {
    Kind all = since.then().parts;
    all.insert(since.now().parts.begin(), since.now().parts.end());
    for (const auto& [id, unused] : all) {
        bool concerns = !(!on.joint.empty() && place.joint && *place.joint != on.joint);
        bool reached = false;
        for (const Shop* shop : {&since.then(), &since.now()}) {
            reached = reached ||
                      (shop->parts.contains(id) &&
                       reaches_from(at(shop->parts.at(id), "position"), place, on.reach, banks));
        }
        concerns = concerns && reached;
        if (concerns && part_changed(id, std::string(on.what), fitting_counts, since)) {
            return true;
        }
    }
    return false;
}

// Set-ups ----------------------------------------------------------------------------------------

Fields in_hand(const Shop& shop) {
    return shop.set_ups.empty() ? Fields() : shop.set_ups.rbegin()->second;
}

std::optional<TypedValue> value_at(const Fields& fields, const std::string& path) {
    if (!fields.contains(path)) {
        return std::nullopt;
    }
    const std::string& text = fields.at(path);
    const auto space = text.rfind(' ');
    return space == std::string::npos ? TypedValue{text, {}}
                                      : TypedValue{text.substr(0, space), text.substr(space + 1)};
}

bool any_field_changed(const Dependence& on, const EnginePlace& place, const Since& since,
                       const BanksOfCylinders& banks) {
    const auto first = std::find_if(since.shops.begin(), since.shops.end(),
                                    [](const Shop& shop) { return !shop.set_ups.empty(); });
    if (first == since.shops.end() || since.now().set_ups.empty()) {
        return false;
    }
    Fields all = in_hand(*first);
    const Fields later = in_hand(since.now());
    all.insert(later.begin(), later.end());
    return std::any_of(all.begin(), all.end(), [&](const auto& field) {
        const std::string& path = field.first;
        if (!path_is_of(path, on.what) || !reaches(place_of_path(path), place, on.reach, banks)) {
            return false;
        }
        const auto a = value_at(in_hand(*first), path);
        const auto b = value_at(later, path);
        return a && b ? !same_field_value(path, *a, *b) : a.has_value() != b.has_value();
    });
}

// Readings ---------------------------------------------------------------------------------------

/// The last at each position of one quantity.
std::map<std::string, Fields> counting(const Shop& shop, std::string_view quantity) {
    std::map<std::string, Fields> last;
    for (const auto& [id, fields] : shop.readings) {
        if (at(fields, "quantity") == quantity) {
            last[at(fields, "position")] = fields;
        }
    }
    return last;
}

bool is_measured(const std::map<std::string, Fields>& readings, const std::string& position) {
    return readings.contains(position) && at(readings.at(position), "status") != "not_measured";
}

bool same_value(const Fields& one, const Fields& other, const Quantity& quantity) {
    const auto read = [&](const Fields& fields) {
        Reading reading;
        reading.text = at(fields, "text");
        reading.unit = at(fields, "unit");
        return read_value(reading, quantity);
    };
    const auto a = read(one);
    const auto b = read(other);
    if (!a || !b || !a->is_number() || !b->is_number()) {
        return at(one, "text") == at(other, "text") && at(one, "unit") == at(other, "unit");
    }
    // Plain numbers: as near to each other as their last digits leave open, the next digit
    // excluded.
    const double slack = (a->resolution + b->resolution) / 2.0;
    const double apart = std::abs(a->middle() - b->middle());
    return apart == 0.0 || apart < slack * (1.0 - 1e-9);
}

bool any_reading_changed(const Dependence& on, const EnginePlace& place, const Since& since,
                         const BanksOfCylinders& banks) {
    const Quantity& quantity = *find_quantity(on.what);
    const auto now = counting(since.now(), on.what);
    std::set<std::string> positions;
    for (const Shop* shop : {&since.then(), &since.now()}) {
        for (const auto& [position, unused] : counting(*shop, on.what)) {
            positions.insert(position);
        }
    }
    return std::any_of(positions.begin(), positions.end(), [&](const std::string& position) {
        if (!reaches(place_of_position(position, quantity.place), place, on.reach, banks)) {
            return false;
        }
        auto before = counting(since.then(), on.what);
        for (auto shop = since.shops.begin();
             !on.first_reading_counts && !is_measured(before, position) &&
             shop != since.shops.end();
             ++shop) {
            before = counting(*shop, on.what);
        }
        const bool was = is_measured(before, position);
        const bool is = is_measured(now, position);
        if (was && is) {
            return !same_value(before.at(position), now.at(position), quantity);
        }
        return was != is && on.first_reading_counts;
    });
}

} // namespace

bool is_stale(const MadeCheck& check, const std::vector<BuildChange>& changes) {
    const Since since(changes, check.act);
    BanksOfCylinders banks;
    for (const auto& [path, text] : in_hand(since.now())) {
        if (path.starts_with("cylinders/") && path.ends_with("/bank")) {
            banks[std::stoi(path.substr(10))] = text;
        }
    }
    EnginePlace place;
    if (!check.position.empty() && !check.quantity.empty()) {
        place = place_of_position(check.position, find_quantity(check.quantity)->place);
    }
    for (const CheckDependences& entry : check_dependences()) {
        const auto& has = entry.quantities;
        if (entry.check != check.kind ||
            (!check.quantity.empty() &&
             std::find(has.begin(), has.end(), check.quantity) == has.end())) {
            continue;
        }
        for (const Dependence& on : entry.on) {
            if (check.reason && check.reason != on.reason) {
                continue;
            }
            const bool changed =
                on.on == DependsOn::part_role
                    ? any_part_changed(on, entry.fitting_counts, place, since, banks)
                : on.on == DependsOn::set_up_path ? any_field_changed(on, place, since, banks)
                                                  : any_reading_changed(on, place, since, banks);
            if (changed) {
                return true;
            }
        }
    }
    return false;
}

} // namespace rodway::twins
