#pragma once

#include <QObject>
#include <QString>
#include <memory>
#include <optional>
#include <vector>

#include "app/work/newest_request.h"
#include "core/build/records.h"
#include "core/clearance/survey.h"
#include "core/clearance/variant.h"
#include "core/engine/lobes_made.h"
#include "render/scene.h"

namespace rodway {

/// What the valvetrain's views show together: one engine with what is being tried on it, its
/// survey, one selected valve and one crank angle. Working things out never holds up the window.
class ValvetrainModel : public QObject {
    Q_OBJECT

  public:
    explicit ValvetrainModel(QObject* parent = nullptr);

    void set_fields(const SetUpFields& fields);
    void clear();
    void set_variant(const Variant& variant);
    void select(const ValvePosition& valve);
    void set_crank(CrankAngle crank);

    /// Empty until the first answer, and where the set-up makes no engine (see `trouble`).
    [[nodiscard]] const std::shared_ptr<const Engine>& engine() const { return engine_; }
    /// The engine without what is being tried.
    [[nodiscard]] const std::shared_ptr<const Engine>& as_it_stands() const { return base_; }
    [[nodiscard]] const std::vector<ValveClearance>& lines() const { return lines_; }
    [[nodiscard]] const std::shared_ptr<const Scene>& scene() const { return scene_; }
    [[nodiscard]] const std::optional<ValvePosition>& selected() const { return selected_; }
    [[nodiscard]] const ValveClearance* selected_line() const;
    [[nodiscard]] CrankAngle crank() const { return crank_; }
    [[nodiscard]] const Variant& variant() const { return variant_; }
    [[nodiscard]] const std::optional<Error>& trouble() const { return trouble_; }
    /// The valves of the engine as it stands; the same as `lines` while nothing is tried.
    [[nodiscard]] const std::vector<ValveClearance>& lines_as_it_stands() const {
        return base_lines_;
    }
    [[nodiscard]] const ValveClearance* selected_as_it_stands() const;
    /// Of a valve; null if it has no line.
    [[nodiscard]] const ValveClearance* line_of(const ValvePosition& valve) const;
    [[nodiscard]] const std::optional<SetUpFields>& fields() const { return fields_; }
    [[nodiscard]] bool busy() const { return request_.busy(); }
    /// Lets go of what is being worked out; what was shown stays.
    void stop();

  signals:
    void answered(); ///< engine, lines and scene are new, or there is trouble
    void selection_changed();
    void crank_changed();
    void began(); ///< something is being worked out; `answered` or `stopped` ends it
    void stopped();

  private:
    struct Answer;
    void work_out();

    std::optional<SetUpFields> fields_;
    Variant variant_;
    Variant shown_; ///< what `engine_` is made with
    std::shared_ptr<const Engine> base_;
    std::shared_ptr<const Engine> engine_;
    std::vector<ValveClearance> lines_;
    std::vector<ValveClearance> base_lines_;
    std::shared_ptr<const Scene> scene_;
    std::optional<Error> trouble_;
    std::optional<ValvePosition> selected_;
    CrankAngle crank_;
    std::shared_ptr<LobesMade> lobes_made_ = std::make_shared<LobesMade>();
    NewestRequest request_;
};

} // namespace rodway
