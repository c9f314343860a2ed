#pragma once

namespace rodway {

/// How often a test repeats itself: a fifth as often under the sanitizers, which are there to find
/// bad memory and not rare cases.
constexpr int rounds(int usual) {
#ifdef __SANITIZE_ADDRESS__
    return (usual + 4) / 5;
#else
    return usual;
#endif
}

} // namespace rodway
