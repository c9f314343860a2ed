#pragma once

#include <array>
#include <string>

#include "tests/core/demo_set_ups.h"

namespace rodway {

/// Fields are put where they stand in the file: "1.5" "in".
inline void put(SetUpFields& fields, const std::string& path, const std::string& text,
                const std::string& unit = "in") {
    fields[path] = {text, unit};
}
inline void put_word(SetUpFields& fields, const std::string& path, const std::string& word) {
    fields[path] = {word, ""};
}
/// A point, with its unit, or an axis, without one.
inline void put_triple(SetUpFields& fields, const std::string& path,
                       const std::array<const char*, 3>& components, const std::string& unit) {
    static constexpr std::array<const char*, 3> names{"/x", "/y", "/z"};
    for (std::size_t at = 0; at < 3; ++at) {
        fields[path + names[at]] = {components[at], unit};
    }
}

/// The demo V8 with lobes from a card, which are made a hundred times faster than from a table.
inline SetUpFields demo_with_card_lobes() {
    static const SetUpFields demo = [] {
        SetUpFields fields = demo_fields("v8-port-tubes");
        for (const std::string kind : {"intake", "exhaust"}) {
            fields.erase("lobes/" + kind + "/lift_table");
            fields["lobes/" + kind + "/card/peak_lift"] = {".380", "in"};
            fields["lobes/" + kind + "/card/durations"] = {".020 264; .050 236", "in/crank_deg"};
        }
        return fields;
    }();
    return demo;
}

inline void put_passage(SetUpFields& fields, const std::string& path, const std::string& kind,
                        const std::string& casting) {
    put_word(fields, path + "/kind", kind);
    put_word(fields, path + "/casting", casting);
    put_triple(fields, path + "/centre", {"1.6", "3.1", "8.5"}, "in");
    put_triple(fields, path + "/axis", {"-.0279", "-.1573", ".9872"}, "");
    put(fields, path + "/length", ".75");
    put(fields, path + "/bore", ".5");
    if (kind == "obround_tube" || kind == "slot") {
        put(fields, path + "/long_bore", ".8");
        put_triple(fields, path + "/long_way", {"0", ".9877", ".1564"}, "");
    }
}

inline void put_obstacle(SetUpFields& fields, const std::string& name, const std::string& kind,
                         const std::string& casting) {
    const std::string path = "obstacles/" + name;
    put_word(fields, path + "/bank", "left");
    put_word(fields, path + "/casting", casting);
    put_word(fields, path + "/kind", kind);
    put_triple(fields, path + "/point", {"1", "2", "10"}, "in");
    if (kind == "plane") {
        put_triple(fields, path + "/normal", {"0", ".6", ".8"}, "");
        return;
    }
    put_triple(fields, path + "/axis", {"0", ".6", ".8"}, "");
    if (kind == "box") {
        put_triple(fields, path + "/second_axis", {"0", "-.8", ".6"}, "");
        put_triple(fields, path + "/sizes", {"1", ".5", ".25"}, "in");
    } else {
        put(fields, path + "/diameter", ".375");
        put(fields, path + "/length", ".6");
    }
}

/// Every field there is of moving castings, passages, obstacles and bodies, at least once.
inline SetUpFields castings_set_up() {
    SetUpFields fields = demo_with_card_lobes();
    put(fields, "banks/left/deck_milled", ".010");
    put(fields, "banks/left/head/deck_face_milled", ".030");
    put(fields, "banks/left/head/gasket_new", ".051");
    put(fields, "banks/left/head/gasket_crushed", ".041");
    put_word(fields, "banks/left/head/gasket_state", "crushed");
    put(fields, "banks/left/head/gasket_when_located", ".039");
    put(fields, "banks/right/head/gasket", ".041");
    put(fields, "banks/right/head/gasket_when_located", ".039");
    fields.erase("banks/left/flange/gasket");
    put(fields, "banks/left/flange/gasket_new", ".070");
    put(fields, "banks/left/flange/gasket_crushed", ".060");
    put_word(fields, "banks/left/flange/gasket_state", "new");
    put(fields, "banks/left/flange/spacer", ".125");
    put(fields, "banks/left/flange/spacer_when_located", ".100");
    put(fields, "banks/left/flange/head_face_milled", ".012");
    put(fields, "banks/left/flange/manifold_face_milled", ".005");
    const std::string train = "trains/1E";
    put_word(fields, train + "/tube/shape", "obround");
    put(fields, train + "/tube/long_bore", ".7");
    put_triple(fields, train + "/tube/long_way", {"0", ".9877", ".1564"}, "");
    put(fields, train + "/tube/top_edge", ".06");
    put(fields, train + "/tube/bottom_edge", ".03");
    put(fields, train + "/tube/wall", ".049");
    put(fields, train + "/tube/fitted_doubt", ".004");
    put_passage(fields, train + "/passages/guide plate", "slot", "head");
    put_passage(fields, train + "/passages/valley hole", "hole", "block");
    put_passage(fields, train + "/passages/lower tube", "tube", "head");
    put_passage(fields, train + "/passages/upper tube", "obround_tube", "intake");
    put(fields, train + "/passages/upper tube/top_edge", ".05");
    put(fields, train + "/passages/upper tube/bottom_edge", "1/32");
    put(fields, train + "/passages/upper tube/wall", "1,2", "mm");
    put(fields, train + "/passages/upper tube/fitted_doubt", "0.1", "mm");
    put_triple(fields, train + "/rocker/body/from", {"0", ".1", "0"}, "in");
    put_triple(fields, train + "/rocker/body/to", {"0", ".75", "-.05"}, "in");
    put(fields, train + "/rocker/body/diameter", "5/8");
    put(fields, train + "/lifter/body_diameter", ".903");
    put(fields, train + "/lifter/body_length", "2.2");
    put_obstacle(fields, "valley rail", "plane", "block");
    put_obstacle(fields, "dowel", "cylinder", "head");
    put_obstacle(fields, "boss", "box", "intake");
    put_obstacle(fields, "bolt 4", "bolt_end", "intake");
    return fields;
}

inline void expect_refused_at(const Result<Engine>& engine, ErrorCode code,
                              const std::string& field) {
    ASSERT_FALSE(engine.ok()) << field;
    EXPECT_EQ(static_cast<int>(engine.error().code), static_cast<int>(code)) << field;
    EXPECT_EQ(engine.error().field, field);
}

} // namespace rodway
