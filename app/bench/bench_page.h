#pragma once

#include <QTableWidget>
#include <cstdint>

#include "app/edit_stack/shop_session.h"
#include "app/window/place_page.h"

class QLabel;
class QStackedWidget;

namespace rodway {

/// The Bench: every build as one row, with a rail of its stages, what to do next, and the promised
/// date. Enter or a double click opens the build.
class BenchPage : public PlacePage {
    Q_OBJECT

  public:
    explicit BenchPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    /// The build of the selected row, 0 for none.
    [[nodiscard]] qint64 selected_build() const;
    [[nodiscard]] QTableWidget* table() const { return table_; }

  signals:
    void build_opened(qint64 id);
    void new_build_wanted();

  private:
    ShopSession* session_ = nullptr;
    QStackedWidget* stack_;
    QTableWidget* table_;
};

} // namespace rodway
