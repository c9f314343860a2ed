#pragma once

#include <QTimer>
#include <memory>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/find/finding.h"
#include "app/window/place_page.h"
#include "app/work/newest_request.h"

class QLabel;
class QLineEdit;
class QTableWidget;

namespace rodway {

/// One box that reaches everything in the shop: builds, customers, parts, notes, readings, open
/// items. What is found comes as it is typed, from a thread of its own, so that typing never waits;
/// Enter opens the one selected at its place.
class FindPage : public PlacePage {
    Q_OBJECT

  public:
    explicit FindPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    /// The box takes the keys, what stands in it selected.
    void begin();
    /// An answer is on its way.
    [[nodiscard]] bool busy() const { return wait_.isActive() || (finding_ && finding_->busy()); }
    [[nodiscard]] const std::vector<FoundLine>& lines() const { return lines_; }

  signals:
    void record_wanted(const rodway::RecordRef& record, qint64 build_id);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void ask();
    void show_answer(const FindAnswer& answer);
    void open_row(int row);

    ShopSession* session_ = nullptr;
    std::unique_ptr<NewestRequest> finding_;
    QTimer wait_;
    std::vector<FoundLine> lines_;
    bool open_first_ = false; ///< Enter came before the answer
    QLineEdit* box_;
    QLabel* state_;
    QTableWidget* table_;
};

} // namespace rodway
