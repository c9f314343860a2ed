#pragma once

#include <QWidget>
#include <cstdint>

#include "core/build/edit.h"

namespace rodway {

class ShopSession;

/// One place of the window: Bench, Sheets, Parts, ... Its words about what went well or wrong come
/// out as signals, so that the window shows them in one spot.
class PlacePage : public QWidget {
    Q_OBJECT

  public:
    using QWidget::QWidget;

    /// What is in hand from now on. Without a session there is nothing, and the page lets go of
    /// what it had: pages outlive the session. Places of the shop as a whole don't look at the
    /// build.
    virtual void take(ShopSession* session, std::int64_t build_id) = 0;
    /// Takes in what changed in the shop file.
    virtual void refresh() = 0;
    /// Whether records of this kind have their place here.
    [[nodiscard]] virtual bool shows(RecordKind) const { return false; }
    /// Goes to a record of a kind that has its place here; the page stands in front already. A
    /// record that is gone by now changes nothing.
    virtual void go_to_record(const RecordRef&) {}

  signals:
    void failed(const QString& text);
    void said(const QString& text);
};

} // namespace rodway
