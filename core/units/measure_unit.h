#pragma once

#include <span>
#include <string>
#include <string_view>

namespace rodway {

/// What a number measures. Behind each, the unit in which Rodway holds it.
enum class Dimension {
    none,        ///< a plain number
    length,      ///< mm
    angle,       ///< deg: of a seat, a bank, a bolt turned on
    crank_angle, ///< crank deg, after top dead centre
    cam_angle,   ///< cam deg
    force,       ///< N
    mass,        ///< g
    volume,      ///< cc
    pressure,    ///< kPa
    temperature, ///< degC
    torque,      ///< N m
    power,       ///< kW
    speed,       ///< rpm
    time,        ///< s
    percent,     ///< of a hundred
    altitude,    ///< m: above the sea
    spring_rate, ///< N/mm
};

/// A unit that people write behind a number: what they wrote, times `factor`, plus `offset`, is in
/// the unit in which its dimension is held.
struct MeasureUnit {
    std::string_view id; ///< never changes: shop files have it
    Dimension dimension;
    double factor;
    double offset;
    std::string_view words; ///< as written, small, blanks, points and hyphens left out of each
    /// Counted from a dead centre ("20 BTDC"): a minus before it could mean either side.
    bool from_dead_centre = false;
};

/// The units of one dimension, the one in which it is held first. Of a length these are only the
/// two a shop file names: `parse_length` knows how lengths are written.
[[nodiscard]] std::span<const MeasureUnit> units_of(Dimension dimension);

/// The unit of that identity; nullptr if the dimension has none.
[[nodiscard]] const MeasureUnit* find_unit(Dimension dimension, std::string_view id);

/// The identities of a dimension's units, blanks between them.
[[nodiscard]] std::string unit_ids(Dimension dimension);

} // namespace rodway
