#include "app/work/part_acts.h"

#include <algorithm>
#include <array>

#include "app/work/shop_day.h"
#include "app/work/temporary_parts.h"
#include "core/build/part_check.h"
#include "core/build/word_list.h"
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

std::string today(const ShopSession& session) {
    return shop_day(session.now()).day;
}

Result<Done> change_to(ShopSession& session, const PartRecord& before,
                       const Result<PartRecord>& after) {
    if (!after) {
        return after.error();
    }
    std::vector<Edit> edits = edits_to_change(before, *after);
    if (edits.empty()) {
        return Done{};
    }
    const auto items = temporary_part_edits(session, before, *after);
    if (!items) {
        return items.error();
    }
    edits.insert(edits.end(), items->begin(), items->end());
    const auto act = session.act(std::move(edits), QObject::tr("change of a part"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
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
    auto checked = checked_part(std::move(part), today(session));
    if (!checked) {
        return checked.error();
    }
    part = std::move(checked).value();
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
    return change_to(session, before, checked_part(std::move(after), today(session)));
}

Result<Done> mark_part(ShopSession& session, const PartRecord& part, PartMark mark,
                       const std::optional<std::string>& text, const PartSizes& sizes) {
    const MarkField& field = field_of(mark);
    if (text && without_blanks(*text).empty()) {
        return Error{ErrorCode::empty_text, field.word, {}, {}, {}, {}};
    }
    PartRecord after = part;
    after.*field.text = text;
    if (text && mark == PartMark::failed) {
        auto how = kept_line(*text, field.word);
        if (!how) {
            return how.error();
        }
        after.failed = std::move(how).value();
    }
    const auto put = [](const std::optional<std::string>& found, std::optional<std::string>& into) {
        if (found) {
            into = found;
        }
    };
    put(sizes.length, after.length);
    put(sizes.size, after.size);
    put(sizes.thread, after.thread);
    // A mark must not wait until what else was written on the part long ago is in form.
    const bool measured = sizes.length || sizes.size || sizes.thread;
    return change_to(session, part,
                     measured ? checked_part(std::move(after), today(session))
                              : with_checked_days(std::move(after), today(session)));
}

} // namespace rodway
