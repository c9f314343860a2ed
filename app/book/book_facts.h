#pragma once

#include <QString>
#include <map>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "app/valvetrain/by_hand.h"
#include "app/work/build_sheets.h"
#include "app/work/build_state.h"
#include "core/build/account_state.h"
#include "core/clearance/causes.h"
#include "core/clearance/survey.h"
#include "core/handoff/handed_facts.h"
#include "core/handoff/missing.h"
#include "core/sheets/kinds/sheet_pulls.h"

namespace rodway {

/// One of a build's set-ups, and what it came to.
struct TriedSetUp {
    SetUpRecord set_up;
    std::optional<ValvePosition> tightest; ///< nothing: no valve has an answer
    std::optional<double> least_mm;
    std::vector<ValvePosition> below_limit;
};

/// What is given away with a book, beside what is recorded: typed when it is handed over.
struct HandOffWords {
    std::optional<std::string> given_to;
    std::optional<std::string> service_dates;
    std::optional<std::string> note;
};

/// All that a build's book says, from one reading of the shop.
struct BookFacts {
    BuildState state; ///< records, holds, stages
    std::shared_ptr<const BuildSheets> sheets;
    std::vector<AssessedSheet> assessed; ///< every kind, in their order

    std::vector<ShopDetail> shop;
    std::optional<Customer> customer;
    std::vector<Person> people;
    std::vector<Instrument> instruments;
    std::vector<CastingNumber> castings;
    std::vector<Promise> promises;
    std::vector<Visit> visits;
    std::vector<Decision> decisions;
    std::vector<Note> notes;
    std::vector<Photo> photos;
    std::map<std::int64_t, QString> photo_files; ///< by id; those whose file is there
    std::vector<HandOff> hand_offs;
    std::optional<AccountRecords> account;
    std::optional<AccountState> account_state; ///< nothing: an amount that can't be read
    std::string currency;

    std::optional<SetUpRecord> set_up; ///< the one in hand
    std::shared_ptr<const Engine> engine;
    std::vector<ValveClearance> lines; ///< of every valve with a train
    ByHand by_hand;
    std::optional<MinimumCauses> causes; ///< of the tightest
    std::vector<TriedSetUp> tried;       ///< every set-up, oldest first
    std::vector<SheetPull> pulls;

    std::string history_head;  ///< of the chain of digests
    std::int64_t last_act = 0; ///< of the shop, when it was read
    std::string now_utc;
    std::string day;
    HandOffWords words;

    [[nodiscard]] const Build& build() const { return state.facts.records.build; }
    [[nodiscard]] const ValveClearance* tightest_line() const;
    /// A line of the shop's papers; empty if it isn't there.
    [[nodiscard]] std::string shop_detail(const std::string& name) const;
    [[nodiscard]] std::vector<MissingFact> missing() const;
    /// The service dates that are given with this book, else those of the last one.
    [[nodiscard]] std::optional<std::string> service_dates() const;
    [[nodiscard]] std::vector<HandedFact> to_keep() const;
    /// What the book before said; nothing before the first one, or where it kept no facts.
    [[nodiscard]] std::optional<std::vector<HandedFact>> handed_before() const;
};

/// Reads the shop once: where somebody writes meanwhile, again. Errors: those of reading the file;
/// no_such_record; changed_since if the file didn't hold still. A stop leaves out clearances of
/// set-ups that weren't worked out yet.
Result<BookFacts> gather_book(ShopFile& shop, std::int64_t build_id, const Moment& moment,
                              const HandOffWords& words = {}, const std::stop_token& stop = {});

} // namespace rodway
