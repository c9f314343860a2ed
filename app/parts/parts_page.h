#pragma once

#include "app/window/place_page.h"

class QLabel;
class QStackedWidget;
class QTabBar;

namespace rodway {

class BuildParts;
class BuyListPanel;

/// What the build in hand needs, has on order, has received and measured; and, across all builds,
/// what is to come by supplier and what waits for it.
class PartsPage : public PlacePage {
    Q_OBJECT

  public:
    explicit PartsPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] BuildParts& of_build() { return *of_build_; }
    [[nodiscard]] BuyListPanel& buy_list() { return *buy_list_; }
    void show_buy_list(bool shown);

  signals:
    void buy_list_wanted_on_paper();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    QLabel* title_;
    QTabBar* tabs_;
    QStackedWidget* views_;
    QStackedWidget* build_view_;
    BuildParts* of_build_;
    BuyListPanel* buy_list_;
    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
};

} // namespace rodway
