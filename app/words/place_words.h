#pragma once

#include <QString>
#include <QStringList>
#include <string>
#include <vector>

namespace rodway::words {

/// "1, 2 and 5"; "1 to 8" where three numbers or more follow each other. They are in order.
[[nodiscard]] QString number_runs(const std::vector<int>& numbers);

/// Many places in few words: "both valves of cylinders 1 to 8", "the intakes of cylinders 1, 3 and
/// 5; both valves of cylinder 7", "cylinders 1 to 6". Empty if there are few of them, or some are
/// neither valves nor cylinders: then each is told by itself.
[[nodiscard]] QString many_places(const std::vector<std::string>& positions);

/// "left bank, right bank" as one says it: "left bank and right bank".
[[nodiscard]] QString joined_by_and(const QStringList& all);

} // namespace rodway::words
