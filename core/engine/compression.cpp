#include "core/engine/compression.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double mm3_per_cc = 1000.0;
/// Clearance as a share of the swept volume: ratios of 1.1 to 101.
constexpr double least_clearance_share = 0.01;
constexpr double greatest_clearance_share = 10.0;

/// What the room over a piston is made of, as plain numbers.
enum Part : std::size_t {
    bore_mm,
    stroke_mm,
    chamber_cc,
    dome_cc,
    dish_cc,
    gasket_compressed_mm,
    gasket_size, ///< bore in mm, or volume in cc
    deck_mm,
    crevice_cc,
    parts
};
using Sizes = std::array<double, parts>;

/// A checked cylinder, ready to be worked out at any of its bounds.
class Room {
  public:
    explicit Room(const CylinderAtTop& cylinder)
        : by_volume_(cylinder.gasket.volume_cc.has_value()),
          thickness_known_(cylinder.gasket.compressed_mm.has_value()),
          bounds_{cylinder.size.bore_mm,
                  cylinder.size.stroke_mm,
                  cylinder.chamber_cc,
                  cylinder.dome_cc,
                  cylinder.dish_cc,
                  cylinder.gasket.compressed_mm.value_or(Bounded{}),
                  by_volume_ ? *cylinder.gasket.volume_cc : *cylinder.gasket.bore_mm,
                  cylinder.deck_mm,
                  cylinder.crevice_cc} {}

    [[nodiscard]] bool thickness_known() const { return thickness_known_; }
    /// A thickness of none has no area by its volume.
    [[nodiscard]] bool gasket_area_known() const {
        return thickness_known_ && (!by_volume_ || bounds_[gasket_compressed_mm].low > 0.0);
    }

    static double swept(const Sizes& at) {
        return circle_mm2(at[bore_mm]) * at[stroke_mm] / mm3_per_cc;
    }
    static double deck(const Sizes& at) {
        return circle_mm2(at[bore_mm]) * at[deck_mm] / mm3_per_cc;
    }
    [[nodiscard]] double gasket(const Sizes& at) const {
        return by_volume_ ? at[gasket_size]
                          : circle_mm2(at[gasket_size]) * at[gasket_compressed_mm] / mm3_per_cc;
    }
    [[nodiscard]] double gasket_cc_per_mm(const Sizes& at) const {
        return by_volume_ ? at[gasket_size] / at[gasket_compressed_mm]
                          : circle_mm2(at[gasket_size]) / mm3_per_cc;
    }
    [[nodiscard]] double clearance(const Sizes& at) const {
        return at[chamber_cc] - at[dome_cc] + at[dish_cc] + gasket(at) + deck(at) + at[crevice_cc];
    }
    [[nodiscard]] double ratio(const Sizes& at) const { return 1.0 + swept(at) / clearance(at); }
    static double wanted(const Sizes& at, double ratio) { return swept(at) / (ratio - 1.0); }
    [[nodiscard]] double too_much(const Sizes& at, double ratio) const {
        return clearance(at) - wanted(at, ratio);
    }

    template <typename Figure>
    [[nodiscard]] Bounded bounded(const Figure& figure) const {
        return worst_case(bounds_, figure);
    }

  private:
    bool by_volume_;
    bool thickness_known_;
    std::array<Bounded, parts> bounds_;
};

std::optional<Error> wrong_gasket(const HeadGasket& gasket) {
    const auto missing = [](const char* field) {
        return Error{ErrorCode::missing_field, field, {}, {}, {}, {}};
    };
    if (gasket.volume_cc && gasket.bore_mm) {
        return Error{ErrorCode::not_of_this_kind,
                     "gasket_bore",
                     exact_text(gasket.bore_mm->value),
                     "gasket_volume",
                     std::nullopt,
                     std::nullopt};
    }
    if (!gasket.volume_cc && !gasket.compressed_mm) {
        return missing("gasket_compressed");
    }
    if (!gasket.volume_cc && !gasket.bore_mm) {
        return missing("gasket_bore");
    }
    const std::pair<const std::optional<Bounded>&, std::pair<const char*, Limits>> fields[] = {
        {gasket.compressed_mm, {"gasket_compressed", {0.0, 20.0, "mm"}}},
        {gasket.bore_mm, {"gasket_bore", {10.0, 1000.0, "mm"}}},
        {gasket.volume_cc, {"gasket_volume", {0.0, 5000.0, "cc"}}},
    };
    for (const auto& [number, field] : fields) {
        if (!number) {
            continue;
        }
        if (auto bad = outside(field.first, *number, field.second)) {
            return bad;
        }
    }
    return std::nullopt;
}

