#include "app/compare/build_comparison.h"

#include <QString>
#include <algorithm>
#include <map>
#include <utility>

#include "app/work/build_sheets.h"
#include "core/units/typed_amount.h"
#include "core/units/typed_text.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

/// What one build says at one place.
struct Said {
    std::string text;
    std::optional<Interval> number;
};
using SaidAt = std::map<std::string, Said>;

/// Rounding of decimal fractions, relative to the numbers themselves.
constexpr double rounding = 1e-9;

std::string with_unit(const std::string& text, const std::string& unit) {
    const char last = text.empty() ? ' ' : text.back();
    const bool ends_in_digit = (last >= '0' && last <= '9') || last == '.';
    return ends_in_digit && !unit.empty() ? text + ' ' + unit : text;
}

void judge_numbers(ComparedLine& line, const Interval& first, const Interval& second) {
    line.by = second - first;
    const double by = second.middle() - first.middle();
    const double size = std::max(std::abs(first.middle()), std::abs(second.middle()));
    if (std::abs(by) <= rounding * size) {
        line.difference = Difference::none;
    } else if (first.meets(second)) {
        line.difference = Difference::within_doubt;
    } else {
        line.difference = by > 0.0 ? Difference::more : Difference::less;
    }
}

void judge_line(ComparedLine& line, const Said* first, const Said* second) {
    if (first != nullptr) line.first = first->text;
    if (second != nullptr) line.second = second->text;
    if (first == nullptr || second == nullptr) {
        line.difference = first == nullptr ? Difference::second_only : Difference::first_only;
    } else if (first->number && second->number) {
        judge_numbers(line, *first->number, *second->number);
    } else {
        const bool same = QString::fromStdString(first->text)
                              .simplified()
                              .compare(QString::fromStdString(second->text).simplified(),
                                       Qt::CaseInsensitive) == 0;
        line.difference = same ? Difference::none : Difference::other;
    }
}

const Said* at(const SaidAt& said, const std::string& key) {
    const auto found = said.find(key);
    return found == said.end() ? nullptr : &found->second;
}

/// Of one quantity, by position; the positions in the sheet's order.
SaidAt said_of(const SheetLine& line, std::vector<std::string>& order) {
    SaidAt said;
    for (const SheetBox& box : line.boxes) {
        Said here;
        if (box.taken) {
            const Reading& reading = box.taken->reading;
            here.text = with_unit(reading.text, reading.unit);
            here.number = box.taken->range();
            if (here.text.empty()) here.text = "n/m";
        } else if (box.figure) {
            here.text = words::amount(*box.figure, line.quantity).toStdString();
            here.number = box.figure;
        } else {
            continue;
        }
        if (std::find(order.begin(), order.end(), box.position) == order.end()) {
            order.push_back(box.position);
        }
        said.emplace(box.position, std::move(here));
    }
    return said;
}

void compare_readings(const BuildSheets& first, const BuildSheets& second,
                      std::vector<ComparedLine>& lines) {
    for (const SheetKind& kind : first.kinds()) {
        const AssessedSheet a = first.assess(kind, EntryOrder::by_number);
        const AssessedSheet b = second.assess(kind, EntryOrder::by_number);
        for (std::size_t which = 0; which < a.lines.size(); ++which) {
            const Quantity& quantity = a.lines[which].quantity;
            const auto same = std::find_if(
                b.lines.begin(), b.lines.end(),
                [&](const SheetLine& line) { return line.quantity.id == quantity.id; });
            std::vector<std::string> order;
            const SaidAt one = said_of(a.lines[which], order);
            const SaidAt other = same == b.lines.end() ? SaidAt() : said_of(*same, order);
            for (const std::string& position : order) {
                ComparedLine line;
                line.sheet = kind.id;
                line.what = quantity.id;
                line.position = position;
                line.quantity = quantity;
                judge_line(line, at(one, position), at(other, position));
                lines.push_back(std::move(line));
            }
        }
    }
}

/// A length or plain number of a set-up in millimetres or its own unit; nothing for words.
std::optional<Interval> number_of(const TypedValue& value) {
    if (value.unit == "in" || value.unit == "mm") {
        const auto length = parse_amount(value.text, Dimension::length, value.unit);
        if (length) return Interval{length->low, length->high};
        return std::nullopt;
    }
    const auto number = parse_number(value.text);
    if (number) return Interval::exactly(*number);
    return std::nullopt;
}

Result<SaidAt> set_up_of(ShopFile& shop, std::int64_t build) {
    const auto set_up = newest_set_up(shop, build);
    if (!set_up) return set_up.error();
    SaidAt said;
    if (!*set_up) return said;
    for (const auto& [path, value] : (*set_up)->fields) {
        said.emplace(path, Said{with_unit(value.text, value.unit), number_of(value)});
    }
    return said;
}

/// Parts of one role or item at one position, several of them in one line.
Result<SaidAt> parts_of(ShopFile& shop, std::int64_t build) {
    const auto parts = load_records<PartRecord>(shop, build);
    if (!parts) return parts.error();
    SaidAt said;
    for (const PartRecord& part : *parts) {
        const QString name = QString::fromStdString(part.role.value_or(part.item));
        const std::string key =
            name.simplified().toLower().toStdString() + '\n' + part.position.value_or("");
        std::string text = part.item;
        for (const auto& more : {part.size, part.marking, part.supplier}) {
            if (more) text += ", " + *more;
        }
        if (part.count) text = std::to_string(*part.count) + " x " + text;
        std::string& there = said[key].text;
        there += (there.empty() ? "" : "; ") + text;
    }
    return said;
}

void compare_maps(ComparedPart part, const SaidAt& first, const SaidAt& second,
                  std::vector<ComparedLine>& lines) {
    SaidAt all = first;
    all.insert(second.begin(), second.end());
    for (const auto& [key, any] : all) {
        ComparedLine line;
        line.part = part;
        const std::size_t cut = key.find('\n');
        line.what = key.substr(0, cut);
        if (cut != std::string::npos) line.position = key.substr(cut + 1);
        judge_line(line, at(first, key), at(second, key));
        line.by.reset(); // units of a set-up's fields differ from one to the next
        lines.push_back(std::move(line));
    }
}

} // namespace

Result<BuildComparison> compare_builds(ShopFile& shop, std::int64_t first, std::int64_t second) {
    BuildComparison both;
    const auto a = load_build(shop, first);
    const auto b = load_build(shop, second);
    if (!a || !b) return !a ? a.error() : b.error();
    both.first = *a;
    both.second = *b;
    const auto sheets_a = BuildSheets::load(shop, first);
    const auto sheets_b = BuildSheets::load(shop, second);
    if (!sheets_a || !sheets_b) return !sheets_a ? sheets_a.error() : sheets_b.error();
    compare_readings(*sheets_a, *sheets_b, both.lines);
    both.own_titles = sheets_a->own_titles();
    const auto set_up_a = set_up_of(shop, first);
    const auto set_up_b = set_up_of(shop, second);
    if (!set_up_a || !set_up_b) return !set_up_a ? set_up_a.error() : set_up_b.error();
    compare_maps(ComparedPart::set_up, *set_up_a, *set_up_b, both.lines);
    const auto parts_a = parts_of(shop, first);
    const auto parts_b = parts_of(shop, second);
    if (!parts_a || !parts_b) return !parts_a ? parts_a.error() : parts_b.error();
    compare_maps(ComparedPart::parts, *parts_a, *parts_b, both.lines);
    return both;
}

} // namespace rodway
