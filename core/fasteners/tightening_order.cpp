#include "core/fasteners/tightening_order.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <string>

#include "core/units/plain_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double least_apart_mm = 1.0;
constexpr double alike_share = 0.05;

double apart_mm(double x1, double y1, double x2, double y2) {
    return std::hypot(x1 - x2, y1 - y2);
}

std::optional<Error> wrong_positions(const std::vector<BoltPosition>& bolts) {
    if (bolts.empty()) {
        return Error{ErrorCode::too_few_rows, "bolt", "0", "1", {}, {}};
    }
    for (std::size_t at = 0; at < bolts.size(); ++at) {
        const BoltPosition& one = bolts[at];
        const int line = static_cast<int>(at) + 1;
        if (auto bad = outside("bolt", one.bolt, {1.0, 999.0, {}}, line)) {
            return bad;
        }
        if (auto bad = outside("x", one.x_mm, {-2000.0, 2000.0, "mm"}, line)) {
            return bad;
        }
        if (auto bad = outside("y", one.y_mm, {-2000.0, 2000.0, "mm"}, line)) {
            return bad;
        }
        for (std::size_t before = 0; before < at; ++before) {
            const BoltPosition& other = bolts[before];
            if (other.bolt == one.bolt) {
                return Error{
                    ErrorCode::duplicate_field, "bolt", std::to_string(one.bolt), {}, line, {}};
            }
            if (apart_mm(one.x_mm, one.y_mm, other.x_mm, other.y_mm) < least_apart_mm) {
                return Error{
                    ErrorCode::duplicate_field, "position", std::to_string(one.bolt), {}, line, {}};
            }
        }
    }
    return std::nullopt;
}

/// Picks bolt after bolt, positions counted from the middle of all.
class OrderMaker {
  public:
    explicit OrderMaker(std::vector<BoltPosition> bolts) : left_(std::move(bolts)) {
        const auto count = static_cast<double>(left_.size());
        double x_mm = 0.0;
        double y_mm = 0.0;
        for (const BoltPosition& bolt : left_) {
            x_mm += bolt.x_mm / count;
            y_mm += bolt.y_mm / count;
        }
        double greatest_mm = 0.0;
        for (BoltPosition& bolt : left_) {
            bolt.x_mm -= x_mm;
            bolt.y_mm -= y_mm;
            greatest_mm = std::max(greatest_mm, std::hypot(bolt.x_mm, bolt.y_mm));
        }
        alike_mm_ = alike_share * greatest_mm;
        std::sort(left_.begin(), left_.end(),
                  [](const BoltPosition& a, const BoltPosition& b) { return a.bolt < b.bolt; });
    }

    std::vector<int> order() {
        std::vector<int> order;
        while (!left_.empty()) {
            const BoltPosition first = take(first_of_pair());
            last_pair_ = {first};
            order.push_back(first.bolt);
            // A bolt in the middle has no opposite.
            const auto opposite = across_from(first);
            if (std::hypot(first.x_mm, first.y_mm) > alike_mm_ && opposite) {
                last_pair_.push_back(take(*opposite));
                order.push_back(last_pair_.back().bolt);
            }
        }
        return order;
    }

  private:
    BoltPosition take(std::size_t index) {
        const BoltPosition taken = left_[index];
        left_.erase(left_.begin() + static_cast<std::ptrdiff_t>(index));
        return taken;
    }

    std::size_t first_of_pair() const {
        double nearest_mm = std::numeric_limits<double>::infinity();
        for (const BoltPosition& bolt : left_) {
            nearest_mm = std::min(nearest_mm, std::hypot(bolt.x_mm, bolt.y_mm));
        }
        std::size_t best = left_.size();
        FromLast furthest;
        for (std::size_t at = 0; at < left_.size(); ++at) {
            if (std::hypot(left_[at].x_mm, left_[at].y_mm) > nearest_mm + alike_mm_) {
                continue;
            }
            const FromLast away = from_last(left_[at]);
            if (best == left_.size() || further(away, furthest)) {
                best = at;
                furthest = away;
            }
        }
        return best;
    }

