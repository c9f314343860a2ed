#pragma once

#include <QWidget>

#include "app/describe/describe_model.h"
#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

class QLabel;
class QPushButton;
class QTableWidget;

namespace rodway {

/// What is left open by the sizes of a described engine: every size with how it stands and what not
/// knowing it better is worth in clearance, the one worth most first; and each valve's least
/// clearance with what all of them leave open together.
class OpenSizesPanel : public QWidget {
    Q_OBJECT

  public:
    explicit OpenSizesPanel(const DescribeModel* model, QWidget* parent = nullptr);
    void take(ShopSession* session, const std::optional<SetUpRecord>& set_up);
    void refresh();
    void go_to_first();

  signals:
    /// A size is to be measured: go to its box.
    void size_wanted(const QString& path);
    void lit(const QString& dimension, const QString& owner);
    void failed(const QString& text);
    void said(const QString& text);

  private:
    void show_sizes(const DescriptionWorth& worth);
    void show_valves(const DescriptionWorth& worth);
    void take_doubt();
    [[nodiscard]] std::optional<double> largest_doubt_mm() const;

    const DescribeModel* model_;
    ShopSession* session_ = nullptr;
    std::optional<SetUpRecord> set_up_;
    QLabel* about_;
    QTableWidget* sizes_;
    QTableWidget* valves_;
    QLabel* doubt_;
    QPushButton* take_doubt_;
};

} // namespace rodway
