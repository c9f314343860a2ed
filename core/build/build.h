#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

/// One customer's engine on the bench.
struct Build {
    std::int64_t id = 0;
    std::string name;                    ///< what the shop calls it
    std::string customer;                ///< as written on the job; see also `customer_id`
    std::string engine;                  ///< family, size, casting, as the shop writes it
    std::optional<std::string> promised; ///< ISO date that stands now; see `Promise`
    std::optional<std::string> note;
    std::optional<std::string> archived; ///< UTC time when it was put away
    std::optional<std::int64_t> customer_id = {};
    std::optional<std::string> job_number = {};
    std::optional<std::string> use = {}; ///< street, towing, a boat, ...
    std::optional<std::string> fuel = {};
    std::optional<std::string> speed_range = {};  ///< engine speeds it is built for, as told
    std::optional<std::string> target_power = {}; ///< as told, with its unit
    std::optional<std::string> scope = {};        ///< what is to be done
    std::optional<std::string> exclusions = {};   ///< what is not
    std::optional<std::string> state = {};        ///< what it waits for, in the shop's words
    std::optional<std::string> terms = {};        ///< terms accepted, by whom and when
    std::optional<std::string> plan = {};         ///< word of the stage plan it began with
};

/// A number cast or stamped into the engine, and where it stands.
struct CastingNumber {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::string position; ///< block, left head, crank, ...
    std::string number;
    std::optional<std::string> date_code;
    std::optional<std::string> note;
};

/// A date that was given to the customer, and why it had to move.
struct Promise {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::string promised; ///< ISO date
    std::optional<std::string> reason;
    std::string told_at; ///< UTC
};

/// The engine came back: what for, what was found, what was done.
struct Visit {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::string visited; ///< ISO date
    std::string reason;
    std::optional<std::string> found;
    std::optional<std::string> done;
};

/// A build book as it was given away. Never changed afterwards: a later one is a new record.
struct HandOff {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    int version = 1;
    std::optional<std::string> book_digest; ///< SHA-256 of the book's file, hexadecimal
    std::string history_head; ///< head of the build's chain of digests, as printed in the book
    std::string program_version;
    std::optional<std::string> given_to;
    std::string given_at;                     ///< UTC
    std::optional<std::string> settings;      ///< the settings card as it was given
    std::optional<std::string> service_dates; ///< when to come back, and for what
    std::optional<std::string> signature;     ///< who signed for it
    std::optional<std::string> note;
};

} // namespace rodway
