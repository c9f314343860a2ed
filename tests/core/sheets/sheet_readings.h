#pragma once

#include <string>
#include <vector>

#include "core/build/records.h"

namespace rodway {

/// Readings as a builder writes them down, one after the other.
class WrittenReadings {
  public:
    WrittenReadings& write(std::string quantity, std::string position, std::string text,
                           std::string unit = {}) {
        Reading reading;
        reading.id = static_cast<std::int64_t>(readings_.size()) + 1;
        reading.quantity = std::move(quantity);
        reading.position = std::move(position);
        reading.text = std::move(text);
        reading.unit = std::move(unit);
        readings_.push_back(std::move(reading));
        return *this;
    }
    [[nodiscard]] const std::vector<Reading>& all() const { return readings_; }

  private:
    std::vector<Reading> readings_;
};

} // namespace rodway