    /// How far a bolt is from the pair before.
    struct FromLast {
        double from_pair_mm = 0.0; ///< from the nearer of the two
        double from_last_mm = 0.0;
    };
    FromLast from_last(const BoltPosition& bolt) const {
        FromLast away{std::numeric_limits<double>::infinity(), 0.0};
        for (const BoltPosition& before : last_pair_) {
            away.from_last_mm = apart_mm(bolt.x_mm, bolt.y_mm, before.x_mm, before.y_mm);
            away.from_pair_mm = std::min(away.from_pair_mm, away.from_last_mm);
        }
        return away;
    }
    bool further(const FromLast& one, const FromLast& other) const {
        if (std::abs(one.from_pair_mm - other.from_pair_mm) > alike_mm_) {
            return one.from_pair_mm > other.from_pair_mm;
        }
        return one.from_last_mm > other.from_last_mm + alike_mm_;
    }

    /// The bolt nearest to the mirror image, if it is on the other side at all.
    std::optional<std::size_t> across_from(const BoltPosition& bolt) const {
        std::optional<std::size_t> best;
        double nearest_mm = std::numeric_limits<double>::infinity();
        for (std::size_t at = 0; at < left_.size(); ++at) {
            const BoltPosition& other = left_[at];
            const double away_mm = apart_mm(other.x_mm, other.y_mm, -bolt.x_mm, -bolt.y_mm);
            const bool across = other.x_mm * bolt.x_mm + other.y_mm * bolt.y_mm < 0.0;
            if (across && away_mm < nearest_mm - alike_mm_) {
                best = at;
                nearest_mm = away_mm;
            }
        }
        return best;
    }

    std::vector<BoltPosition> left_; ///< by number
    double alike_mm_ = 0.0;
    std::vector<BoltPosition> last_pair_;
};

std::vector<std::string> pieces_of(std::string_view text) {
    std::vector<std::string> pieces;
    bool in_piece = false;
    for (const char c : plain_text(text)) {
        const bool between = c == '-' || c == ' ' || c == ',' || c == '/' || c == '>';
        if (!between) {
            if (!in_piece) {
                pieces.emplace_back();
            }
            pieces.back() += c;
        }
        in_piece = !between;
    }
    return pieces;
}

Error wrong_order(ErrorCode code, std::string value, std::string expected = {}) {
    return {code, "order", std::move(value), std::move(expected), {}, {}};
}

std::string listed(const std::vector<int>& bolts) {
    std::string list;
    for (const int bolt : bolts) {
        list += (list.empty() ? "" : " ") + std::to_string(bolt);
    }
    return list;
}

bool holds(const std::vector<int>& bolts, int bolt) {
    return std::find(bolts.begin(), bolts.end(), bolt) != bolts.end();
}

} // namespace

Result<std::vector<int>> order_from_centre(const std::vector<BoltPosition>& bolts) {
    if (const auto bad = wrong_positions(bolts)) {
        return *bad;
    }
    return OrderMaker(bolts).order();
}

Result<std::vector<int>> parse_tightening_order(std::string_view text,
                                                const std::vector<int>& bolts) {
    const std::vector<std::string> pieces = pieces_of(text);
    if (pieces.empty()) {
        return wrong_order(ErrorCode::empty_text, std::string(text));
    }
    std::vector<int> order;
    for (const std::string& piece : pieces) {
        int bolt = 0;
        const auto [end, failure] =
            std::from_chars(piece.data(), piece.data() + piece.size(), bolt);
        if (failure != std::errc() || end != piece.data() + piece.size()) {
            return wrong_order(ErrorCode::not_a_number, piece);
        }
        if (!holds(bolts, bolt)) {
            return wrong_order(ErrorCode::not_a_choice, piece, listed(bolts));
        }
        if (holds(order, bolt)) {
            Error twice = wrong_order(ErrorCode::duplicate_field, std::string(text));
            twice.field += "/" + piece;
            return twice;
        }
        order.push_back(bolt);
    }
    for (const int bolt : bolts) {
        if (!holds(order, bolt)) {
            Error missing = wrong_order(ErrorCode::missing_field, std::string(text));
            missing.field += "/" + std::to_string(bolt);
            return missing;
        }
    }
    return order;
}

} // namespace rodway
