#include "core/sheets/quantity.h"

#include <gtest/gtest.h>

#include <set>

namespace rodway {
namespace {

// The tables are looked up by the enumerator's number: each must answer for itself.
TEST(Quantity, EveryFormHasItsOwnName) {
    std::set<std::string_view> names;
    for (int at = 0; at <= static_cast<int>(Form::choice); ++at) {
        const Form form = static_cast<Form>(at);
        EXPECT_TRUE(names.insert(form_name(form)).second);
        EXPECT_EQ(form_called(form_name(form)), form);
    }
    EXPECT_EQ(form_called("lengths"), std::nullopt);
    EXPECT_EQ(form_name(Form::length), "length");
    EXPECT_EQ(form_name(Form::pressure), "pressure");
    EXPECT_EQ(form_name(Form::choice), "choice");
}

TEST(Quantity, FormsKnowWhatTheyMeasure) {
    EXPECT_EQ(dimension_of(Form::length), Dimension::length);
    EXPECT_EQ(dimension_of(Form::clearance), Dimension::length);
    EXPECT_EQ(dimension_of(Form::crank_angle), Dimension::crank_angle);
    EXPECT_EQ(dimension_of(Form::torque), Dimension::torque);
    EXPECT_EQ(dimension_of(Form::percent), Dimension::percent);
    for (const Form form : {Form::ratio, Form::count, Form::number}) {
        EXPECT_EQ(dimension_of(form), Dimension::none);
        EXPECT_TRUE(is_numeric(form));
    }
    for (const Form form : {Form::words, Form::day, Form::yes_no, Form::choice}) {
        EXPECT_EQ(dimension_of(form), Dimension::none);
        EXPECT_FALSE(is_numeric(form));
    }
}

} // namespace
} // namespace rodway
