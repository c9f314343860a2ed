#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "tests/db/failing_disk.h"

namespace rodway {

/// One thing the program does. Once it answers, what it did must outlive every power cut.
using DiskStep = std::function<Result<Done>()>;

/// Work on a disk that fails. All functions are given the folder that is the disk.
struct DiskScenario {
    /// What stands on the disk before.
    std::function<void(const std::string& folder)> prepare;

    /// The work, from a program's start to its end. What it holds open is closed when the steps are
    /// gone. A step that failed is tried again once the disk works, and must then succeed.
    std::function<std::vector<DiskStep>(const std::string& folder)> steps;

    /// What is wrong on a disk when so many steps have answered, and the next may be done or not;
    /// nothing if all is well. The folder is a copy that may be changed.
    std::function<std::string(const std::string& folder, std::size_t answered)> wrong;

    Neglect neglect = Neglect::nothing;
};

struct DiskVerdict {
    std::size_t calls = 0;  ///< in one undisturbed run
    std::size_t runs = 0;   ///< that were disturbed
    std::size_t images = 0; ///< different disks, or numbers of answered steps, that were judged
    std::vector<std::string> losses; ///< the first few
};

struct DiskTrials {
    unsigned seed = 0;
    unsigned cuts = 4;        ///< power cuts at each call: how many of the seeds that follow `seed`
    bool with_errors = true;  ///< else the power goes and no call answers an error
    bool all_mishaps = false; ///< else of the two that last, each call has one
    std::size_t stride = 1;   ///< of so many calls one fails; which one, the seed says
};

/// The power is cut at every call in turn, and every call in turn, or every so manieth, fails:
/// alone, with all after it, for want of room. After a failure the disk is mended and the work goes
/// on; then the power goes too. Throws if the work fails undisturbed.
DiskVerdict for_every_call(const DiskScenario& scenario, const DiskTrials& trials);

/// How much a test may take: RODWAY_LONG=1 in the environment asks for the long run.
[[nodiscard]] bool long_run();

} // namespace rodway
