#include "core/build/edit.h"

namespace rodway {

std::vector<Edit> swapped(const std::vector<Edit>& edits) {
    std::vector<Edit> turned(edits.rbegin(), edits.rend());
    for (Edit& edit : turned) {
        edit.before.swap(edit.after);
    }
    return turned;
}

} // namespace rodway
