#pragma once

#include <QWidget>
#include <optional>
#include <string>

#include "app/build/build_shown.h"
#include "app/edit_stack/shop_session.h"

namespace rodway {

/// One part of the build's page. It shows what it is given, and every act of it goes through the
/// session; what went wrong comes out as a signal.
class BuildPanel : public QWidget {
    Q_OBJECT

  public:
    explicit BuildPanel(Clock clock, QWidget* parent = nullptr)
        : QWidget(parent), clock_(std::move(clock)) {}

    /// What is in hand from now on; without a session nothing is, and what was being typed goes.
    virtual void take(ShopSession* session, std::int64_t build_id) {
        session_ = session;
        build_id_ = build_id;
    }
    /// `shown` lives until the next call; `stage_id` is the stage chosen in the rail, 0: none.
    virtual void show_build(const BuildShown& shown, std::int64_t stage_id) = 0;

  signals:
    void failed(const QString& text);
    void said(const QString& text);

  protected:
    /// Says what went wrong, but of what waits to be saved, which has a bar of its own.
    void tell(const Error& error);
    template <typename Answer>
    bool told(const Result<Answer>& done) {
        if (!done) {
            tell(done.error());
        }
        return done.ok();
    }
    [[nodiscard]] bool has_build() const { return session_ != nullptr && build_id_ != 0; }

    Clock clock_;
    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
};

/// An answer of which only the success is of interest.
template <typename Answer>
[[nodiscard]] Result<Done> only_done(const Result<Answer>& answer) {
    return answer ? Result<Done>(Done{}) : Result<Done>(answer.error());
}

[[nodiscard]] QString utf16(const std::string& utf8);
[[nodiscard]] QString utf16(const std::optional<std::string>& utf8);
/// What was typed, or nothing where nothing was.
[[nodiscard]] std::optional<std::string> if_typed(const std::string& typed);

} // namespace rodway
