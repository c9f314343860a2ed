#include "app/command_line/cam_options.h"

#include <QCoreApplication>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct CamOptions {
    Q_DECLARE_TR_FUNCTIONS(CamOptions)
};

constexpr double furthest_moved_crank_deg = 60.0;

} // namespace

Result<CheckingLift> checking_lift(const std::string& at, LiftOf of) {
    const auto typed = parse_length(at, BareNumber::inches);
    if (!typed) {
        return in_field(typed.error(), "--at");
    }
    return CheckingLift{typed->middle().in_mm(), of};
}

void add_advance_option(CLI::App& command, std::string& advance) {
    command.add_option(
        "--advance", advance,
        CamOptions::tr("What if the cam were advanced by this many crank degrees (-4: retarded)")
            .toStdString());
}

Result<std::optional<double>> typed_advance(const std::string& advance) {
    if (advance.empty()) {
        return std::optional<double>();
    }
    const auto typed = parse_number(advance);
    if (!typed) {
        return in_field(typed.error(), "--advance");
    }
    if (!(std::abs(*typed) <= furthest_moved_crank_deg)) {
        return Error{ErrorCode::out_of_range,
                     "--advance",
                     advance,
                     {},
                     {},
                     Limits{-furthest_moved_crank_deg, furthest_moved_crank_deg, "crank_deg"}};
    }
    return std::optional(*typed);
}

} // namespace rodway
