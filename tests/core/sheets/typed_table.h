#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <optional>
#include <string>
#include <vector>

#include "core/sheets/quantity.h"

namespace rodway {

/// One row of a table in tests/data/typed.
struct TypedRow {
    int line = 0;
    std::vector<std::string> cells;

    /// Where a failure stands.
    [[nodiscard]] std::string where() const {
        std::string all = "line " + std::to_string(line) + ":";
        for (const std::string& cell : cells) {
            all += " [" + cell + "]";
        }
        return all;
    }
};

/// \s is a blank, \t a tab: they can't be seen at a cell's end.
inline std::string unescaped(const std::string& cell) {
    std::string text;
    for (std::size_t at = 0; at < cell.size(); ++at) {
        const bool escape = cell[at] == '\\' && at + 1 < cell.size();
        text += !escape ? cell[at] : cell[++at] == 't' ? '\t' : ' ';
    }
    return text;
}

/// The rows of a table; a row without so many cells fails the test.
inline std::vector<TypedRow> typed_rows(const std::string& name, std::size_t cells) {
    std::ifstream file(RODWAY_TEST_DATA "/typed/" + name);
    EXPECT_TRUE(file.is_open()) << name;
    std::vector<TypedRow> rows;
    int number = 0;
    for (std::string line; std::getline(file, line);) {
        ++number;
        if (line.starts_with("# ")) {
            continue;
        }
        TypedRow row{number, {}};
        for (std::size_t from = 0; from <= line.size();) {
            const std::size_t to = std::min(line.find('\t', from), line.size());
            row.cells.push_back(unescaped(line.substr(from, to - from)));
            from = to + 1;
        }
        EXPECT_EQ(row.cells.size(), cells) << name << ' ' << row.where();
        if (row.cells.size() == cells) {
            rows.push_back(row);
        }
    }
    return rows;
}

/// What a row's first cell says is read; nothing, and a failed test, if there is no such form.
inline std::optional<Quantity> typed_quantity(const std::string& name) {
    const bool hot = name == "lash_hot";
    const auto form = form_called(hot ? "lash" : name);
    EXPECT_TRUE(form) << name;
    if (!form) {
        return std::nullopt;
    }
    Quantity quantity{"typed", *form, Place::engine};
    if (const auto units = units_of(dimension_of(*form)); !units.empty()) {
        quantity.unit = units.front().id;
    }
    quantity.choices = hot ? "hot" : *form == Form::choice ? "flat roller pin_gauge" : "";
    return quantity;
}

} // namespace rodway
