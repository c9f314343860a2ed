#pragma once

#include <string>

namespace rodway::bench {

/// Fills a shop that `make_grown_shop` made with the work of every build: parts, cures, questions,
/// items, books. `builds` as there. Throws what goes wrong.
void add_work(const std::string& path, int builds);

/// How the Bench's list, a day's list, the buying list and one build's facts grow: the same on both
/// files, by turns.
void print_work(const std::string& small, const std::string& large, int small_build,
                int large_build);

} // namespace rodway::bench
