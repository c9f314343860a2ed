#pragma once

#include <QPageSize>
#include <QString>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "app/book/book_pictures.h"
#include "app/edit_stack/shop_session.h"
#include "app/work/new_folder.h"
#include "core/handoff/book_template.h"

namespace rodway {

/// How a build is handed over.
struct HandOverWish {
    HandOffWords words;
    std::optional<std::string> signature; ///< who signs for it
    BookTemplate pattern;
    QPageSize::PageSizeId paper = QPageSize::A4;
};

struct HandedOver {
    std::int64_t hand_off_id = 0;
    int version = 1;
    QString folder; ///< absolute
    int pages = 0;
    int photos = 0;
    std::vector<std::string> files;          ///< in the folder, as its digests list them
    std::vector<std::string> photos_missing; ///< digests of chosen photos without a sound file
    std::vector<MissingFact> rods;           ///< pushrods that touch, fail or have no verdict
};

/// What is in a customer's folder.
inline constexpr const char* book_file_name = "build-book.pdf";
inline constexpr const char* card_file_name = "settings-card.pdf";
inline constexpr const char* readings_file_name = "readings.csv";
inline constexpr const char* set_up_file_name = "set-up.json";
inline constexpr const char* how_to_check_file_name = "how-to-check.txt";
inline constexpr const char* digests_file_name = "SHA256SUMS";

/// All that a customer's folder is made from.
struct HandOverFacts {
    std::shared_ptr<const BookFacts> facts;
    std::shared_ptr<const BookPictures> pictures; ///< drawn from the facts afterwards
    std::string readings_csv;
};

/// A customer's folder that lies beside its place under a temporary name, and goes away unless the
/// hand-over is finished.
struct FilledFolder {
    std::unique_ptr<NewFolder> folder;
    HandedOver done;         ///< without what only finishing knows
    std::string book_digest; ///< of the book as the shop keeps it, once it does
};

// Handing over in steps, so that a window lives meanwhile.

/// Reads all of it, without pictures. Errors: as `gather_book`.
Result<HandOverFacts> read_for_hand_over(ShopFile& shop, std::int64_t build_id,
                                         const HandOffWords& words,
                                         const std::stop_token& stop = {});
/// Book, settings card, the photos chosen, readings as CSV, the set-up in hand, and the digest of
/// each as `sha256sum -c` takes them. On any thread. Errors: as `book_pdf`, `NewFolder`; nothing
/// if a stop was asked for.
Result<std::optional<FilledFolder>> fill_folder(
    const HandOverFacts& facts, const HandOverWish& wish, const QString& folder,
    const std::function<void(int page, int of)>& progress = {}, const std::stop_token& stop = {});
/// Keeps the book itself among the shop's files. On any thread with a shop of its own. Errors: as
/// `keep` of attachments.
Result<Done> keep_book(const ShopFile& shop, FilledFolder& filled);
/// Gives the folder its name and keeps what was given: the book by its digest, and its facts as a
/// record, so that a later book can say what has changed. Errors: as `NewFolder::keep`,
/// `ShopSession::create`; then there is no folder and no record.
Result<HandedOver> finish_hand_over(ShopSession& session, const HandOverFacts& facts,
                                    const HandOverWish& wish, FilledFolder filled);

/// All at once; needs the window's thread. The folder is there whole or not at all. Nothing,
/// and no record, if a stop was asked for.
Result<std::optional<HandedOver>> hand_over(
    ShopSession& session, std::int64_t build_id, const HandOverWish& wish, const QString& folder,
    const std::function<void(int page, int of)>& progress = {}, const std::stop_token& stop = {});

} // namespace rodway
