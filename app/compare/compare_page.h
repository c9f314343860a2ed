#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "app/compare/build_comparison.h"
#include "app/edit_stack/shop_session.h"
#include "app/window/place_page.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;

namespace rodway {

/// Two builds side by side: what was read at each position, the set-up, the parts, with a sign and
/// words for how they differ. What did we do last time?
class ComparePage : public PlacePage {
    Q_OBJECT

  public:
    explicit ComparePage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    /// The build that the one in hand is put beside.
    void compare_with(std::int64_t build_id);
    void write_csv(const QString& file);

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    void fill_builds();
    void compare();
    void fill_table();
    void ask_csv();

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    std::int64_t other_id_ = 0;
    std::optional<BuildComparison> comparison_;
    QLabel* first_;
    QComboBox* second_;
    QCheckBox* only_different_;
    QLineEdit* filter_;
    QPushButton* csv_;
    QLabel* state_;
    QTableWidget* table_;
};

} // namespace rodway
