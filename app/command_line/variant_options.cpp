#include "app/command_line/variant_options.h"

#include <algorithm>
#include <cctype>
#include <functional>

#include "app/command_line/build_commands.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::string trimmed(const std::string& text) {
    const auto from = text.find_first_not_of(" \t");
    return from == std::string::npos ? std::string()
                                     : text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return text;
}

/// One word that may be typed: what it changes, and the sizes that it has as it stands.
struct VariantWord {
    std::string word;
    std::function<void(Variant&, double change_mm)> set;
    std::vector<double> stands_mm; ///< of every train or bank; empty if the set-up doesn't say
    bool plain_number = false;     ///< a ratio: no length
};

VariantWord word_of_trains(const Engine& engine, const char* word, double Variant::*member,
                           const std::function<double(const Train&)>& size_mm) {
    VariantWord made{
        word, [member](Variant& variant, double change_mm) { variant.*member = change_mm; }, {}};
    for (const Train& train : engine.trains) {
        if (size_mm) {
            made.stands_mm.push_back(size_mm(train));
        }
    }
    return made;
}

/// One bank's gasket as it stands.
struct BankGasket {
    bool there = false;
    std::optional<double> stated_mm; ///< its thickness, if the set-up says
};

/// A gasket of every bank, then of each: what is said of one bank is set after what is said of all.
void add_gasket_words(std::vector<VariantWord>& words, const Engine& engine,
                      const std::string& gasket, std::vector<double> Variant::*member,
                      const std::vector<BankGasket>& gaskets) {
    std::vector<VariantWord> each;
    bool all_stated = true;
    for (std::size_t bank = 0; bank < gaskets.size(); ++bank) {
        if (!gaskets[bank].there) {
            continue;
        }
        VariantWord one{engine.layout.banks[bank].name + "-" + gasket,
                        [member, bank, banks = gaskets.size()](Variant& variant, double change_mm) {
                            (variant.*member).resize(banks, 0.0);
                            (variant.*member)[bank] = change_mm;
                        },
                        {}};
        if (gaskets[bank].stated_mm) {
            one.stands_mm.push_back(*gaskets[bank].stated_mm);
        }
        all_stated = all_stated && gaskets[bank].stated_mm;
        each.push_back(std::move(one));
    }
    if (each.empty()) {
        return;
    }
    VariantWord all{gasket,
                    [each](Variant& variant, double change_mm) {
                        for (const VariantWord& one : each) {
                            one.set(variant, change_mm);
                        }
                    },
                    {}};
    for (const VariantWord& one : each) {
        if (all_stated) {
            all.stands_mm.push_back(one.stands_mm.front());
        }
    }
    words.push_back(std::move(all));
    words.insert(words.end(), each.begin(), each.end());
}

std::vector<VariantWord> variant_words(const Engine& engine) {
    std::vector<VariantWord> words{
        word_of_trains(engine, "lifter", &Variant::lifter_taller_mm,
                       [](const Train& train) { return train.lifter.seat_height_mm; }),
        word_of_trains(engine, "rod-diameter", &Variant::rod_thicker_mm,
                       [](const Train& train) { return train.rod.diameter_mm; }),
        word_of_trains(engine, "rod-length", &Variant::rod_longer_mm,
                       [](const Train& train) { return train.rod.length_mm; }),
        word_of_trains(engine, "ball-arm", &Variant::ball_arm_longer_mm,
                       [](const Train& train) { return ball_arm_across_mm(train); }),
        word_of_trains(engine, "lash", &Variant::lash_more_mm,
                       [](const Train& train) { return train.valve.lash_mm; }),
        word_of_trains(
            engine, "lobe-lift", &Variant::lobe_lift_more_mm,
            [&](const Train& train) { return engine.lobes(train.position).lobe.full_lift_mm(); }),
        word_of_trains(engine, "adjuster", &Variant::adjuster_in_more_mm, {})};
    words.push_back(word_of_trains(engine, "ratio", &Variant::ratio_more,
                                   [](const Train& train) { return arm_ratio(train); }));
    words.back().plain_number = true;
    std::vector<BankGasket> intake(engine.layout.banks.size());
    std::vector<BankGasket> head(engine.layout.banks.size());
    for (std::size_t bank = 0; bank < intake.size(); ++bank) {
        if (bank < engine.flanges.size() && engine.flanges[bank]) {
            intake[bank] = {true, engine.flanges[bank]->gasket_mm};
        }
        head[bank] = {true, head_gasket_stated(engine, bank)
                                ? std::optional(engine.heads.of(bank).gasket_mm)
                                : std::nullopt};
    }
    add_gasket_words(words, engine, "gasket", &Variant::gasket_thicker_mm, intake);
    add_gasket_words(words, engine, "head-gasket", &Variant::head_gasket_thicker_mm, head);
    return words;
}

