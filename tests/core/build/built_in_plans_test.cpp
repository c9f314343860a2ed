#include "tests/core/built_in_plans.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/build/caution.h"
#include "core/build/part_role.h"
#include "core/sheets/sheet_kinds.h"

// What builders do in which order, and what they forget, follows public pages of the trade: rods go
// in through their tubes when the intake is on, clearance is walked on final gaskets torqued down
// and walked again after the last torque, and gallery plugs are counted one by one.

namespace rodway {
namespace {

using tests::built_in_plan;

/// Steps and gates in the order in which they are come to: the gates of a stage behind its steps.
std::vector<std::string> walk(const StagePlan& plan) {
    std::vector<std::string> ids;
    for (const PlannedStage& stage : plan.stages) {
        for (const PlannedStep& step : stage.steps) {
            ids.push_back(step.id);
        }
        for (const PlannedGate& gate : stage.gates) {
            ids.push_back(gate.id);
        }
    }
    return ids;
}

void expect_order(const std::string& word, const std::vector<std::string>& wanted) {
    const std::vector<std::string> ids = walk(built_in_plan(word));
    auto before = ids.begin();
    for (const std::string& id : wanted) {
        const auto at = std::find(ids.begin(), ids.end(), id);
        ASSERT_NE(at, ids.end()) << word << ": no " << id;
        EXPECT_GE(at, before) << word << ": " << id << " comes too early";
        before = at;
    }
}

std::map<std::string, PlannedStep> steps_of(const StagePlan& plan) {
    std::map<std::string, PlannedStep> steps;
    for (const PlannedStage& stage : plan.stages) {
        for (const PlannedStep& step : stage.steps) {
            steps.emplace(step.id, step);
        }
    }
    return steps;
}

const PlannedGate* gate_of(const StagePlan& plan, const std::string& id) {
    for (const PlannedStage& stage : plan.stages) {
        for (const PlannedGate& gate : stage.gates) {
            if (gate.id == id) {
                return &gate;
            }
        }
    }
    return nullptr;
}

/// Whether the text speaks of all the words, in whatever case.
bool speaks_of(const PlannedStep& step, const std::vector<std::string>& words) {
    std::string text = step.title + ' ' + step.detail.value_or("");
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
        return text.find(word) != std::string::npos;
    });
}

TEST(BuiltInPlans, ACompleteBuildDryFitsTheIntakeBeforeRodsAndWalksClearanceTwice) {
    for (const char* word : {"complete_build", "marine_pair"}) {
        expect_order(word, {"before_heads_on",     "heads_mock_up",
                            "intake_bolt_length",  "intake_dry_fitted",
                            "before_rods_in",      "mock_up_rods_in",
                            "mock_up_shafts_on",   "lash_cold",
                            "clearance_walked",    "before_final_assembly",
                            "heads_torqued",       "intake_sealed",
                            "intake_final_torque", "final_rods_in",
                            "final_shafts_on",     "final_lash",
                            "clearance_recheck",   "primed",
                            "oil_every_rocker",    "before_first_start",
                            "start_ready",         "oil_pressure",
                            "broken_in",           "lash_hot",
                            "before_hand_off"});
        expect_order(word, {"drops", "before_final_assembly"});
        expect_order(word, {"true_tdc", "centreline", "advance_set", "light_springs", "drops"});
        expect_order(word, {"deck_clearance", "before_heads_on"});
    }
}

TEST(BuiltInPlans, TheOthersKeepTheOrderOfTheValvetrainToo) {
    expect_order(
        "refresh",
        {"before_heads_on", "heads_torqued", "intake_dry_fitted", "before_rods_in", "rods_in",
         "shafts_on", "lash_cold", "clearance_walked", "before_final_assembly", "shafts_off_again",
         "intake_final_torque", "final_rods_in", "final_shafts_on", "final_lash",
         "clearance_recheck", "primed", "before_first_start", "start_ready", "before_hand_off"});
    expect_order(
        "valvetrain_mock_up",
        {"advance_set", "heads_mock_up", "intake_dry_fitted", "rods_in", "shafts_on", "lash_cold",
         "clearance_walked", "intake_torque_again", "clearance_recheck", "before_hand_off"});
    expect_order("head_work",
                 {"before_machining", "guides_fitted", "seats_cut", "chambers", "installed_height",
                  "spring_loads", "springs_in", "before_hand_off"});
}

