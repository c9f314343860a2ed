#pragma once

#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "core/build/records.h"
#include "db/build_records.h"
#include "db/record_tables.h"
#include "db/shop_file.h"

namespace rodway {

/// Does what a shop could do, at random: records of all kinds made, changed, removed, undone and
/// done again, in one build and around it.
class RandomBuild {
  public:
    /// `digests`: of the photos there may be. `own`: how the words of the shop's own sheets begin.
    RandomBuild(ShopFile& shop, unsigned seed, std::vector<std::string> digests,
                std::string own = "our ");
    /// In a build that is there.
    RandomBuild(ShopFile& shop, std::int64_t build, unsigned seed, std::vector<std::string> digests,
                std::string own = "our ");

    /// Some acts; the answer counts those that the shop took.
    int work(int acts);

    /// One act that might come next, made of what the shop file shows now and not done yet. Nothing
    /// if nothing comes to mind.
    [[nodiscard]] std::vector<Edit> idea();
    /// The same edit with another text for the field, or with none; nothing if no other was found.
    [[nodiscard]] std::optional<Edit> another(Edit edit);

    [[nodiscard]] std::int64_t build() const { return build_; }

  private:
    int below(int end);
    std::string words();
    std::string text_for(const RecordField& field);
    std::string text_at(RecordKind kind, const std::string& field);
    std::string field_of(RecordKind kind);
    std::vector<Edit> creation();
    std::vector<Edit> change();
    bool do_something();
    std::string next_time();

    ShopFile& shop_;
    std::mt19937 random_;
    std::vector<std::string> digests_;
    std::string own_;
    std::int64_t build_ = 0;
    std::int64_t first_act_ = 0; ///< made the build, and stays
    int seconds_ = 0;
};

/// The records of a build as texts without any number: each with the texts of those that it refers
/// to. Sorted.
[[nodiscard]] std::vector<std::string> records_without_numbers(ShopFile& shop, std::int64_t build);

/// The acts of a build likewise, in their order.
[[nodiscard]] std::vector<std::string> history_without_numbers(ShopFile& shop, std::int64_t build);

} // namespace rodway
