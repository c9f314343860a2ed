#pragma once

#include <QString>

#include "app/words/train_words.h"
#include "core/clearance/survey.h"

namespace rodway::words {

[[nodiscard]] QString verdict(Verdict verdict);
/// Why there is no ± of anything, and how one is stated.
[[nodiscard]] QString no_doubt(const Engine& engine);
/// Why, in one sentence, with the limit and where it comes from.
[[nodiscard]] QString verdict_reason(const ValveClearance& line, const Engine& engine);
[[nodiscard]] QString wall(Wall wall, const Engine& engine);
[[nodiscard]] QString end(BoreEnd end);
/// What a rod or a lifter's body is held against: "rod in its port tube", "lifter's body beside
/// bolt 7".
[[nodiscard]] QString feature(const CertifiedMinimum& found);
/// "inboard wall, lifter end, 3 o'clock".
[[nodiscard]] QString place(const RodClearance& clearance, const Engine& engine);
/// Nearest half hour of the clock: "3 o'clock", "10:30".
[[nodiscard]] QString clock(double hours);
/// Why a train has no answer, and what to do about it.
[[nodiscard]] QString status(const ValveClearance& line);
/// "at full lift", "on the heel", "112° and 208°".
[[nodiscard]] QString when(const ValveClearance& line);
/// "± 0.003 in, worked out", "± 0.003 in, assumed", or that nobody stated it.
[[nodiscard]] QString doubt(const ValveClearance& line);
/// The same of all valves together, in a sentence's end: "± 0.003 to 0.006 in, worked out".
[[nodiscard]] QString doubts(const std::vector<ValveClearance>& lines);
[[nodiscard]] QString valve(const ValvePosition& position);
[[nodiscard]] QString turning(Turning turning);

// The words of `--json` and of the shop file: never translated.
[[nodiscard]] QString token(Verdict verdict);
[[nodiscard]] QString token(Wall wall);
[[nodiscard]] QString token(BoreEnd end);
[[nodiscard]] QString token(FeatureKind kind);
[[nodiscard]] QString token(MovedPart part);
/// "port_tube", or the name that the set-up gives it.
[[nodiscard]] QString feature_token(const CertifiedMinimum& found);

} // namespace rodway::words
