#pragma once

#include <string>

namespace rodway::bench {

/// How much a shop has written down over the years.
struct ShopSize {
    int builds = 100;
    int in_hand = 12;              ///< the rest are put away
    int readings_of_a_build = 500; ///< ten to an act
    int photos_of_a_build = 20;
};

/// Makes a shop file of that size with its whole history, by SQL and quicker than through edits.
/// The seals of its history are random: it is for measuring, not for checking. Throws what goes
/// wrong.
void make_grown_shop(const std::string& path, const ShopSize& size);

} // namespace rodway::bench
