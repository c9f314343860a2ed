#include "app/book/book_facts.h"

#include <algorithm>

#include "app/work/account_acts.h"
#include "app/work/build_in_hand.h"
#include "core/engine/set_up.h"
#include "db/attachments.h"
#include "db/build_records.h"
#include "db/history.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

constexpr int most_readings_of_the_shop = 3; ///< while somebody else writes

/// Reads one list of records into a member; false, with the error kept, if it can't be.
class Loader {
  public:
    Loader(ShopFile& shop, std::int64_t build_id) : shop_(shop), build_id_(build_id) {}

    template <typename Record>
    void of_build(std::vector<Record>& into) {
        load(into, build_id_);
    }
    template <typename Record>
    void of_shop(std::vector<Record>& into) {
        load(into, shop_wide);
    }
    [[nodiscard]] const std::optional<Error>& error() const { return error_; }

  private:
    template <typename Record>
    void load(std::vector<Record>& into, std::int64_t owner) {
        if (error_) return;
        auto records = load_records<Record>(shop_, owner);
        if (!records) {
            error_ = records.error();
            return;
        }
        into = std::move(records).value();
    }

    ShopFile& shop_;
    std::int64_t build_id_;
    std::optional<Error> error_;
};

Result<Done> read_records(ShopFile& shop, std::int64_t build_id, BookFacts& facts) {
    Loader loader(shop, build_id);
    std::vector<Customer> customers;
    loader.of_shop(facts.shop);
    loader.of_shop(customers);
    loader.of_shop(facts.people);
    loader.of_shop(facts.instruments);
    loader.of_build(facts.castings);
    loader.of_build(facts.promises);
    loader.of_build(facts.visits);
    loader.of_build(facts.decisions);
    loader.of_build(facts.notes);
    loader.of_build(facts.photos);
    loader.of_build(facts.hand_offs);
    if (loader.error()) {
        return *loader.error();
    }
    for (const Customer& customer : customers) {
        if (facts.build().customer_id == customer.id) facts.customer = customer;
    }
    for (const Photo& photo : facts.photos) {
        if (const auto path = path_of(shop, photo.digest)) {
            facts.photo_files[photo.id] = QString::fromStdString(*path);
        }
    }
    return Done{};
}

Result<Done> read_account(ShopFile& shop, std::int64_t build_id, BookFacts& facts) {
    auto account = load_account(shop, build_id);
    if (!account) {
        return account.error();
    }
    facts.account = std::move(account).value();
    if (auto state = account_state(*facts.account)) {
        facts.account_state = std::move(state).value();
    }
    facts.currency = currency_of(shop);
    return Done{};
}

TriedSetUp tried(const SetUpRecord& set_up, const Engine& engine,
                 const std::vector<ValveClearance>& lines) {
    TriedSetUp found;
    found.set_up = set_up;
    if (const ValveClearance* line = tightest(lines)) {
        found.tightest = line->position;
        found.least_mm = line->found.minimum->clearance_mm;
    }
    for (const ValveClearance& line : lines) {
        if (line.found.minimum &&
            line.found.minimum->clearance_mm < engine.rod_clearance_limit_mm) {
            found.below_limit.push_back(line.position);
        }
    }
    return found;
}

/// Nothing where the castings don't fit together, or there is no time for it.
std::optional<std::vector<ValveClearance>> lines_of(const Engine& engine,
                                                    const std::stop_token& stop) {
    if (stop.stop_requested()) {
        return std::nullopt;
    }
    auto lines = survey(engine, stop);
    return lines ? std::optional(std::move(lines).value()) : std::nullopt;
}

/// The newest set-up is the one in hand; of those before it only what they came to is kept.
Result<Done> work_out_clearances(ShopFile& shop, std::int64_t build_id, BookFacts& facts,
                                 const std::stop_token& stop) {
    const auto set_ups = load_set_ups(shop, build_id);
    if (!set_ups) {
        return set_ups.error();
    }
    for (const SetUpRecord& set_up : *set_ups) {
        const bool in_hand = set_up.id == set_ups->back().id;
        if (in_hand) facts.set_up = set_up;
        auto engine = make_engine(set_up.fields);
        const auto lines = engine ? lines_of(*engine, stop) : std::nullopt;
        if (!lines) {
            facts.tried.push_back({set_up, {}, {}, {}});
            continue;
        }
        facts.tried.push_back(tried(set_up, *engine, *lines));
        if (in_hand) {
            facts.engine = std::make_shared<const Engine>(std::move(engine).value());
            facts.lines = *lines;
        }
    }
    const ValveClearance* line = facts.tightest_line();
    const Train* train = line != nullptr ? facts.engine->train(line->position) : nullptr;
    if (train != nullptr) {
        if (auto causes = causes_of(*facts.engine, *train)) {
            facts.causes = std::move(causes).value();
        }
    }
    if (facts.set_up) {
        facts.by_hand = found_by_hand(facts.sheets->readings(), facts.set_up->id);
    }
    return Done{};
}

