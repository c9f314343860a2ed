#include "core/build/part_check.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/build/money.h"
#include "core/build/part_role.h"
#include "core/build/word_list.h"
#include "core/fasteners/fastener_size.h"
#include "core/fasteners/tightening_steps.h"
#include "core/sheets/day.h"
#include "core/units/typed_amount.h"

namespace rodway {
namespace {

using Text = std::optional<std::string>;

struct Field {
    const char* name;
    Text PartRecord::*text;
};

constexpr std::array<Field, 16> lines{Field{"size", &PartRecord::size},
                                      {"marking", &PartRecord::marking},
                                      {"position", &PartRecord::position},
                                      {"supplier", &PartRecord::supplier},
                                      {"order_number", &PartRecord::order_number},
                                      {"cost", &PartRecord::cost},
                                      {"weight", &PartRecord::weight},
                                      {"failed", &PartRecord::failed},
                                      {"note", &PartRecord::note},
                                      {"role", &PartRecord::role},
                                      {"condition", &PartRecord::condition},
                                      {"thread", &PartRecord::thread},
                                      {"length", &PartRecord::length},
                                      {"drive", &PartRecord::drive},
                                      {"lubricant", &PartRecord::lubricant},
                                      {"tightening", &PartRecord::tightening}};

/// Days on which something happens, or may happen later.
constexpr std::array<Field, 3> any_days{Field{"needed", &PartRecord::needed},
                                        {"promised", &PartRecord::promised},
                                        {"kept_until", &PartRecord::kept_until}};
/// Days on which something has happened; the first four in this order.
constexpr std::array<Field, 5> past_days{Field{"ordered", &PartRecord::ordered},
                                         {"received", &PartRecord::received},
                                         {"measured", &PartRecord::measured},
                                         {"fitted", &PartRecord::fitted},
                                         {"returned", &PartRecord::returned}};
constexpr std::size_t days_in_order = 4;

Error wrong(std::string_view field, std::string_view value, std::string expected) {
    return Error{
        ErrorCode::wrong_type, std::string(field), std::string(value), std::move(expected), {}, {}};
}

Error in_field(Error error, std::string_view field) {
    error.field = field;
    return error;
}

Result<Done> keep_day(Text& text, const char* name) {
    if (!text) {
        return Done{};
    }
    const std::string typed = without_blanks(*text);
    if (typed.empty()) {
        text.reset();
        return Done{};
    }
    auto day = parse_day(typed);
    if (!day) {
        return Error{ErrorCode::not_a_date, name, typed, {}, {}, {}};
    }
    text = std::move(day);
    return Done{};
}

Result<Done> keep_lines(PartRecord& part) {
    auto item = kept_line(part.item, "item");
    if (!item) {
        return item.error();
    }
    part.item = std::move(item).value();
    if (part.item.empty()) {
        return Error{ErrorCode::empty_text, "item", {}, {}, {}, {}};
    }
    for (const Field& field : lines) {
        Text& text = part.*field.text;
        auto line = kept_line(text.value_or(std::string()), field.name);
        if (!line) {
            return line.error();
        }
        text = line->empty() ? Text() : Text(*line);
    }
    return Done{};
}

Result<Done> keep_days(PartRecord& part, std::string_view today) {
    for (const Field& field : any_days) {
        if (const auto kept = keep_day(part.*field.text, field.name); !kept) {
            return kept;
        }
    }
    Text before;
    for (std::size_t which = 0; which < past_days.size(); ++which) {
        const Field& field = past_days[which];
        Text& day = part.*field.text;
        if (const auto kept = keep_day(day, field.name); !kept) {
            return kept;
        }
        // ISO days stand in the order of the calendar.
        if (day && *day > today) {
            return wrong(field.name, *day, "day_gone_by");
        }
        if (which < days_in_order && day) {
            if (before && *day < *before) {
                return wrong(field.name, *day, "day_order");
            }
            before = day;
        }
    }
    return Done{};
}

Result<Done> keep_amounts(PartRecord& part) {
    if (part.cost) {
        const auto cost = parse_money(*part.cost);
        if (!cost) {
            return in_field(cost.error(), "cost");
        }
        if (*cost < Money{}) {
            return wrong("cost", *part.cost, "not_below_zero");
        }
        part.cost = money_text(*cost);
    }
    if (part.weight) {
        const auto weight = parse_amount(*part.weight, Dimension::mass, "g");
        if (!weight) {
            return in_field(weight.error(), "weight");
        }
        if (!(weight->low > 0.0)) {
            return wrong("weight", *part.weight, "above_zero");
        }
        // Without a unit behind it, it would be another weight where kilograms are typed.
        if (parse_amount(*part.weight, Dimension::mass, "kg")->low != weight->low) {
            *part.weight += " g";
        }
    }
    return Done{};
}

/// "3/8-16 x 2-1/2" in the box for the thread says the length too.
void part_thread_from_length(PartRecord& part) {
    if (parse_thread(*part.thread) || part.length) {
        return;
    }
    const auto size = parse_fastener_size(*part.thread);
    if (!size || !size->thread || !size->length_mm) {
        return;
    }
    const bool inch = size->system == ThreadSystem::inch;
    constexpr double steps = 1e6; // a fraction of an inch comes out even again
    const double length = inch ? Length::mm(*size->length_mm).in_inches() : *size->length_mm;
    part.length = exact_text(std::round(length * steps) / steps) + (inch ? " in" : " mm");
    part.thread = size->thread->name;
}

Result<Done> keep_length(PartRecord& part) {
    const bool bare = !parse_length(*part.length, BareNumber::refused).ok();
    const auto length = parse_length(*part.length, BareNumber::inches);
    if (!length) {
        return in_field(length.error(), "length");
    }
    if (length->is_interval() || length->firmness != Firmness::plain) {
        return wrong("length", *part.length, "one_size");
    }
    const Length low = Length::mm(1.0);
    const Length high = Length::mm(1000.0);
    if (length->low < low || length->low > high) {
        Error error{ErrorCode::out_of_range, "length", *part.length, {}, {}, {}};
        error.limits = length->inch ? Limits{low.in_inches(), high.in_inches(), "in"}
                                    : Limits{low.in_mm(), high.in_mm(), "mm"};
        return error;
    }
    if (bare) {
        *part.length += " in";
    }
    return Done{};
}

Result<Done> keep_fastener(PartRecord& part) {
    if (part.thread) {
        part_thread_from_length(part);
        const auto thread = parse_thread(*part.thread);
        if (!thread) {
            return in_field(thread.error(), "thread");
        }
    }
    if (part.length) {
        if (const auto kept = keep_length(part); !kept) {
            return kept;
        }
    }
    if (part.tightening) {
        const auto steps = parse_tightening_steps(*part.tightening, "lb-ft");
        if (!steps) {
            return in_field(steps.error(), "tightening");
        }
    }
    return Done{};
}

} // namespace

Result<std::string> kept_line(std::string_view text, std::string_view field) {
    std::string line = without_blanks(text);
    const bool prints = std::none_of(line.begin(), line.end(), [](char c) {
        const auto code = static_cast<unsigned char>(c);
        return code < ' ' || code == 0x7F;
    });
    if (!prints || line.find("\u2028") != std::string::npos ||
        line.find("\u2029") != std::string::npos) {
        return wrong(field, line, "one_line");
    }
    // Signs, not bytes: those that go on from the one before don't count.
    const auto signs = std::count_if(line.begin(), line.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    });
    if (static_cast<std::size_t>(signs) > longest_line) {
        return wrong(field, line, "shorter");
    }
    return line;
}

Result<int> parse_count(std::string_view text) {
    const std::string typed = without_blanks(text);
    const bool digits =
        !typed.empty() && typed.size() <= 4 &&
        std::all_of(typed.begin(), typed.end(), [](char c) { return c >= '0' && c <= '9'; });
    const int count = digits ? std::stoi(typed) : 0;
    return count > 0 ? Result<int>(count) : wrong("count", typed, "count");
}

Result<PartRecord> checked_part(PartRecord part, std::string_view today) {
    if (const auto kept = keep_lines(part); !kept) {
        return kept.error();
    }
    if (part.role && !is_part_role(*part.role)) {
        const std::vector<std::string> all(part_roles().begin(), part_roles().end());
        return Error{ErrorCode::not_a_choice, "role", *part.role, joined(all, " "), {}, {}};
    }
    for (const auto& kept : {keep_amounts(part), keep_fastener(part), keep_days(part, today)}) {
        if (!kept) {
            return kept.error();
        }
    }
    return part;
}

Result<PartRecord> with_checked_days(PartRecord part, std::string_view today) {
    const auto kept = keep_days(part, today);
    return kept ? Result<PartRecord>(std::move(part)) : Result<PartRecord>(kept.error());
}

} // namespace rodway
