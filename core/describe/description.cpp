#include "core/describe/description.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>

#include "core/engine/field_reader.h"
#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr std::string_view root = "described/";
constexpr std::array<std::string_view, 4> source_words{"measured", "from_the_box", "assumed",
                                                       "common_practice"};
constexpr std::array<DoubtSource, 4> sources{DoubtSource::measured, DoubtSource::from_the_box,
                                             DoubtSource::assumed, DoubtSource::common_practice};

std::string kind_word(ValveKind kind) {
    return kind == ValveKind::intake ? "intake" : "exhaust";
}

std::string other_word(ValveKind kind) {
    return kind == ValveKind::intake ? "exhaust" : "intake";
}

std::string path_of(std::string_view owner, const EngineDimension& dimension,
                    std::string_view leaf) {
    return std::string(root) + std::string(owner) + "/" + std::string(dimension.name) + "/" +
           std::string(leaf);
}

Error limits_missed(const EngineDimension& dimension, std::string_view path,
                    const TypedValue& typed) {
    Error error = bad_field(ErrorCode::out_of_range, path, typed.text);
    if (dimension.angle) {
        error.limits = Limits{dimension.low, dimension.high, "deg"};
    } else {
        const double unit = typed.unit == "mm" ? 1.0 : Length::mm_per_inch;
        error.limits =
            Limits{dimension.low / unit, dimension.high / unit, typed.unit == "mm" ? "mm" : "in"};
    }
    return error;
}

/// Of a bank, the cylinders that stand in it, by their numbers.
std::map<std::string, std::vector<int>> cylinders_by_bank(const SetUpFields& fields) {
    std::map<std::string, std::vector<int>> rows;
    for (const auto& [path, value] : fields) {
        const auto parts = path_parts(path);
        if (parts.size() == 3 && parts[0] == "cylinders" && parts[2] == "bank") {
            if (const auto number = parse_number(parts[1])) {
                rows[value.text].push_back(static_cast<int>(*number));
            }
        }
    }
    for (auto& [bank, numbers] : rows) {
        std::sort(numbers.begin(), numbers.end());
    }
    return rows;
}

/// "E I I E": one letter for each valve, front to rear; what stands between them is passed over.
std::optional<std::vector<ValveKind>> valve_kinds(const std::string& text) {
    std::vector<ValveKind> kinds;
    for (const char letter : text) {
        if (letter == 'I' || letter == 'i') {
            kinds.push_back(ValveKind::intake);
        } else if (letter == 'E' || letter == 'e') {
            kinds.push_back(ValveKind::exhaust);
        } else if (letter != ' ' && letter != '-' && letter != ',') {
            return std::nullopt;
        }
    }
    return kinds;
}

/// The upper mouth's dimension beside a lower one's, or nothing.
const EngineDimension* upper_gap(const EngineDimension& dimension) {
    return dimension.name == "gap_front_bottom"      ? dimension_called("gap_front_top")
           : dimension.name == "gap_outboard_bottom" ? dimension_called("gap_outboard_top")
                                                     : nullptr;
}

} // namespace

bool is_described(const SetUpFields& fields) {
    const auto next = fields.lower_bound(std::string(root));
    return next != fields.end() && next->first.compare(0, root.size(), root) == 0;
}

// FNV-1a, 64 bits (RFC 9923).
std::string described_mark(const SetUpFields& fields) {
    std::uint64_t mark = 14695981039346656037U;
    const auto take = [&mark](std::string_view text) {
        for (const char letter : text) {
            mark = (mark ^ static_cast<unsigned char>(letter)) * 1099511628211U;
        }
        mark = (mark ^ 0xFFU) * 1099511628211U; // no text has this byte: where one ends
    };
    for (auto at = fields.lower_bound(std::string(root));
         at != fields.end() && at->first.compare(0, root.size(), root) == 0; ++at) {
        take(at->first);
        take(at->second.text);
        take(at->second.unit);
    }
    std::array<char, 16> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), mark, 16).ptr;
    return {digits.data(), end};
}