std::optional<Error> wrong_part(const CylinderAtTop& cylinder) {
    if (auto bad = wrong_size(cylinder.size)) {
        return bad;
    }
    if (auto bad = outside("chamber", cylinder.chamber_cc, {0.0, 20000.0, "cc"})) {
        return bad;
    }
    if (auto bad = outside("dome", cylinder.dome_cc, {0.0, 5000.0, "cc"})) {
        return bad;
    }
    if (auto bad = outside("dish", cylinder.dish_cc, {0.0, 5000.0, "cc"})) {
        return bad;
    }
    if (auto bad = wrong_gasket(cylinder.gasket)) {
        return bad;
    }
    if (auto bad = outside("deck", cylinder.deck_mm, {-50.0, 50.0, "mm"})) {
        return bad;
    }
    return outside("crevice", cylinder.crevice_cc, {0.0, 500.0, "cc"});
}

std::optional<Error> wrong_clearance(const Bounded& swept_cc, const Bounded& clearance_cc) {
    return outside(
        "clearance", clearance_cc,
        {least_clearance_share * swept_cc.high, greatest_clearance_share * swept_cc.high, "cc"});
}

/// Nothing where none is given; else cc for each mm off the head's face.
Result<std::optional<double>> cc_per_mm(const ChamberLoss& loss) {
    if (loss.cc_per_mm && loss.area_mm2) {
        return Error{ErrorCode::not_of_this_kind,
                     "chamber_area",
                     exact_text(*loss.area_mm2),
                     "chamber_cc_per_mm",
                     {},
                     {}};
    }
    if (loss.cc_per_mm) {
        if (const auto bad =
                outside("chamber_cc_per_mm", *loss.cc_per_mm, {0.01, 200.0, "cc/mm"})) {
            return *bad;
        }
        return loss.cc_per_mm;
    }
    if (loss.area_mm2) {
        if (const auto bad = outside("chamber_area", *loss.area_mm2, {10.0, 200000.0, "mm2"})) {
            return *bad;
        }
        return std::optional(*loss.area_mm2 / mm3_per_cc);
    }
    return std::optional<double>();
}

Bounded less(const Bounded& number, double by) {
    return {number.value - by, number.low - by, number.high - by};
}
Bounded more(const Bounded& number, double by) {
    return less(number, -by);
}

Error on_line(Error error, std::size_t place) {
    error.line = static_cast<int>(place) + 1;
    return error;
}

} // namespace

Result<Bounded> compression_ratio(const Bounded& swept_cc, const Bounded& clearance_cc) {
    if (const auto bad = outside("swept", swept_cc, {0.1, 100000.0, "cc"})) {
        return *bad;
    }
    if (const auto bad = wrong_clearance(swept_cc, clearance_cc)) {
        return *bad;
    }
    return worst_case<2>({swept_cc, clearance_cc}, [](const std::array<double, 2>& volumes) {
        return 1.0 + volumes[0] / volumes[1];
    });
}

Result<Compression> compression_of(const CylinderAtTop& cylinder) {
    if (const auto bad = wrong_part(cylinder)) {
        return *bad;
    }
    const Room room(cylinder);
    Compression found;
    found.swept_cc = room.bounded([&](const Sizes& at) { return Room::swept(at); });
    found.gasket_cc = room.bounded([&](const Sizes& at) { return room.gasket(at); });
    found.deck_cc = room.bounded([&](const Sizes& at) { return Room::deck(at); });
    found.clearance_cc = room.bounded([&](const Sizes& at) { return room.clearance(at); });
    if (const auto bad = wrong_clearance(found.swept_cc, found.clearance_cc)) {
        return *bad;
    }
    // One-sided in the bore too: with the bore's area a and the rest of the room v, it is
    // 1 + a·S/(v + a·d), whose slope by a has the sign of v whatever a is.
    found.ratio = room.bounded([&](const Sizes& at) { return room.ratio(at); });
    if (room.thickness_known()) {
        found.quench_mm =
            room.bounded([](const Sizes& at) { return at[deck_mm] + at[gasket_compressed_mm]; });
    }
    found.gasket_overhangs =
        cylinder.gasket.bore_mm && cylinder.gasket.bore_mm->high < cylinder.size.bore_mm.low;
    return found;
}

Result<Bounded> ratio_from(const CylinderAtTop& cylinder, const Bounded& stroke_left_mm) {
    const auto whole = compression_of(cylinder);
    if (!whole) {
        return whole.error();
    }
    if (const auto bad = outside("stroke_left", stroke_left_mm, {0.0, 2000.0, "mm"})) {
        return *bad;
    }
    CylinderAtTop shorter = cylinder;
    shorter.size.stroke_mm = stroke_left_mm;
    const Room room(shorter);
    return room.bounded([&](const Sizes& at) { return room.ratio(at); });
}

Result<CompressionSurvey> compression_survey(const std::vector<CylinderAtTop>& cylinders) {
    if (cylinders.empty()) {
        return Error{ErrorCode::too_few_rows, "cylinders", "0", "1", {}, {}};
    }
    CompressionSurvey survey;
    for (std::size_t at = 0; at < cylinders.size(); ++at) {
        const auto one = compression_of(cylinders[at]);
        if (!one) {
            return on_line(one.error(), at);
        }
        survey.cylinders.push_back(*one);
    }
    const auto ratio = [&](std::size_t at) -> const Bounded& { return survey.cylinders[at].ratio; };
    for (std::size_t at = 0; at < cylinders.size(); ++at) {
        survey.lowest = ratio(at).value < ratio(survey.lowest).value ? at : survey.lowest;
        survey.highest = ratio(at).value > ratio(survey.highest).value ? at : survey.highest;
        for (std::size_t other = 0; other < cylinders.size(); ++other) {
            if (other == at) {
                continue;
            }
            survey.spread.low = std::max(survey.spread.low, ratio(at).low - ratio(other).high);
            survey.spread.high = std::max(survey.spread.high, ratio(at).high - ratio(other).low);
        }
    }
    survey.spread.value = ratio(survey.highest).value - ratio(survey.lowest).value;
    return survey;
}

