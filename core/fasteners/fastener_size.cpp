#include "core/fasteners/fastener_size.h"

#include <cmath>
#include <utility>

#include "core/fasteners/thread_reader.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

Error of_fastener(Error error) {
    error.field = "fastener";
    return error;
}

/// A bare whole number has the thread's unit here: nobody asks for a bolt of 3 thousandths.
Result<double> length_mm(const std::string& text, ThreadSystem system) {
    const bool inch = system == ThreadSystem::inch;
    const auto typed = parse_length(text, inch ? BareNumber::inches : BareNumber::millimetres);
    if (typed && !typed->is_interval()) {
        return typed->low.in_mm();
    }
    const auto number = parse_number(text);
    if (!typed && typed.error().code == ErrorCode::unit_needed && number) {
        return inch ? Length::inches(*number).in_mm() : *number;
    }
    Error error = typed ? Error{ErrorCode::not_a_length, {}, text, {}, {}, {}} : typed.error();
    error.field = "length";
    return error;
}

/// The thread that a bare whole number behind the x could mean, as 16 in "3/8x16".
std::optional<Thread> also_a_thread(const std::string& size, const std::string& length) {
    const auto number = parse_number(length);
    for (const Thread& thread : threads_of(size)) {
        if (thread.system == ThreadSystem::inch && number &&
            std::abs(Length::mm_per_inch / thread.pitch_mm - *number) < 1e-6) {
            return thread;
        }
    }
    return std::nullopt;
}

} // namespace

Result<FastenerSize> parse_fastener_size(std::string_view text) {
    ThreadReader reader(text);
    if (reader.at_end()) {
        return Error{ErrorCode::empty_text, "fastener", std::string(text), {}, {}, {}};
    }
    if (!reader.take_size()) {
        return of_fastener(reader.no_thread());
    }
    if (!reader.take_pitch()) {
        return of_fastener(reader.refusal());
    }
    const auto length = reader.take_length();
    if (!reader.at_end()) {
        return of_fastener(reader.no_thread());
    }
    if (!reader.thread() && !length) {
        return of_fastener(reader.refusal());
    }
    FastenerSize fastener;
    fastener.system = reader.system();
    fastener.size = reader.size();
    fastener.thread = reader.thread();
    fastener.diameter_mm = threads_of(reader.size()).front().diameter_mm;
    if (!length) {
        return fastener;
    }
    const auto mm = length_mm(*length, fastener.system);
    if (!mm) {
        return mm.error();
    }
    const auto other = fastener.thread ? std::nullopt : also_a_thread(fastener.size, *length);
    if (other && length->find('"') == std::string::npos) {
        return Error{ErrorCode::not_a_choice,
                     "fastener",
                     std::string(text),
                     other->name + " " + fastener.size + "x" +
                         exact_text(Length::mm(*mm).in_inches()) + "in",
                     {},
                     {}};
    }
    if (auto bad = outside("length", *mm, {1.0, 1000.0, "mm"})) {
        return *bad;
    }
    fastener.length_mm = *mm;
    return fastener;
}

} // namespace rodway
