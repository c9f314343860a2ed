#include "core/handoff/handed_facts.h"

#include <array>
#include <cstdio>
#include <map>

#include "core/units/length.h"

namespace rodway {
namespace {

using Facts = std::map<std::string, std::string>;

std::string numbered(const char* what, std::int64_t id) {
    return std::string(what) + ' ' + std::to_string(id);
}

std::string with_more(std::string text, const std::optional<std::string>& more) {
    return more && !more->empty() ? text + ", " + *more : text;
}

/// The last at a place counts.
void add_readings(const std::vector<Reading>& readings, Facts& facts) {
    for (const Reading& reading : readings) {
        std::string name = "reading " + reading.quantity;
        if (!reading.position.empty()) name += ' ' + reading.position;
        facts[name] = reading.text;
    }
}

void add_clearances(const std::vector<ValveClearance>& lines, Facts& facts) {
    for (const ValveClearance& line : lines) {
        std::array<char, 32> text{};
        if (line.found.minimum) {
            std::snprintf(text.data(), text.size(), "%.4f in",
                          line.found.minimum->clearance_mm / Length::mm_per_inch);
        }
        facts["clearance " + position_name(line.position)] = text.data();
    }
}

void add_work(const BuildFacts& work, Facts& facts) {
    for (const SignOff& one : work.sign_offs) {
        if (one.stage_id && !one.withdrawn_at) {
            facts[numbered("stage", *one.stage_id)] =
                one.subject + ", " + one.verdict + ", " + one.signed_by;
        }
    }
    for (const PartRecord& part : work.parts) {
        if (!part.fitted) continue;
        facts[numbered("part", part.id)] =
            with_more(with_more(with_more(part.item, part.size), part.marking), part.length);
    }
    for (const OpenItem& item : work.open_items) {
        facts[numbered("open_item", item.id)] =
            item.closed_at ? with_more(item.title + ", closed", item.outcome) : item.title;
    }
    for (const Waiver& waiver : work.waivers) {
        facts[numbered("waiver", waiver.id)] = waiver.subject + ", " + waiver.reason;
    }
    for (const Approval& one : work.approvals) {
        static constexpr const char* answers[] = {"asked", "approved", "declined"};
        facts[numbered("extra", one.id)] =
            with_more(one.subject, one.amount) + ", " + answers[static_cast<int>(one.answer)];
    }
}

/// Tabs and ends of lines part the facts, so they can't stand in one.
std::string on_one_line(std::string text) {
    for (char& one : text) {
        if (one == '\t' || one == '\n' || one == '\r') one = ' ';
    }
    return text;
}

} // namespace

std::vector<HandedFact> handed_facts(const HandedSources& sources) {
    Facts facts;
    add_readings(sources.readings, facts);
    add_clearances(sources.clearances, facts);
    add_work(sources.work, facts);
    for (const Decision& one : sources.decisions) {
        facts[numbered("decision", one.id)] = one.question + ": " + one.choice;
    }
    std::vector<HandedFact> list;
    for (const auto& [name, value] : facts) {
        list.push_back({on_one_line(name), on_one_line(value)});
    }
    return list;
}

std::string handed_text(const std::vector<HandedFact>& facts) {
    std::string text;
    for (const HandedFact& fact : facts) {
        text += on_one_line(fact.name) + '\t' + on_one_line(fact.value) + '\n';
    }
    return text;
}

Result<std::vector<HandedFact>> read_handed_text(std::string_view text) {
    std::vector<HandedFact> facts;
    int number = 0;
    while (!text.empty()) {
        ++number;
        const std::size_t end = text.find('\n');
        const std::string_view line = text.substr(0, end);
        text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
        const std::size_t tab = line.find('\t');
        if (tab == std::string_view::npos) {
            return Error{ErrorCode::wrong_format, "facts", std::string(line), {}, number, {}};
        }
        facts.push_back({std::string(line.substr(0, tab)), std::string(line.substr(tab + 1))});
    }
    return facts;
}

std::vector<HandedChange> handed_changes(const std::vector<HandedFact>& before,
                                         const std::vector<HandedFact>& now) {
    std::map<std::string, HandedChange> all;
    for (const HandedFact& fact : before) {
        all[fact.name].before = fact.value;
    }
    for (const HandedFact& fact : now) {
        all[fact.name].now = fact.value;
    }
    std::vector<HandedChange> changes;
    for (auto& [name, change] : all) {
        if (change.before != change.now) {
            change.name = name;
            changes.push_back(std::move(change));
        }
    }
    return changes;
}

} // namespace rodway
