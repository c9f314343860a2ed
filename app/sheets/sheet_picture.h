#pragma once

#include <QStackedWidget>
#include <optional>
#include <string>
#include <vector>

#include "app/sheets/joint_drawings.h"
#include "app/sheets/sheet_plan.h"
#include "app/work/build_sheets.h"

namespace rodway {

class CylinderPlanView;
class JointView;

/// Where on the engine the box in hand is: the cylinder plan for what is read at valves and
/// cylinders, the joint's drawing for bolts. Hidden for anything else, and without an engine.
class SheetPicture : public QStackedWidget {
    Q_OBJECT

  public:
    explicit SheetPicture(QWidget* parent = nullptr);

    /// The sheet as it stands; then `show_box`.
    void set_sheet(const BuildSheets& sheets, const AssessedSheet& sheet);
    /// `line`: of the sheet; null: none is in hand.
    void show_box(const SheetLine* line, const std::string& position);
    /// Of the sheet's bolts; none on other sheets.
    [[nodiscard]] const std::vector<KnownJoint>& joints() const { return joints_; }

  signals:
    /// A spot was walked to or clicked; with `type`, what is typed next belongs there.
    void position_chosen(const std::string& position, bool type);

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void show_plan(const SheetLine& line, const std::string& position);
    void show_joint(const SheetLine& line, const std::string& position);
    void choose_spot(const ValvePosition& spot, bool type);
    void choose_bolt(int bolt);

    const Engine* engine_ = nullptr;
    bool of_bolts_ = false;
    std::vector<KnownJoint> joints_;
    std::size_t joint_ = 0;
    Place place_ = Place::engine;
    std::optional<SheetPlan> shown_;
    CylinderPlanView* plan_;
    JointView* joint_view_;
};

} // namespace rodway
