#include "tests/db/shop_test.h"

#include <QDir>
#include <QFile>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QUuid>

#include "db/build_store.h"
#include "db/photo_store.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"

namespace rodway {
namespace {

/// Rows of the statements, one line a row; throws what SQLite says.
std::string run_plainly(const std::string& path, const std::vector<QString>& statements) {
    const QString name = QUuid::createUuid().toString();
    std::string out;
    std::string failure;
    {
        QSqlDatabase database = QSqlDatabase::addDatabase("QSQLITE", name);
        database.setDatabaseName(QString::fromStdString(path));
        if (!database.open()) failure = "not opened";
        for (const QString& statement : statements) {
            QSqlQuery query(database);
            if (!query.exec(statement)) failure = query.lastError().text().toStdString();
            while (query.next()) {
                for (int i = 0; i < query.record().count(); ++i) {
                    out += i == 0 ? "" : "|";
                    out += query.isNull(i) ? "NULL" : query.value(i).toString().toStdString();
                }
                out += '\n';
            }
        }
    }
    QSqlDatabase::removeDatabase(name);
    if (!failure.empty()) throw std::runtime_error(failure);
    return out;
}

/// Every table but those of the history and SQLite's own, each in the order of its key.
std::vector<QString> all_records(const std::string& path) {
    const std::string names = run_plainly(
        path, {"SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
               " AND name NOT LIKE 'search%' AND name NOT IN ('acts', 'edits', 'history_links')"
               " ORDER BY name"});
    std::vector<QString> statements;
    for (const QString& name : QString::fromStdString(names).split(u'\n', Qt::SkipEmptyParts)) {
        const QString order = name == "set_up_fields" ? "2, 3" : "2";
        statements.push_back(QString("SELECT '%1', * FROM %1 ORDER BY %2").arg(name, order));
    }
    return statements;
}

} // namespace

std::string ShopTest::in_folder(const std::string& name) const {
    return folder_.filePath(QString::fromStdString(name)).toStdString();
}

ShopFile ShopTest::new_shop(const std::string& name) const {
    return take(ShopFile::create(in_folder(name)));
}

std::vector<std::string> ShopTest::names() const {
    std::vector<std::string> found;
    const auto all = QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot;
    for (const QString& name : QDir(folder_.path()).entryList(all, QDir::Name)) {
        found.push_back(name.toStdString());
    }
    return found;
}

std::string bytes_of(const std::string& path) {
    QFile file(QString::fromStdString(path));
    if (!file.open(QIODevice::ReadOnly)) throw std::runtime_error("can't read " + path);
    return file.readAll().toStdString();
}

void write_bytes(const std::string& path, const std::string& bytes) {
    QFile file(QString::fromStdString(path));
    if (!file.open(QIODevice::WriteOnly)) throw std::runtime_error("can't write " + path);
    file.write(bytes.data(), static_cast<qint64>(bytes.size()));
}

std::string dump(const std::string& path) {
    return run_plainly(path, all_records(path));
}

std::string dump_with_history(const std::string& path) {
    return dump(path) +
           run_plainly(path, {"SELECT 'act', number, who, when_utc, undoes FROM acts"
                              " ORDER BY number",
                              "SELECT 'edit', act, ordinal, record_kind, record_id, field, before,"
                              " after FROM edits ORDER BY act, ordinal"});
}

void tamper(const std::string& path, const std::string& sql) {
    run_plainly(path, {QString::fromStdString(sql)});
}

std::string rows_of(const std::string& path, const std::string& sql) {
    return run_plainly(path, {QString::fromStdString(sql)});
}

std::string ask(const std::string& path, const std::string& sql) {
    const std::string out = run_plainly(path, {QString::fromStdString(sql)});
    return out.substr(0, out.find_first_of("|\n"));
}

Build sample_build(std::int64_t id) {
    return Build{id,           "Blue pickup",    "R. Marsh", "big block, 454, casting ending 289",
                 "2026-05-20", "wants it quiet", {}};
}

SetUpRecord sample_set_up(std::int64_t id, std::int64_t build_id) {
    return SetUpRecord{id,
                       build_id,
                       "as dropped off",
                       {{"trains/3I/rod/diameter", {".3125", "in"}},
                        {"trains/3I/rod/length", {"8 1/4", "in"}},
                        {"layout/cylinders", {"8", ""}}}};
}

Stage sample_stage(std::int64_t id, std::int64_t build_id) {
    return Stage{id, build_id, 2, "Degree the cam", "piston_to_valve"};
}

Step sample_step(std::int64_t id, std::int64_t stage_id) {
    return Step{id, stage_id, 1, "Find top dead centre with a positive stop", {}, {}};
}

Reading sample_reading(std::int64_t id, std::int64_t build_id) {
    return Reading{id,    build_id,    {},   "rod_clearance",
                   "3I",  ".008-.010", "in", ReadingStatus::measured,
                   "Dee", noon};
}

Photo sample_photo(std::int64_t id, std::int64_t build_id) {
    return Photo{id, build_id, {}, photo_digest, "guide plate.jpg", "witness mark", noon};
}

std::vector<Edit> edits_of_whole_build() {
    std::vector<Edit> edits = edits_to_create(sample_build(1));
    edits = joined(std::move(edits), edits_to_create(sample_set_up(1, 1)));
    edits = joined(std::move(edits), edits_to_create(sample_stage(1, 1)));
    edits = joined(std::move(edits), edits_to_create(sample_step(1, 1)));
    Reading reading = sample_reading(1, 1);
    reading.set_up_id = 1;
    edits = joined(std::move(edits), edits_to_create(reading));
    Photo photo = sample_photo(1, 1);
    photo.stage_id = 1;
    return joined(std::move(edits), edits_to_create(photo));
}

std::vector<Edit> joined(std::vector<Edit> first, const std::vector<Edit>& second) {
    first.insert(first.end(), second.begin(), second.end());
    return first;
}

} // namespace rodway
