#pragma once

#include <optional>

#include "app/edit_stack/shop_session.h"
#include "app/window/place_page.h"
#include "db/stage_store.h"

class QLabel;
class QListWidget;
class QVBoxLayout;

namespace rodway {

/// One build: its stage rail, the stage in hand with its steps to tick, and its photos. A photo is
/// dropped onto the page, or chosen.
class BuildPage : public PlacePage {
    Q_OBJECT

  public:
    explicit BuildPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    /// Copies picture files into the shop and puts them on the stage in hand.
    void add_photos(const QStringList& files);

  signals:
    void valvetrain_wanted();

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    void show_stage(int row);
    void show_photos();
    void tick(const Step& step, bool ticked);

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::vector<StageWithSteps> stages_;
    QLabel* title_;
    QLabel* details_;
    QListWidget* rail_;
    QLabel* stage_title_;
    QLabel* caution_;
    QVBoxLayout* steps_;
    QListWidget* photos_;
};

} // namespace rodway