std::string described_path(std::string_view owner, const EngineDimension& dimension) {
    return path_of(owner, dimension, dimension.angle ? "angle" : "size");
}

std::string described_doubt_path(std::string_view owner, const EngineDimension& dimension) {
    return path_of(owner, dimension, dimension.angle ? "angle_doubt" : "doubt");
}

std::string described_source_path(std::string_view owner, const EngineDimension& dimension) {
    return path_of(owner, dimension, "source");
}

std::optional<std::vector<int>> listed_cylinders(const std::string& text) {
    std::vector<int> numbers;
    std::string digits;
    for (const char letter : text + " ") {
        if (letter >= '0' && letter <= '9' && digits.size() < 3) {
            digits += letter;
        } else if (letter == ' ' || letter == ',' || letter == '-') {
            if (!digits.empty()) {
                numbers.push_back(std::stoi(digits));
            }
            digits.clear();
        } else {
            return std::nullopt;
        }
    }
    return numbers;
}

std::string plain_digits(double value) {
    std::array<char, 64> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::fixed, 15);
    return {buffer.data(), end.ptr};
}

Result<double> dimension_value(const EngineDimension& dimension, std::string_view path,
                               const TypedValue& typed) {
    double value = 0.0;
    if (dimension.angle) {
        const auto number = parse_number(typed.text);
        if (!number) {
            return bad_field(ErrorCode::not_an_angle, path, typed.text);
        }
        value = *number;
    } else {
        const auto length = parse_length(typed.text + " " + typed.unit, BareNumber::refused);
        if (!length || length->is_interval()) {
            return bad_field(ErrorCode::not_a_length, path, typed.text);
        }
        value = length->low.in_mm();
    }
    if (!(value >= dimension.low && value <= dimension.high)) {
        return limits_missed(dimension, path, typed);
    }
    return value;
}

Result<Description> Description::read(const SetUpFields& fields) {
    Description description(fields);
    auto rows = cylinders_by_bank(fields);
    for (auto& [bank, cylinders] : rows) {
        description.banks_.push_back(bank);
        const std::string path = std::string(root) + bank + "/cylinders";
        if (const auto order = fields.find(path); order != fields.end()) {
            const auto listed = listed_cylinders(order->second.text);
            if (!listed || !std::is_permutation(listed->begin(), listed->end(), cylinders.begin(),
                                                cylinders.end())) {
                return bad_field(ErrorCode::not_a_choice, path, order->second.text);
            }
            cylinders = *listed;
        }
        if (auto error = description.read_row(bank, cylinders)) {
            return *error;
        }
    }
    if (auto error = description.check_names()) {
        return *error;
    }
    return description;
}

std::optional<Error> Description::read_row(const std::string& bank,
                                           const std::vector<int>& cylinders) {
    const std::string path = std::string(root) + bank + "/valves";
    const auto found = fields_->find(path);
    if (found == fields_->end()) {
        return bad_field(ErrorCode::missing_field, path, {});
    }
    const auto kinds = valve_kinds(found->second.text);
    const bool fits = kinds && kinds->size() == 2 * cylinders.size();
    for (std::size_t at = 0; fits && at < cylinders.size(); ++at) {
        const ValveKind front = (*kinds)[2 * at];
        if (front == (*kinds)[2 * at + 1]) {
            return bad_field(ErrorCode::not_a_choice, path, found->second.text, "IE EI");
        }
        const int in_row = static_cast<int>(at);
        valves_.push_back({{cylinders[at], front, 1}, bank, in_row, -1.0});
        valves_.push_back({{cylinders[at], (*kinds)[2 * at + 1], 1}, bank, in_row, 1.0});
    }
    return fits ? std::nullopt
                : std::optional(
                      bad_field(ErrorCode::not_a_choice, path, found->second.text, "IE EI"));
}

