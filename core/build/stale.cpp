#include "core/build/stale.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "core/build/build_timeline.h"
#include "core/build/stale_parts.h"
#include "core/engine/field_value.h"
#include "core/sheets/reading_interval.h"
#include "core/sheets/sheet_kinds.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

using Text = std::optional<std::string>;

const Quantity& quantity_called(std::string_view id) {
    const Quantity* quantity = find_quantity(id);
    RODWAY_ASSERT(quantity != nullptr);
    return *quantity;
}

/// Nobody measured anything there.
bool says_nothing(const std::optional<Reading>& reading) {
    return !reading || reading->status == ReadingStatus::not_measured;
}

std::optional<Interval> range_of(const Reading& reading, const Quantity& quantity) {
    const auto value = read_value(reading, quantity);
    return value ? interval_of(*value) : std::nullopt;
}

bool same_reading(const std::optional<Reading>& one, const std::optional<Reading>& other,
                  const Quantity& quantity) {
    if (says_nothing(one) || says_nothing(other)) {
        return says_nothing(one) == says_nothing(other);
    }
    const auto a = range_of(*one, quantity);
    const auto b = range_of(*other, quantity);
    if (a && b) {
        // The next figure of the last digit is another value: to touch isn't to overlap.
        constexpr double touching = 1e-9;
        return *a == *b || std::min(a->high, b->high) - std::max(a->low, b->low) > touching;
    }
    return one->status == other->status && one->unit == other->unit &&
           plain_text(one->text) == plain_text(other->text);
}

bool same_field(std::string_view path, const std::optional<TypedValue>& one,
                const std::optional<TypedValue>& other) {
    return one && other ? same_field_value(path, *one, *other) : one == other;
}

/// As typed, with the unit of a bare number.
Text typed(const std::string& text, const std::string& unit) {
    const bool says_it = std::any_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '"';
    });
    return unit.empty() || says_it ? text : text + ' ' + unit;
}
Text typed(const std::optional<TypedValue>& value) {
    return value ? typed(value->text, value->unit) : std::nullopt;
}
Text typed(const std::optional<Reading>& reading) {
    return reading ? typed(reading->text, reading->unit) : std::nullopt;
}

/// The act by which a line left, for the last time, what it was at the end of another.
template <typename Value, typename Same>
const BuildChange& leaving(const Timeline<Value>& line, std::int64_t act, const Same& same) {
    const std::optional<Value> before = line.at(act);
    const BuildChange* by = line.moments().back().by;
    bool was_same = true;
    for (const auto& moment : line.moments()) {
        if (moment.by->act <= act) {
            continue;
        }
        const bool is_same = same(before, moment.value);
        if (was_same && !is_same) {
            by = moment.by;
        }
        was_same = is_same;
    }
    return *by;
}

/// The lines of a timeline that something depends on, found once for all checks.
class StaleSearch {
  public:
    StaleSearch(const BuildTimeline& timeline, const BanksOfCylinders& banks)
        : timeline_(timeline), banks_(banks), parts_(timeline, banks) {}

    std::vector<StaleCause> causes(const MadeCheck& check) {
        std::vector<StaleCause> found;
        const EnginePlace place = place_of(check);
        for (const CheckDependences& entry : check_dependences()) {
            const auto& has = entry.quantities;
            const bool concerns = check.quantity.empty() ||
                                  std::find(has.begin(), has.end(), check.quantity) != has.end();
            if (entry.check != check.kind || !concerns) {
                continue;
            }
            for (const Dependence& on : entry.on) {
                if (!check.reason || check.reason == on.reason) {
                    find(on, entry.fitting_counts, check.act, place, found);
                }
            }
        }
        return in_order(std::move(found));
    }

  private:
    static EnginePlace place_of(const MadeCheck& check) {
        if (check.position.empty() || check.quantity.empty()) {
            return {};
        }
        return place_of_position(check.position, quantity_called(check.quantity).place);
    }

