#include "core/bottom_end/size_stack.h"

#include <cmath>

namespace rodway {
namespace {

constexpr double rounding_mm = 1e-6;
Limits size_limits() {
    return {-10000.0, 10000.0, "mm"};
}

} // namespace

Result<SizeStack> stack_of(const std::vector<StackTerm>& terms) {
    if (terms.empty()) {
        return Error{ErrorCode::too_few_rows, "term", "0", "1", {}, {}};
    }
    SizeStack stack;
    double squares = 0.0;
    for (std::size_t at = 0; at < terms.size(); ++at) {
        const Interval& size = terms[at].size_mm;
        if (auto bad = wrong_interval("term", size, size_limits(), static_cast<int>(at) + 1)) {
            return *bad;
        }
        stack.worst_mm = terms[at].taken_off ? stack.worst_mm - size : stack.worst_mm + size;
        squares += size.width() * size.width() / 4.0;
    }
    const double half = std::sqrt(squares);
    stack.likely_mm = {stack.worst_mm.middle() - half, stack.worst_mm.middle() + half};
    return stack;
}

Result<StatedSum> compare_with_stated(const std::vector<StackTerm>& terms,
                                      const Interval& stated_mm) {
    const auto stack = stack_of(terms);
    if (!stack) {
        return stack.error();
    }
    if (auto bad = wrong_interval("stated", stated_mm, size_limits())) {
        return *bad;
    }
    StatedSum sum;
    sum.sum_mm = stack->worst_mm;
    sum.stated_more_by_mm = stated_mm.middle() - sum.sum_mm.middle();
    sum.contradicts = stated_mm.low > sum.sum_mm.high + rounding_mm ||
                      stated_mm.high < sum.sum_mm.low - rounding_mm;
    for (const StackTerm& term : terms) {
        const double change = term.taken_off ? -sum.stated_more_by_mm : sum.stated_more_by_mm;
        sum.would_have_to_be_mm.push_back(term.size_mm.middle() + change);
    }
    return sum;
}

} // namespace rodway