/// A word and the size typed of it.
struct TypedSize {
    std::string word;
    std::string size;
};

/// Cuts at semicolons, and at commas unless a digit stands behind them in a piece that names no
/// word: then it is a decimal mark, as in "lifter=0,25 mm".
std::vector<std::string> pieces_of(const std::string& text) {
    std::vector<std::string> pieces;
    std::string::size_type from = 0;
    bool joins = false;
    while (from <= text.size()) {
        const auto end = std::min(text.find_first_of(",;", from), text.size());
        const std::string piece = text.substr(from, end - from);
        const bool decimals = joins && !piece.empty() && piece.find('=') == std::string::npos &&
                              std::isdigit(static_cast<unsigned char>(piece.front())) != 0;
        if (decimals) {
            pieces.back() += "," + piece;
        } else {
            pieces.push_back(piece);
        }
        joins = end < text.size() && text[end] == ',';
        from = end + 1;
    }
    return pieces;
}

/// The words there are, as an error lists them: "lifter=" and so on.
std::string words_there_are(const std::vector<VariantWord>& words) {
    std::string list;
    for (const VariantWord& word : words) {
        list += (list.empty() ? "" : " ") + word.word + "=";
    }
    return list;
}

Result<std::vector<TypedSize>> typed_sizes(const std::string& text, const std::string& name,
                                           const std::vector<VariantWord>& words) {
    std::vector<TypedSize> typed;
    for (const std::string& untrimmed : pieces_of(text)) {
        const std::string piece = trimmed(untrimmed);
        if (piece.empty()) {
            continue;
        }
        const auto equals = piece.find('=');
        const std::string word = lower(trimmed(piece.substr(0, equals)));
        const bool known =
            equals != std::string::npos &&
            std::any_of(words.begin(), words.end(), [&](const VariantWord& candidate) {
                return lower(candidate.word) == word;
            });
        if (!known) {
            const std::string found = trimmed(piece.substr(0, equals));
            return Error{ErrorCode::not_a_choice, name, found, words_there_are(words), {}, {}};
        }
        const bool twice = std::any_of(typed.begin(), typed.end(), [&](const TypedSize& before) {
            return before.word == word;
        });
        if (twice) {
            std::string field = name;
            field.append(": ").append(word);
            return Error{ErrorCode::duplicate_field, field, word, {}, {}, {}};
        }
        typed.push_back({word, trimmed(piece.substr(equals + 1))});
    }
    if (typed.empty()) {
        return Error{ErrorCode::empty_text, name, {}, words_there_are(words), {}, {}};
    }
    return typed;
}

/// One size, not a range, "about" or "less than".
Result<double> one_size_mm(const std::string& text, const std::string& field) {
    const auto length = parse_length(text, BareNumber::inches);
    if (!length) {
        return in_field(length.error(), field);
    }
    if (length->is_interval() || length->firmness != Firmness::plain) {
        return Error{ErrorCode::wrong_type, field, text, "one_size", {}, {}};
    }
    return length->middle().in_mm();
}

Result<double> one_number(const std::string& text, const std::string& field) {
    const auto number = parse_number(text);
    return number ? number : Result<double>(in_field(number.error(), field));
}

bool has_sign(const std::string& size) {
    // The plain signs, and the minus and the dash that word processors make of it.
    static const std::vector<std::string> signs{"+", "-", "\u2212", "\u2013"};
    return std::any_of(signs.begin(), signs.end(),
                       [&](const std::string& sign) { return size.starts_with(sign); });
}

