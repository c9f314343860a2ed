#include "core/sheets/tightening.h"

#include <gtest/gtest.h>

#include <string>

namespace rodway {
namespace {

using Steps = std::vector<TighteningStep>;

/// A step as "T88.128 A90" in N m and degrees, to three decimals; "S0.1524" in mm.
std::string written(const Steps& steps) {
    std::string all;
    const auto add = [&](char what, const std::optional<double>& number) {
        if (number) {
            std::array<char, 40> text{};
            std::snprintf(text.data(), text.size(), "%c%.3f ", what, *number);
            all += text.data();
        }
    };
    for (const TighteningStep& step : steps) {
        add('T', step.torque_Nm);
        add('A', step.turn_deg);
        add('S', step.stretch_mm);
        all += "; ";
    }
    return all;
}

// Ways of writing it: common practice, no source. A pound-foot is 1.3558179483 N m (NIST SP 811,
// App. B): 45 are 61.0118, 65 are 88.1282, 20 are 27.1164, 60 are 81.3491.
TEST(Tightening, ReadsStepsAsTheyAreWritten) {
    const std::pair<const char*, const char*> cases[] = {
        {"45/65/65+90", "T61.012 ; T88.128 ; T88.128 A90.000 ; "},
        {" 45 / 65 / 65 + 90 ", "T61.012 ; T88.128 ; T88.128 A90.000 ; "},
        {"45/65/65+90\u00b0", "T61.012 ; T88.128 ; T88.128 A90.000 ; "},
        {"20 then 1/4 turn", "T27.116 ; A90.000 ; "},
        {"20 then \u00bc turn", "T27.116 ; A90.000 ; "},
        {"20/1/4 turn", "T27.116 ; A90.000 ; "},
        {"20 lb-ft then +90", "T27.116 A90.000 ; "},
        {"60+80 deg", "T81.349 A80.000 ; "},
        {"60 + 1/4 turn", "T81.349 A90.000 ; "},
        {"20 Nm + 90 + 90", "T20.000 A90.000 ; A90.000 ; "},
        {"20/40/60 Nm", "T20.000 ; T40.000 ; T60.000 ; "},
        {"120 in-lb then 20 lb-ft", "T13.558 ; T27.116 ; "},
        {"stretch .006", "S0.152 ; "},
        {".006 stretch", "S0.152 ; "},
        {"20 then stretch 6 thou", "T27.116 ; S0.152 ; "},
        {"65", "T88.128 ; "},
        {"90 deg", "A90.000 ; "},
        {"+90", "A90.000 ; "},
    };
    for (const auto& [text, steps] : cases) {
        const auto read = parse_tightening(text, "lb-ft", BareNumber::inches);
        ASSERT_TRUE(read.ok()) << text;
        EXPECT_EQ(written(*read), steps) << text;
    }
    EXPECT_EQ(written(*parse_tightening("20+90", "Nm", BareNumber::millimetres)),
              "T20.000 A90.000 ; ");
    EXPECT_EQ(written(*parse_tightening("stretch 0,15", "Nm", BareNumber::millimetres)),
              "S0.150 ; ");
}

TEST(Tightening, RefusesWhatIsNoOrder) {
    const std::pair<const char*, ErrorCode> cases[] = {
        {"", ErrorCode::empty_text},
        {"  ", ErrorCode::empty_text},
        {"snug", ErrorCode::not_an_amount},
        {"45//65", ErrorCode::not_an_amount},
        {"45/", ErrorCode::not_an_amount},
        {"45+", ErrorCode::not_an_amount},
        {"45 then", ErrorCode::not_an_amount},
        {"-45", ErrorCode::not_an_amount},
        {"0", ErrorCode::not_an_amount},
        {"45-50/65", ErrorCode::not_an_amount},
        {"~45", ErrorCode::not_an_amount},
        {"45 psi", ErrorCode::not_an_amount},
        {"45+20 Nm", ErrorCode::not_an_amount},
        {"65/90 turn", ErrorCode::not_an_amount},
        {"stretch", ErrorCode::empty_text},
        {"stretch 6", ErrorCode::unit_needed},
        {"stretch -.006", ErrorCode::not_an_amount},
        {"stretch snug", ErrorCode::not_a_length},
        {"1/1/1/1/1/1/1/1/1/1/1/1/1/1/1/1/1/1/1/1/1", ErrorCode::not_an_amount},
    };
    for (const auto& [text, code] : cases) {
        const auto read = parse_tightening(text, "lb-ft", BareNumber::inches);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(static_cast<int>(read.error().code), static_cast<int>(code)) << text;
        EXPECT_EQ(read.error().value, text);
    }
}

} // namespace
} // namespace rodway
