#pragma once

#include <QWidget>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/work/newest_request.h"
#include "db/backups.h"

class QLabel;
class QListWidget;
class QPushButton;
class QTableWidget;

namespace rodway {

/// A backup of the shop in hand and at which place it lies.
struct BackupLine {
    Backup backup;
    bool second_place = false;
};

/// The shop's backups with their ages, newest first, and what is done with them and with the shop
/// file as a whole: back up, restore, check, rescue. Reading and checking go on beside the window.
class BackupPanel : public QWidget {
    Q_OBJECT

  public:
    explicit BackupPanel(QWidget* parent = nullptr);

    void take(ShopSession* session);
    /// Looks at the folders of backups again.
    void refresh();
    void check_file();
    [[nodiscard]] bool busy() const { return listing_->busy() || checking_->busy(); }

  signals:
    void failed(const QString& text);
    void said(const QString& text);
    void back_up_wanted();
    void second_folder_wanted();
    void restore_wanted(const QString& backup);
    void rescue_wanted();

  private:
    struct Listed {
        std::vector<BackupLine> lines;
        std::vector<Error> failures;
    };
    static Listed list(const std::string& shop, const std::string& second);
    void show_lines(const Listed& listed);
    void forget_second();
    void ask_restore();
    void show_second();

    ShopSession* session_ = nullptr;
    std::vector<BackupLine> lines_;
    std::unique_ptr<NewestRequest> listing_;
    std::unique_ptr<NewestRequest> checking_;
    QLabel* second_;
    QPushButton* forget_;
    QTableWidget* table_;
    QLabel* empty_;
    QPushButton* restore_;
    QPushButton* check_;
    QListWidget* outcome_;
};

} // namespace rodway
