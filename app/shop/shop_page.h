#pragma once

#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/shop/record_panel.h"
#include "app/window/place_page.h"

class QListWidget;
class QStackedWidget;

namespace rodway {

class BackupPanel;

/// The shop itself: people, customers, instruments, products, own limits, what its papers say of
/// it, and its backups.
class ShopPage : public PlacePage {
    Q_OBJECT

  public:
    explicit ShopPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] bool shows(RecordKind kind) const override;
    void go_to_record(const RecordRef& record) override;

    void go_to_panel(RecordKind kind);
    void go_to_backups();
    /// Null if the shop has no panel for them.
    [[nodiscard]] RecordPanel* panel(RecordKind kind) const;
    [[nodiscard]] BackupPanel& backups() { return *backups_; }

  signals:
    void back_up_wanted();
    void second_folder_wanted();
    void restore_wanted(const QString& backup);
    void rescue_wanted();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    void add_panel(const QString& title, RecordPanel* panel);
    void erase_customer();
    void choose_builds();
    void choose_logo();
    void show_section(int row);

    ShopSession* session_ = nullptr;
    QListWidget* sections_;
    QStackedWidget* stack_;
    std::vector<RecordPanel*> panels_;
    BackupPanel* backups_;
};

} // namespace rodway
