#include "app/work/job_acts.h"

#include <QCoreApplication>

#include "app/work/note_acts.h"
#include "app/work/typed_day.h"
#include "core/build/part_check.h"
#include "core/build/word_list.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

struct JobActs {
    Q_DECLARE_TR_FUNCTIONS(JobActs)
};

Result<Done> needed(std::string& text, const char* field) {
    auto line = kept_line(text, field);
    if (!line) {
        return line.error();
    }
    if (line->empty()) {
        return Error{ErrorCode::empty_text, field, {}, {}, {}, {}};
    }
    text = *line;
    return Done{};
}

Result<Done> tidy_line(std::optional<std::string>& text, const char* field) {
    auto line = kept_line(text.value_or(std::string()), field);
    if (!line) {
        return line.error();
    }
    text = line->empty() ? std::nullopt : std::optional(*line);
    return Done{};
}

Result<Done> tidy_lines(std::optional<std::string>& text, const char* field) {
    const std::string all = without_blanks(text.value_or(std::string()));
    if (all.size() > longest_note) {
        return Error{ErrorCode::wrong_type, field, all, "note_shorter", {}, {}};
    }
    text = all.empty() ? std::nullopt : std::optional(all);
    return Done{};
}

Result<Done> tidy(Build& build) {
    struct Line {
        std::optional<std::string>* text;
        const char* field;
    };
    for (const auto& [text, field] :
         {std::pair{&build.name, "name"}, std::pair{&build.customer, "customer"},
          std::pair{&build.engine, "engine"}}) {
        if (const auto done = needed(*text, field); !done) {
            return done;
        }
    }
    for (const Line& line :
         {Line{&build.job_number, "job_number"}, Line{&build.use, "use"}, Line{&build.fuel, "fuel"},
          Line{&build.speed_range, "speed_range"}, Line{&build.target_power, "target_power"},
          Line{&build.state, "state"}}) {
        if (const auto done = tidy_line(*line.text, line.field); !done) {
            return done;
        }
    }
    for (const Line& lines : {Line{&build.scope, "scope"}, Line{&build.exclusions, "exclusions"},
                              Line{&build.terms, "terms"}, Line{&build.note, "note"}}) {
        if (const auto done = tidy_lines(*lines.text, lines.field); !done) {
            return done;
        }
    }
    return Done{};
}

Result<Done> done_by(const Result<Act>& act) {
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

} // namespace

Result<Done> change_job(ShopSession& session, const Build& before, Build after) {
    if (before.promised != after.promised) {
        return Error{ErrorCode::not_of_this_kind, "promised", {}, "promise", {}, {}};
    }
    if (const auto done = tidy(after); !done) {
        return done;
    }
    std::vector<Edit> edits = edits_to_change(before, after);
    if (edits.empty()) {
        return Done{};
    }
    return done_by(session.act(std::move(edits), JobActs::tr("change of the job sheet")));
}

Result<Done> move_promise(ShopSession& session, const Build& build, const std::string& day,
                          const std::string& reason) {
    const std::string typed = without_blanks(day);
    if (typed.empty()) {
        return Error{ErrorCode::empty_text, "promised", {}, {}, {}, {}};
    }
    const auto promised = typed_day(typed, "promised");
    if (!promised) {
        return promised.error();
    }
    const auto why = kept_line(reason, "reason");
    if (!why) {
        return why.error();
    }
    if (*promised == build.promised) {
        return Error{ErrorCode::wrong_type, "promised", typed, "same_day", {}, {}};
    }
    if (build.promised && why->empty()) {
        return Error{ErrorCode::empty_text, "reason", {}, {}, {}, {}};
    }
    Build after = build;
    after.promised = *promised;
    const std::vector<Edit> moved = edits_to_change(build, after);
    Promise promise;
    promise.build_id = build.id;
    promise.promised = **promised;
    promise.reason = why->empty() ? std::nullopt : std::optional(*why);
    promise.told_at = session.now();
    const auto id = session.create(
        RecordKind::promise,
        [&](std::int64_t promise_id) {
            promise.id = promise_id;
            std::vector<Edit> edits = edits_to_create(promise);
            edits.insert(edits.end(), moved.begin(), moved.end());
            return edits;
        },
        JobActs::tr("promised day"));
    return id ? Result<Done>(Done{}) : Result<Done>(id.error());
}

Result<std::int64_t> add_casting_number(ShopSession& session, CastingNumber number) {
    if (const auto done = needed(number.position, "position"); !done) {
        return done.error();
    }
    if (const auto done = needed(number.number, "number"); !done) {
        return done.error();
    }
    if (const auto done = tidy_line(number.date_code, "date_code"); !done) {
        return done.error();
    }
    return session.create(
        RecordKind::casting_number,
        [&](std::int64_t id) {
            number.id = id;
            return edits_to_create(number);
        },
        JobActs::tr("casting number"));
}

} // namespace rodway
