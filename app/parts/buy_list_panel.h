#pragma once

#include <QWidget>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/parts/buy_list.h"
#include "app/work/part_acts.h"

class QLabel;
class QPushButton;
class QStackedWidget;
class QTableWidget;

namespace rodway {

class TypedForm;

/// What all builds in hand wait for, by supplier: what is late, and what each arrival sets free.
/// Several rows can be marked at once, as when a parcel is unpacked.
class BuyListPanel : public QWidget {
    Q_OBJECT

  public:
    explicit BuyListPanel(QWidget* parent = nullptr);

    void take(ShopSession* session);
    /// Reads the list anew, if it is seen.
    void refresh();
    [[nodiscard]] QTableWidget& table() { return *table_; }
    [[nodiscard]] TypedForm& marks() { return *marks_; }
    void mark(PartMark mark);

  signals:
    void failed(const QString& text);
    void said(const QString& text);
    void print_wanted();

  protected:
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void show_rows();
    void show_sums();
    [[nodiscard]] std::vector<PartRecord> selected() const;

    ShopSession* session_ = nullptr;
    std::string today_;
    std::vector<BuyLine> lines_;

    QStackedWidget* stack_;
    QTableWidget* table_;
    QLabel* sums_;
    TypedForm* marks_;
    std::vector<QPushButton*> need_row_;
};

} // namespace rodway
