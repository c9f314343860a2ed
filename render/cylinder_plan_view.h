#pragma once

#include <QWidget>
#include <functional>

#include "render/cylinder_plan.h"

namespace rodway {

/// The cylinder plan as a widget. Click or Enter chooses a valve; Tab and Shift+Tab walk the valves
/// in the order given and leave the widget at either end; arrows go to the next valve that way.
class CylinderPlanView : public QWidget {
    Q_OBJECT

  public:
    explicit CylinderPlanView(QWidget* parent = nullptr);

    /// Keeps the valve that has the focus if the new content has it too.
    void set_content(PlanContent content);
    /// The order in which Tab walks; valves the plan doesn't have are skipped. Default: the
    /// content's.
    void set_walk(std::vector<ValvePosition> order);
    /// Selects without a signal; a valve the plan doesn't have selects nothing.
    void set_selected(std::optional<ValvePosition> valve);
    void set_theme(Theme theme);
    /// Makes the sentence a screen reader says for a valve, and its tool tip.
    void set_description(std::function<QString(const PlanValve&)> describe);

    [[nodiscard]] const PlanContent& content() const { return content_; }
    [[nodiscard]] std::optional<ValvePosition> selected() const { return content_.selected; }
    [[nodiscard]] std::optional<ValvePosition> valve_at(const QPointF& point) const;
    /// Centre of a valve's sign in the widget; nothing for a valve the plan doesn't have.
    [[nodiscard]] std::optional<QPointF> centre_of(const ValvePosition& valve) const;
    [[nodiscard]] QSize sizeHint() const override { return {640, 360}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {420, 300}; }

  signals:
    void valve_selected(
        const rodway::ValvePosition& valve);               ///< by walking; a click chooses as well
    void valve_chosen(const rodway::ValvePosition& valve); ///< click or Enter

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    bool focusNextPrevChild(bool next) override;

  private:
    void select(const ValvePosition& valve);
    bool walk(int by);
    void go(const QPointF& direction);
    void say_selected();
    [[nodiscard]] QRectF place() const;
    [[nodiscard]] const PlanValve* find(const ValvePosition& valve) const;

    PlanContent content_;
    std::vector<ValvePosition> walk_;
    Palette palette_;
    std::function<QString(const PlanValve&)> describe_;
};

} // namespace rodway
