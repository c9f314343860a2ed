#pragma once

#include <QWidget>

#include "app/build/build_shown.h"
#include "app/work/note_acts.h"

class QComboBox;
class QLineEdit;

namespace rodway {

/// Of what notes and photos are shown, and to what new ones belong: the whole build, the stage
/// chosen in the rail, or one of its steps; and the position on the engine that new ones get.
class PlaceChooser : public QWidget {
    Q_OBJECT

  public:
    explicit PlaceChooser(QWidget* parent = nullptr);

    void show_build(const BuildShown& shown, std::int64_t stage_id);
    void choose_step(std::int64_t step_id);
    void choose_build();
    void clear();
    /// Where something new belongs.
    [[nodiscard]] KeptAt at(std::int64_t build_id) const;
    /// Whether what belongs there is shown.
    [[nodiscard]] bool covers(const std::optional<std::int64_t>& stage_id,
                              const std::optional<std::int64_t>& step_id) const;

  signals:
    void chosen();

  private:
    const BuildShown* shown_ = nullptr;
    std::int64_t stage_id_ = 0;
    QComboBox* where_;
    QLineEdit* position_;
};

/// Where a note or photo belongs, in words: "Stage › Step, 3I"; empty: to the build as a whole.
[[nodiscard]] QString belongs_text(const BuildShown& shown,
                                   const std::optional<std::int64_t>& stage_id,
                                   const std::optional<std::int64_t>& step_id,
                                   const std::optional<std::string>& position);

} // namespace rodway
