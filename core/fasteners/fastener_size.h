#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/fasteners/thread.h"

namespace rodway {

/// A bolt or stud as it is asked for over the counter: its thread, and how long it is.
struct FastenerSize {
    ThreadSystem system = ThreadSystem::inch;
    std::string size; ///< as `Thread::size`
    double diameter_mm = 0.0;
    std::optional<Thread> thread;    ///< empty: "3/8x2.5" doesn't say whether coarse or fine
    std::optional<double> length_mm; ///< under the head; empty: not said
};

/// Reads "3/8x2.5", "3/8-16 x 2-1/2", "7/16-14x4", "M10x1.25x50", "M8x30", "M8x1.25", "7/16-14".
/// The length behind the x is in inches for inch threads, in millimetres for metric ones, unless it
/// names its unit. Behind M8 a number under half the diameter is a pitch, else a length.
/// "3/8x16" is refused: it may mean 16 threads in an inch.
/// Errors, field "fastener": as `parse_thread`; not_a_choice where both a thread and a length could
/// be meant (`expected` holds the two, written so that they can't be confused); field "length": as
/// `parse_length`, and out_of_range outside 1 to 1000 mm.
Result<FastenerSize> parse_fastener_size(std::string_view text);

} // namespace rodway