/// Rocker shafts come last wherever rods go in, and nothing stands between but rods and lifters.
TEST(BuiltInPlans, ShaftsFollowRodsEverywhere) {
    int met = 0;
    for (const char* word : tests::built_in_plan_words) {
        const std::vector<std::string> ids = walk(built_in_plan(word));
        for (std::size_t at = 0; at < ids.size(); ++at) {
            if (ids[at].size() >= 7 && ids[at].substr(ids[at].size() - 7) == "rods_in" &&
                ids[at] != "before_rods_in") {
                const std::string start = ids[at].substr(0, ids[at].size() - 7);
                ASSERT_LT(at + 1, ids.size());
                EXPECT_EQ(ids[at + 1], start + "shafts_on") << word;
                ++met;
            }
        }
    }
    EXPECT_EQ(met, 7);
}

TEST(BuiltInPlans, WhatIsForgottenIsAStepOfItsOwn) {
    const std::map<std::string, std::vector<std::string>> forgotten{
        {"main_gallery_front", {"gallery", "front", "plug"}},
        {"main_gallery_rear", {"gallery", "rear", "plug"}},
        {"lifter_gallery_front", {"lifter gallery", "front", "plug"}},
        {"lifter_gallery_rear", {"lifter gallery", "rear", "plug"}},
        {"fuel_pump_rod_hole", {"fuel-pump-rod hole", "plug"}},
        {"cam_plug_in", {"cam plug", "core plug"}},
        {"plugs_counted", {"plug", "counted"}},
        {"shaft_feed", {"shaft", "feed holes"}},
        {"piston_front", {"piston", "notch", "front"}},
        {"caps_by_number", {"caps", "number"}},
        {"rod_chamfer", {"chamfer", "fillet"}},
        {"oil_every_rocker", {"oil", "every rocker"}},
        {"bolts_valley", {"sealer", "valley"}},
        {"intake_bolt_length", {"bolt", "length", "pushrod hole"}},
        {"kept_by_position", {"pushrods", "lifters", "rockers", "position"}},
        {"rods_ordered", {"length", "defined"}},
        {"stand_ins_gone", {"temporary"}},
        {"direction", {"running direction"}},
        {"metal_removed", {"metal", "written down"}},
        {"not_checked", {"not checked"}},
        {"retorqued", {"gaskets"}},
        {"filter_cut", {"filter"}},
        {"end_play", {"thrust", "end play"}},
        {"turns_by_hand", {"by hand", "quote"}},
        {"inner_springs_out", {"inner springs out"}},
    };
    for (const char* word : {"complete_build", "marine_pair"}) {
        const auto steps = steps_of(built_in_plan(word));
        for (const auto& [id, words] : forgotten) {
            const auto step = steps.find(id);
            ASSERT_NE(step, steps.end()) << word << " " << id;
            const bool marine = std::string(word) == "marine_pair";
            if (!(marine && id == "direction")) {
                EXPECT_TRUE(speaks_of(step->second, words)) << word << ": " << step->second.title;
            }
        }
    }
}

TEST(BuiltInPlans, EveryKindOfSheetIsFilledInSomewhereInACompleteBuild) {
    std::set<std::string> used;
    for (const auto& [id, step] : steps_of(built_in_plan("complete_build"))) {
        if (step.sheet) {
            used.insert(*step.sheet);
        }
    }
    for (const SheetKind& kind : sheet_kinds()) {
        EXPECT_TRUE(used.count(kind.id)) << kind.id;
    }
}

