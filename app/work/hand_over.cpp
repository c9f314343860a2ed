#include "app/work/hand_over.h"

#include <QCoreApplication>
#include <QCryptographicHash>
#include <QDir>
#include <QFileInfo>
#include <algorithm>

#include "app/book/book_templates.h"
#include "app/book/customer_book.h"
#include "app/work/build_folder.h"
#include "app/work/clock.h"
#include "app/work/new_folder.h"
#include "core/files/set_up_file.h"
#include "db/attachments.h"
#include "db/record_fields.h"
#include "db/record_shape.h"
#include "render/renderer.h"

namespace rodway {
namespace {

struct HandOver {
    Q_DECLARE_TR_FUNCTIONS(HandOver)
};

constexpr const char* photos_name = "photos";

/// A digest and the file it is of, as `sha256sum` writes them.
struct Listed {
    std::string digest;
    std::string name;
};

std::string digest_of(const std::string& bytes) {
    return QCryptographicHash::hash(QByteArrayView(bytes), QCryptographicHash::Sha256)
        .toHex()
        .toStdString();
}

/// Letters, digits and the like alone, so that the name means the same on every computer.
std::string plain_name(const std::string& name) {
    std::string plain;
    for (const char one : name) {
        const bool good = (one >= 'a' && one <= 'z') || (one >= 'A' && one <= 'Z') ||
                          (one >= '0' && one <= '9') || one == '-' || one == '_' || one == '.';
        plain += good ? one : '_';
    }
    constexpr std::size_t longest = 60;
    return plain.size() > longest ? plain.substr(plain.size() - longest) : plain;
}

std::string how_to_check() {
    return (HandOver::tr(
                "Each line of the file %1 holds the digest (SHA-256) of one file of this folder. "
                "With\n\n    sha256sum -c %1\n\non Linux, or `shasum -a 256 -c %1` on a Mac, "
                "anyone "
                "can see that no file was altered since the folder was made. On Windows,\n\n    "
                "certutil -hashfile %2 SHA256\n\nshows the digest of one file, to be put beside "
                "the "
                "one in the list.")
                .arg(QLatin1String(digests_file_name), QLatin1String(book_file_name)) +
            u'\n')
        .toStdString();
}

/// The folder while it is being filled.
class CustomerFolder {
  public:
    explicit CustomerFolder(NewFolder& folder) : folder_(folder) {}

    Result<Done> write(const std::string& name, const std::string& bytes) {
        if (const auto written = folder_.write(name, bytes); !written) return written;
        listed_.push_back({digest_of(bytes), name});
        return Done{};
    }
    /// The photos chosen; one whose file isn't what it was is named in `missing`.
    int copy_photos(const BookFacts& facts, std::vector<std::string>& missing,
                    const std::stop_token& stop) {
        int copied = 0;
        for (const Photo& photo : facts.photos) {
            if (stop.stop_requested()) break;
            if (!photo.in_book) continue;
            const auto file = facts.photo_files.find(photo.id);
            if (file == facts.photo_files.end()) {
                missing.push_back(photo.digest);
                continue;
            }
            const std::string name =
                QString::number(copied + 1).rightJustified(3, u'0').toStdString() + '-' +
                plain_name(photo.file_name);
            if (folder_.copy_photo(file->second.toStdString(), name, photo.digest)) {
                listed_.push_back({photo.digest, std::string(photos_name) + '/' + name});
                ++copied;
            } else {
                missing.push_back(photo.digest);
            }
        }
        return copied;
    }
    Result<Done> write_digests() {
        std::string text;
        for (const Listed& one : listed_) text += one.digest + "  " + one.name + '\n';
        return folder_.write(digests_file_name, text);
    }
    [[nodiscard]] std::vector<std::string> names() const {
        std::vector<std::string> names;
        for (const Listed& one : listed_) names.push_back(one.name);
        return names;
    }

