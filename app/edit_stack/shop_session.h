#pragma once

#include <QObject>
#include <QString>
#include <QTimer>
#include <functional>
#include <optional>
#include <vector>

#include "app/edit_stack/waiting_act.h"
#include "app/work/clock.h"
#include "app/work/running_clock.h"
#include "db/edits.h"
#include "db/history.h"
#include "db/shop_file.h"

namespace rodway {

/// One open shop file as one person works in it: every change goes through here, can be undone, and
/// is told to whoever shows records. Edits made elsewhere, in another window or program, are
/// noticed.
///
/// In a window nothing that was typed is lost with the file: what can't be written for now, because
/// the file is locked, read-only, gone or its disk full, waits in its order and is tried again.
class ShopSession : public QObject {
    Q_OBJECT

  public:
    /// `clock`: by which everything that is done here is dated.
    ShopSession(ShopFile shop, QString who, Clock clock = now_utc, QObject* parent = nullptr);

    [[nodiscard]] ShopFile& shop() { return shop_; }
    [[nodiscard]] const QString& who() const { return who_; }
    void set_who(const QString& who) { who_ = who; }
    /// The present by the session's clock, UTC as records keep it.
    [[nodiscard]] std::string now() const { return clock_(); }

    /// From now on acts wait when the file can't take them. Needs an event loop, and somebody who
    /// shows what waits: a program that ends at once must not say so. In a shop that is open to be
    /// looked at only nothing ever waits.
    void keep_what_waits();

    /// One act of edits. `what` names it for the undo entry ("tick").
    /// Errors: those of `apply`. With `is_waiting`, the act is kept and tried again.
    Result<Act> act(std::vector<Edit> edits, const QString& what);

    /// Creates a record whose id `make` is given; asks again if another writer took the id.
    /// Errors: as for `act`; one that waits gets its id later.
    Result<std::int64_t> create(RecordKind kind,
                                const std::function<std::vector<Edit>(std::int64_t)>& make,
                                const QString& what);

    [[nodiscard]] std::optional<QString> undo_text() const;
    [[nodiscard]] std::optional<QString> redo_text() const;
    /// One act done here, by its number, as the undo entry calls it.
    struct Entry {
        std::int64_t act = 0;
        QString what;
    };
    /// What can be taken back, and what can be done again; the next one is the last.
    [[nodiscard]] const std::vector<Entry>& done() const { return done_; }
    [[nodiscard]] const std::vector<Entry>& undone() const { return undone_; }
    /// Errors: those of `undo`; these never wait.
    Result<Act> undo();
    Result<Act> redo();

    /// Looks once for acts made elsewhere.
    void look_for_changes();

    /// What isn't written yet, in its order.
    [[nodiscard]] const std::vector<WaitingAct>& waiting() const { return waiting_; }
    /// Tries now, without waiting for other writers.
    void try_waiting();
    /// Of a refused act, its edits with what is stored now as `before`: both values side by side.
    Result<std::vector<Edit>> against_stored(std::int64_t key);
    /// Writes a refused act over what is stored now.
    void overwrite(std::int64_t key);
    /// Lets one go.
    void drop(std::int64_t key);
    /// Lets all go, into the caller's hands.
    [[nodiscard]] std::vector<WaitingAct> give_up();

  signals:
    /// Records have changed, here or elsewhere.
    void changed();
    void waiting_changed();

  private:
    Result<Act> write(std::vector<Edit> edits, const QString& what, bool creates);
    Error hold(std::vector<Edit> edits, const QString& what, bool creates, Error trouble);
    /// The first that still waits to be tried; null if none does.
    [[nodiscard]] WaitingAct* first_to_try();
    [[nodiscard]] std::vector<WaitingAct>::iterator find(std::int64_t key);
    /// True if it is in the file now.
    bool write_waiting(WaitingAct& act);
    void reopen();
    void done_now(const Act& act, const QString& what);
    void committed(const Act& act);
    /// True if there are acts that weren't seen yet.
    bool see_newest();
    void waiting_changes();

    ShopFile shop_;
    QString who_;
    Clock clock_;
    std::vector<Entry> done_;
    std::vector<Entry> undone_;
    std::int64_t seen_ = 0;
    std::optional<Act> newest_; ///< the act `seen_`, by which the shop is known again
    QTimer look_;
    bool keeps_ = false;
    std::vector<WaitingAct> waiting_;
    std::int64_t last_key_ = 0;
    QTimer retry_;
};

/// Whether the act behind this error is kept and tried again.
[[nodiscard]] bool is_waiting(const Error& error);

} // namespace rodway
