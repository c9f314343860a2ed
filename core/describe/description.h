#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "core/clearance/engine_doubt.h"
#include "core/describe/dimension.h"
#include "core/engine/valve_position.h"

namespace rodway {

/// Where a size comes from that stands for one valve.
enum class SizeStand {
    given,   ///< typed for its owner
    mate,    ///< assumed to be as that of a mate: the other kind's, another bank's, a like valve's
    assumed, ///< what the dimension assumes
    missing  ///< neither: it has to be given
};

/// A dimension as it stands for one valve.
struct DescribedSize {
    SizeStand stand = SizeStand::missing;
    double value = 0.0; ///< mm or degrees; of no meaning where missing
    double doubt = 0.0; ///< ±, the same unit; not below 0
    DoubtSource source = DoubtSource::assumed;
    std::string owner; ///< whose size it is: a bank, "intake", "exhaust", or a valve such as "3I"
    std::string from;  ///< whose was typed; empty if none was
};

/// One valve of a described engine, where it stands in its bank.
struct DescribedValve {
    ValvePosition position;
    std::string bank;
    int in_row = 0;       ///< of its cylinder in its bank, from the front, 0 first
    double side_x = -1.0; ///< -1: in front of its cylinder's centre; 1: behind
};

/// Whether a set-up has sizes as a builder measures them, under "described/".
[[nodiscard]] bool is_described(const SetUpFields& fields);

/// A short mark of all that is described: another as soon as one size, ± or choice is another.
[[nodiscard]] std::string described_mark(const SetUpFields& fields);

/// "described/intake/rod_overall/size".
[[nodiscard]] std::string described_path(std::string_view owner, const EngineDimension& dimension);
/// Its ± and where it comes from.
[[nodiscard]] std::string described_doubt_path(std::string_view owner,
                                               const EngineDimension& dimension);
[[nodiscard]] std::string described_source_path(std::string_view owner,
                                                const EngineDimension& dimension);

/// A set-up's described part, read once. What is wrong with one size is told when it is asked for.
class Description {
  public:
    /// The fields must outlive it. Errors: unknown_field for a dimension that nobody knows or an
    /// owner that has none; what `valves` of a bank don't say: missing_field, not_a_choice.
    static Result<Description> read(const SetUpFields& fields);

    /// Front to rear along each bank, bank by bank.
    [[nodiscard]] const std::vector<DescribedValve>& valves() const { return valves_; }
    [[nodiscard]] const DescribedValve* valve(const ValvePosition& position) const;

    /// A size as it stands for one valve. Of gaps that neither this valve nor a mate has: at the
    /// lower mouth as at the upper, the tube along the rod; there half the room in the tube, the
    /// rod in the middle. Errors: not_a_length, not_an_angle, out_of_range (of that dimension, in
    /// the unit typed).
    [[nodiscard]] Result<DescribedSize> size(const EngineDimension& dimension,
                                             const DescribedValve& valve) const;
    /// Of `mount`, `guided_by`, `lifter`, `follower`, `top_end`, `tube_casting`, `tube_shape`,
    /// `tube_long`: as typed for the valve, its bank, its kind, of an exhaust the intake's; else
    /// the first that there is.
    [[nodiscard]] std::string choice(const std::string& name, const DescribedValve& valve) const;
    /// Whether a valve's parts have the dimension at all: a solid lifter has no preload.
    [[nodiscard]] bool has(const EngineDimension& dimension, const DescribedValve& valve) const;

  private:
    explicit Description(const SetUpFields& fields) : fields_(&fields) {}
    std::optional<Error> check_names() const;
    std::optional<Error> read_row(const std::string& bank, const std::vector<int>& cylinders);
    [[nodiscard]] std::vector<std::string> owners(const EngineDimension& dimension,
                                                  const DescribedValve& valve) const;
    [[nodiscard]] Result<DescribedSize> given(const EngineDimension& dimension,
                                              const std::string& owner) const;
    [[nodiscard]] Result<DescribedSize> unmeasured_gap(const EngineDimension& dimension,
                                                       const DescribedValve& valve) const;

    const SetUpFields* fields_;
    std::vector<std::string> banks_;
    std::vector<DescribedValve> valves_;
};

/// Cylinder numbers as listed, "1 3 5 7"; empty if something else stands there.
[[nodiscard]] std::optional<std::vector<int>> listed_cylinders(const std::string& text);

/// A number in plain digits, never with an exponent, to far below a micron or a microradian.
[[nodiscard]] std::string plain_digits(double value);

/// A length or angle of a dimension as typed, mm or degrees, within its limits. Errors: as
/// `Description::size`, `field` the path.
[[nodiscard]] Result<double> dimension_value(const EngineDimension& dimension,
                                             std::string_view path, const TypedValue& typed);

} // namespace rodway
