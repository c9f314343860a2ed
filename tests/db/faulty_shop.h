#pragma once

#include <QDir>
#include <QFile>
#include <random>
#include <string>

#include "db/attachments.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "tests/db/shop_test.h"

namespace rodway {

/// A sound shop of several builds, closed, to be damaged in copies.
class FaultyShopTest : public ShopTest {
  protected:
    void SetUp() override {
        write_bytes(in_folder("plate.jpg"), "plate");
        ShopFile shop = new_shop();
        const StoredFile stored = take(keep(shop, in_folder("plate.jpg")));
        photo_path_ = stored.path;
        photo_digest_ = stored.digest;
        Customer customer;
        customer.id = 1;
        customer.name = "R. Marsh";
        customer.phone = "555 0101";
        take(apply(shop, edits_to_create(customer), "Dee", noon));
        for (std::int64_t id = 1; id <= builds; ++id) add_build(shop, id);
        const auto renamed = take(apply(
            shop, {{{RecordKind::build, 2}, "name", "Blue pickup", "Green pickup"}}, "Kim", noon));
        take(undo(shop, renamed.number, "Kim", noon));
        take(apply(shop, take(edits_to_remove(shop, {RecordKind::note, 1})), "Kim", noon));
        path_ = shop.path();
    }

    static constexpr std::int64_t builds = 8;
    static constexpr std::int64_t readings_each = 20;

    /// Every record of the shop.
    [[nodiscard]] static RecordTexts records_of(ShopFile& shop) {
        RecordTexts all = take(records_of_build(shop, shop_wide));
        for (const Build& build : take(load_builds(shop))) {
            all.merge(take(records_of_build(shop, build.id)));
        }
        return all;
    }
    [[nodiscard]] std::string fresh_copy(const std::string& bytes) const {
        const std::string path = in_folder("damaged.rodway");
        for (const char* suffix : {"", "-wal", "-shm", "-journal"}) {
            QFile::remove(QString::fromStdString(path + suffix));
        }
        write_bytes(path, bytes);
        return path;
    }

    std::string path_;
    std::string photo_path_;
    std::string photo_digest_;

  private:
    void add_build(ShopFile& shop, std::int64_t id) const {
        Build build = sample_build(id);
        build.customer_id = 1;
        std::vector<Edit> edits = edits_to_create(build);
        edits = joined(std::move(edits), edits_to_create(sample_set_up(id, id)));
        edits = joined(std::move(edits), edits_to_create(sample_stage(id, id)));
        edits = joined(std::move(edits), edits_to_create(sample_step(id, id)));
        Photo photo = sample_photo(id, id);
        photo.stage_id = id;
        photo.digest = photo_digest_;
        edits = joined(std::move(edits), edits_to_create(photo));
        Note note;
        note.id = id;
        note.build_id = id;
        note.step_id = id;
        note.text = "Heard on the dyno: quiet";
        note.written_by = "Dee";
        note.written_at = noon;
        edits = joined(std::move(edits), edits_to_create(note));
        take(apply(shop, edits, "Dee", noon));
        for (std::int64_t i = 1; i <= readings_each; ++i) {
            Reading reading = sample_reading((id - 1) * readings_each + i, id);
            reading.set_up_id = id;
            reading.note = "read twice, on bench " + std::to_string(i);
            take(apply(shop, edits_to_create(reading), i % 2 == 0 ? "Kim" : "Dee", noon));
        }
    }
};

/// Places where a flip is likely to matter: half of them anywhere, half where something is written.
inline std::size_t seeded_place(std::mt19937& random, const std::string& bytes) {
    const bool anywhere = random() % 2 == 0;
    for (;;) {
        const std::size_t at = random() % bytes.size();
        if (anywhere || bytes[at] != '\0') return at;
    }
}

} // namespace rodway
