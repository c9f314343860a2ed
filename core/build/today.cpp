#include "core/build/today.h"

#include <algorithm>
#include <tuple>

#include "core/build/cure_state.h"

namespace rodway {
namespace {

constexpr std::size_t day_length = 10; ///< "2026-03-01"

class DayList {
  public:
    DayList(const TodayFacts& facts, const TodayRequest& request)
        : facts_(facts), request_(request), today_(day_number(request.day.day)) {}

    std::vector<Due> made() {
        if (!today_) {
            return {};
        }
        for (const Build& build : facts_.builds) {
            add_promise(build);
        }
        for (const Cure& cure : facts_.cures) {
            add_cure(cure);
        }
        for (const PartRecord& part : facts_.parts) {
            add_part(part);
        }
        for (const PartRecord& part : facts_.kept) {
            if (part.kept_until && !part.returned && has_come(*part.kept_until)) {
                add(DueKind::keep_ended, {RecordKind::part, part.id}, part.build_id,
                    *part.kept_until);
            }
        }
        for (const OpenItem& item : facts_.open_items) {
            if (item.due && !item.closed_at && has_come(*item.due)) {
                add(DueKind::item_due, {RecordKind::open_item, item.id}, item.build_id, *item.due);
            }
        }
        for (const HandOff& book : facts_.hand_offs) {
            add_service(book);
        }
        for (const Visit& visit : facts_.visits) {
            if (!visit.found && !visit.done && came_lately(visit.visited)) {
                add(DueKind::visit_due, {RecordKind::visit, visit.id}, visit.build_id,
                    visit.visited);
            }
        }
        const auto key = [](const Due& due) {
            return std::tie(due.kind, due.at, due.build_id, due.record.id);
        };
        std::stable_sort(list_.begin(), list_.end(),
                         [&](const Due& a, const Due& b) { return key(a) < key(b); });
        return std::move(list_);
    }

  private:
    [[nodiscard]] std::optional<std::int64_t> days_until(std::string_view day) const {
        const auto number = day_number(day);
        return number ? std::optional(*number - *today_) : std::nullopt;
    }
    [[nodiscard]] bool has_come(std::string_view day) const {
        const auto days = days_until(day);
        return days && *days <= 0;
    }
    [[nodiscard]] bool came_lately(std::string_view day) const {
        const auto days = days_until(day);
        return days && *days <= 0 && *days >= -request_.service_days;
    }
    [[nodiscard]] bool is_of_the_day(const std::optional<std::string>& utc) const {
        // UTC texts stand in the order of time.
        return utc && *utc >= request_.day.begins_utc && *utc < request_.day.ends_utc;
    }

    void add(DueKind kind, RecordRef record, std::int64_t build_id, const std::string& day) {
        list_.push_back({kind, record, build_id, day, days_until(day)});
    }

    void add_promise(const Build& build) {
        const auto days = build.promised ? days_until(*build.promised) : std::nullopt;
        if (days && *days <= request_.near_days) {
            add(*days < 0 ? DueKind::promise_passed : DueKind::promise_near,
                {RecordKind::build, build.id}, build.id, *build.promised);
        }
    }

    void add_cure(const Cure& cure) {
        const CureState state = cure_state(cure, request_.now_utc);
        if (state.stage == CureStage::ended) {
            return;
        }
        const auto add_at = [&](DueKind kind, const std::string& at) {
            list_.push_back({kind, {RecordKind::cure, cure.id}, cure.build_id, at, std::nullopt});
        };
        const bool may_today = is_of_the_day(state.handling_at);
        if (may_today && state.handling_at != state.full_at) {
            add_at(DueKind::cure_handling, *state.handling_at);
        }
        if (is_of_the_day(state.full_at)) {
            add_at(DueKind::cure_full, *state.full_at);
        }
        const bool nothing_to_wait_for =
            !state.full_at && !may_today && state.minutes_to_handling.value_or(0) == 0;
        if (nothing_to_wait_for) {
            add_at(DueKind::cure_not_known, {});
        }
    }

    void add_part(const PartRecord& part) {
        const RecordRef record{RecordKind::part, part.id};
        const bool came = part.received || part.measured || part.fitted || part.returned;
        if (part.promised && !came && has_come(*part.promised)) {
            const bool is_today = days_until(*part.promised) == 0;
            add(is_today ? DueKind::part_due : DueKind::part_overdue, record, part.build_id,
                *part.promised);
        }
    }

    [[nodiscard]] bool came_back(std::int64_t build_id, std::string_view since) const {
        return std::any_of(facts_.visits.begin(), facts_.visits.end(), [&](const Visit& visit) {
            return visit.build_id == build_id && visit.visited >= since && has_come(visit.visited);
        });
    }

    void add_service(const HandOff& book) {
        for (const std::string& day : days_in(book.service_dates.value_or(std::string()))) {
            if (came_lately(day) && !came_back(book.build_id, day)) {
                add(DueKind::service_due, {RecordKind::hand_off, book.id}, book.build_id, day);
            }
        }
    }

    const TodayFacts& facts_;
    const TodayRequest& request_;
    std::optional<std::int64_t> today_;
    std::vector<Due> list_;
};

} // namespace

std::vector<Due> due_today(const TodayFacts& facts, const TodayRequest& request) {
    return DayList(facts, request).made();
}

std::vector<std::string> days_in(std::string_view text) {
    std::vector<std::string> days;
    const auto is_digit = [&](std::size_t at) {
        return at < text.size() && text[at] >= '0' && text[at] <= '9';
    };
    for (std::size_t at = 0; at + day_length <= text.size(); ++at) {
        const std::string_view word = text.substr(at, day_length);
        // "12026-12-15" and "2026-12-155" are no days.
        const bool apart = (at == 0 || !is_digit(at - 1)) && !is_digit(at + day_length);
        if (apart && day_number(word)) {
            days.emplace_back(word);
            at += day_length - 1;
        }
    }
    return days;
}

} // namespace rodway
