#include "app/edit_stack/shop_session.h"

#include <algorithm>
#include <chrono>

#include "app/edit_stack/waiting_records.h"
#include "app/work/clock.h"
#include "db/edits_again.h"

namespace rodway {
namespace {

constexpr int look_every_ms = 1000;
constexpr int retry_every_ms = 3000;
constexpr int id_tries = 20;
/// What people wait before the window goes on and the act waits instead.
constexpr std::chrono::milliseconds window_patience{1000};
constexpr const char* waits = "waiting";

/// Whether the file may take it later.
bool may_pass(const Error& error) {
    return error.code == ErrorCode::locked_file || error.code == ErrorCode::cannot_write ||
           error.code == ErrorCode::cannot_read;
}

bool id_taken(const Error& error) {
    return error.code == ErrorCode::changed_since && error.field == "exists";
}

/// Doesn't wait for other writers as long as it lives: what runs by the clock must not hold the
/// window up. The pragma touches no file, so that it can't fail for a reason worth telling.
class NoPatience {
  public:
    NoPatience(ShopFile& shop, std::chrono::milliseconds afterwards)
        : shop_(shop), afterwards_(afterwards) {
        static_cast<void>(shop_.set_patience(std::chrono::milliseconds(0)));
    }
    NoPatience(const NoPatience&) = delete;
    NoPatience& operator=(const NoPatience&) = delete;
    ~NoPatience() { static_cast<void>(shop_.set_patience(afterwards_)); }