/// What a typed size changes: with a sign, that much; without, what leads to the new size.
Result<double> change_mm(const VariantWord& word, const std::string& size,
                         const std::string& field) {
    const auto typed = word.plain_number ? one_number(size, field) : one_size_mm(size, field);
    if (!typed || has_sign(size)) {
        return typed;
    }
    constexpr double same_size_mm = 1e-6; // rounding of sizes made from others
    const auto [least, most] = std::minmax_element(word.stands_mm.begin(), word.stands_mm.end());
    if (least == word.stands_mm.end() || *most - *least > same_size_mm) {
        return Error{ErrorCode::not_of_this_kind, field, size, "one_new_size", {}, {}};
    }
    return *typed - *least;
}

Result<double> what_if_mm(const std::string& option, const std::string& text) {
    return text.empty() ? Result<double>(0.0) : one_size_mm(text, option);
}

/// "left=.015", or ".015" of every bank that has an intake gasket (of every bank if none has: that
/// is refused where the variant is made).
Result<Done> what_if_gasket(Variant& variant, const std::string& typed, const Engine& engine) {
    static const std::string option = "--gasket-thicker";
    const auto equals = typed.find('=');
    const std::string name = equals == std::string::npos ? std::string() : typed.substr(0, equals);
    const auto thicker =
        one_size_mm(equals == std::string::npos ? typed : typed.substr(equals + 1), option);
    if (!thicker) {
        return thicker.error();
    }
    const auto has_flange = [&](std::size_t bank) {
        return bank < engine.flanges.size() && engine.flanges[bank].has_value();
    };
    const std::vector<Bank>& banks = engine.layout.banks;
    bool any_flange = false;
    for (std::size_t bank = 0; bank < banks.size(); ++bank) {
        any_flange = any_flange || has_flange(bank);
    }
    bool found = false;
    std::string names;
    for (std::size_t bank = 0; bank < banks.size(); ++bank) {
        names += (names.empty() ? "" : " ") + banks[bank].name;
        if (name.empty() ? has_flange(bank) || !any_flange : name == banks[bank].name) {
            variant.gasket_thicker_mm[bank] = *thicker;
            found = true;
        }
    }
    if (!found) {
        return Error{ErrorCode::not_a_choice, option, name, names, {}, {}};
    }
    return Done{};
}

} // namespace

Result<NamedVariant> typed_variant(const std::string& text, const Engine& engine) {
    const auto colon = text.find(':');
    const std::string sizes = trimmed(colon == std::string::npos ? text : text.substr(colon + 1));
    NamedVariant named{colon == std::string::npos ? sizes : trimmed(text.substr(0, colon)), {}};
    if (named.name.empty()) {
        named.name = sizes.empty() ? "--variant" : sizes;
    }
    const std::vector<VariantWord> words = variant_words(engine);
    const auto typed = typed_sizes(sizes, named.name, words);
    if (!typed) {
        return typed.error();
    }
    for (const VariantWord& word : words) {
        const auto found = std::find_if(
            typed->begin(), typed->end(),
            [&](const TypedSize& candidate) { return candidate.word == lower(word.word); });
        if (found == typed->end()) {
            continue;
        }
        const auto change = change_mm(word, found->size, named.name + ": " + found->word);
        if (!change) {
            return change.error();
        }
        word.set(named.variant, *change);
    }
    return named;
}

Result<Variant> typed_what_if(const WhatIfOptions& options, const Engine& engine) {
    Variant variant;
    const auto lifter = what_if_mm("--lifter-taller", options.lifter);
    const auto rod = what_if_mm("--rod-thicker", options.rod);
    if (!lifter || !rod) {
        return !lifter ? lifter.error() : rod.error();
    }
    variant.lifter_taller_mm = *lifter;
    variant.rod_thicker_mm = *rod;
    variant.gasket_thicker_mm.assign(engine.layout.banks.size(), 0.0);
    for (const std::string& gasket : options.gaskets) {
        if (const auto set = what_if_gasket(variant, gasket, engine); !set) {
            return set.error();
        }
    }
    return variant;
}

} // namespace rodway
