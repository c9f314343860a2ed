#include "app/words/place_words.h"

#include <QCoreApplication>
#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "core/engine/valve_position.h"

namespace rodway::words {
namespace {

struct Places {
    Q_DECLARE_TR_FUNCTIONS(Places)
};

/// Up to so many are read one by one at a glance.
constexpr std::size_t few = 4;
constexpr int least_run = 3;
constexpr std::size_t longest_number = 3;

/// Exactly as positions are kept: what is written another way may mean another thing.
std::optional<ValvePosition> valve_of(const std::string& text) {
    const auto position = parse_position(text);
    const bool plain = position && position->which == 1 && position_name(*position) == text;
    return plain ? std::optional(*position) : std::nullopt;
}

std::optional<int> cylinder_of(const std::string& text) {
    const bool digits = !text.empty() && text.size() <= longest_number && text.front() != '0' &&
                        text.find_first_not_of("0123456789") == std::string::npos;
    return digits ? std::optional(std::stoi(text)) : std::nullopt;
}

QString of_cylinders(const std::vector<int>& numbers, const QString& one, const QString& more) {
    return numbers.size() == 1 ? one.arg(numbers.front()) : more.arg(number_runs(numbers));
}

QString of_valves(const std::set<ValvePosition>& valves) {
    std::vector<int> both;
    std::vector<int> intakes;
    std::vector<int> exhausts;
    std::map<int, int> kinds; // by cylinder: 1 its intake, 2 its exhaust
    for (const ValvePosition& valve : valves) {
        kinds[valve.cylinder] |= valve.kind == ValveKind::intake ? 1 : 2;
    }
    for (const auto& [cylinder, there] : kinds) {
        (there == 3 ? both : there == 1 ? intakes : exhausts).push_back(cylinder);
    }
    QStringList phrases;
    if (!both.empty()) {
        phrases << of_cylinders(both, Places::tr("both valves of cylinder %1"),
                                Places::tr("both valves of cylinders %1"));
    }
    if (!intakes.empty()) {
        phrases << of_cylinders(intakes, Places::tr("the intake of cylinder %1"),
                                Places::tr("the intakes of cylinders %1"));
    }
    if (!exhausts.empty()) {
        phrases << of_cylinders(exhausts, Places::tr("the exhaust of cylinder %1"),
                                Places::tr("the exhausts of cylinders %1"));
    }
    return phrases.join(QStringLiteral("; "));
}

} // namespace

QString joined_by_and(const QStringList& all) {
    if (all.size() < 2) {
        return all.join(QString());
    }
    return Places::tr("%1 and %2")
        .arg(all.mid(0, all.size() - 1).join(QStringLiteral(", ")), all.back());
}

QString number_runs(const std::vector<int>& numbers) {
    QStringList all;
    for (std::size_t at = 0; at < numbers.size();) {
        std::size_t last = at;
        while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) {
            ++last;
        }
        if (static_cast<int>(last - at) + 1 >= least_run) {
            all << Places::tr("%1 to %2").arg(numbers[at]).arg(numbers[last]);
            at = last + 1;
        } else {
            all << QString::number(numbers[at]);
            ++at;
        }
    }
    return joined_by_and(all);
}

QString many_places(const std::vector<std::string>& positions) {
    std::set<ValvePosition> valves;
    std::set<int> cylinders;
    for (const std::string& position : positions) {
        if (const auto valve = valve_of(position)) {
            valves.insert(*valve);
        } else if (const auto cylinder = cylinder_of(position)) {
            cylinders.insert(*cylinder);
        } else {
            return {};
        }
    }
    if (positions.size() <= few || (!valves.empty() && !cylinders.empty())) {
        return {};
    }
    return valves.empty()
               ? Places::tr("cylinders %1").arg(number_runs({cylinders.begin(), cylinders.end()}))
               : of_valves(valves);
}

} // namespace rodway::words
