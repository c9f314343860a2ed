#pragma once

#include <QString>
#include <optional>
#include <utility>
#include <vector>

#include "core/clearance/survey.h"
#include "core/valvetrain/train_motion.h"

namespace rodway {

/// A figure by its name, as a person reads it; empty where there is none.
using Figure = std::pair<QString, QString>;

/// A part of one valve's figures under its heading.
struct FigureGroup {
    QString heading;
    std::vector<Figure> figures;
};

/// ± of a clearance found at some place of a train's turn, mm: the doubt of the engine there, or
/// what the set-up assumes; nothing if it says neither.
[[nodiscard]] std::optional<double> doubt_there_mm(const Engine& engine, const Train& train,
                                                   const TrainSurroundings& surroundings,
                                                   const RodClearance& found);

/// All figures of one valve, the same groups and figures for every valve that has an answer.
[[nodiscard]] std::vector<FigureGroup> train_figures(const Engine& engine,
                                                     const ValveClearance& line);

} // namespace rodway
