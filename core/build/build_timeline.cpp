#include "core/build/build_timeline.h"

#include <algorithm>
#include <charconv>
#include <tuple>

namespace rodway {
namespace {

using Texts = std::map<std::string, std::string, std::less<>>;

std::optional<std::string> text_of(const Texts& texts, std::string_view field) {
    const auto found = texts.find(field);
    return found == texts.end() ? std::nullopt : std::optional(found->second);
}

std::optional<std::int64_t> id_of(const Texts& texts, std::string_view field) {
    const auto text = text_of(texts, field);
    std::int64_t id = 0;
    if (!text || std::from_chars(text->data(), text->data() + text->size(), id).ec != std::errc()) {
        return std::nullopt;
    }
    return id;
}

bool exists(const Texts& texts) {
    return texts.contains("exists");
}

void write(Texts& texts, const Edit& edit) {
    if (edit.after) {
        texts[edit.field] = *edit.after;
    } else {
        texts.erase(edit.field);
    }
}

/// What the checks depend on of it.
PartRecord part_from(std::int64_t id, const Texts& texts) {
    PartRecord part;
    part.id = id;
    part.replaces_id = id_of(texts, "replaces_id");
    part.item = text_of(texts, "item").value_or(std::string());
    part.size = text_of(texts, "size");
    part.position = text_of(texts, "position");
    part.needed = text_of(texts, "needed");
    part.ordered = text_of(texts, "ordered");
    part.promised = text_of(texts, "promised");
    part.received = text_of(texts, "received");
    part.measured = text_of(texts, "measured");
    part.fitted = text_of(texts, "fitted");
    part.returned = text_of(texts, "returned");
    part.role = text_of(texts, "role");
    part.thread = text_of(texts, "thread");
    part.length = text_of(texts, "length");
    return part;
}

ReadingStatus status_of(const Texts& texts) {
    const auto word = text_of(texts, "status");
    if (word == "not_measured") {
        return ReadingStatus::not_measured;
    }
    if (word == "same") {
        return ReadingStatus::same;
    }
    return word == "see_photo" ? ReadingStatus::see_photo : ReadingStatus::measured;
}

ReadingPlace place_of(const Texts& texts) {
    return {text_of(texts, "quantity").value_or(std::string()),
            text_of(texts, "position").value_or(std::string())};
}

Reading reading_from(std::int64_t id, const Texts& texts) {
    Reading reading;
    reading.id = id;
    std::tie(reading.quantity, reading.position) = place_of(texts);
    reading.text = text_of(texts, "text").value_or(std::string());
    reading.unit = text_of(texts, "unit").value_or(std::string());
    reading.status = status_of(texts);
    reading.taken_by = text_of(texts, "taken_by").value_or(std::string());
    reading.taken_at = text_of(texts, "taken_at").value_or(std::string());
    return reading;
}

bool is_path(std::string_view field) {
    return field.find('/') != std::string_view::npos;
}

} // namespace

TypedValue typed_value_of(std::string_view edit_text) {
    const auto space = edit_text.rfind(' ');
    if (space == std::string_view::npos) {
        return {std::string(edit_text), {}};
    }
    return {std::string(edit_text.substr(0, space)), std::string(edit_text.substr(space + 1))};
}

BuildTimeline::BuildTimeline(const std::vector<BuildChange>& changes) {
    Touched touched;
    std::int64_t act = 0;
    for (const BuildChange& change : changes) {
        if (change.act != act) {
            end_act(touched);
            touched = {};
            act = change.act;
        }
        play(change, touched);
    }
    end_act(touched);
}

void BuildTimeline::play(const BuildChange& change, Touched& touched) {
    const Edit& edit = change.edit;
    switch (edit.record.kind) {
        case RecordKind::part:
            write(stored_parts_[edit.record.id], edit);
            touched.parts[edit.record.id] = &change;
            break;
        case RecordKind::set_up:
            write(stored_set_ups_[edit.record.id], edit);
            touched.set_ups = &change;
            if (is_path(edit.field)) {
                touched.fields[{edit.record.id, edit.field}] = &change;
            }
            break;
        case RecordKind::reading:
            play_reading(change, touched);
            break;
        default:
            break;
    }
}

void BuildTimeline::play_reading(const BuildChange& change, Touched& touched) {
    const std::int64_t id = change.edit.record.id;
    Texts& texts = stored_readings_[id];
    taken_at_[place_of(texts)].erase(id);
    touched.readings[place_of(texts)] = &change;
    write(texts, change.edit);
    if (exists(texts)) {
        taken_at_[place_of(texts)].insert(id);
    }
    touched.readings[place_of(texts)] = &change;
}

void BuildTimeline::end_act(const Touched& touched) {
    for (const auto& [id, by] : touched.parts) {
        const Texts& texts = stored_parts_[id];
        parts_[id].write(*by, exists(texts) ? std::optional(part_from(id, texts)) : std::nullopt);
    }
    if (!touched.parts.empty()) {
        acts_on_parts_.push_back(touched.parts.begin()->second);
    }
    for (const auto& [place, by] : touched.readings) {
        const std::set<std::int64_t>& there = taken_at_[place];
        if (there.empty() && !readings_.contains(place)) {
            continue; // a reading passed through here while its act was played
        }
        readings_[place].write(*by, there.empty()
                                        ? std::nullopt
                                        : std::optional(reading_from(
                                              *there.rbegin(), stored_readings_[*there.rbegin()])));
    }
    if (touched.set_ups != nullptr) {
        write_fields(touched);
    }
}

std::optional<std::int64_t> BuildTimeline::set_up_in_hand() const {
    std::optional<std::int64_t> highest;
    for (const auto& [id, texts] : stored_set_ups_) {
        if (exists(texts)) {
            highest = id;
        }
    }
    return highest;
}

void BuildTimeline::write_fields(const Touched& touched) {
    static const Texts none;
    constexpr std::int64_t no_set_up = 0;
    const std::int64_t before =
        set_up_.moments().empty() ? no_set_up : set_up_.now().value_or(no_set_up);
    const auto in_hand = set_up_in_hand();
    const Texts& stored = in_hand ? stored_set_ups_.at(*in_hand) : none;
    if (in_hand.value_or(no_set_up) == before) {
        for (const auto& [at, by] : touched.fields) {
            const auto& [set_up_id, path] = at;
            if (set_up_id == in_hand) {
                const auto text = text_of(stored, path);
                fields_[path].write(*by,
                                    text ? std::optional(typed_value_of(*text)) : std::nullopt);
            }
        }
        return;
    }
    set_up_.write(*touched.set_ups, in_hand);
    for (auto& [path, line] : fields_) {
        if (line.now() && !stored.contains(path)) {
            line.write(*touched.set_ups, std::nullopt);
        }
    }
    for (const auto& [field, text] : stored) {
        if (!is_path(field)) {
            continue;
        }
        Timeline<TypedValue>& line = fields_[field];
        const TypedValue value = typed_value_of(text);
        if (line.moments().empty() || line.now() != value) {
            line.write(*touched.set_ups, value);
        }
    }
}

} // namespace rodway
