#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/assert.h"
#include "core/sheets/sheet_assessment.h"
#include "core/sheets/sheet_kinds.h"
#include "tests/core/sheets/sheet_readings.h"

namespace rodway {

constexpr double mm_per_inch = 25.4;
constexpr double N_per_pound = 4.4482216152605;

/// One kind of sheet as it stands with some readings. All of them must be readable.
class WorkedSheet {
  public:
    WorkedSheet(std::string_view kind, const WrittenReadings& written,
                const Engine* engine = nullptr, const EnginePlaces* places = nullptr)
        : taken_(written.all()),
          sheet_(assess_sheet(*find_sheet_kind(kind), {taken_, places, engine}, {},
                              EntryOrder::by_number)) {
        RODWAY_ASSERT(taken_.not_read().empty());
    }

    [[nodiscard]] std::optional<Interval> figure(std::string_view quantity,
                                                 std::string_view position = {}) const {
        const SheetBox* there = box(quantity, position);
        return there == nullptr ? std::nullopt : there->figure;
    }
    [[nodiscard]] double middle(std::string_view quantity, std::string_view position = {}) const {
        const auto there = figure(quantity, position);
        RODWAY_ASSERT(there.has_value());
        return there->middle();
    }
    [[nodiscard]] SheetVerdict verdict(std::string_view quantity,
                                       std::string_view position = {}) const {
        const SheetBox* there = box(quantity, position);
        RODWAY_ASSERT(there != nullptr);
        return there->verdict;
    }
    [[nodiscard]] std::vector<SheetFinding> found(PointedOut what) const {
        std::vector<SheetFinding> all;
        std::copy_if(sheet_.findings.begin(), sheet_.findings.end(), std::back_inserter(all),
                     [&](const SheetFinding& one) { return one.what == what; });
        return all;
    }
    [[nodiscard]] const std::vector<SheetFinding>& findings() const { return sheet_.findings; }

  private:
    [[nodiscard]] const SheetBox* box(std::string_view quantity, std::string_view position) const {
        for (const SheetLine& line : sheet_.lines) {
            for (const SheetBox& one : line.boxes) {
                if (line.quantity.id == quantity && one.position == position) {
                    return &one;
                }
            }
        }
        return nullptr;
    }

    TakenReadings taken_;
    AssessedSheet sheet_;
};

} // namespace rodway
