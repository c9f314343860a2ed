#include <QCoreApplication>
#include <QDateTime>
#include <QJsonArray>
#include <algorithm>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/words/backup_words.h"
#include "app/words/counted.h"
#include "app/work/clock.h"
#include "db/backups.h"
#include "db/restore.h"

namespace rodway {
namespace {

struct BackupCommands {
    Q_DECLARE_TR_FUNCTIONS(BackupCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct BackupOptions {
    std::string shop;
    std::string backup;
    std::string place;
    bool json = false;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QJsonObject backup_json(const Backup& backup) {
    const char* kind = "backup";
    if (backup.name.kind == BackupKind::before_restore) {
        kind = "before_restore";
    } else if (backup.name.kind == BackupKind::damaged) {
        kind = "damaged";
    }
    return {{"path", text(backup.path)},
            {"kind", kind},
            {"made_utc", text(utc_text(backup.name.made))},
            {"act",
             backup.history ? QJsonValue(static_cast<qint64>(backup.history->act)) : QJsonValue()},
            {"bytes", static_cast<qint64>(backup.bytes)},
            {"opens", backup.history.has_value()}};
}

void print_photos(int copied, const std::vector<std::string>& missing) {
    if (copied > 0) {
        print(words::counted(copied, BackupCommands::tr("Copied 1 photo."),
                             BackupCommands::tr("Copied %1 photos.")));
    }
    for (const std::string& digest : missing) {
        print(BackupCommands::tr("A photo's file is missing (%1).").arg(text(digest)));
    }
}

ExitCode make_backup(const BackupOptions& options) {
    auto opened = ShopFile::open(options.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.shop));
    }
    ShopFile shop = std::move(opened).value();
    const std::string now = now_utc();
    const auto made = back_up(shop, options.place, now);
    if (!made) {
        return refuse(made.error(), text(options.shop));
    }
    const auto removed = thin_backups(shop, options.place, now);
    if (options.json) {
        QJsonObject answer = backup_json(made->backup);
        answer.insert("format", "rodway-back-up");
        answer.insert("version", 1);
        answer.insert("photos_copied", made->photos_copied);
        answer.insert("photos_missing", array_of(made->photos_missing));
        answer.insert("removed", removed ? array_of(*removed) : QJsonArray());
        print_json(answer);
    } else {
        print(BackupCommands::tr("Backed up to %1.").arg(text(made->backup.path)));
        print_photos(made->photos_copied, made->photos_missing);
        if (removed && !removed->empty()) {
            print(words::counted(static_cast<int>(removed->size()),
                                 BackupCommands::tr("Removed 1 old backup."),
                                 BackupCommands::tr("Removed %1 old backups.")));
        }
    }
    return removed ? ExitCode::done : refuse(removed.error(), text(options.shop));
}

ExitCode list_backups(const BackupOptions& options) {
    const std::string folder = backups_folder(options.shop, options.place);
    const auto all = backups_in(folder);
    if (!all) {
        return refuse(all.error(), text(folder));
    }
    std::vector<Backup> found;
    std::copy_if(all->begin(), all->end(), std::back_inserter(found),
                 [&](const Backup& backup) { return backup.name.shop == shop_name(options.shop); });
    if (options.json) {
        QJsonArray rows;
        for (const Backup& backup : found) {
            rows.append(backup_json(backup));
        }
        print_json({{"format", "rodway-backups"},
                    {"version", 1},
                    {"folder", text(folder)},
                    {"backups", rows}});
        return ExitCode::done;
    }
    for (const Backup& backup : found) {
        const QDateTime made =
            QDateTime::fromSecsSinceEpoch(backup.name.made.time_since_epoch().count());
        const QString state = backup.history
                                  ? BackupCommands::tr("up to act %1").arg(backup.history->act)
                                  : BackupCommands::tr("does not open as a shop file");
        print(BackupCommands::tr("%1  %2, %3, %4 kB\n   %5")
                  .arg(made.toString("yyyy-MM-dd HH:mm"), words::backup_kind(backup.name.kind),
                       state, QString::number((backup.bytes + 1023) / 1024), text(backup.path)));
    }
    if (found.empty()) {
        print(BackupCommands::tr("No backups in %1. Make one with: rodway back-up")
                  .arg(text(folder)));
    }
    return ExitCode::done;
}

ExitCode restore_shop(const BackupOptions& options) {
    const auto restored = restore(options.backup, options.shop, now_utc());
    if (!restored) {
        if (restored.error().code == ErrorCode::locked_file) {
            complain(BackupCommands::tr("rodway: %1").arg(words::shop_in_use(text(options.shop))));
            return exit_code(restored.error().code);
        }
        return refuse(restored.error());
    }
    if (options.json) {
        print_json({{"format", "rodway-restore"},
                    {"version", 1},
                    {"act", static_cast<qint64>(restored->history.act)},
                    {"kept", array_of(restored->kept)},
                    {"photos_copied", restored->photos_copied},
                    {"photos_missing", array_of(restored->photos_missing)}});
        return ExitCode::done;
    }
    print(
        BackupCommands::tr("%1 now holds what %2 held, up to act %3.")
            .arg(text(options.shop), text(options.backup), QString::number(restored->history.act)));
    for (const std::string& path : restored->kept) {
        print(BackupCommands::tr("What stood there before is kept as %1.").arg(text(path)));
    }
    print_photos(restored->photos_copied, restored->photos_missing);
    return ExitCode::done;
}

} // namespace

void add_backup_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<BackupOptions>();
    const auto word = [](const QString& of) { return of.toStdString(); };

    auto* make = program.add_subcommand(
        "back-up", word(BackupCommands::tr("Make a dated backup of a shop file, and remove old "
                                           "ones beyond the last 10, 12 weeks and every month")));
    make->add_option("shop", options->shop, word(BackupCommands::tr("Shop file")))->required();
    make->add_option("--to", options->place,
                     word(BackupCommands::tr("Folder on another disk; the photos go there too")));
    add_json_option(*make, options->json);
    make->callback([=, &outcome] { outcome.code = make_backup(*options); });

    auto* list =
        program.add_subcommand("backups", word(BackupCommands::tr("List a shop's backups")));
    list->add_option("shop", options->shop,
                     word(BackupCommands::tr("Shop file; it need not be there any more")))
        ->required();
    list->add_option("--from", options->place,
                     word(BackupCommands::tr("Folder that was given to back-up --to")));
    add_json_option(*list, options->json);
    list->callback([=, &outcome] { outcome.code = list_backups(*options); });

    auto* restoring = program.add_subcommand(
        "restore",
        word(BackupCommands::tr("Put a backup in the place of a shop file, which is kept")));
    restoring->add_option("backup", options->backup, word(BackupCommands::tr("Backup")))
        ->required();
    restoring
        ->add_option("shop", options->shop,
                     word(BackupCommands::tr("Shop file; it need not be there any more")))
        ->required();
    add_json_option(*restoring, options->json);
    restoring->callback([=, &outcome] { outcome.code = restore_shop(*options); });
}

} // namespace rodway
