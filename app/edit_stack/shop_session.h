#pragma once

#include <QObject>
#include <QString>
#include <QTimer>
#include <functional>
#include <optional>
#include <vector>

#include "db/edits.h"
#include "db/history.h"
#include "db/shop_file.h"

namespace rodway {

/// One open shop file as one person works in it: every change goes through here, can be undone, and
/// is told to whoever shows records. Edits made elsewhere, in another window or program, are
/// noticed.
class ShopSession : public QObject {
    Q_OBJECT

  public:
    ShopSession(ShopFile shop, QString who, QObject* parent = nullptr);

    [[nodiscard]] ShopFile& shop() { return shop_; }
    [[nodiscard]] const QString& who() const { return who_; }
    void set_who(const QString& who) { who_ = who; }

    /// One act of edits. `what` names it for the undo entry ("tick").
    Result<Act> act(std::vector<Edit> edits, const QString& what);

    /// Creates a record whose id `make` is given; asks again if another writer took the id.
    Result<std::int64_t> create(RecordKind kind,
                                const std::function<std::vector<Edit>(std::int64_t)>& make,
                                const QString& what);

    [[nodiscard]] std::optional<QString> undo_text() const;
    [[nodiscard]] std::optional<QString> redo_text() const;
    Result<Act> undo();
    Result<Act> redo();

    /// Looks once for acts made elsewhere.
    void look_for_changes();

  signals:
    /// Records have changed, here or elsewhere.
    void changed();

  private:
    struct Entry {
        std::int64_t act = 0;
        QString what;
    };
    void committed(const Act& act);

    ShopFile shop_;
    QString who_;
    std::vector<Entry> done_;
    std::vector<Entry> undone_;
    std::int64_t seen_ = 0;
    QTimer look_;
};

} // namespace rodway