std::optional<Error> Description::check_names() const {
    for (auto at = fields_->lower_bound(std::string(root));
         at != fields_->end() && at->first.compare(0, root.size(), root) == 0; ++at) {
        const auto parts = path_parts(at->first);
        const std::string& owner = parts[1];
        const auto position = parse_position(owner);
        const bool known = owner == "intake" || owner == "exhaust" ||
                           std::find(banks_.begin(), banks_.end(), owner) != banks_.end() ||
                           (position && position_name(*position) == owner && valve(*position));
        if (!known || (parts.size() == 4 && dimension_called(parts[2]) == nullptr)) {
            return bad_field(ErrorCode::unknown_field, at->first, at->second.text);
        }
    }
    return std::nullopt;
}

const DescribedValve* Description::valve(const ValvePosition& position) const {
    const auto found =
        std::find_if(valves_.begin(), valves_.end(),
                     [&](const DescribedValve& valve) { return valve.position == position; });
    return found == valves_.end() ? nullptr : &*found;
}

std::vector<std::string> Description::owners(const EngineDimension& dimension,
                                             const DescribedValve& valve) const {
    const std::string own = position_name(valve.position);
    const std::string kind = kind_word(valve.position.kind);
    std::vector<std::string> found{own};
    switch (dimension.owner) {
        case DimensionOwner::bank:
            found.push_back(valve.bank);
            found.insert(found.end(), banks_.begin(), banks_.end());
            break;
        case DimensionOwner::kind:
            found.insert(found.end(), {kind, other_word(valve.position.kind)});
            break;
        case DimensionOwner::valve: {
            // Like valves first: of its kind and bank, nearest along the crank; then the other
            // bank's.
            std::vector<const DescribedValve*> mates;
            for (const DescribedValve& mate : valves_) {
                if (mate.position != valve.position && mate.position.kind == valve.position.kind) {
                    mates.push_back(&mate);
                }
            }
            std::stable_sort(mates.begin(), mates.end(), [&](const auto* a, const auto* b) {
                const auto far = [&](const DescribedValve& mate) {
                    return std::pair(mate.bank != valve.bank, std::abs(mate.in_row - valve.in_row));
                };
                return far(*a) < far(*b);
            });
            for (const DescribedValve* mate : mates) {
                found.push_back(position_name(mate->position));
            }
            break;
        }
    }
    return found;
}

Result<DescribedSize> Description::given(const EngineDimension& dimension,
                                         const std::string& owner) const {
    const std::string path = described_path(owner, dimension);
    const auto found = fields_->find(path);
    if (found == fields_->end()) {
        return DescribedSize{};
    }
    const auto value = dimension_value(dimension, path, found->second);
    if (!value) {
        return value.error();
    }
    DescribedSize size{SizeStand::given,      *value, dimension.usual_doubt,
                       DoubtSource::measured, owner,  owner};
    if (const auto source = fields_->find(described_source_path(owner, dimension));
        source != fields_->end()) {
        const auto word = std::find(source_words.begin(), source_words.end(), source->second.text);
        if (word == source_words.end()) {
            return bad_field(ErrorCode::not_a_choice, source->first, source->second.text,
                             "measured from_the_box assumed common_practice");
        }
        size.source = sources[static_cast<std::size_t>(word - source_words.begin())];
    }
    if (size.source == DoubtSource::assumed) {
        size.doubt = dimension.assumed_doubt;
    }
    const std::string doubt_path = described_doubt_path(owner, dimension);
    if (const auto doubt = fields_->find(doubt_path); doubt != fields_->end()) {
        EngineDimension any = dimension;
        any.low = 0.0;
        any.high = dimension.high - dimension.low;
        const auto stated = dimension_value(any, doubt_path, doubt->second);
        if (!stated) {
            return stated.error();
        }
        size.doubt = *stated;
    }
    return size;
}

Result<DescribedSize> Description::unmeasured_gap(const EngineDimension& dimension,
                                                  const DescribedValve& valve) const {
    const std::string own = position_name(valve.position);
    const bool front = dimension.name.substr(0, 9) == "gap_front";
    const bool long_way = choice("tube_shape", valve) == "obround" &&
                          front == (choice("tube_long", valve) == "along_crank");
    const auto bore = size(*dimension_called(long_way ? "tube_long_bore" : "tube_bore"), valve);
    const auto rod = size(*dimension_called("rod_diameter"), valve);
    if (!bore || !rod) {
        return !bore ? bore.error() : rod.error();
    }
    const bool known = bore->stand != SizeStand::missing && rod->stand != SizeStand::missing;
    const double half_mm = std::max(0.0, known ? (bore->value - rod->value) / 2.0 : 0.0);
    return DescribedSize{known ? SizeStand::assumed : SizeStand::missing,
                         half_mm,
                         std::min(half_mm, dimension.assumed_doubt),
                         DoubtSource::assumed,
                         own,
                         {}};
}

