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

const PartRecord* PartChanges::predecessor(const PartRecord& part, std::int64_t act) const {
    std::vector<std::int64_t> seen{part.id}; // records may name each other in a circle
    auto before = part.replaces_id;
    while (before && std::find(seen.begin(), seen.end(), *before) == seen.end()) {
        const auto found = timeline_.parts().find(*before);
        if (found == timeline_.parts().end()) {
            return nullptr;
        }
        if (in_engine(*before, act)) {
            return &*found->second.at(act);
        }
        seen.push_back(*before);
        const auto& then = found->second.now() ? found->second.now() : found->second.at(act);
        before = then ? then->replaces_id : std::nullopt;
    }
    return nullptr;
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
        const bool was = has_role(line.at(act)) && in_engine(id, act);
        const bool is = has_role(line.now()) && in_engine(id, now);
        if ((!was && !is) || !concerns(on, part, act, place)) {
            continue;
        }
        if (was && is) {
            stayed(part, question);
        } else if (is) {
            entered(part, question);
        } else {
            left(part, question);
        }
    }
}

void PartChanges::stayed(const Part& part, const Question& question) const {
    const PartRecord& before = *part.second.at(question.act);
    compare_sizes(part, before, question);
    if (question.fitting_counts && before.fitted != part.second.now()->fitted) {
        add(part, "fitted", before.fitted, part.second.now()->fitted, question);
    }
}

void PartChanges::entered(const Part& part, const Question& question) const {
    const PartRecord& is = *part.second.now();
    const std::size_t causes = question.causes.size();
    const PartRecord* before = predecessor(is, question.act);
    const int compared = before != nullptr ? compare_sizes(part, *before, question) : 0;
    if (question.causes.size() > causes) {
        return; // the sizes say it best
    }
    const bool new_kind = before != nullptr && compared == 0; // nobody knows that it is alike
    if (question.fitting_counts ? is.fitted || before != nullptr : new_kind) {
        add(part, is.fitted ? "fitted" : "exists", std::nullopt, is.fitted ? is.fitted : Text("1"),
            question);
    }
}

void PartChanges::left(const Part& part, const Question& question) const {
    const auto& is = part.second.now();
    const PartRecord& before = *part.second.at(question.act);
    if (!question.fitting_counts) {
        return;
    }
    if (is && is->role != before.role) {
        add(part, "role", before.role, is->role, question);
    } else if (const auto other = replaced_by(part.first, now)) {
        // One of the same role has entered, and tells more.
        const auto& successor = *timeline_.parts().find(*other);
        if (successor.second.now()->role != before.role) {
            add(successor, "exists", std::nullopt, Text("1"), question);
        }
    } else if (is && is->returned) {
        add(part, "returned", std::nullopt, is->returned, question);
    } else if (before.fitted) {
        add(part, is ? "fitted" : "exists", is ? before.fitted : Text("1"), std::nullopt, question);
    }
}

int PartChanges::compare_sizes(const Part& part, const PartRecord& before,
                               const Question& question) const {
    int compared = 0;
    for (const SizeField& size : size_fields) {
        const Text& was = before.*size.text;
        const Text& is = (*part.second.now()).*size.text;
        if (!was || !is) {
            continue;
        }
        ++compared;
        if (!same_size(*was, *is)) {
            add(part, size.name, was, is, question);
        }
    }
    return compared;
}

/// Its own record is as it was: it came or went with another's.
void PartChanges::set_arrival(StaleCause& cause, std::int64_t act) const {
    bool was = in_engine(cause.record.id, act);
    for (const BuildChange* by : timeline_.acts_on_parts()) {
        const bool is = in_engine(cause.record.id, by->act);
        if (by->act > act && is != was) {
            cause.act = by->act;
            cause.since = by->when_utc;
            cause.who = by->who;
        }
        was = by->act > act ? is : was;
    }
}

void PartChanges::add(const Part& part, const char* field, const Text& before, const Text& is,
                      const Question& question) const {
    const auto& [id, line] = part;
    const PartRecord& known = line.now() ? *line.now() : *line.at(question.act);
    StaleCause cause{{RecordKind::part, id},
                     field,
                     known.item,
                     known.role.value_or(std::string()),
                     before,
                     is,
                     0,
                     {},
                     {},
                     question.on.reason};
    // The act by which it left what it was for the last time.
    bool same = true;
    for (const auto& moment : line.moments()) {
        const bool after = moment.by->act > question.act;
        const bool is_same = same_text(field, field_of(moment.value, field), before);
        if (after && same && !is_same) {
            cause.act = moment.by->act;
            cause.since = moment.by->when_utc;
            cause.who = moment.by->who;
        }
        same = after ? is_same : true;
    }
    if (cause.act == 0) {
        set_arrival(cause, question.act);
    }
    question.causes.push_back(std::move(cause));
}

} // namespace rodway