Result<BookFacts> gather_once(ShopFile& shop, std::int64_t build_id, const Moment& moment,
                              const std::stop_token& stop) {
    BookFacts facts;
    auto state = load_build_state(shop, build_id, moment);
    auto sheets = BuildSheets::load(shop, build_id);
    if (!state || !sheets) {
        return !state ? state.error() : sheets.error();
    }
    facts.state = std::move(state).value();
    facts.sheets = std::make_shared<const BuildSheets>(std::move(sheets).value());
    for (const SheetKind& kind : facts.sheets->kinds()) {
        facts.assessed.push_back(facts.sheets->assess(kind, EntryOrder::by_number));
    }
    facts.pulls = sheet_pulls(facts.sheets->facts());
    if (const auto read = read_records(shop, build_id, facts); !read) {
        return read.error();
    }
    if (const auto read = read_account(shop, build_id, facts); !read) {
        return read.error();
    }
    if (const auto worked = work_out_clearances(shop, build_id, facts, stop); !worked) {
        return worked.error();
    }
    auto head = history_head(shop, build_id);
    if (!head) {
        return head.error();
    }
    facts.history_head = std::move(head).value();
    facts.now_utc = moment.now_utc;
    facts.day = moment.today;
    return facts;
}

} // namespace

const ValveClearance* BookFacts::tightest_line() const {
    return engine ? tightest(lines) : nullptr;
}

std::string BookFacts::shop_detail(const std::string& name) const {
    const auto found = std::find_if(shop.begin(), shop.end(),
                                    [&](const ShopDetail& one) { return one.name == name; });
    return found == shop.end() ? std::string() : found->content;
}

std::optional<std::string> BookFacts::service_dates() const {
    if (words.service_dates) {
        return words.service_dates;
    }
    return hand_offs.empty() ? std::nullopt : hand_offs.back().service_dates;
}

std::vector<MissingFact> BookFacts::missing() const {
    std::vector<std::int64_t> gone;
    for (const Photo& photo : photos) {
        if (photo_files.count(photo.id) == 0) gone.push_back(photo.id);
    }
    std::vector<std::pair<ValvePosition, std::optional<Verdict>>> rods;
    for (const ValveClearance& line : lines) {
        const RodClearanceLimits limits{engine->rod_clearance_limit_mm};
        rods.emplace_back(line.position, ruling(line, by_hand, limits));
    }
    return missing_for_book({state.facts, shop, photos, gone, sheets->taken(), engine != nullptr,
                             rods, service_dates()});
}

std::vector<HandedFact> BookFacts::to_keep() const {
    return handed_facts({state.facts.records, sheets->readings(), decisions, lines});
}

std::optional<std::vector<HandedFact>> BookFacts::handed_before() const {
    if (hand_offs.empty() || !hand_offs.back().settings) {
        return std::nullopt;
    }
    auto facts = read_handed_text(*hand_offs.back().settings);
    return facts ? std::optional(std::move(facts).value()) : std::nullopt;
}

Result<BookFacts> gather_book(ShopFile& shop, std::int64_t build_id, const Moment& moment,
                              const HandOffWords& words, const std::stop_token& stop) {
    for (int time = 0; time < most_readings_of_the_shop; ++time) {
        const auto before = last_act(shop);
        if (!before) {
            return before.error();
        }
        auto facts = gather_once(shop, build_id, moment, stop);
        const auto after = last_act(shop);
        if (!facts || !after) {
            return !facts ? facts.error() : after.error();
        }
        if (*before == *after) {
            BookFacts whole = std::move(facts).value();
            whole.last_act = *after;
            whole.words = words;
            return whole;
        }
    }
    return Error{ErrorCode::changed_since, "build", std::to_string(build_id), {}, {}, {}};
}

} // namespace rodway
