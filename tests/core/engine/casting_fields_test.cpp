#include "core/engine/casting_fields.h"

#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

constexpr double in = 25.4;

template <typename Change>
Result<Engine> made_with(Change change) {
    SetUpFields fields = demo_with_card_lobes();
    change(fields);
    return make_engine(fields);
}

/// Bank 0 is "left", bank 1 "right".
double raised_in(const Engine& engine, std::size_t bank) {
    return engine.heads.of(bank).raised_mm() / in;
}
double gained_in(const Engine& engine, std::size_t bank) {
    return engine.flanges[bank]->gained_mm() / in;
}

TEST(CastingFields, WithoutThemNothingHasMoved) {
    const auto engine = make_engine(demo_with_card_lobes());
    ASSERT_TRUE(engine.ok());
    for (const std::size_t bank : {std::size_t{0}, std::size_t{1}}) {
        EXPECT_EQ(raised_in(*engine, bank), 0.0);
        EXPECT_EQ(gained_in(*engine, bank), 0.0);
        EXPECT_EQ(*engine->intake_movement_K(bank), Vec3(Vec3::Zero()));
    }
}

// Each field by itself, so that none can stand for another or have its sign turned.
TEST(CastingFields, EachMovesItsCastingByItsOwnSize) {
    struct Case {
        const char* field;
        double raised_in;
        double gained_in;
    };
    for (const Case& each :
         {Case{"deck_milled", -0.010, 0.0}, Case{"head/deck_face_milled", -0.010, 0.0},
          Case{"flange/spacer", 0.0, 0.010}, Case{"flange/spacer_when_located", 0.0, -0.010},
          Case{"flange/head_face_milled", 0.0, -0.010},
          Case{"flange/manifold_face_milled", 0.0, -0.010}}) {
        const auto engine = made_with([&](SetUpFields& fields) {
            put(fields, std::string("banks/right/") + each.field, ".010");
        });
        ASSERT_TRUE(engine.ok()) << each.field;
        EXPECT_NEAR(raised_in(*engine, 1), each.raised_in, 1e-15) << each.field;
        EXPECT_NEAR(gained_in(*engine, 1), each.gained_in, 1e-15) << each.field;
        EXPECT_EQ(raised_in(*engine, 0), 0.0) << each.field;
        EXPECT_EQ(gained_in(*engine, 0), 0.0) << each.field;
    }
    const auto gaskets = made_with([](SetUpFields& fields) {
        put(fields, "banks/right/head/gasket", ".024");
        put(fields, "banks/right/head/gasket_when_located", "39", "thou");
        put(fields, "banks/right/flange/gasket", ".090");
    });
    ASSERT_TRUE(gaskets.ok());
    EXPECT_NEAR(raised_in(*gaskets, 1), -0.015, 1e-15);
    EXPECT_NEAR(gained_in(*gaskets, 1), 0.030, 1e-15); // located on .060
}

TEST(CastingFields, OfAGasketNewAndCrushedTheOneThatIsInCounts) {
    for (const auto& [state, thickness_in] :
         {std::pair{"new", 0.075}, std::pair{"crushed", 0.060}}) {
        for (const std::string where : {"head", "flange"}) {
            const auto engine = made_with([&](SetUpFields& fields) {
                fields.erase("banks/right/" + where + "/gasket");
                put(fields, "banks/right/" + where + "/gasket_new", ".075");
                put(fields, "banks/right/" + where + "/gasket_crushed", ".060");
                put_word(fields, "banks/right/" + where + "/gasket_state", state);
                put(fields, "banks/right/" + where + "/gasket_when_located", ".050");
            });
            ASSERT_TRUE(engine.ok()) << where;
            const double moved = where == "head" ? raised_in(*engine, 1) : gained_in(*engine, 1);
            EXPECT_NEAR(moved, thickness_in - 0.050, 1e-15) << where << ' ' << state;
        }
    }
}

TEST(CastingFields, AGasketGivenTwiceHalfOrUpsideDownIsRefused) {
    using C = ErrorCode;
    for (const std::string where : {"banks/right/head/", "banks/right/flange/"}) {
        const auto gasket = [&](std::initializer_list<std::pair<const char*, const char*>> given) {
            return made_with([&](SetUpFields& fields) {
                fields.erase(where + "gasket");
                fields.erase(where + "gasket_when_located");
                for (const auto& [leaf, text] : given) {
                    const bool word = std::string(leaf) == "gasket_state";
                    fields[where + leaf] = {text, word ? "" : "in"};
                }
            });
        };
        expect_refused_at(gasket({{"gasket", ".060"},
                                  {"gasket_new", ".070"},
                                  {"gasket_state", "new"},
                                  {"gasket_when_located", ".060"}}),
                          C::not_of_this_kind, where + "gasket");
        expect_refused_at(
            gasket(
                {{"gasket", ".060"}, {"gasket_crushed", ".055"}, {"gasket_when_located", ".060"}}),
            C::not_of_this_kind, where + "gasket");
        expect_refused_at(gasket({{"gasket_new", ".070"}, {"gasket_when_located", ".060"}}),
                          C::missing_field, where + "gasket_state");
        expect_refused_at(gasket({{"gasket_new", ".070"},
                                  {"gasket_state", "crushed"},
                                  {"gasket_when_located", ".060"}}),
                          C::missing_field, where + "gasket_crushed");
        expect_refused_at(gasket({{"gasket_new", ".060"},
                                  {"gasket_crushed", ".070"},
                                  {"gasket_state", "new"},
                                  {"gasket_when_located", ".060"}}),
                          C::out_of_range, where + "gasket_crushed");
        expect_refused_at(gasket({{"gasket", ".060"}}), C::missing_field,
                          where + "gasket_when_located");
        expect_refused_at(gasket({{"gasket_when_located", ".060"}}), C::missing_field,
                          where + "gasket");
    }
}

} // namespace
} // namespace rodway