  private:
    NewFolder& folder_;
    std::vector<Listed> listed_;
};

HandOff record_of(const BookFacts& facts, const HandOverWish& wish, const std::string& digest) {
    HandOff record;
    record.build_id = facts.build().id;
    record.version = 1;
    for (const HandOff& one : facts.hand_offs) {
        record.version = std::max(record.version, one.version + 1);
    }
    record.book_digest = digest;
    record.history_head = facts.history_head;
    record.program_version = QCoreApplication::applicationVersion().toStdString();
    record.given_to = wish.words.given_to;
    record.given_at = now_utc();
    record.settings = handed_text(facts.to_keep());
    record.service_dates = facts.service_dates();
    record.signature = wish.signature;
    record.note = wish.words.note;
    return record;
}

/// The papers of a folder, as bytes.
struct Papers {
    QByteArray book;
    QByteArray card;
    int pages = 0;
};

Result<std::optional<Papers>> papers_of(const HandOverFacts& facts, const HandOverWish& wish,
                                        const PageProgress& progress, const std::stop_token& stop) {
    const auto card_pattern = find_book_template(QStringLiteral("settings_card"));
    if (!card_pattern) return card_pattern.error();
    const words::BookSource source{facts.facts, facts.pictures, 0.0};
    const CustomerBook book = customer_book(wish.pattern, source, wish.paper);
    const CustomerBook card = customer_book(*card_pattern, source, wish.paper);
    auto book_bytes = book_pdf(book.layout, book.title, progress, stop);
    auto card_bytes = book_pdf(card.layout, card.title, {}, stop);
    if (!book_bytes || !card_bytes) {
        return !book_bytes ? book_bytes.error() : card_bytes.error();
    }
    if (!*book_bytes || !*card_bytes) return std::optional<Papers>();
    return std::optional(Papers{**book_bytes, **card_bytes, book.layout.page_count()});
}

} // namespace

Result<HandOverFacts> read_for_hand_over(ShopFile& shop, std::int64_t build_id,
                                         const HandOffWords& words, const std::stop_token& stop) {
    auto gathered = gather_book(shop, build_id, Moment::present(), words, stop);
    if (!gathered) return gathered.error();
    auto readings = readings_csv_of(shop, build_id);
    if (!readings) return readings.error();
    return HandOverFacts{std::make_shared<const BookFacts>(std::move(gathered).value()),
                         std::make_shared<const BookPictures>(), std::move(readings).value()};
}

Result<std::optional<FilledFolder>> fill_folder(const HandOverFacts& facts,
                                                const HandOverWish& wish, const QString& folder,
                                                const std::function<void(int, int)>& progress,
                                                const std::stop_token& stop) {
    FilledFolder filled{std::make_unique<NewFolder>(folder, photos_name), {}, {}};
    // First of all, so that nobody waits for a book that can't be put anywhere.
    auto step = filled.folder->make();
    if (!step) return step.error();
    const auto papers = papers_of(facts, wish, progress, stop);
    if (!papers) return papers.error();
    if (!*papers) return std::optional<FilledFolder>();

    CustomerFolder made(*filled.folder);
    step = made.write(book_file_name, (*papers)->book.toStdString());
    if (step) step = made.write(card_file_name, (*papers)->card.toStdString());
    if (step) step = made.write(readings_file_name, facts.readings_csv);
    if (step && facts.facts->set_up) {
        step = made.write(set_up_file_name, write_set_up_file(facts.facts->set_up->fields));
    }
    if (step) step = made.write(how_to_check_file_name, how_to_check());
    if (!step) return step.error();
    HandedOver& done = filled.done;
    done.photos = made.copy_photos(*facts.facts, done.photos_missing, stop);
    if (stop.stop_requested()) return std::optional<FilledFolder>();
    if (step = made.write_digests(); !step) return step.error();
    done.pages = (*papers)->pages;
    done.files = made.names();
    return std::optional(std::move(filled));
}

Result<Done> keep_book(const ShopFile& shop, FilledFolder& filled) {
    const auto kept = keep(shop, filled.folder->path(book_file_name));
    if (!kept) return kept.error();
    filled.book_digest = kept->digest;
    return Done{};
}

Result<HandedOver> finish_hand_over(ShopSession& session, const HandOverFacts& facts,
                                    const HandOverWish& wish, FilledFolder filled) {
    const auto path = filled.folder->keep();
    if (!path) return path.error();

    HandOff record = record_of(*facts.facts, wish, filled.book_digest);
    const auto id = session.create(
        RecordKind::hand_off,
        [&](std::int64_t new_id) {
            record.id = new_id;
            return edits_to_create(record);
        },
        HandOver::tr("hand-over"));
    if (!id) {
        // Made a moment ago, and nobody has it; a record that waits is of it, though.
        if (!is_waiting(id.error())) QDir(*path).removeRecursively();
        return id.error();
    }
    HandedOver done = std::move(filled.done);
    done.hand_off_id = *id;
    done.version = record.version;
    done.folder = *path;
    for (const MissingFact& fact : facts.facts->missing()) {
        if (is_of_rods(fact.kind)) {
            done.rods.push_back(fact);
        }
    }
    return done;
}

Result<std::optional<HandedOver>> hand_over(ShopSession& session, std::int64_t build_id,
                                            const HandOverWish& wish, const QString& folder,
                                            const std::function<void(int, int)>& progress,
                                            const std::stop_token& stop) {
    auto read = read_for_hand_over(session.shop(), build_id, wish.words, stop);
    if (!read) return read.error();
    HandOverFacts facts = std::move(read).value();
    const auto renderer = Renderer::create();
    facts.pictures = std::make_shared<const BookPictures>(
        draw_book_pictures(*facts.facts, renderer ? renderer->get() : nullptr));
    auto filled = fill_folder(facts, wish, folder, progress, stop);
    if (!filled) return filled.error();
    std::optional<FilledFolder> whole = std::move(filled).value();
    if (!whole) return std::optional<HandedOver>();
    if (const auto kept = keep_book(session.shop(), *whole); !kept) return kept.error();
    auto done = finish_hand_over(session, facts, wish, std::move(*whole));
    if (!done) return done.error();
    return std::optional(std::move(done).value());
}

} // namespace rodway
