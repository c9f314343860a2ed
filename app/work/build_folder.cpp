#include "app/work/build_folder.h"

#include <QDir>
#include <utility>

#include "app/work/file_bytes.h"
#include "app/work/new_folder.h"
#include "core/files/build_folder.h"
#include "core/files/readings_csv.h"
#include "db/attachments.h"
#include "db/build_records.h"
#include "db/reading_status_text.h"

namespace rodway {
namespace {

QString text(std::string_view utf8) {
    return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size()));
}

/// What stands for a record in a row: its title, else what it is.
std::string title_of(const Sheet& sheet) {
    return sheet.title.value_or(sheet.kind);
}

} // namespace

Result<std::string> readings_csv_of(ShopFile& shop, std::int64_t build_id) {
    const auto builds = load_records<Build>(shop, build_id);
    if (!builds) return builds.error();
    if (builds->empty()) {
        return Error{ErrorCode::no_such_record, "build", std::to_string(build_id), {}, {}, {}};
    }
    const auto readings = load_records<Reading>(shop, build_id);
    if (!readings) return readings.error();
    const auto sheets = load_records<Sheet>(shop, build_id);
    if (!sheets) return sheets.error();
    const auto instruments = load_records<Instrument>(shop, shop_wide);
    if (!instruments) return instruments.error();
    std::map<std::int64_t, std::string> sheet_titles;
    for (const Sheet& sheet : *sheets) sheet_titles[sheet.id] = title_of(sheet);
    std::map<std::int64_t, std::string> instrument_names;
    for (const Instrument& instrument : *instruments) {
        instrument_names[instrument.id] = instrument.name;
    }
    std::vector<ReadingRow> rows;
    rows.reserve(readings->size());
    for (const Reading& reading : *readings) {
        ReadingRow row{reading, {}, {}, to_edit_text(reading.status)};
        if (reading.sheet_id) row.sheet = sheet_titles[*reading.sheet_id];
        if (reading.instrument_id) row.instrument = instrument_names[*reading.instrument_id];
        rows.push_back(std::move(row));
    }
    return write_readings_csv(builds->front().name, rows);
}

Result<BuildTakenOut> export_build(ShopFile& shop, std::int64_t build_id, const QString& folder) {
    const auto build = take_out_build(shop, build_id);
    if (!build) return build.error();
    const auto readings = readings_csv_of(shop, build_id);
    if (!readings) return readings.error();
    NewFolder made(folder, std::string(build_photos_name));
    auto step = made.make();
    BuildTakenOut out;
    for (const TransferPhoto& photo : build->photos) {
        if (!photo.file) {
            out.photos_missing.push_back(photo.digest);
            continue;
        }
        const auto kept = path_of(shop, photo.digest);
        if (step && !kept) step = Error{ErrorCode::cannot_read, *photo.file, {}, {}, {}, {}};
        if (step) step = made.copy_photo(*kept, *photo.file, photo.digest);
        ++out.photos;
    }
    if (step) step = made.write(readings_csv_name, *readings);
    if (step) step = made.write(build_json_name, write_build_json(*build));
    if (!step) return step.error();
    const auto path = made.keep();
    if (!path) return path.error();
    out.folder = *path;
    out.acts = static_cast<int>(build->history.size());
    out.records = static_cast<int>(build->records.size());
    for (const TransferRecord& record : build->records) {
        if (record.kind == "reading") ++out.readings;
    }
    return out;
}

Result<BuildPutIn> import_build(ShopFile& shop, const QString& folder, const std::string& who,
                                const std::string& when_utc) {
    const QDir dir(folder);
    const QString json = dir.filePath(text(build_json_name));
    const auto bytes = read_file(json);
    if (!bytes) return bytes.error();
    const auto build = read_build_json(*bytes);
    if (!build) return build.error();
    return put_in_build(shop, *build, dir.filePath(text(build_photos_name)).toStdString(), who,
                        when_utc);
}

} // namespace rodway
