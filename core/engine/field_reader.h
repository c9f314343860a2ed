#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "core/geometry/frames.h"

namespace rodway {

/// Pairs of numbers, "a b; a b; …".
struct Pairs {
    std::vector<std::pair<double, double>> rows;
    int decimals = 0; ///< of the second numbers, the most there are
};
/// Error: not_a_number, `line` is the pair, counted from 1.
Result<Pairs> pairs_from_text(std::string_view path, std::string_view text);

[[nodiscard]] Error bad_field(ErrorCode code, std::string_view path, std::string_view value,
                              std::string_view expected = {});

/// Takes a set-up's fields one by one, each with its own unit and limits, and keeps the first thing
/// that was wrong. A field that is needed and absent is wrong; what is returned then is of no use.
class FieldReader {
  public:
    explicit FieldReader(const SetUpFields& fields) : fields_(fields) {}

    [[nodiscard]] bool has(const std::string& path) const { return fields_.count(path) > 0; }
    [[nodiscard]] bool has_any_under(const std::string& path) const;
    [[nodiscard]] const std::optional<Error>& error() const { return error_; }
    void refuse(Error error);

    std::string words(const std::string& path);
    double length_mm(const std::string& path);
    /// Where the field is absent, what stands in its place.
    double length_mm_or(const std::string& path, double otherwise_mm);
    std::optional<double> length_mm_if_any(const std::string& path);
    double angle_deg(const std::string& path);
    /// A field for which `is_amount`: in the unit of its limits.
    double amount(const std::string& path);
    std::optional<double> amount_if_any(const std::string& path);
    Vec3 point_mm(const std::string& path);
    /// A direction, made of unit length. Its components may be typed to few digits.
    Vec3 direction(const std::string& path);
    /// A direction put square to an axis; within 45 degrees of it, it is refused.
    Vec3 direction_across(const std::string& path, const Vec3& axis_K);
    /// Place of the word in the field's list of choices.
    std::size_t choice(const std::string& path);
    /// The same, and the first choice where the field is absent.
    std::size_t choice_or_first(const std::string& path);
    /// Rows of a list of pairs, the unit of each column applied to millimetres, degrees or newtons.
    std::vector<std::pair<double, double>> pairs(const std::string& path);

    /// Refuses a length, as typed, for what it means with others; the limits are in mm.
    void refuse_length(const std::string& path, double low_mm, std::optional<double> high_mm);
    /// Refuses each of the fields that is there, since what `with` names has no such field.
    void refuse_beside(const std::string& with, const std::vector<std::string>& paths);

    /// Names that stand at the place of the `*` in "banks/*/…" or "trains/3I/passages/*/…".
    [[nodiscard]] std::vector<std::string> names_under(const std::string& root) const;
    const TypedValue* find(const std::string& path);

  private:
    double plain_number(const std::string& path, ErrorCode if_not);

    const SetUpFields& fields_;
    std::optional<Error> error_;
};

} // namespace rodway
