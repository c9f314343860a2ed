#include "app/valvetrain/valvetrain_model.h"

#include "app/work/build_in_hand.h"
#include "core/engine/set_up.h"

namespace rodway {

struct ValvetrainModel::Answer {
    std::optional<Error> trouble;
    std::shared_ptr<const Engine> base;
    std::shared_ptr<const Engine> engine;
    std::vector<ValveClearance> lines;
    std::vector<ValveClearance> base_lines;
    std::shared_ptr<const Scene> scene;
};

ValvetrainModel::ValvetrainModel(QObject* parent) : QObject(parent) {}

void ValvetrainModel::set_fields(const SetUpFields& fields) {
    if (fields_ == fields) {
        return;
    }
    fields_ = fields;
    base_.reset();
    work_out();
}

void ValvetrainModel::clear() {
    fields_.reset();
    base_.reset();
    engine_.reset();
    lines_.clear();
    base_lines_.clear();
    scene_.reset();
    trouble_.reset();
    selected_.reset();
    variant_ = {};
    shown_ = {};
    emit answered();
}

void ValvetrainModel::set_variant(const Variant& variant) {
    variant_ = variant;
    if (fields_) {
        work_out();
    }
}

void ValvetrainModel::work_out() {
    const SetUpFields fields = *fields_;
    const Variant variant = variant_;
    const auto known_base = base_;
    const std::vector<ValveClearance> known_lines =
        known_base ? base_lines_ : std::vector<ValveClearance>();
    request_.ask<Answer>(
        [fields, variant, known_base, known_lines, lobes = lobes_made_](std::stop_token stop) {
            Answer answer;
            answer.base = known_base;
            if (!answer.base) {
                const auto made = make_engine(fields, *lobes);
                if (!made) {
                    answer.trouble = made.error();
                    return answer;
                }
                answer.base = std::make_shared<const Engine>(*made);
            }
            const auto tried = with_variant(*answer.base, variant);
            if (!tried) {
                answer.trouble = tried.error();
                return answer;
            }
            answer.engine = std::make_shared<const Engine>(*tried);
            const auto lines = survey(*answer.engine, stop);
            if (!lines) {
                answer.trouble = lines.error();
                return answer;
            }
            answer.lines = *lines;
            answer.base_lines = known_lines;
            if (variant.changes_nothing()) {
                answer.base_lines = answer.lines;
            } else if (known_lines.empty()) {
                const auto stands = survey(*answer.base, stop);
                if (!stands) {
                    answer.trouble = stands.error();
                    return answer;
                }
                answer.base_lines = *stands;
            }
            if (!stop.stop_requested()) {
                answer.scene = Scene::build(*answer.engine);
            }
            return answer;
        },
        [this, variant](Answer answer) {
            trouble_ = answer.trouble;
            base_ = answer.base;
            if (!trouble_) {
                shown_ = variant;
                engine_ = answer.engine;
                lines_ = std::move(answer.lines);
                base_lines_ = std::move(answer.base_lines);
                scene_ = answer.scene;
                if (!selected_line()) {
                    const ValveClearance* least = tightest(lines_);
                    selected_ = least ? std::optional(least->position) : std::nullopt;
                }
            }
            emit answered();
        });
    emit began();
}

void ValvetrainModel::stop() {
    request_.stop();
    variant_ = shown_; // what is shown is what there is
    emit stopped();
}

void ValvetrainModel::select(const ValvePosition& valve) {
    if (selected_ != valve) {
        selected_ = valve;
        emit selection_changed();
    }
}

void ValvetrainModel::set_crank(CrankAngle crank) {
    crank_ = crank.in_cycle();
    emit crank_changed();
}

namespace {

const ValveClearance* line_in(const std::vector<ValveClearance>& lines,
                              const std::optional<ValvePosition>& valve) {
    for (const ValveClearance& line : lines) {
        if (valve == line.position) {
            return &line;
        }
    }
    return nullptr;
}

} // namespace

const ValveClearance* ValvetrainModel::selected_line() const {
    return line_in(lines_, selected_);
}

const ValveClearance* ValvetrainModel::selected_as_it_stands() const {
    return line_in(base_lines_, selected_);
}

const ValveClearance* ValvetrainModel::line_of(const ValvePosition& valve) const {
    return line_in(lines_, valve);
}

} // namespace rodway
