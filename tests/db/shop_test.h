#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QTemporaryDir>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "db/edits.h"
#include "db/history.h"
#include "db/shop_file.h"

namespace rodway {

inline std::string describe(const Error& error) {
    return "error " + std::to_string(static_cast<int>(error.code)) + " field '" + error.field +
           "' value '" + error.value + "' expected '" + error.expected + "'";
}

/// The value, or a failed test that says which error stood there.
template <typename T>
T take(Result<T> result) {
    if (!result) throw std::runtime_error(describe(result.error()));
    return std::move(result).value();
}

/// The error, or a failed test.
template <typename T>
Error refusal(const Result<T>& result) {
    if (result) throw std::runtime_error("no error where one was expected");
    return result.error();
}

inline const std::string noon = "2026-03-01T12:00:00Z";
inline const std::string photo_digest(64, 'a');

class ShopTest : public ::testing::Test {
  protected:
    [[nodiscard]] std::string in_folder(const std::string& name) const;
    [[nodiscard]] ShopFile new_shop(const std::string& name = "shop.rodway") const;
    /// Names in the test's folder, sorted.
    [[nodiscard]] std::vector<std::string> names() const;

    QTemporaryDir folder_;
};

[[nodiscard]] std::string bytes_of(const std::string& path);
void write_bytes(const std::string& path, const std::string& bytes);

/// All rows of all record tables, read by a connection of its own, independent of `db`'s loads.
[[nodiscard]] std::string dump(const std::string& path);
/// The same with acts and edits, but for their salts and seals, which differ each time.
[[nodiscard]] std::string dump_with_history(const std::string& path);
/// Runs one statement on a connection that knows nothing of Rodway's rules.
void tamper(const std::string& path, const std::string& sql);
/// All rows as text, one a line.
[[nodiscard]] std::string rows_of(const std::string& path, const std::string& sql);
/// First column of the first row, as text.
[[nodiscard]] std::string ask(const std::string& path, const std::string& sql);

[[nodiscard]] Build sample_build(std::int64_t id);
[[nodiscard]] SetUpRecord sample_set_up(std::int64_t id, std::int64_t build_id);
[[nodiscard]] Stage sample_stage(std::int64_t id, std::int64_t build_id);
[[nodiscard]] Step sample_step(std::int64_t id, std::int64_t stage_id);
[[nodiscard]] Reading sample_reading(std::int64_t id, std::int64_t build_id);
[[nodiscard]] Photo sample_photo(std::int64_t id, std::int64_t build_id);

/// Edits that create build 1 with set-up 1, stage 1, step 1, reading 1 and photo 1.
[[nodiscard]] std::vector<Edit> edits_of_whole_build();

[[nodiscard]] std::vector<Edit> joined(std::vector<Edit> first, const std::vector<Edit>& second);

} // namespace rodway
