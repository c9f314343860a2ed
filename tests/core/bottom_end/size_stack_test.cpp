#include "core/bottom_end/size_stack.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/units/length.h"

namespace rodway {
namespace {

Interval in(double value, double plus_minus) {
    return Interval::around(Length::inches(value).in_mm(),
                            2.0 * Length::inches(plus_minus).in_mm());
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}

// TU-12. Shigley, chapter 1, the shouldered screw (from memory, recomputed): 1.750±.003 less
// .750±.001, .120±.005 and .875±.001 in leaves .005, ±.010 at worst, ±.006 by squares, exactly.
TEST(SizeStack, WorstCaseAndRootSumOfSquares) {
    const auto stack = stack_of({{in(1.750, 0.003), false},
                                 {in(0.750, 0.001), true},
                                 {in(0.120, 0.005), true},
                                 {in(0.875, 0.001), true}});
    ASSERT_TRUE(stack.ok());
    EXPECT_NEAR(inches(stack->worst_mm.low), -0.005, 1e-12);
    EXPECT_NEAR(inches(stack->worst_mm.high), 0.015, 1e-12);
    EXPECT_NEAR(inches(stack->likely_mm.low), -0.001, 1e-12);
    EXPECT_NEAR(inches(stack->likely_mm.high), 0.011, 1e-12);
}

// TU-13 (a public page): 20.0±.1 less 15.0±.05, 4.8±.08, 0.2±.02 mm: 0.0±.25; by squares .138924.
TEST(SizeStack, AStackThatComesToNothing) {
    const auto stack = stack_of({{{19.9, 20.1}, false},
                                 {{14.95, 15.05}, true},
                                 {{4.72, 4.88}, true},
                                 {{0.18, 0.22}, true}});
    EXPECT_NEAR(stack->worst_mm.low, -0.25, 1e-12);
    EXPECT_NEAR(stack->worst_mm.high, 0.25, 1e-12);
    EXPECT_NEAR(stack->likely_mm.width() / 2.0, 0.138924, 5e-7);
}

// A page on compression ratio (jniolon.classicpickup.com) prints 4.036 + .0025 + .030 = 4.3925. The
// sum is 4.0685; 4.36 was meant for the first term.
TEST(SizeStack, ASumThatDoesNotAddUpIsFoundWithTheTermThatSlipped) {
    const std::vector<StackTerm> terms{
        {in(4.036, 0.0005), false}, {in(0.0025, 0.00005), false}, {in(0.030, 0.0005), false}};
    const auto printed = compare_with_stated(terms, in(4.3925, 0.00005));
    ASSERT_TRUE(printed.ok());
    EXPECT_TRUE(printed->contradicts);
    EXPECT_NEAR(inches(printed->sum_mm.middle()), 4.0685, 1e-9);
    EXPECT_NEAR(inches(printed->stated_more_by_mm), 0.324, 1e-9);
    ASSERT_EQ(printed->would_have_to_be_mm.size(), 3u);
    EXPECT_NEAR(inches(printed->would_have_to_be_mm[0]), 4.36, 1e-9);
    EXPECT_NEAR(inches(printed->would_have_to_be_mm[1]), 0.3265, 1e-9);
    EXPECT_FALSE(compare_with_stated(terms, in(4.0685, 0.00005))->contradicts);
    EXPECT_FALSE(compare_with_stated(terms, in(4.069, 0.0005))->contradicts); // rounding
    EXPECT_TRUE(compare_with_stated(terms, in(4.071, 0.0005))->contradicts);
    // The terms come to 4.0685 ± .00105: what a stated sum may be must miss all of it.
    EXPECT_FALSE(compare_with_stated(terms, in(4.0700, 0.0005))->contradicts);
    EXPECT_TRUE(compare_with_stated(terms, in(4.0701, 0.0005))->contradicts);
    EXPECT_FALSE(compare_with_stated(terms, in(4.0670, 0.0005))->contradicts);
    EXPECT_TRUE(compare_with_stated(terms, in(4.0669, 0.0005))->contradicts);
    EXPECT_FALSE(
        compare_with_stated({{{1.0, 1.0}, false}, {{0.1, 0.1}, false}}, Interval::exactly(1.1))
            ->contradicts);
    // A term that is taken off would have to be less for a sum that is more.
    const auto less =
        compare_with_stated({{{10.0, 10.0}, false}, {{4.0, 4.0}, true}}, Interval::exactly(7.0));
    EXPECT_NEAR(less->would_have_to_be_mm[0], 11.0, 1e-12);
    EXPECT_NEAR(less->would_have_to_be_mm[1], 3.0, 1e-12);
}

TEST(SizeStack, NamesWhatIsWrong) {
    EXPECT_EQ(stack_of({}).error().code, ErrorCode::too_few_rows);
    EXPECT_EQ(stack_of({{{1.0, 1.0}, false}, {{2.0, 1.0}, false}}).error().line, 2);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(compare_with_stated({{{1.0, 1.0}, false}}, {nan, nan}).error().field, "stated");
}

} // namespace
} // namespace rodway