Result<WayToRatio> way_to_ratio(const CylinderAtTop& cylinder, double ratio,
                                const ChamberLoss& loss) {
    if (const auto bad = outside("ratio", ratio, {2.0, 40.0, {}})) {
        return *bad;
    }
    const auto lost = cc_per_mm(loss);
    if (!lost) {
        return lost.error();
    }
    const auto now = compression_of(cylinder);
    if (!now) {
        return now.error();
    }
    const Room room(cylinder);
    const auto too_much = [&](const Sizes& at) { return room.too_much(at, ratio); };
    const auto deck_cut = [&](const Sizes& at) {
        return too_much(at) * mm3_per_cc / circle_mm2(at[bore_mm]);
    };
    const auto gasket_cut = [&](const Sizes& at) {
        return too_much(at) / room.gasket_cc_per_mm(at);
    };
    WayToRatio way;
    way.clearance_cc = room.bounded([&](const Sizes& at) { return Room::wanted(at, ratio); });
    way.take_off_cc = room.bounded(too_much);
    way.chamber_left_cc =
        room.bounded([&](const Sizes& at) { return at[chamber_cc] - too_much(at); });
    if (*lost) {
        way.head_mm = room.bounded([&](const Sizes& at) { return too_much(at) / **lost; });
    }
    way.deck_mm = room.bounded(deck_cut);
    way.deck_left_mm = room.bounded([&](const Sizes& at) { return at[deck_mm] - deck_cut(at); });
    if (room.thickness_known()) {
        way.quench_by_deck_mm = room.bounded(
            [&](const Sizes& at) { return at[deck_mm] - deck_cut(at) + at[gasket_compressed_mm]; });
    }
    if (room.gasket_area_known()) {
        way.gasket_mm = room.bounded(gasket_cut);
        way.gasket_left_mm = room.bounded(
            [&](const Sizes& at) { return at[gasket_compressed_mm] - gasket_cut(at); });
        way.quench_by_gasket_mm = room.bounded([&](const Sizes& at) {
            return at[deck_mm] + at[gasket_compressed_mm] - gasket_cut(at);
        });
    }
    return way;
}

Result<std::vector<WayToRatio>> way_to_ratio(const std::vector<CylinderAtTop>& cylinders,
                                             double ratio, const ChamberLoss& loss) {
    std::vector<WayToRatio> ways;
    for (std::size_t at = 0; at < cylinders.size(); ++at) {
        const auto way = way_to_ratio(cylinders[at], ratio, loss);
        if (!way) {
            return on_line(way.error(), at);
        }
        ways.push_back(*way);
    }
    return ways;
}

Result<CompressionWhatIf> compression_if(const CylinderAtTop& cylinder,
                                         const CompressionChange& change) {
    if (const auto bad = outside("bore_over", change.bore_over_mm, {0.0, 50.0, "mm"})) {
        return *bad;
    }
    if (const auto bad = outside("block_decked", change.block_decked_mm, {0.0, 10.0, "mm"})) {
        return *bad;
    }
    const auto lost = cc_per_mm(change.loss);
    if (!lost) {
        return lost.error();
    }
    if (change.head_milled_mm != 0.0 && !*lost) {
        return Error{ErrorCode::missing_field, "chamber_cc_per_mm", {}, {}, {}, {}};
    }
    const auto before = compression_of(cylinder);
    if (!before) {
        return before.error();
    }
    const double all_of_it_mm = *lost ? cylinder.chamber_cc.low / **lost : 0.0;
    if (const auto bad = outside("head_milled", change.head_milled_mm,
                                 {0.0, std::min(10.0, all_of_it_mm), "mm"})) {
        return *bad;
    }
    CompressionWhatIf what_if;
    what_if.cylinder = cylinder;
    what_if.cylinder.size.bore_mm = more(cylinder.size.bore_mm, change.bore_over_mm);
    what_if.cylinder.chamber_cc =
        less(cylinder.chamber_cc, change.head_milled_mm * lost->value_or(0.0));
    what_if.cylinder.deck_mm = less(cylinder.deck_mm, change.block_decked_mm);
    what_if.cylinder.gasket = change.gasket.value_or(cylinder.gasket);
    const auto after = compression_of(what_if.cylinder);
    if (!after) {
        return after.error();
    }
    what_if.before = *before;
    what_if.after = *after;
    what_if.ratio_gained = after->ratio.value - before->ratio.value;
    return what_if;
}

} // namespace rodway
