#include "core/fasteners/fastener_grade.h"

#include <gtest/gtest.h>

#include <limits>

#include "core/units/length.h"
#include "core/units/pressure.h"

namespace rodway {
namespace {

double mm(double inches) {
    return Length::inches(inches).in_mm();
}

TEST(FastenerGrade, IsReadHoweverItIsCalled) {
    for (const char* text : {"8", "grade 8", "Grade 8", "gr 8", "gr. 8", "SAE 8", "sae grade 8"}) {
        const auto strength = strength_of(text, mm(0.4375));
        ASSERT_TRUE(strength.ok()) << text;
        EXPECT_EQ(strength->grade, "8") << text;
        EXPECT_EQ(strength->system, GradeSystem::sae_j429);
        EXPECT_EQ(strength->source, FigureSource::published);
    }
    for (const char* text : {"8.8", "class 8.8", "ISO class 8.8", "cl. 8.8"}) {
        EXPECT_EQ(strength_of(text, 10.0)->system, GradeSystem::iso_898_1) << text;
    }
    EXPECT_EQ(strength_of("grade", 10.0).error().code, ErrorCode::empty_text);
    const auto unknown = strength_of("9", 10.0);
    EXPECT_EQ(unknown.error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(unknown.error().expected, "1 2 4 5 5.2 7 8 8.2 4.6 4.8 5.8 8.8 9.8 10.9 12.9");
}

TEST(FastenerGrade, StrengthDependsOnDiameterAndEndsWithTheTable) {
    const auto proof_ksi = [](double inches) {
        return Pressure::kPa(1000.0 * *strength_of("5", mm(inches))->proof_MPa).in_psi() / 1000.0;
    };
    EXPECT_NEAR(proof_ksi(0.25), 85.0, 1e-9);
    EXPECT_NEAR(proof_ksi(1.0), 85.0, 1e-9);
    EXPECT_NEAR(proof_ksi(1.125), 74.0, 1e-9);
    EXPECT_NEAR(proof_ksi(1.0625), 74.0, 1e-9); // between two rows: the weaker
    const auto big = strength_of("5", mm(1.75));
    ASSERT_FALSE(big.ok());
    EXPECT_EQ(big.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(big.error().field, "diameter");
    EXPECT_NEAR(big.error().limits->low, 6.35, 1e-9);
    EXPECT_NEAR(big.error().limits->high, 38.1, 1e-9);
    EXPECT_EQ(strength_of("8.2", mm(1.125)).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(strength_of("8", std::numeric_limits<double>::quiet_NaN()).error().code,
              ErrorCode::not_a_number);
}

TEST(FastenerGrade, AShopMayHaveItsOwn) {
    const auto own = own_strength("rod bolt, 220 ksi", {}, 1517.0, {});
    ASSERT_TRUE(own.ok());
    EXPECT_EQ(own->source, FigureSource::shop);
    EXPECT_FALSE(own->proof_MPa.has_value()); // not known is not zero
    EXPECT_EQ(*own->tensile_MPa, 1517.0);
    EXPECT_EQ(own_strength("", {}, {}, {}).error().code, ErrorCode::missing_field);
    EXPECT_EQ(own_strength("", 900.0, 1000.0, 880.0).error().field, "proof");
    EXPECT_EQ(own_strength("", {}, 1000.0, 1100.0).error().field, "yield");
    EXPECT_EQ(own_strength("", 1200.0, 1000.0, {}).error().field, "proof");
    EXPECT_EQ(own_strength("", {}, 150000.0, {}).error().field, "tensile"); // psi typed
}

} // namespace
} // namespace rodway
