#include "app/edit_stack/shop_session.h"

#include "app/work/clock.h"

namespace rodway {
namespace {

constexpr int look_every_ms = 1000;
constexpr int id_tries = 20;

} // namespace

ShopSession::ShopSession(ShopFile shop, QString who, QObject* parent)
    : QObject(parent), shop_(std::move(shop)), who_(std::move(who)) {
    if (const auto newest = last_act(shop_)) {
        seen_ = *newest;
    }
    connect(&look_, &QTimer::timeout, this, &ShopSession::look_for_changes);
    look_.start(look_every_ms);
}

Result<Act> ShopSession::act(std::vector<Edit> edits, const QString& what) {
    auto done = apply(shop_, std::move(edits), who_.toStdString(), now_utc());
    if (done) {
        done_.push_back({done->number, what});
        undone_.clear();
        committed(*done);
    }
    return done;
}

Result<std::int64_t> ShopSession::create(RecordKind kind,
                                         const std::function<std::vector<Edit>(std::int64_t)>& make,
                                         const QString& what) {
    for (int tried = 1;; ++tried) {
        const auto id = new_id(shop_, kind);
        if (!id) {
            return id.error();
        }
        const auto done = act(make(*id), what);
        if (done) {
            return *id;
        }
        const bool taken =
            done.error().code == ErrorCode::changed_since && done.error().field == "exists";
        if (!taken || tried == id_tries) {
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
    const Entry entry = done_.back();
    auto taken_back = rodway::undo(shop_, entry.act, who_.toStdString(), now_utc());
    if (taken_back) {
        done_.pop_back();
        undone_.push_back({taken_back->number, entry.what});
        committed(*taken_back);
    }
    return taken_back;
}

Result<Act> ShopSession::redo() {
    RODWAY_ASSERT(!undone_.empty());
    const Entry entry = undone_.back();
    auto done_again = rodway::undo(shop_, entry.act, who_.toStdString(), now_utc());
    if (done_again) {
        undone_.pop_back();
        done_.push_back({done_again->number, entry.what});
        committed(*done_again);
    }
    return done_again;
}

void ShopSession::committed(const Act& act) {
    seen_ = std::max(seen_, act.number);
    emit changed();
}

void ShopSession::look_for_changes() {
    const auto newest = last_act(shop_);
    if (newest && *newest > seen_) {
        seen_ = *newest;
        emit changed();
    }
}

} // namespace rodway
