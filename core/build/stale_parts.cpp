#include "core/build/stale_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "core/units/plain_text.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr std::int64_t now = std::numeric_limits<std::int64_t>::max();

using Text = std::optional<std::string>;

struct SizeField {
    const char* name;
    Text PartRecord::*text;
};
constexpr std::array<SizeField, 3> size_fields{SizeField{"length", &PartRecord::length},
                                               SizeField{"size", &PartRecord::size},
                                               SizeField{"thread", &PartRecord::thread}};

/// A thousandth of a micron and less is how a size was typed, not another size.
constexpr double same_within_mm = 1e-6;

bool same_size(const std::string& one, const std::string& other) {
    if (plain_text(one) == plain_text(other)) {
        return true;
    }
    const auto a = parse_length(one, BareNumber::inches);
    const auto b = parse_length(other, BareNumber::inches);
    return a && b && std::abs((a->low - b->low).in_mm()) < same_within_mm &&
           std::abs((a->high - b->high).in_mm()) < same_within_mm;
}

bool same_text(const char* field, const Text& one, const Text& other) {
    const bool is_size =
        std::any_of(size_fields.begin(), size_fields.end(),
                    [&](const SizeField& size) { return std::string_view(size.name) == field; });
    return is_size && one && other ? same_size(*one, *other) : one == other;
}

bool has_no_day(const PartRecord& part) {
    return !part.needed && !part.ordered && !part.promised && !part.received && !part.measured &&
           !part.fitted;
}

Text field_of(const std::optional<PartRecord>& part, std::string_view field) {
    if (!part) {
        return std::nullopt;
    }
    for (const SizeField& size : size_fields) {
        if (field == size.name) {
            return (*part).*size.text;
        }
    }
    if (field == "fitted") {
        return part->fitted;
    }
    if (field == "returned") {
        return part->returned;
    }
    return field == "role" ? part->role : Text("1");
}

/// What was written down first, at the end of an act or after it, counts as having been so.
Text first_known(const Timeline<PartRecord>& line, const SizeField& size, std::int64_t act) {
    if (const auto& part = line.at(act); part && (*part).*size.text) {
        return (*part).*size.text;
    }
    for (const auto& moment : line.moments()) {
        if (moment.by->act > act && moment.value && (*moment.value).*size.text) {
            return (*moment.value).*size.text;
        }
    }
    return std::nullopt;
}

} // namespace

bool may_be_fitted(const std::optional<PartRecord>& part) {
    return part && !part->returned && (part->fitted || has_no_day(*part));
}

std::optional<std::int64_t> PartChanges::replaced_by(std::int64_t id, std::int64_t act) const {
    for (const auto& [other, line] : timeline_.parts()) {
        const auto& part = line.at(act);
        if (other != id && part && part->replaces_id == id && may_be_fitted(part)) {
            return other;
        }
    }
    return std::nullopt;
}

bool PartChanges::in_engine(std::int64_t id, std::int64_t act) const {
    return may_be_fitted(timeline_.parts().at(id).at(act)) && !replaced_by(id, act);
}

const PartChanges::Part* PartChanges::predecessor(const Part& part,
                                                  const Question& question) const {
    std::vector<std::int64_t> seen{part.first}; // records may name each other in a circle
    const Part* first_of_line = nullptr;
    auto before = part.second.now()->replaces_id;
    while (before && std::find(seen.begin(), seen.end(), *before) == seen.end()) {
        const auto found = timeline_.parts().find(*before);
        if (found == timeline_.parts().end()) {
            break;
        }
        const auto& line = found->second;
        const auto& known = line.now() ? line.now() : line.at(question.act);
        if (!known) {
            break; // it was gone before
        }
        if (in_engine(*before, question.act)) {
            return &*found;
        }
        first_of_line = &*found;
        seen.push_back(*before);
        before = known->replaces_id;
    }
    return question.fitting_counts ? nullptr : first_of_line;
}

bool PartChanges::concerns(const Dependence& on, const Part& part, std::int64_t act,
                           const EnginePlace& place) const {
    if (!on.joint.empty() && place.joint && *place.joint != on.joint) {
        return false;
    }
    for (const auto* state : {&part.second.at(act), &part.second.now()}) {
        if (!*state) {
            continue;
        }
        const auto places = places_of_part((*state)->position.value_or(std::string()));
        if (places.empty() || std::any_of(places.begin(), places.end(), [&](const auto& one) {
                return reaches(one, place, on.reach, banks_);
            })) {
            return true;
        }
    }
    return false;
}