    void find(const Dependence& on, bool fitting_counts, std::int64_t act, const EnginePlace& place,
              std::vector<StaleCause>& found) {
        switch (on.on) {
            case DependsOn::part_role:
                parts_.find(on, fitting_counts, act, place, found);
                break;
            case DependsOn::set_up_path:
                find_fields(on, act, place, found);
                break;
            case DependsOn::quantity:
                find_readings(on, act, place, found);
                break;
        }
    }

    /// That act, or the first after it by which there was a set-up: what is written down for the
    /// first time counts as having been so.
    [[nodiscard]] std::optional<std::int64_t> act_of_set_up(std::int64_t act) const {
        if (timeline_.set_up().at(act)) {
            return act;
        }
        for (const auto& moment : timeline_.set_up().moments()) {
            if (moment.by->act > act && moment.value) {
                return moment.by->act;
            }
        }
        return std::nullopt;
    }
    /// The same of a reading.
    static std::int64_t act_of_reading(const Timeline<Reading>& values, std::int64_t act) {
        if (!says_nothing(values.at(act))) {
            return act;
        }
        for (const auto& moment : values.moments()) {
            if (moment.by->act > act && !says_nothing(moment.value)) {
                return moment.by->act;
            }
        }
        return act;
    }

    void find_fields(const Dependence& on, std::int64_t act, const EnginePlace& place,
                     std::vector<StaleCause>& found) {
        const auto known = act_of_set_up(act);
        if (!known || !timeline_.set_up().now()) {
            return;
        }
        act = *known;
        for (const auto* line : fields_of(on.what)) {
            const auto& [path, values] = *line;
            const auto same = [&path = path](const auto& a, const auto& b) {
                return same_field(path, a, b);
            };
            if (!values.changes_after(act) || same(values.at(act), values.now()) ||
                !reaches(place_of_path(path), place, on.reach, banks_)) {
                continue;
            }
            const BuildChange& by = leaving(values, act, same);
            found.push_back({{RecordKind::set_up, by.edit.record.id},
                             path,
                             {},
                             {},
                             typed(values.at(act)),
                             typed(values.now()),
                             by.act,
                             by.when_utc,
                             by.who,
                             on.reason});
        }
    }

    void find_readings(const Dependence& on, std::int64_t act, const EnginePlace& place,
                       std::vector<StaleCause>& found) {
        const Quantity& quantity = quantity_called(on.what);
        const std::string name(on.what);
        const auto& all = timeline_.readings();
        for (auto line = all.lower_bound({name, {}});
             line != all.end() && line->first.first == name; ++line) {
            const auto& [at, values] = *line;
            const auto same = [&](const auto& a, const auto& b) {
                return same_reading(a, b, quantity);
            };
            const std::int64_t from = on.first_reading_counts ? act : act_of_reading(values, act);
            const auto& before = values.at(from);
            const bool known = !says_nothing(before) && !says_nothing(values.now());
            if (!values.changes_after(from) || (!known && !on.first_reading_counts) ||
                same(before, values.now()) ||
                !reaches(place_of_position(at.second, quantity.place), place, on.reach, banks_)) {
                continue;
            }
            const BuildChange& by = leaving(values, from, same);
            const std::int64_t reading = values.now() ? values.now()->id : before->id;
            found.push_back({{RecordKind::reading, reading},
                             name,
                             at.second,
                             {},
                             typed(before),
                             typed(values.now()),
                             by.act,
                             by.when_utc,
                             by.who,
                             on.reason});
        }
    }

    using FieldLine = std::pair<const std::string, Timeline<TypedValue>>;
    const std::vector<const FieldLine*>& fields_of(std::string_view what) {
        const auto [found, is_new] = fields_.try_emplace(what);
        if (is_new) {
            const std::int64_t first = timeline_.set_up().moments().front().by->act;
            for (const FieldLine& line : timeline_.fields()) {
                // What came with the first set-up and stayed can't have changed.
                if (line.second.changes_after(first) && path_is_of(line.first, what)) {
                    found->second.push_back(&line);
                }
            }
        }
        return found->second;
    }