  private:
    ShopFile& shop_;
    std::chrono::milliseconds afterwards_;
};

} // namespace

bool is_waiting(const Error& error) {
    return may_pass(error) && error.expected == waits;
}

ShopSession::ShopSession(ShopFile shop, QString who, Clock clock, QObject* parent)
    : QObject(parent), shop_(std::move(shop)), who_(std::move(who)), clock_(std::move(clock)) {
    static_cast<void>(see_newest());
    connect(&look_, &QTimer::timeout, this, &ShopSession::look_for_changes);
    connect(&retry_, &QTimer::timeout, this, &ShopSession::try_waiting);
    look_.start(look_every_ms);
}

void ShopSession::keep_what_waits() {
    keeps_ = !shop_.look_only(); // what can never be written is refused at once
    static_cast<void>(shop_.set_patience(window_patience));
}

Result<Act> ShopSession::act(std::vector<Edit> edits, const QString& what) {
    return write(std::move(edits), what, false);
}

Result<Act> ShopSession::write(std::vector<Edit> edits, const QString& what, bool creates) {
    if (first_to_try() != nullptr) {
        try_waiting();
    }
    // Behind what was done before it, for it may build on that.
    if (const WaitingAct* first = first_to_try()) {
        return hold(std::move(edits), what, creates, first->trouble);
    }
    auto done = apply(shop_, edits, who_.toStdString(), now());
    if (done) {
        done_now(*done, what);
    } else if (keeps_ && may_pass(done.error())) {
        return hold(std::move(edits), what, creates, done.error());
    }
    return done;
}

Error ShopSession::hold(std::vector<Edit> edits, const QString& what, bool creates, Error trouble) {
    WaitingAct act{++last_key_, std::move(edits), what,    who_.toStdString(),
                   now(),       creates,          trouble, false};
    waiting_.push_back(std::move(act));
    waiting_changes();
    trouble.expected = waits;
    return trouble;
}

Result<std::int64_t> ShopSession::create(RecordKind kind,
                                         const std::function<std::vector<Edit>(std::int64_t)>& make,
                                         const QString& what) {
    for (int tried = 1;; ++tried) {
        const auto id = new_id(shop_, kind);
        if (!id) {
            if (keeps_ && may_pass(id.error())) {
                return hold(make(id_to_come), what, true, id.error());
            }
            return id.error();
        }
        const auto done = write(make(*id), what, true);
        if (done) {
            return *id;
        }
        if (!id_taken(done.error()) || tried == id_tries) {
            return done.error();
        }
    }
}

std::optional<QString> ShopSession::undo_text() const {
    return done_.empty() ? std::nullopt : std::optional(done_.back().what);
}

std::optional<QString> ShopSession::redo_text() const {
    return undone_.empty() ? std::nullopt : std::optional(undone_.back().what);
}

Result<Act> ShopSession::undo() {
    RODWAY_ASSERT(!done_.empty());
    // What waits was done last: taking back what lies before it would not be what is meant.
    if (const WaitingAct* first = first_to_try()) {
        return first->trouble;
    }
    const Entry entry = done_.back();
    auto taken_back = rodway::undo(shop_, entry.act, who_.toStdString(), now());
    if (taken_back) {
        done_.pop_back();
        undone_.push_back({taken_back->number, entry.what});
        committed(*taken_back);
    }
    return taken_back;
}

Result<Act> ShopSession::redo() {
    RODWAY_ASSERT(!undone_.empty());
    if (const WaitingAct* first = first_to_try()) {
        return first->trouble;
    }
    const Entry entry = undone_.back();
    auto done_again = rodway::undo(shop_, entry.act, who_.toStdString(), now());
    if (done_again) {
        undone_.pop_back();
        done_.push_back({done_again->number, entry.what});
        committed(*done_again);
    }
    return done_again;
}

void ShopSession::done_now(const Act& act, const QString& what) {
    done_.push_back({act.number, what});
    undone_.clear();
    committed(act);
}

void ShopSession::committed(const Act& act) {
    if (act.number > seen_) {
        seen_ = act.number;
        newest_ = act;
    }
    emit changed();
}

bool ShopSession::see_newest() {
    const auto newest = last_act(shop_);
    if (!newest || *newest <= seen_) {
        return false;
    }
    const auto act = load_act(shop_, *newest);
    if (!act) {
        return false;
    }
    seen_ = *newest;
    newest_ = *act;
    return true;
}

void ShopSession::look_for_changes() {
    const NoPatience at_once(shop_, keeps_ ? window_patience : ShopFile::default_patience);
    if (see_newest()) {
        emit changed();
    }
}

WaitingAct* ShopSession::first_to_try() {
    const auto found = std::find_if(waiting_.begin(), waiting_.end(),
                                    [](const WaitingAct& act) { return !act.refused; });
    return found == waiting_.end() ? nullptr : &*found;
}

std::vector<WaitingAct>::iterator ShopSession::find(std::int64_t key) {
    return std::find_if(waiting_.begin(), waiting_.end(),
                        [key](const WaitingAct& act) { return act.key == key; });
}

bool ShopSession::write_waiting(WaitingAct& act) {
    auto edits = act.creates ? under_free_ids(shop_, act.edits) : Result(act.edits);
    Result<std::vector<Act>> done =
        edits ? apply_all(shop_, {Act{0, act.who, act.when_utc, std::nullopt, *edits}})
              : Result<std::vector<Act>>(edits.error());
    if (done) {
        done_now(done->front(), act.what);
        return true;
    }
    act.trouble = done.error();
    // Another writer was quicker with the ids: the next try takes others.
    act.refused = !may_pass(act.trouble) && !(act.creates && id_taken(act.trouble));
    if (act.refused && act.trouble.code == ErrorCode::changed_since && !act.creates) {
        const auto left = over_what_is_stored(shop_, act.edits);
        return left && left->empty(); // somebody has typed the same meanwhile
    }
    return false;
}

void ShopSession::try_waiting() {
    if (first_to_try() == nullptr) {
        return;
    }
    {
        const NoPatience at_once(shop_, window_patience);
        while (WaitingAct* first = first_to_try()) {
            const std::int64_t key = first->key;
            if (write_waiting(*first)) {
                waiting_.erase(find(key));
            } else if (!first->refused) {
                break;
            }
        }
    }
    if (const WaitingAct* first = first_to_try();
        first != nullptr && first->trouble.code != ErrorCode::locked_file) {
        reopen();
    }
    waiting_changes();
}

/// A disk that went and came back has left the open file behind. The one that stands there now is
/// taken in its place if it is the same shop, with all that was done in it.
void ShopSession::reopen() {
    auto opened = ShopFile::open(shop_.path(), std::chrono::milliseconds(0));
    if (!opened) {
        return;
    }
    ShopFile again = std::move(opened).value();
    const auto there = seen_ > 0 ? load_act(again, seen_) : Result(Act{});
    const bool same =
        there && (!newest_ || (there->when_utc == newest_->when_utc && there->who == newest_->who &&
                               there->edits == newest_->edits));
    if (!same) {
        return;
    }
    shop_ = std::move(again);
    static_cast<void>(shop_.set_patience(window_patience));
}

Result<std::vector<Edit>> ShopSession::against_stored(std::int64_t key) {
    const auto act = find(key);
    RODWAY_ASSERT(act != waiting_.end());
    return over_what_is_stored(shop_, act->edits);
}

void ShopSession::overwrite(std::int64_t key) {
    const auto act = find(key);
    if (act == waiting_.end()) {
        return; // it went meanwhile
    }
    const auto edits = over_what_is_stored(shop_, act->edits);
    if (!edits) {
        act->trouble = edits.error();
        waiting_changes();
        return;
    }
    // If it is changed once more before this is written, that is asked about too.
    act->edits = *edits;
    act->refused = false;
    if (edits->empty()) {
        waiting_.erase(act);
        waiting_changes();
    } else {
        try_waiting();
    }
}

void ShopSession::drop(std::int64_t key) {
    const auto act = find(key);
    if (act != waiting_.end()) {
        waiting_.erase(act);
        waiting_changes();
    }
}

std::vector<WaitingAct> ShopSession::give_up() {
    std::vector<WaitingAct> all = std::move(waiting_);
    waiting_.clear();
    waiting_changes();
    return all;
}

void ShopSession::waiting_changes() {
    if (first_to_try() == nullptr) {
        retry_.stop();
    } else if (!retry_.isActive()) {
        retry_.start(retry_every_ms);
    }
    emit waiting_changed();
}

} // namespace rodway
