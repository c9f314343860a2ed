#include "app/work/shop_copies.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <vector>

#include "db/backups.h"

namespace rodway {

Result<QStringList> copies_of_shop(const std::string& shop_path, const std::string& second_place) {
    QStringList copies;
    std::vector<std::string> places{std::string()};
    if (!second_place.empty()) places.push_back(second_place);
    for (const std::string& place : places) {
        const auto backups = backups_in(backups_folder(shop_path, place));
        if (!backups) return backups.error();
        for (const Backup& backup : *backups) {
            if (backup.name.shop == shop_name(shop_path)) {
                copies << QString::fromStdString(backup.path);
            }
        }
    }
    const QFileInfo shop(QString::fromStdString(shop_path));
    const QDir beside = shop.absoluteDir();
    for (const QString& name :
         beside.entryList({shop.completeBaseName() + ".backup-v*"}, QDir::Files)) {
        copies << beside.absoluteFilePath(name);
    }
    return copies;
}

QStringList remove_copies(const QStringList& copies) {
    QStringList left;
    for (const QString& path : copies) {
        for (const char* suffix : {"-wal", "-shm", "-journal"}) QFile::remove(path + suffix);
        if (!QFile::remove(path)) left << path;
    }
    return left;
}

} // namespace rodway