    /// By act and field; each field of a record once, for the first reason that the table gives.
    static std::vector<StaleCause> in_order(std::vector<StaleCause> causes) {
        std::set<std::tuple<RecordKind, std::int64_t, std::string, std::string>> seen;
        std::erase_if(causes, [&](const StaleCause& cause) {
            return !seen.insert({cause.record.kind, cause.record.id, cause.field, cause.name})
                        .second;
        });
        std::stable_sort(causes.begin(), causes.end(), [](const auto& a, const auto& b) {
            return std::tie(a.act, a.field) < std::tie(b.act, b.field);
        });
        return causes;
    }

    const BuildTimeline& timeline_;
    const BanksOfCylinders& banks_;
    PartChanges parts_;
    std::map<std::string_view, std::vector<const FieldLine*>> fields_;
};

BanksOfCylinders banks_now(const BuildTimeline& timeline) {
    SetUpFields fields;
    for (const auto& [path, line] : timeline.fields()) {
        if (line.now()) {
            fields.emplace(path, *line.now());
        }
    }
    return banks_of_cylinders(fields);
}

bool is_as(const std::optional<Reading>& one, const Reading& other) {
    return one && one->id == other.id && one->text == other.text && one->unit == other.unit &&
           one->status == other.status;
}

} // namespace

std::vector<StaleCheck> stale_checks(const std::vector<MadeCheck>& checks,
                                     const BuildTimeline& timeline) {
    const BanksOfCylinders banks = banks_now(timeline);
    StaleSearch search(timeline, banks);
    std::vector<StaleCheck> stale;
    for (const MadeCheck& check : checks) {
        auto causes = search.causes(check);
        if (!causes.empty()) {
            stale.push_back({check, std::move(causes)});
        }
    }
    return stale;
}

std::vector<MadeCheck> checks_made(const BuildTimeline& timeline) {
    std::vector<MadeCheck> checks;
    for (const auto& [place, line] : timeline.readings()) {
        const SheetKind* kind = sheet_of_quantity(place.first);
        if (kind == nullptr || dependences_of(kind->id, place.first) == nullptr ||
            says_nothing(line.now())) {
            continue;
        }
        const Reading& counts = *line.now();
        const auto made =
            std::find_if(line.moments().begin(), line.moments().end(),
                         [&](const auto& moment) { return is_as(moment.value, counts); });
        checks.push_back({kind->id, place.first, place.second, made->by->act, made->by->when_utc,
                          counts.id, std::nullopt});
    }
    std::stable_sort(checks.begin(), checks.end(),
                     [](const auto& a, const auto& b) { return a.act < b.act; });
    return checks;
}

std::vector<MadeCheck> clearance_checks_made(const BuildTimeline& timeline) {
    const CheckDependences* entry = dependences_of(clearance_check, {});
    if (timeline.set_up().moments().empty() || !timeline.set_up().now()) {
        return {};
    }
    const BuildChange& begun = *timeline.set_up().moments().front().by;
    std::map<DependenceReason, const BuildChange*> made;
    for (const Dependence& on : entry->on) {
        // Without fields of its own, a reason is answered by the set-up's arrival alone.
        made.try_emplace(on.reason, &begun);
    }
    for (const Dependence& on : entry->on) {
        if (on.on != DependsOn::set_up_path) {
            continue;
        }
        for (const auto& [path, line] : timeline.fields()) {
            if (!path_is_of(path, on.what)) {
                continue;
            }
            // When it first was as it is now, whatever it was between. A field that came later and
            // went was so from the beginning.
            const auto& first = line.moments().front();
            if (!line.now() && first.by->act > begun.act) {
                continue;
            }
            for (const auto& moment : line.moments()) {
                if (same_field(path, moment.value, line.now())) {
                    const BuildChange*& newest = made[on.reason];
                    newest = moment.by->act > newest->act ? moment.by : newest;
                    break;
                }
            }
        }
    }
    std::vector<MadeCheck> checks;
    for (const auto& [reason, by] : made) {
        checks.push_back(
            {std::string(clearance_check), {}, {}, by->act, by->when_utc, std::nullopt, reason});
    }
    return checks;
}

} // namespace rodway
