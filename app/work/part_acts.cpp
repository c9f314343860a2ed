#include "app/work/part_acts.h"

#include <algorithm>
#include <array>

#include "app/work/temporary_parts.h"
#include "app/work/typed_day.h"
#include "core/build/part_role.h"
#include "core/build/word_list.h"
#include "core/units/typed_text.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

struct MarkField {
    PartMark mark;
    const char* word;
    std::optional<std::string> PartRecord::*text;
};

constexpr std::array<MarkField, 9> mark_fields{
    MarkField{PartMark::needed, "needed", &PartRecord::needed},
    MarkField{PartMark::ordered, "ordered", &PartRecord::ordered},
    MarkField{PartMark::promised, "promised", &PartRecord::promised},
    MarkField{PartMark::received, "received", &PartRecord::received},
    MarkField{PartMark::measured, "measured", &PartRecord::measured},
    MarkField{PartMark::fitted, "fitted", &PartRecord::fitted},
    MarkField{PartMark::returned, "returned", &PartRecord::returned},
    MarkField{PartMark::kept_until, "kept_until", &PartRecord::kept_until},
    MarkField{PartMark::failed, "failed", &PartRecord::failed}};

const MarkField& field_of(PartMark mark) {
    return *std::find_if(mark_fields.begin(), mark_fields.end(),
                         [mark](const MarkField& field) { return field.mark == mark; });
}

/// As typed words, without blanks around them; nothing is left of blanks alone.
void tidy(std::optional<std::string>& text) {
    if (text) {
        *text = without_blanks(*text);
        if (text->empty()) {
            text.reset();
        }
    }
}

Result<Done> check_texts(PartRecord& part) {
    part.item = without_blanks(part.item);
    if (part.item.empty()) {
        return Error{ErrorCode::empty_text, "item", {}, {}, {}, {}};
    }
    for (auto* text :
         {&part.size, &part.marking, &part.position, &part.supplier, &part.order_number,
          &part.failed, &part.note, &part.role, &part.condition, &part.thread, &part.length,
          &part.drive, &part.lubricant, &part.tightening}) {
        tidy(*text);
    }
    if (part.role) {
        const auto roles = parse_part_roles(*part.role);
        if (!roles || roles->size() != 1) {
            std::vector<std::string> all(part_roles().begin(), part_roles().end());
            return Error{ErrorCode::not_a_choice, "role", *part.role, joined(all, " "), {}, {}};
        }
    }
    for (const MarkField& field : mark_fields) {
        if (field.mark == PartMark::failed) {
            continue;
        }
        const auto day = typed_day(part.*field.text, field.word);
        if (!day) {
            return day.error();
        }
        part.*field.text = *day;
    }
    if (part.length) {
        const auto length = parse_length(*part.length, BareNumber::inches);
        if (!length) {
            Error error = length.error();
            error.field = "length";
            return error;
        }
    }
    return Done{};
}

} // namespace

std::string part_mark_word(PartMark mark) {
    return field_of(mark).word;
}

std::optional<PartMark> part_mark_called(const std::string& word) {
    const auto found = std::find_if(mark_fields.begin(), mark_fields.end(),
                                    [&](const MarkField& field) { return field.word == word; });
    return found == mark_fields.end() ? std::nullopt : std::optional(found->mark);
}

std::vector<PartMark> part_marks() {
    std::vector<PartMark> marks;
    for (const MarkField& field : mark_fields) {
        marks.push_back(field.mark);
    }
    return marks;
}

Result<std::int64_t> add_part(ShopSession& session, PartRecord part) {
    if (const auto checked = check_texts(part); !checked) {
        return checked.error();
    }
    // Asked for once before the id is known, so that a file that can't be read is told at once.
    if (const auto items = temporary_part_edits(session, std::nullopt, part); !items) {
        return items.error();
    }
    return session.create(
        RecordKind::part,
        [&](std::int64_t id) {
            part.id = id;
            std::vector<Edit> edits = edits_to_create(part);
            const auto now = temporary_part_edits(session, std::nullopt, part);
            if (now) {
                edits.insert(edits.end(), now->begin(), now->end());
            }
            return edits;
        },
        QObject::tr("new part"));
}

Result<Done> change_part(ShopSession& session, const PartRecord& before, PartRecord after) {
    if (const auto checked = check_texts(after); !checked) {
        return checked.error();
    }
    std::vector<Edit> edits = edits_to_change(before, after);
    if (edits.empty()) {
        return Done{};
    }
    const auto items = temporary_part_edits(session, before, after);
    if (!items) {
        return items.error();
    }
    edits.insert(edits.end(), items->begin(), items->end());
    const auto act = session.act(std::move(edits), QObject::tr("change of a part"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

Result<Done> mark_part(ShopSession& session, const PartRecord& part, PartMark mark,
                       const std::optional<std::string>& text, const PartSizes& sizes) {
    const MarkField& field = field_of(mark);
    if (text && without_blanks(*text).empty()) {
        return Error{ErrorCode::empty_text, field.word, {}, {}, {}, {}};
    }
    PartRecord after = part;
    after.*field.text = text;
    const auto put = [](const std::optional<std::string>& found, std::optional<std::string>& into) {
        if (found) {
            into = found;
        }
    };
    put(sizes.length, after.length);
    put(sizes.size, after.size);
    put(sizes.thread, after.thread);
    return change_part(session, part, std::move(after));
}

} // namespace rodway
