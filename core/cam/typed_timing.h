#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/cam/cam_timing.h"

namespace rodway {

/// Cam timing as builders type and say it. Everywhere here:
/// - a bare number is in crank degrees; `cam` or `crank` behind it says otherwise. A lobe
///   separation is the angle between two lobes on the camshaft, in cam degrees, and the bare number
///   is that;
/// - where a number makes no sense as it stands but would in the other unit (a centreline of 53, a
///   duration of 120), the error is angle_kind_unclear: it is never guessed. Such a duration may be
///   meant so, and is taken with its unit: "120 crank";
/// - a decimal comma, the degree sign, `deg`, capitals and typographic dashes are read;
/// - errors carry the text as typed: empty_text, not_an_angle (`expected` holds an example),
///   not_a_choice (a dead centre that the event doesn't have; `expected` holds those it has),
///   out_of_range, angle_kind_unclear (`expected` holds "crank cam").

/// Where figures usually lie; outside, a bare number is doubted (common practice, no source).
constexpr double usual_duration_low_crank_deg = 150.0;
constexpr double usual_duration_high_crank_deg = 400.0;
constexpr double usual_centreline_low_crank_deg = 80.0;
constexpr double usual_centreline_high_crank_deg = 145.0;
constexpr double usual_separation_low_cam_deg = 85.0;
constexpr double usual_separation_high_cam_deg = 130.0;
constexpr double furthest_advance_crank_deg = 20.0;

/// The four events of a cylinder's two valves.
enum class CamEvent { intake_opens, intake_closes, exhaust_opens, exhaust_closes };

struct TypedAngle {
    double deg = 0.0; ///< crank degrees; of a lobe separation: cam degrees
    std::string text; ///< as typed
};

/// Reads one event, signed as `ValveEvents` is: "20", "-8", "(-8)", "8 ATDC", "20 BTDC", "60 abdc".
/// A minus together with a dead centre is refused: it may mean either side.
Result<TypedAngle> parse_event(std::string_view text, CamEvent event);

struct TypedValveEvents {
    ValveEvents events;
    std::string text;
};
/// Reads the two events of one valve, opening first: "20-60", "21/51", "-8-40".
Result<TypedValveEvents> parse_valve_events(std::string_view text, ValveKind kind);

struct TypedCard {
    ValveEvents intake;
    ValveEvents exhaust;
    std::string text;

    [[nodiscard]] CardEvents events() const {
        return {intake.opens_crank_deg, intake.closes_crank_deg, exhaust.opens_crank_deg,
                exhaust.closes_crank_deg};
    }
};
/// Reads a whole card: intake opens before top dead centre, closes after bottom dead centre, then
/// exhaust opens before bottom dead centre, closes after top dead centre: "20-60/60-20",
/// "31/77/63/29", "-8-40/48-(-8)", "20 BTDC - 60 ABDC / 60 BBDC - 20 ATDC". A unit behind the last
/// number holds for all.
Result<TypedCard> parse_card(std::string_view text);

/// Reads a duration: "252", "126 cam".
Result<TypedAngle> parse_duration(std::string_view text);

/// Reads a lobe separation: "108", "108 cam", "216 crank". The answer is in cam degrees.
Result<TypedAngle> parse_lobe_separation(std::string_view text);

/// A centreline, or a lobe separation with how far the cam is advanced, or that alone. What the
/// text doesn't tell is empty.
struct TypedCentreline {
    std::optional<double> centreline_crank_deg; ///< of the valve asked for
    std::optional<double> lobe_separation_cam_deg;
    std::optional<double> advance_crank_deg; ///< negative: retarded
    std::string text;
};
/// Reads "106", "106.5", "106 ATDC", "53 cam"; "110+4" and "110 4 advanced" (lobe separation 110, 4
/// advanced: intake centreline 106, exhaust 114), "108-4"; "4 retarded". With two numbers no unit
/// may stand: one is of the cam, the other of the crank.
Result<TypedCentreline> parse_centreline(std::string_view text, ValveKind kind);

/// Reads a mark of a degree wheel as `degreeing.h` counts it: "19.5 ATDC" is 19.5, "22 BTDC" is
/// -22, "60 ABDC" is 240, "40 BBDC" is 140; "340", "-20" as they stand.
Result<TypedAngle> parse_wheel_mark(std::string_view text);

} // namespace rodway
