#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace rodway {

enum class ThreadSystem {
    inch,  ///< unified, ASME B1.1: 7/16-14 has 14 threads in an inch
    metric ///< ISO metric, ISO 261: M10x1.25 has a pitch of 1.25 mm
};
enum class ThreadSeries { coarse, fine };

/// A standard thread of a bolt, stud or nut.
struct Thread {
    ThreadSystem system = ThreadSystem::inch;
    ThreadSeries series = ThreadSeries::coarse;
    std::string size; ///< "7/16", "1-1/8", "#10", "M10"
    std::string name; ///< as engineers write it: "7/16-14", "M10x1.25", "M10" for the coarse one
    double diameter_mm = 0.0; ///< nominal
    double pitch_mm = 0.0;

    /// Tensile stress area, mm²: (π/4)·(d - c·p)², c = 9·√3/16 for inch (ASME B1.1, printed
    /// 0.974279), 13·√3/24 for metric (ISO 898-1).
    [[nodiscard]] double stress_area_mm2() const;
    /// At the root of the thread, mm: d - 1.299038·p for inch, d - 1.226869·p for metric (Shigley,
    /// tables 8-2 and 8-1, whose minor-diameter areas follow from them).
    [[nodiscard]] double minor_diameter_mm() const;
    /// Halfway between the nominal diameter and the root, mm: where friction acts (Shigley, 8-2).
    [[nodiscard]] double mean_diameter_mm() const;

    bool operator==(const Thread&) const = default;
};

/// The threads Rodway knows, by system and size: UNC and UNF from #4 to 1-1/2 (ASME B1.1 by
/// Shigley, table 8-2; numbered sizes from memory), ISO metric M3 to M36 with the fine pitches of
/// ISO 261 (from memory).
[[nodiscard]] const std::vector<Thread>& threads();

/// Those of one size, coarse first; none if there is no such size. `size` as in `Thread::size`.
[[nodiscard]] std::vector<Thread> threads_of(std::string_view size);

/// Reads "7/16-14", "1-1/8-7", ".4375-14", "#10-24", "10-24", "7/16 UNC", "3/8 fine", "M10x1.25",
/// "M10-1.25", "M12" (the coarse one, as ISO 965-1 has it). An inch size alone could be coarse or
/// fine and is refused.
/// Errors, field "thread": empty_text; wrong_type (`expected` "thread") for what is no thread;
/// not_a_choice for a size or pitch outside the table (`expected` holds the threads of that size,
/// or the sizes).
Result<Thread> parse_thread(std::string_view text);

} // namespace rodway