/// Sheets that a gate waits for are filled in at a step that comes before the gate.
TEST(BuiltInPlans, GatesWaitForWhatWasDoneBefore) {
    for (const char* word : tests::built_in_plan_words) {
        std::set<std::string> sheets;
        std::set<std::string> roles;
        for (const PlannedStage& stage : built_in_plan(word).stages) {
            for (const PlannedStep& step : stage.steps) {
                if (step.sheet) {
                    sheets.insert(*step.sheet);
                }
                roles.insert(step.roles.begin(), step.roles.end());
            }
            for (const PlannedGate& gate : stage.gates) {
                EXPECT_EQ(gate.needs.front().kind, NeedKind::steps) << word << " " << gate.id;
                for (const Need& need : gate.needs) {
                    for (const std::string& sheet : need.sheets) {
                        EXPECT_TRUE(sheets.count(sheet)) << word << " " << gate.id << " " << sheet;
                    }
                    for (const std::string& role : need.roles) {
                        EXPECT_TRUE(roles.count(role)) << word << " " << gate.id << " " << role;
                    }
                }
            }
        }
    }
}

TEST(BuiltInPlans, GatesStandWhereTheTradeStops) {
    const auto waits_for = [](const char* word, const char* gate, NeedKind kind) {
        const StagePlan plan = built_in_plan(word);
        const PlannedGate* found = gate_of(plan, gate);
        return found != nullptr && std::any_of(found->needs.begin(), found->needs.end(),
                                               [&](const Need& need) { return need.kind == kind; });
    };
    for (const char* word : {"complete_build", "refresh", "marine_pair"}) {
        EXPECT_TRUE(waits_for(word, "before_heads_on", NeedKind::sheet)) << word;
        EXPECT_TRUE(waits_for(word, "before_final_assembly", NeedKind::clearance)) << word;
        EXPECT_TRUE(waits_for(word, "before_first_start", NeedKind::clearance)) << word;
        EXPECT_TRUE(waits_for(word, "before_first_start", NeedKind::cures)) << word;
        EXPECT_TRUE(waits_for(word, "before_first_start", NeedKind::closed)) << word;
    }
    for (const char* word : tests::built_in_plan_words) {
        EXPECT_TRUE(waits_for(word, "before_hand_off", NeedKind::closed)) << word;
        EXPECT_TRUE(waits_for(word, "before_hand_off", NeedKind::approvals)) << word;
    }
    // No temporary bolt is in the engine when it starts.
    const StagePlan plan = built_in_plan("complete_build");
    const auto& needs = gate_of(plan, "before_first_start")->needs;
    EXPECT_TRUE(std::any_of(needs.begin(), needs.end(), [](const Need& need) {
        return std::count(need.items.begin(), need.items.end(), OpenItemKind::temporary_part) == 1;
    }));
}

TEST(BuiltInPlans, CautionsStandWhereWorkCanHurt) {
    struct Danger {
        std::vector<std::string> words; ///< in a step's title
        std::string caution;
    };
    const std::vector<Danger> dangers{
        {{"shafts", "evenly"}, "barring_over"},
        {{"full turn"}, "barring_over"},
        {{"springs out"}, "springs"},
        {{"springs in,"}, "springs"},
        {{"fan guard"}, "first_start"},
        {{"primed with a drill"}, "drill_prime"},
        {{"blown dry"}, "compressed_air"},
        {{"leakdown"}, "compressed_air"},
        {{"washed"}, "solvents"},
        {{"stand rated"}, "lifting"},
        {{"set down on"}, "lifting"},
        {{"fuel line"}, "fuel"},
        {{"guards, hearing"}, "dyno"},
        {{"torqued"}, "torque"},
    };
    std::set<std::string> met;
    std::set<std::string> used;
    for (const char* word : tests::built_in_plan_words) {
        for (const PlannedStage& stage : built_in_plan(word).stages) {
            used.insert(stage.caution.value_or(""));
            for (PlannedStep step : stage.steps) {
                used.insert(step.caution.value_or(""));
                step.detail.reset();
                for (const Danger& danger : dangers) {
                    if (!speaks_of(step, danger.words)) {
                        continue;
                    }
                    met.insert(danger.words.front());
                    EXPECT_TRUE(step.caution == danger.caution || stage.caution == danger.caution)
                        << word << ": " << step.title;
                }
            }
        }
    }
    for (const Danger& danger : dangers) {
        EXPECT_TRUE(met.count(danger.words.front())) << danger.words.front();
    }
    for (const std::string_view key : cautions()) {
        EXPECT_TRUE(used.count(std::string(key))) << key;
    }
}

