#include "core/build/check_dependence.h"

#include <gmock/gmock.h>

#include <set>

#include "core/build/part_role.h"
#include "core/describe/dimension.h"
#include "core/engine/set_up_fields.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

bool depends(std::string_view check, std::string_view quantity, DependsOn on,
             std::string_view what) {
    const CheckDependences* entry = dependences_of(check, quantity);
    return entry != nullptr &&
           std::any_of(entry->on.begin(), entry->on.end(),
                       [&](const Dependence& one) { return one.on == on && one.what == what; });
}

TEST(CheckDependence, NamesOnlyWhatThereIs) {
    for (const CheckDependences& entry : check_dependences()) {
        const SheetKind* kind = find_sheet_kind(entry.check);
        EXPECT_TRUE(kind != nullptr || entry.check == clearance_check) << entry.check;
        EXPECT_EQ(entry.quantities.empty(), entry.check == clearance_check);
        for (const std::string_view quantity : entry.quantities) {
            const Quantity* found = find_quantity(quantity);
            ASSERT_NE(found, nullptr) << quantity;
            EXPECT_EQ(found->origin, Origin::read) << quantity; // what follows is stale with it
            EXPECT_EQ(sheet_of_quantity(quantity)->id, entry.check) << quantity;
        }
        for (const Dependence& one : entry.on) {
            if (one.on == DependsOn::part_role) {
                EXPECT_TRUE(is_part_role(one.what)) << one.what;
            } else if (one.on == DependsOn::quantity) {
                EXPECT_NE(find_quantity(one.what), nullptr) << one.what;
            } else {
                const auto& specs = set_up_field_specs();
                const auto parts = path_parts(one.what);
                if (parts.size() == 3 && parts[0] == "described" && dimension_called(parts[2])) {
                    continue; // a dimension by which an engine is described
                }
                EXPECT_TRUE(std::any_of(specs.begin(), specs.end(), [&](const FieldSpec& spec) {
                    return path_is_of(spec.pattern, one.what);
                })) << one.what;
            }
        }
    }
}

TEST(CheckDependence, AQuantityStandsInOneEntryOnly) {
    std::set<std::string_view> seen;
    for (const CheckDependences& entry : check_dependences()) {
        for (const std::string_view quantity : entry.quantities) {
            EXPECT_TRUE(seen.insert(quantity).second) << quantity;
        }
    }
}

TEST(CheckDependence, NothingDependsOnItself) {
    for (const CheckDependences& entry : check_dependences()) {
        for (const Dependence& one : entry.on) {
            const auto& has = entry.quantities;
            EXPECT_TRUE(one.on != DependsOn::quantity ||
                        std::find(has.begin(), has.end(), one.what) == has.end())
                << one.what;
        }
    }
}

// Every field of the set-up that the survey of the clearance reads makes a sign-off of it stale.
TEST(CheckDependence, TheWorkedOutClearanceDependsOnTheSetUpThatPlacesRodsAndWalls) {
    const CheckDependences& entry = *dependences_of(clearance_check, {});
    const auto covered = [&](std::string_view path) {
        return std::any_of(entry.on.begin(), entry.on.end(), [&](const Dependence& one) {
            return one.on == DependsOn::set_up_path && path_is_of(path, one.what);
        });
    };
    const std::set<std::string_view> left_out{"engine", "camshaft", "springs",         "cylinders",
                                              "banks",  "hot",      "piston_to_valve", "running"};
    for (const FieldSpec& spec : set_up_field_specs()) {
        const std::string section = path_parts(spec.pattern).front();
        if (!left_out.contains(section)) {
            EXPECT_TRUE(covered(spec.pattern)) << spec.pattern;
        }
    }
    EXPECT_TRUE(covered("banks/left/head/gasket"));
    EXPECT_TRUE(covered("banks/left/flange/spacer"));
    EXPECT_TRUE(covered("cylinders/3/bank"));
    EXPECT_FALSE(covered("springs/3I/installed_height"));
    EXPECT_FALSE(covered("engine/name"));
}

// What the trade's stories say was forgotten: question 9 and 29 to 31 of builders' questions.
TEST(CheckDependence, KnowsTheStories) {
    using D = DependsOn;
    EXPECT_TRUE(depends("rod_clearance", "rod_clearance", D::part_role, "intake_bolt"));
    EXPECT_TRUE(depends("rod_clearance", "rod_gap", D::part_role, "intake_bolt"));
    EXPECT_TRUE(depends(clearance_check, "", D::part_role, "intake_bolt"));
    for (const char* role :
         {"intake_gasket", "head_gasket", "lifter", "pushrod", "rocker", "camshaft", "head"}) {
        EXPECT_TRUE(depends("rod_clearance", "rod_clearance", D::part_role, role)) << role;
    }
    for (const char* role :
         {"intake_gasket", "head_gasket", "lifter", "pushrod", "rocker", "camshaft", "head"}) {
        EXPECT_TRUE(depends(clearance_check, "", D::part_role, role)) << role;
    }
    EXPECT_TRUE(depends("rod_clearance", "rod_clearance", D::quantity, "head_removed"));
    EXPECT_TRUE(depends("rod_clearance", "rod_clearance", D::quantity, "intake_face_removed"));
    EXPECT_TRUE(depends("piston_to_valve", "valve_drop", D::part_role, "head_gasket"));
    EXPECT_TRUE(depends("intake", "port_mismatch", D::quantity, "head_removed"));
    EXPECT_TRUE(depends("distributor", "distributor_gear_raised", D::part_role, "intake_gasket"));
    EXPECT_FALSE(depends("rod_clearance", "rod_clearance", D::part_role, "oil_filter"));
    EXPECT_EQ(dependences_of("rod_clearance", "passage_size"), nullptr);
    EXPECT_EQ(dependences_of("hand_off", "engine_weight"), nullptr);
}

TEST(CheckDependence, APathBelongsToItsBeginning) {
    EXPECT_TRUE(path_is_of("banks/left/head/gasket", "banks/*/head"));
    EXPECT_TRUE(path_is_of("banks/left/head", "banks/*/head"));
    EXPECT_FALSE(path_is_of("banks/left", "banks/*/head"));
    EXPECT_FALSE(path_is_of("banks/left/headroom", "banks/*/head"));
    EXPECT_FALSE(path_is_of("banks/left/flange/gasket", "banks/*/head"));
    EXPECT_FALSE(path_is_of("", "banks"));
}

} // namespace
} // namespace rodway
