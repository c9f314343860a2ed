#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/words/sheet_words.h"
#include "core/engine/engine.h"
#include "core/sheets/sheet_assessment.h"
#include "db/shop_file.h"

namespace rodway {

/// All that the sheets of one build look at, as it stood when it was loaded.
class BuildSheets {
  public:
    /// A build without a set-up, or with one that makes no engine yet, has sheets all the same;
    /// positions are then added as they are read. `unsaved`: readings that count as the newest, in
    /// their order. `before`: the same build's as it stood a moment ago, whose engine is taken over
    /// as long as its set-up is the same. Errors: those of reading the file; no_such_record.
    static Result<BuildSheets> load(ShopFile& shop, std::int64_t build_id,
                                    const std::vector<Reading>& unsaved = {},
                                    const BuildSheets* before = nullptr);

    /// The built-in kinds, then the shop's own. Those of the shop whose form or place this program
    /// doesn't know are left out.
    [[nodiscard]] const std::vector<SheetKind>& kinds() const { return kinds_; }
    [[nodiscard]] const SheetKind* kind(const std::string& id) const;
    [[nodiscard]] AssessedSheet assess(const SheetKind& kind, EntryOrder order) const;

    /// What arithmetic beside the sheets looks at; it refers to this object.
    [[nodiscard]] SheetFacts facts() const;

    [[nodiscard]] const TakenReadings& taken() const { return *taken_; }
    [[nodiscard]] const std::vector<Reading>& readings() const { return readings_; }
    [[nodiscard]] std::optional<std::int64_t> set_up_id() const { return set_up_id_; }
    [[nodiscard]] const Engine* engine() const { return engine_.get(); }
    [[nodiscard]] const words::OwnTitles& own_titles() const { return own_titles_; }
    [[nodiscard]] const EnginePlaces* places() const { return places_.get(); }
    /// Of the shop and of the build, as they are kept.
    [[nodiscard]] const std::vector<LimitRecord>& limit_records() const { return limit_records_; }
    /// Limits that the shop or the build set and that can't be read, with why.
    [[nodiscard]] const std::vector<Error>& limits_not_read() const { return limits_not_read_; }

  private:
    Result<Done> load_own_kinds(ShopFile& shop);
    Result<Done> load_limits(ShopFile& shop, std::int64_t build_id);
    Result<Done> load_engine(ShopFile& shop, std::int64_t build_id, const BuildSheets* before);

    std::vector<SheetKind> kinds_;
    words::OwnTitles own_titles_;
    std::vector<Reading> readings_;
    std::vector<SheetLimit> limits_;
    std::vector<LimitRecord> limit_records_;
    std::vector<Error> limits_not_read_;
    std::optional<std::int64_t> set_up_id_;
    SetUpFields set_up_fields_;
    // Behind pointers: what is assessed refers to them, wherever this object is moved.
    std::shared_ptr<const Engine> engine_;
    std::shared_ptr<const EnginePlaces> places_;
    std::unique_ptr<TakenReadings> taken_;
};

/// A reading to be kept: as typed, now, of one quantity at one position.
/// Errors: as `kept_position` and `read_value`; empty_text.
Result<Reading> reading_to_keep(const Quantity& quantity, const std::string& position,
                                const std::string& text, const std::string& unit = {});

} // namespace rodway
