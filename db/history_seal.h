#pragma once

#include <QByteArray>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/connection.h"

namespace rodway {

/// The history of a build is a chain: every act that touches it has a link, the SHA-256 of the link
/// before and of what the act did. Whoever changes an old act must change every later link, and
/// then the newest is not the one printed in the build book.
///
/// An edit enters its link as a digest of its texts with a salt: the texts of a customer can be
/// erased later and the chain still holds, while the digest alone does not tell whether a guess at
/// them is right.
///
/// All numbers and texts go in with their length before them, so that no two histories run together
/// to the same bytes. Build 0 stands for the records of the shop as a whole.

inline constexpr int salt_bytes = 16;
inline constexpr int digest_bytes = 32;

/// From the system's own source of randomness.
[[nodiscard]] QByteArray new_salt();

/// Each edit of an act has a salt made of the act's, until one of them is erased.
[[nodiscard]] QByteArray salt_of_edit(const QByteArray& salt_of_act, int ordinal);

/// SHA-256 of the salt and both texts; an absent text differs from every text.
[[nodiscard]] QByteArray digest_of_edit(const QByteArray& salt,
                                        const std::optional<std::string>& before,
                                        const std::optional<std::string>& after);

/// What an edit adds to its link.
struct SealedEdit {
    RecordRef record;
    std::string field;
    QByteArray digest;
};

/// Gathers the links of one act, one for each build it touches.
class ActSeal {
  public:
    ActSeal(std::int64_t number, const std::string& who, const std::string& when_utc,
            std::optional<std::int64_t> undoes);

    void add(std::int64_t build_id, const SealedEdit& edit);

    /// For each build the link that follows `link_before(build)`: 32 bytes, nothing at the first.
    [[nodiscard]] Result<std::map<std::int64_t, QByteArray>> links(
        const std::function<Result<QByteArray>(std::int64_t)>& link_before) const;

  private:
    QByteArray heading_;
    std::map<std::int64_t, QByteArray> edits_;
};

/// The newest link of a build before the act; nothing at the first.
Result<QByteArray> link_before(Connection& connection, std::int64_t build_id, std::int64_t act);

/// Writes the links of one act.
Result<Done> write_links(Connection& connection, std::int64_t act, const ActSeal& seal);

/// Gives a salt and links to the acts of a file that had none.
Result<Done> seal_old_history(Connection& connection);

} // namespace rodway
