#pragma once

#include <QObject>
#include <optional>
#include <vector>

#include "app/work/newest_request.h"
#include "core/build/records.h"
#include "core/describe/description.h"
#include "core/describe/dimension_worth.h"
#include "core/describe/missing_sizes.h"

namespace rodway {

/// A described set-up and what is known of it: its description, what it still needs, and, worked
/// out beside the window, what each size is worth.
class DescribeModel : public QObject {
    Q_OBJECT

  public:
    explicit DescribeModel(QObject* parent = nullptr);

    /// Nothing changes for the same fields.
    void set_fields(const SetUpFields& fields);
    void clear();

    [[nodiscard]] const SetUpFields& fields() const { return fields_; }
    /// Empty for a set-up that isn't described, or whose layout isn't whole.
    [[nodiscard]] const std::optional<Description>& description() const { return description_; }
    [[nodiscard]] const std::vector<MissingSize>& missing() const { return missing_; }
    /// Of the last that was whole; empty while one is being worked out for the first time.
    [[nodiscard]] const std::optional<DescriptionWorth>& worth() const { return worth_; }
    /// Why the sizes together make no engine.
    [[nodiscard]] const std::optional<Error>& trouble() const { return trouble_; }
    [[nodiscard]] bool busy() const { return request_.busy(); }
    /// What one size is worth, as far as it is known.
    [[nodiscard]] const SizeWorth* worth_of(const EngineDimension& dimension,
                                            const std::string& owner) const;
    /// Whether any of an owner's valves has the dimension at all (see `Description::has`).
    [[nodiscard]] bool has(const EngineDimension& dimension, const std::string& owner) const;
    /// How a size of an owner stands; empty if its owner has no valve.
    [[nodiscard]] std::optional<DescribedSize> stand(const EngineDimension& dimension,
                                                     const std::string& owner) const;

  signals:
    void answered();

  private:
    SetUpFields fields_;
    std::optional<Description> description_;
    std::vector<MissingSize> missing_;
    std::optional<DescriptionWorth> worth_;
    std::optional<Error> trouble_;
    std::shared_ptr<LobesMade> made_ = std::make_shared<LobesMade>();
    NewestRequest request_;
};

} // namespace rodway