TEST(BuiltInPlans, AMarinePairIsCheckedForItsDirectionOnEachEngine) {
    const StagePlan plan = built_in_plan("marine_pair");
    const auto steps = steps_of(plan);
    const std::map<std::string, std::vector<std::string>> wanted{
        {"mate_named", {"each engine", "build"}},
        {"rotation", {"turns", "never assume clockwise"}},
        {"firing_order", {"reversed"}},
        {"pin_offset", {"offset", "turned round"}},
        {"cam_drive", {"gears", "against the crank"}},
        {"cam_against_crank", {"turn against the crank"}},
        {"advance_direction", {"distributor", "advances"}},
        {"pump_direction", {"oil pump"}},
        {"starter_direction", {"starter"}},
        {"pair_compared", {"both engines", "direction"}},
    };
    for (const auto& [id, words] : wanted) {
        ASSERT_TRUE(steps.count(id)) << id;
        EXPECT_TRUE(speaks_of(steps.at(id), words)) << id << ": " << steps.at(id).title;
    }
    expect_order("marine_pair",
                 {"rotation", "firing_order", "direction_known", "piston_front", "pin_offset",
                  "direction", "cam_against_crank", "pistons_in", "pin_offset_again",
                  "advance_direction", "pump_direction", "starter_direction", "before_first_start",
                  "raw_water", "pair_compared"});
    // Nothing of the complete build is lost.
    for (const auto& [id, step] : steps_of(built_in_plan("complete_build"))) {
        EXPECT_TRUE(steps.count(id)) << id;
    }
}

TEST(BuiltInPlans, HeadWorkTellsWhatHeadsAloneCannotAnswer) {
    const auto steps = steps_of(built_in_plan("head_work"));
    EXPECT_TRUE(speaks_of(steps.at("not_checked"), {"pushrod clearance", "heads alone"}));
    EXPECT_TRUE(speaks_of(steps.at("engine_told"),
                          {"piston to valve", "pushrod length", "intake fit", "bolt length"}));
    EXPECT_FALSE(steps.count("clearance_walked"));
}

TEST(BuiltInPlans, TheGuideNamesEveryWordThatAPlanMayUse) {
    std::ifstream file(RODWAY_RESOURCES "/guide/stage-plan-file.md");
    std::ostringstream page;
    page << file.rdbuf();
    const auto named = [&](std::string_view word, const char* behind) {
        return page.str().find("`" + std::string(word) + behind) != std::string::npos;
    };
    for (const std::string_view key : cautions()) {
        EXPECT_TRUE(named(key, "`")) << key;
    }
    for (const std::string_view role : part_roles()) {
        EXPECT_TRUE(named(role, "`")) << role;
    }
    for (const NeedKind kind :
         {NeedKind::steps, NeedKind::cures, NeedKind::clearance, NeedKind::approvals}) {
        EXPECT_TRUE(named(need_word(kind), "`")) << need_word(kind);
    }
    for (const NeedKind kind : {NeedKind::sheet, NeedKind::parts, NeedKind::closed}) {
        EXPECT_TRUE(named(need_word(kind), " ")) << need_word(kind);
    }
    for (const OpenItemKind kind :
         {OpenItemKind::temporary_part, OpenItemKind::watch, OpenItemKind::decision,
          OpenItemKind::risk, OpenItemKind::question, OpenItemKind::other}) {
        EXPECT_TRUE(named(open_item_word(kind), "`")) << open_item_word(kind);
    }
}

/// The rail and the steps of a stage are read at a glance.
TEST(BuiltInPlans, TitlesFitTheirPlace) {
    for (const char* word : tests::built_in_plan_words) {
        for (const PlannedStage& stage : built_in_plan(word).stages) {
            EXPECT_LE(stage.title.size(), 26U) << word << ": " << stage.title;
            EXPECT_LE(stage.steps.size(), 20U) << word << ": " << stage.title;
            for (const PlannedStep& step : stage.steps) {
                EXPECT_LE(step.title.size(), 84U) << word << ": " << step.title;
            }
        }
    }
}

} // namespace
} // namespace rodway