Result<DescribedSize> Description::size(const EngineDimension& dimension,
                                        const DescribedValve& valve) const {
    const std::string own = position_name(valve.position);
    if (const EngineDimension* upper = upper_gap(dimension);
        upper && !fields_->contains(described_path(own, dimension)) &&
        fields_->contains(described_path(own, *upper))) {
        auto as_above = given(*upper, own);
        if (as_above) {
            as_above = DescribedSize{SizeStand::assumed,
                                     as_above->value,
                                     dimension.assumed_doubt,
                                     DoubtSource::assumed,
                                     own,
                                     {}};
        }
        return as_above;
    }
    const std::string asked = dimension.owner == DimensionOwner::bank ? valve.bank
                              : dimension.owner == DimensionOwner::kind
                                  ? kind_word(valve.position.kind)
                                  : own;
    for (const std::string& owner : owners(dimension, valve)) {
        auto size = given(dimension, owner);
        if (!size) {
            return size.error();
        }
        if (size->stand == SizeStand::missing) {
            continue;
        }
        if (owner == own || owner == asked) {
            return size;
        }
        return DescribedSize{
            SizeStand::mate,      size->value, std::max(size->doubt, dimension.assumed_doubt),
            DoubtSource::assumed, asked,       owner};
    }
    if (dimension.owner == DimensionOwner::valve) {
        return unmeasured_gap(dimension, valve);
    }
    if (!dimension.assumed) {
        return DescribedSize{SizeStand::missing, 0.0, 0.0, DoubtSource::assumed, asked, {}};
    }
    return DescribedSize{SizeStand::assumed,
                         *dimension.assumed,
                         dimension.assumed_doubt,
                         DoubtSource::assumed,
                         asked,
                         {}};
}

namespace {

std::string described_choice_path(std::string_view owner, std::string_view name) {
    std::string path(root);
    path.append(owner).append(1, '/').append(name);
    return path;
}

} // namespace

bool Description::has(const EngineDimension& dimension, const DescribedValve& valve) const {
    struct OnlyWith {
        std::string_view dimension;
        const char* choice;
        std::string_view word;
    };
    static constexpr std::array only_with{OnlyWith{"preload", "lifter", "hydraulic"},
                                          OnlyWith{"plunger_travel", "lifter", "hydraulic"},
                                          OnlyWith{"adjuster_ball", "top_end", "cup"},
                                          OnlyWith{"cup_depth", "top_end", "cup"},
                                          OnlyWith{"cup_outside", "top_end", "cup"},
                                          OnlyWith{"tube_long_bore", "tube_shape", "obround"},
                                          OnlyWith{"intake_gasket", "tube_casting", "intake"},
                                          OnlyWith{"intake_face_lean", "tube_casting", "intake"}};
    return std::all_of(only_with.begin(), only_with.end(), [&](const OnlyWith& one) {
        return one.dimension != dimension.name || choice(one.choice, valve) == one.word;
    });
}

std::string Description::choice(const std::string& name, const DescribedValve& valve) const {
    const std::array<std::string, 4> owners{position_name(valve.position), valve.bank,
                                            kind_word(valve.position.kind), "intake"};
    for (const std::string& owner : owners) {
        const auto found = fields_->find(described_choice_path(owner, name));
        if (found != fields_->end()) {
            return found->second.text;
        }
    }
    const FieldSpec* spec = field_spec(described_choice_path("intake", name));
    RODWAY_ASSERT(spec != nullptr);
    return std::string(spec->choices.substr(0, spec->choices.find(' ')));
}

} // namespace rodway
