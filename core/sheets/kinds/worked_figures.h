#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/engine/valve_position.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// What a sheet works out, written down figure by figure.
class WorkedFigures {
  public:
    explicit WorkedFigures(const TakenReadings& readings) : readings_(readings) {}

    /// Nothing is added where there is no value.
    void add(std::string_view quantity, const std::string& position,
             const std::optional<Interval>& value);
    /// The same for a quantity that is read there, too: points out, as `differs`, what is written
    /// and can't be the figure.
    void add_beside_reading(std::string_view quantity, const std::string& position,
                            const std::optional<Interval>& value,
                            PointedOut differs = PointedOut::stated_differs);
    /// The numbers' dimension is the quantity's own.
    void point_out(PointedOut what, std::string_view quantity, std::vector<std::string> positions,
                   std::vector<double> numbers, std::string other = {});

    [[nodiscard]] const SheetOutcome& outcome() const { return outcome_; }

  private:
    const TakenReadings& readings_;
    SheetOutcome outcome_;
};

/// Valves at which any of these quantities was read, as kept, in the order first written.
[[nodiscard]] std::vector<std::string> valves_read(const TakenReadings& readings,
                                                   const std::vector<std::string_view>& quantities);

/// The valve of a kept position such as "3I".
[[nodiscard]] ValvePosition valve_called(const std::string& kept);

} // namespace rodway
