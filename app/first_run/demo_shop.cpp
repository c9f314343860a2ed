#include "app/first_run/demo_shop.h"

#include <QFile>
#include <array>
#include <string_view>

#include "app/first_run/demo_records.h"
#include "app/first_run/new_build.h"
#include "core/files/set_up_file.h"
#include "core/sheets/rod_clearance_reading.h"
#include "db/edits.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"

namespace rodway {
namespace {

struct DemoBuild {
    const char* name;
    const char* customer;
    const char* engine;
    const char* promised;
    const char* set_up;
    const char* plan;
    const char* reached; ///< item of the plan that is to be done next
};

constexpr std::array<DemoBuild, 3> demo_builds{{
    {"Halden V8", "Ada Brandvold", "Halden 402 V8, port tubes, solid flat tappets", "2027-03-12",
     "v8-port-tubes", "complete_build", "clearance_walked"},
    {"Merrow six", "Ketil Aune", "Merrow 261 six, turns counter-clockwise (port side of a pair)",
     "2027-02-19", "inline-six", "marine_pair", "every_cylinder"},
    {"Corran flat four", "Ines Talvik", "Corran 190 flat four", "2027-05-03", "flat-four",
     "valvetrain_mock_up", "true_tdc"},
}};

constexpr const char* demo_person = "MH";
constexpr const char* with_account = "Merrow six";

SetUpFields demo_set_up(const char* name) {
    QFile file(QString(":/rodway/demo/%1.json").arg(name));
    RODWAY_ASSERT(file.open(QIODevice::ReadOnly));
    const auto fields = read_set_up_file(file.readAll().toStdString());
    RODWAY_ASSERT(fields.ok());
    return *fields;
}

/// Ticks the steps before one, a stage a day, each day's as one act.
Result<Done> tick_up_to(ShopSession& session, std::int64_t build_id, const std::string& reached) {
    const auto stages = stages_with_steps(session.shop(), build_id);
    if (!stages) {
        return stages.error();
    }
    int day = 2;
    for (const StageWithSteps& stage : *stages) {
        std::vector<Edit> edits;
        std::string at;
        int minute = 0;
        for (const Step& step : stage.steps) {
            const std::string item = step.plan_item.value_or("");
            if (item.substr(item.find(':') + 1) == reached) {
                break;
            }
            at = QString("2026-11-%1T15:%2:00Z")
                     .arg(day, 2, 10, QChar('0'))
                     .arg(minute++, 2, 10, QChar('0'))
                     .toStdString();
            const auto tick = edits_to_tick(step, demo_person, at);
            edits.insert(edits.end(), tick.begin(), tick.end());
        }
        const bool whole = static_cast<std::size_t>(minute) == stage.steps.size();
        if (!edits.empty()) {
            const auto done = apply(session.shop(), std::move(edits), demo_person, at);
            if (!done) {
                return done.error();
            }
        }
        if (!whole) {
            return Done{};
        }
        ++day;
    }
    return Done{};
}

/// What was found by hand before the rods were swept: close to the truth at two valves.
Result<Done> add_readings(ShopSession& session, std::int64_t build_id) {
    const auto set_up = newest_set_up(session.shop(), build_id);
    if (!set_up) {
        return set_up.error();
    }
    struct Found {
        const char* position;
        const char* text;
    };
    constexpr std::array<Found, 2> found{{{"3I", ".002-.006"}, {"5I", ".048"}}};
    for (const Found& each : found) {
        const auto id = session.create(RecordKind::reading,
                                       [&](std::int64_t reading_id) {
                                           Reading reading;
                                           reading.id = reading_id;
                                           reading.build_id = build_id;
                                           reading.set_up_id = (*set_up)->id;
                                           reading.quantity = std::string(rod_clearance_quantity);
                                           reading.position = each.position;
                                           reading.text = each.text;
                                           reading.unit = "in";
                                           reading.taken_by = demo_person;
                                           reading.taken_at = "2026-11-16T10:05:00Z";
                                           return edits_to_create(reading);
                                       },
                                       {});
        if (!id) {
            return id.error();
        }
    }
    return Done{};
}

} // namespace

Result<Done> write_demo_shop(const QString& path) {
    auto shop = ShopFile::create(path.toStdString());
    if (!shop) {
        return shop.error();
    }
    ShopSession session(std::move(shop).value(), demo_person);
    if (const auto people = add_demo_people(session); !people) {
        return people.error();
    }
    for (const DemoBuild& demo : demo_builds) {
        Build build;
        build.name = demo.name;
        build.customer = demo.customer;
        build.engine = demo.engine;
        build.promised = demo.promised;
        const auto id = create_build(session, build, demo_set_up(demo.set_up), demo.plan);
        if (!id) {
            return id.error();
        }
        if (const auto ticked = tick_up_to(session, *id, demo.reached); !ticked) {
            return ticked.error();
        }
        if (std::string_view(demo.name) == with_account) {
            if (const auto added = add_demo_parts_and_account(session, *id); !added) {
                return added.error();
            }
        }
        if (&demo == demo_builds.data()) {
            if (const auto added = add_readings(session, *id); !added) {
                return added.error();
            }
        }
    }
    return Done{};
}

} // namespace rodway
