#include "app/valvetrain/valvetrain_model.h"

#include "app/work/build_in_hand.h"
#include "core/engine/set_up.h"

namespace rodway {

struct ValvetrainModel::Answer {
    std::optional<Error> trouble;
    std::shared_ptr<const Engine> base;
    std::shared_ptr<const Engine> engine;
    std::vector<ValveClearance> lines;
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
    scene_.reset();
    trouble_.reset();
    selected_.reset();
    variant_ = {};
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
    request_.ask<Answer>(
        [fields, variant, known_base](std::stop_token stop) {
            Answer answer;
            answer.base = known_base;
            if (!answer.base) {
                const auto made = make_engine(fields);
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
            if (!stop.stop_requested()) {
                answer.scene = Scene::build(*answer.engine);
            }
            return answer;
        },
        [this](Answer answer) {
            trouble_ = answer.trouble;
            base_ = answer.base;
            if (!trouble_) {
                engine_ = answer.engine;
                lines_ = std::move(answer.lines);
                scene_ = answer.scene;
                if (!selected_line()) {
                    const ValveClearance* least = tightest(lines_);
                    selected_ = least ? std::optional(least->position) : std::nullopt;
                }
            }
            emit answered();
        });
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

const ValveClearance* ValvetrainModel::selected_line() const {
    for (const ValveClearance& line : lines_) {
        if (selected_ == line.position) {
            return &line;
        }
    }
    return nullptr;
}

} // namespace rodway
