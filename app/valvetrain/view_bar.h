#pragma once

#include <QWidget>
#include <functional>

#include "app/valvetrain/picture_files.h"
#include "render/look.h"
#include "render/scene.h"

class QAction;
class QComboBox;
class QLabel;
class QMenu;
class QSlider;

namespace rodway {

class SceneView;

/// What of the valvetrain the 3D view draws and from where, and its way into files. Everything is
/// of the model's selected valve at its crank angle.
class ViewBar : public QWidget {
    Q_OBJECT

  public:
    ViewBar(ValvetrainModel* model, SceneView* view, QWidget* parent = nullptr);

    /// What was found by hand, for the plan and the table.
    void set_by_hand(const ByHand& by_hand) { by_hand_ = by_hand; }
    /// The valves whose curves are on screen; left unset: the selected valve's.
    void set_curve_valves(std::function<std::vector<ValvePosition>()> valves);
    /// The view down the tube as it is on screen; left unset: the port tube of the selected valve.
    void set_tube_choice(std::function<TubeChoice()> choice);

    /// Writes a file without asking; says what came of it.
    void save(ViewFile file, const QString& path);
    /// Asks where to, then writes it.
    void ask_file(ViewFile file);

  signals:
    void failed(const QString& text);
    void said(const QString& text);

  private:
    QMenu* make_look_menu();
    QMenu* make_show_menu();
    QMenu* make_save_menu();
    QWidget* make_section_row();
    QAction* add_shown(QMenu* menu, const QString& text, bool on);
    void show_options();
    void show_closest();
    void move_section(double by_mm);
    [[nodiscard]] QString described(const Picked& picked) const;
    [[nodiscard]] ViewSource source() const;

    ValvetrainModel* model_;
    SceneView* view_;
    QComboBox* others_;
    QComboBox* cut_;
    QWidget* section_row_;
    QSlider* section_;
    QLabel* section_text_;
    QAction* sweep_;
    QAction* verdicts_;
    QAction* glass_rockers_;
    QAction* pistons_;
    QAction* castings_;
    QAction* lens_;
    ByHand by_hand_;
    std::function<std::vector<ValvePosition>()> curve_valves_;
    std::function<TubeChoice()> tube_choice_;
};

} // namespace rodway