void PartChanges::find(const Dependence& on, bool fitting_counts, std::int64_t act,
                       const EnginePlace& place, std::vector<StaleCause>& causes) const {
    const auto has_role = [&](const std::optional<PartRecord>& part) {
        return part && part->role == on.what;
    };
    const Question question{on, fitting_counts, act, causes};
    for (const Part& part : timeline_.parts()) {
        const auto& [id, line] = part;
        if (!line.changes_after(act) && has_role(line.now()) == has_role(line.at(act)) &&
            in_engine(id, act) == in_engine(id, now)) {
            continue;
        }
        const bool was = has_role(line.at(act)) && in_engine(id, act);
        const bool is = has_role(line.now()) && in_engine(id, now);
        if ((!was && !is) || !concerns(on, part, act, place)) {
            continue;
        }
        if (is) {
            is_in(part, was, question);
        } else {
            left(part, question);
        }
    }
}

void PartChanges::is_in(const Part& part, bool was_in, const Question& question) const {
    const std::size_t causes = question.causes.size();
    const Part* replaced = was_in ? nullptr : predecessor(part, question);
    const int compared = compare_sizes(part, replaced != nullptr ? *replaced : part, question);
    if (question.causes.size() > causes) {
        return; // the sizes say it best
    }
    const Text& fitted = part.second.now()->fitted;
    const Change fitting{fitted ? "fitted" : "exists", std::nullopt, fitted ? fitted : Text("1")};
    if (!question.fitting_counts) {
        if (replaced != nullptr && compared == 0) {
            add(part, fitting, question); // nobody knows that it is alike
        }
        return;
    }
    if (was_in) {
        const Text before = part.second.at(question.act)->fitted;
        if (before != fitted) {
            add(part, {"fitted", before, fitted}, question);
        }
    } else if (fitted || replaced != nullptr) {
        add(part, fitting, question);
    }
}

void PartChanges::left(const Part& part, const Question& question) const {
    const auto& is = part.second.now();
    const PartRecord& before = *part.second.at(question.act);
    if (!question.fitting_counts) {
        return;
    }
    if (is && is->role != before.role) {
        add(part, {"role", before.role, is->role, part.first}, question);
    } else if (const auto other = replaced_by(part.first, now)) {
        // One of the same role is in, and tells more.
        const Part& successor = *timeline_.parts().find(*other);
        if (successor.second.now()->role != before.role) {
            add(successor, {"exists", std::nullopt, Text("1"), part.first}, question);
        }
    } else if (is && is->returned) {
        add(part, {"returned", std::nullopt, is->returned, part.first}, question);
    } else if (before.fitted) {
        add(part,
            {is ? "fitted" : "exists", is ? before.fitted : Text("1"), std::nullopt, part.first},
            question);
    }
}

int PartChanges::compare_sizes(const Part& part, const Part& before,
                               const Question& question) const {
    int compared = 0;
    for (const SizeField& size : size_fields) {
        const Text was = first_known(before.second, size, question.act);
        const Text& is = (*part.second.now()).*size.text;
        if (!was || !is) {
            continue;
        }
        ++compared;
        if (!same_size(*was, *is)) {
            add(part, {size.name, was, is}, question);
        }
    }
    return compared;
}

/// The act by which the part left, for the last time, what stood there.
void PartChanges::add(const Part& part, const Change& change, const Question& question) const {
    const auto& [id, line] = part;
    const PartRecord& known = line.now() ? *line.now() : *line.at(question.act);
    StaleCause cause{{RecordKind::part, id},
                     change.field,
                     known.item,
                     known.role.value_or(std::string()),
                     change.before,
                     change.now,
                     0,
                     {},
                     {},
                     question.on.reason};
    bool was_same = true;
    for (const BuildChange* by : timeline_.acts_on_parts()) {
        if (by->act <= question.act) {
            continue;
        }
        const auto is_there = [&](std::int64_t part_id) {
            return in_engine(part_id, by->act) &&
                   timeline_.parts().at(part_id).at(by->act)->role == question.on.what;
        };
        const Text then = field_of(line.at(by->act), change.field);
        const bool is_same = change.leaves
                                 ? is_there(*change.leaves)
                                 : !is_there(id) || same_text(change.field, then, change.before);
        if (was_same && !is_same) {
            cause.act = by->act;
            cause.since = by->when_utc;
            cause.who = by->who;
        }
        was_same = is_same;
    }
    question.causes.push_back(std::move(cause));
}

} // namespace rodway
