#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <vector>

#include "core/base/assert.h"
#include "core/sheets/sheet_assessment.h"
#include "core/sheets/sheet_kinds.h"
#include "tests/core/sheets/sheet_readings.h"

namespace rodway {

/// One sheet with what was written on it, as it is assessed.
class FilledSheet {
  public:
    explicit FilledSheet(const char* kind, const WrittenReadings& written,
                         const EnginePlaces* places = nullptr,
                         const std::vector<SheetLimit>& limits = {}, const Engine* engine = nullptr)
        : taken_(written.all()),
          sheet_(assess_sheet(*find_sheet_kind(kind), {taken_, places, engine}, limits,
                              EntryOrder::by_number)) {
        EXPECT_THAT(taken_.not_read(), ::testing::IsEmpty());
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
    [[nodiscard]] std::optional<Interval> figure(std::string_view quantity,
                                                 std::string_view position) const {
        const SheetBox* one = box(quantity, position);
        return one == nullptr ? std::nullopt : one->figure;
    }
    [[nodiscard]] SheetVerdict verdict(std::string_view quantity, std::string_view position) const {
        const SheetBox* one = box(quantity, position);
        return one == nullptr ? SheetVerdict::no_number : one->verdict;
    }
    [[nodiscard]] std::vector<SheetFinding> found(PointedOut what) const {
        std::vector<SheetFinding> some;
        std::copy_if(sheet_.findings.begin(), sheet_.findings.end(), std::back_inserter(some),
                     [&](const SheetFinding& one) { return one.what == what; });
        return some;
    }
    [[nodiscard]] const std::vector<SheetFinding>& findings() const { return sheet_.findings; }

  private:
    TakenReadings taken_;
    AssessedSheet sheet_;
};

/// A figure by its middle and half its width, both times `unit`; the tolerance is that of decimals
/// in binary.
inline void expect_figure(const std::optional<Interval>& figure, double middle, double half_width,
                          double unit) {
    ASSERT_TRUE(figure);
    EXPECT_NEAR(figure->middle() / unit, middle, 1e-9);
    EXPECT_NEAR(figure->half_width() / unit, half_width, 1e-9);
}

} // namespace rodway
