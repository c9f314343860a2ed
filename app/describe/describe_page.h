#pragma once

#include <vector>

#include "app/describe/describe_model.h"
#include "app/window/place_page.h"
#include "core/build/records.h"

class QLabel;
class QListWidget;
class QPushButton;
class QStackedWidget;

namespace rodway {

class DimensionPanel;
class DimensionPicture;
class OpenSizesPanel;
class OutlinePanel;

/// The engine of one build, described with ordinary tools: its layout or a known engine to begin
/// with, then its sizes in the order in which they are measured, each drawn; and what is still
/// assumed, by what it is worth. Everything is kept as it is typed.
class DescribePage : public PlacePage {
    Q_OBJECT

  public:
    explicit DescribePage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] DescribeModel& model() { return *model_; }
    /// Goes to the box of a field.
    void go_to_field(const std::string& path);

  signals:
    void valvetrain_wanted();
    void fit_wanted(); ///< of tubes, from gaps taken by hand
    void lift_table_wanted();

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    QWidget* make_steps();
    QWidget* make_picture();
    QWidget* make_foot();
    void show_step(int step);
    void show_lit(const QString& dimension, const QString& owner);
    void show_state();
    void show_counts();
    void go_on();
    [[nodiscard]] int step_of(const std::string& path) const;

    ShopSession* session_ = nullptr;
    Build build_;
    std::optional<SetUpRecord> set_up_;
    std::string go_to_; ///< where the foot's button leads
    DescribeModel* model_;
    QLabel* title_;
    QLabel* empty_;
    QWidget* work_;
    QListWidget* steps_;
    QStackedWidget* panels_;
    OutlinePanel* outline_;
    std::vector<DimensionPanel*> sizes_;
    OpenSizesPanel* open_;
    DimensionPicture* picture_;
    QWidget* side_; ///< drawing and words beside the boxes; the layout needs its room
    QLabel* how_;
    QLabel* lit_stand_;
    QLabel* state_;
    QPushButton* go_there_;
    QPushButton* valvetrain_;
    QPushButton* fit_;
};

} // namespace rodway
