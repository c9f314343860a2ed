#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace rodway {

/// Whose size a dimension is, as it is asked for. A valve may have its own of any of them.
enum class DimensionOwner { bank, kind, valve };

/// The ordinary tool with which a dimension is measured; its usual ± goes by it.
enum class MeasuringTool {
    rule,
    calipers,
    micrometer,
    depth_gauge,
    height_gauge, ///< plate, square and height gauge, or a depth gauge from a straight edge
    pin_gauges,   ///< pins or feelers
    protractor
};

/// When a dimension is measured: the order in which an engine on the bench lets one.
enum class DescribeStep { block, lifters, rods, rockers, tubes, gaps };

/// One size by which a builder describes an engine. `DEVELOPERS.md` says how one is added.
///
/// Seen along the crank, 'towards the rods' is the side of the cylinders on which the camshaft
/// stands.
struct EngineDimension {
    std::string_view name; ///< in set-ups, such as "rod_overall"; it never changes
    DimensionOwner owner = DimensionOwner::kind;
    DescribeStep step = DescribeStep::block;
    MeasuringTool tool = MeasuringTool::calipers;
    bool angle = false; ///< degrees of geometry; else millimetres
    double low = 0.0;   ///< least and greatest that are accepted, mm or degrees
    double high = 0.0;
    double usual_doubt = 0.0; ///< ± (19 times in 20) with the usual tool, mm or degrees
    /// What stands until it is measured; empty: it must be given. Of gaps see `described_tube`.
    std::optional<double> assumed = {};
    double assumed_doubt = 0.0; ///< ± of what is assumed, guessed, or taken from a mate
};

/// All of them, in the order in which they are measured.
[[nodiscard]] const std::vector<EngineDimension>& dimensions();

/// The one of this name, or nothing.
[[nodiscard]] const EngineDimension* dimension_called(std::string_view name);

} // namespace rodway
