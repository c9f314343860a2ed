#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/sheets/sheet_assessment.h"
#include "core/sheets/sheet_kinds.h"
#include "tests/core/sheets/sheet_readings.h"

namespace rodway {

/// A sheet as it stands with these readings, and what is on it.
class OutcomeOf {
  public:
    OutcomeOf(std::string_view kind, const WrittenReadings& written, const Engine* engine = nullptr)
        : sheet_(assessed(kind, written, engine)) {}

    /// The figure worked out, not what was written; nothing if there is none.
    [[nodiscard]] std::optional<Interval> figure(std::string_view quantity,
                                                 std::string_view position = {}) const {
        const SheetBox* found = box(quantity, position);
        return found == nullptr ? std::nullopt : found->figure;
    }
    /// In a unit of the quantity's dimension, its middle. Fails the test if there is none.
    [[nodiscard]] double middle(std::string_view quantity, std::string_view position,
                                double unit = 1.0) const {
        const auto found = figure(quantity, position);
        EXPECT_TRUE(found.has_value()) << quantity << " at " << position;
        return found ? found->middle() / unit : 0.0;
    }
    [[nodiscard]] SheetVerdict verdict(std::string_view quantity,
                                       std::string_view position = {}) const {
        const SheetBox* found = box(quantity, position);
        return found == nullptr ? SheetVerdict::no_number : found->verdict;
    }
    [[nodiscard]] const std::vector<SheetFinding>& findings() const { return sheet_.findings; }
    [[nodiscard]] std::vector<SheetFinding> findings(PointedOut what) const {
        std::vector<SheetFinding> found;
        std::copy_if(sheet_.findings.begin(), sheet_.findings.end(), std::back_inserter(found),
                     [&](const SheetFinding& one) { return one.what == what; });
        return found;
    }
    /// What the sheet says it needs, in its order.
    [[nodiscard]] std::vector<std::string> needed() const {
        std::vector<std::string> readings;
        for (const SheetFinding& one : findings(PointedOut::needs_reading)) {
            readings.push_back(one.other);
        }
        return readings;
    }

  private:
    static AssessedSheet assessed(std::string_view kind, const WrittenReadings& written,
                                  const Engine* engine) {
        const TakenReadings taken(written.all());
        for (const NotRead& one : taken.not_read()) {
            ADD_FAILURE() << one.reading.quantity << " \"" << one.reading.text << "\" isn't read";
        }
        return assess_sheet(*find_sheet_kind(kind), {taken, nullptr, engine}, {},
                            EntryOrder::by_number);
    }
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

    AssessedSheet sheet_;
};

} // namespace rodway
