#pragma once

#include <array>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "core/sheets/place.h"
#include "tests/core/sheets/typed_table.h"

namespace rodway {

/// Makes what somebody might type, or a cat on the keyboard.
class TextMaker {
  public:
    explicit TextMaker(std::uint64_t seed) : random_(seed) {
        for (const auto& [table, cells] :
             {std::pair{"numbers.tsv", 7}, {"said.tsv", 5}, {"invalid.tsv", 5}}) {
            for (const TypedRow& row : typed_rows(table, static_cast<std::size_t>(cells))) {
                samples_.push_back(row.cells[2]);
            }
        }
        for (const PlaceShape& shape : place_shapes()) {
            samples_.emplace_back(shape.example);
        }
        // As often as the tables' many rows, so that every reader has its share.
        static constexpr std::array others{"18436572",      "1-8-4-3-6-5-7-2",
                                           "153624 LH",     "1342",
                                           "1 5 3 6 2 4",   "18726543",
                                           "20-60/60-20",   "31/77/63/29",
                                           "-8-40/48-(-8)", "20 BTDC - 60 ABDC / 60 BBDC - 20 ATDC",
                                           "110+4",         "108-4",
                                           "4 retarded",    "106 ATDC",
                                           "252",           "126 cam",
                                           "20-60",         "8 ATDC",
                                           "45/65/65+90",   "20 then 1/4 turn",
                                           "60+80 deg",     "stretch .006",
                                           "26/28 hot",     "18 and 20 thou",
                                           "#3 intake",     "5 ex",
                                           "cyl 3",         "front left",
                                           "3I -20",        "2026-03-01",
                                           "2024-2-29",     "1999-12-31"};
        for (int time = 0; time < 10; ++time) {
            samples_.insert(samples_.end(), others.begin(), others.end());
        }
    }

    std::size_t below(std::size_t limit) { return random_() % limit; }

    std::string next() {
        const std::size_t kind = below(2000);
        if (kind == 0) {
            return very_long();
        }
        if (kind < 700) {
            return sample();
        }
        if (kind < 1500) {
            return pieced();
        }
        return kind < 1800 ? digits() : bytes();
    }

  private:
    std::string piece() {
        static const std::vector<std::string> pieces{
            " ",           " ",       ".",      ",",           "-",         "+",
            "/",           "+-",      "~",      "<",           ">",         "..",
            "to",          "and",     "a",      "half",        "then",      "over",
            "under",       "\"",      "'",      "''",          "#",         ":",
            "(",           ")",       "@",      "%",           "x",         ".010",
            "0.25",        "0,25",    "10",     "0",           "1/8",       "1-1/2",
            "7/16",        "106.5",   "2026",   "18436572",    "thou",      "tenth",
            "tenths",      "mil",     "in",     "mm",          "um",        "cm",
            "in the hole", "out",     "zero",   "proud",       "dish",      "dome",
            "no go",       "goes",    "no",     "touch",       "tape",      "light drag",
            "hot",         "cold",    "deg",    "turn",        "cam",       "crank",
            "btdc",        "atdc",    "abdc",   "bbdc",        "tdc",       "retarded",
            "advanced",    "lb-ft",   "ft lbs", "in-lb",       "nm",        "kgf-m",
            "psi",         "lb",      "kg",     "n",           "g",         "cc",
            "ci",          "kpa",     "bar",    "mbar",        "inhg",      "hg",
            "f",           "c",       "hp",     "kw",          "ps",        "rpm",
            "min",         "s",       "h",      "on the seat", "at",        "open",
            "3I",          "5 ex",    "front",  "left",        "bolt",      "pass",
            "head",        "pull",    "cyl",    "main",        "J2",        "opens",
            "closes",      "full",    "two",    "forty",       "five",      "of an inch",
            "of a mm",     "same",    "n/m",    "ok",          "see photo", "yes",
            "flat",        "stretch", "LH",     "\t",          "\u00bd",    "\u00b1",
            "\u2212",      "\u2013",  "\u2033", "\u2032",      "\u00b0",    "\u00b5",
            "\u2019",      "\u2044",  "\u00a0", "\u2264"};
        return pieces[below(pieces.size())];
    }
    std::string pieced() {
        std::string text;
        for (std::size_t left = 1 + below(7); left > 0; --left) {
            text += piece();
            text += below(3) == 0 ? " " : "";
        }
        return below(4) == 0 ? changed(text) : text;
    }
    std::string sample() {
        const std::string text = samples_[below(samples_.size())];
        return below(5) == 0 ? text : changed(text);
    }
    std::string digits() {
        static const std::string signs = "0123456789012345678901234567890123456789.,.,-+/ ";
        std::string text;
        for (std::size_t left = below(below(10) == 0 ? 60 : 9); left > 0; --left) {
            text += signs[below(signs.size())];
        }
        return text + (below(2) == 0 ? piece() : "");
    }
    std::string bytes() {
        std::string text;
        for (std::size_t left = below(40); left > 0; --left) {
            text += static_cast<char>(below(below(2) == 0 ? 256 : 128));
        }
        return text;
    }
    std::string very_long() {
        const std::string part = below(2) == 0 ? piece() : sample();
        std::string text;
        for (std::size_t left = 1 + below(3000); left > 0; --left) {
            text += part;
        }
        return text + piece();
    }
    std::string changed(std::string text) {
        for (std::size_t left = 1 + below(3); left > 0; --left) {
            const std::size_t at = below(text.size() + 1);
            switch (below(5)) {
                case 0:
                    text.insert(at, piece());
                    break;
                case 1:
                    text.erase(at, 1 + below(3));
                    break;
                case 2:
                    text.insert(at, 1, static_cast<char>(below(256)));
                    break;
                case 3:
                    text += text.substr(at);
                    break;
                default:
                    text = text.substr(at) + text.substr(0, at);
                    break;
            }
        }
        return text;
    }

    std::mt19937_64 random_;
    std::vector<std::string> samples_;
};

} // namespace rodway
