#pragma once

#include <random>
#include <string>
#include <vector>

#include "tests/db/shop_test.h"

namespace rodway {

/// A shop with builds at work: parts, cures, questions, items, visits and books at random.
class WorkShop {
  public:
    WorkShop(ShopFile& shop, unsigned seed, int builds);

    [[nodiscard]] int builds() const { return builds_; }

  private:
    int below(int end) { return std::uniform_int_distribution<int>(0, end - 1)(random_); }
    std::string day() { return "2026-03-" + std::to_string(10 + below(20)); }
    std::optional<std::string> maybe_day() {
        return below(2) == 0 ? std::optional(day()) : std::nullopt;
    }
    template <typename Record>
    void keep(Record record) {
        for (Edit& edit : edits_to_create(record)) edits_.push_back(std::move(edit));
    }
    void add_build(std::int64_t id);
    void add_parts(std::int64_t build_id);
    void add_cures(std::int64_t build_id);
    void add_the_rest(std::int64_t build_id);

    std::mt19937 random_;
    int builds_;
    std::vector<Edit> edits_;
    std::int64_t next_id_ = 0;
};

inline WorkShop::WorkShop(ShopFile& shop, unsigned seed, int builds)
    : random_(seed), builds_(builds) {
    for (std::int64_t id = 1; id <= builds; ++id) {
        add_build(id);
        add_parts(id);
        add_cures(id);
        add_the_rest(id);
        take(apply(shop, std::move(edits_), "MH", noon));
        edits_.clear();
    }
}

inline void WorkShop::add_build(std::int64_t id) {
    Build build;
    build.id = id;
    build.name = "Build " + std::to_string(id);
    build.customer = below(2) == 0 ? "Ödön Marsh" : "Dale Reed";
    build.engine = below(2) == 0 ? "inline six, 261" : "V8";
    build.promised = maybe_day();
    if (below(4) == 0) build.archived = "2026-03-01T12:00:00Z";
    keep(build);
    for (int ordinal = 1; ordinal <= 2; ++ordinal) {
        Stage stage{++next_id_, id, ordinal, "Stage " + std::to_string(ordinal), {}};
        keep(stage);
        for (int which = 1; which <= 2; ++which) {
            Step step{++next_id_, stage.id, which, "Step " + std::to_string(which), {}, {}};
            if (below(2) == 0) {
                step.ticked_by = "MH";
                step.ticked_at = noon;
            } else if (below(4) == 0) {
                step.not_needed = "not on this one";
            }
            keep(step);
        }
    }
}

inline void WorkShop::add_parts(std::int64_t build_id) {
    std::vector<std::int64_t> before;
    for (int which = below(4); which > 0; --which) {
        PartRecord part;
        part.id = ++next_id_;
        part.build_id = build_id;
        part.item = "part";
        part.needed = maybe_day();
        part.ordered = maybe_day();
        part.promised = maybe_day();
        if (below(4) == 0) part.received = day();
        if (below(6) == 0) part.measured = day();
        if (below(6) == 0) part.fitted = day();
        if (below(8) == 0) part.returned = day();
        if (below(8) == 0) part.failed = "bent";
        if (below(6) == 0) part.kept_until = day();
        if (!before.empty() && below(3) == 0) part.replaces_id = before.back();
        before.push_back(part.id);
        keep(part);
    }
}

inline void WorkShop::add_cures(std::int64_t build_id) {
    for (int which = below(3); which > 0; --which) {
        Cure cure;
        cure.id = ++next_id_;
        cure.build_id = build_id;
        cure.place = "tubes";
        cure.applied_by = "MH";
        cure.applied_at = "2026-03-" + std::to_string(10 + below(6)) + "T08:00:00Z";
        if (below(3) > 0) cure.handling_minutes = below(3000);
        if (below(3) > 0) cure.full_minutes = below(6000);
        if (below(4) == 0) cure.ended = "2026-03-16T08:00:00Z";
        keep(cure);
    }
}

inline void WorkShop::add_the_rest(std::int64_t build_id) {
    if (below(3) == 0) {
        Approval approval;
        approval.id = ++next_id_;
        approval.build_id = build_id;
        approval.subject = "larger valves";
        approval.asked_at = noon;
        approval.answer = below(2) == 0 ? ApprovalAnswer::asked : ApprovalAnswer::declined;
        keep(approval);
    }
    for (int which = below(3); which > 0; --which) {
        OpenItem item;
        item.id = ++next_id_;
        item.build_id = build_id;
        item.title = "watch it";
        item.due = maybe_day();
        item.opened_by = "MH";
        item.opened_at = noon;
        if (below(3) == 0) {
            item.closed_by = "MH";
            item.closed_at = noon;
        }
        keep(item);
    }
    for (int version = 1; version <= below(3); ++version) {
        HandOff book;
        book.id = ++next_id_;
        book.build_id = build_id;
        book.version = version;
        book.history_head = photo_digest;
        book.program_version = "1";
        book.given_at = noon;
        if (below(3) > 0) book.service_dates = day() + ": retorque; " + day() + ": lash";
        keep(book);
    }
    if (below(3) == 0) {
        Visit visit;
        visit.id = ++next_id_;
        visit.build_id = build_id;
        visit.visited = day();
        visit.reason = "lash";
        if (below(2) == 0) visit.found = "all well";
        keep(visit);
    }
}

} // namespace rodway
