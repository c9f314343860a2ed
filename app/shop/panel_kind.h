#pragma once

#include <QString>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// What is stored, and the words that stand for it in a list to choose from.
using Choices = std::vector<std::pair<std::string, QString>>;

/// One field of a record as its panel shows and takes it.
struct PanelField {
    std::string name;
    QString label;
    QString hint; ///< what may be typed, faintly in the empty box
    bool in_table = true;
    bool several_lines = false;
    /// From what was typed, never empty, to what is stored. Nothing: it is stored as typed.
    /// `today` is an ISO date, here and below.
    std::function<Result<std::string>(const std::string&, const std::string& today)> read = {};
    /// Back. Nothing: as stored.
    std::function<QString(const std::string&)> show = {};
    /// Where only these may be chosen. The one stored as an empty text stands for an absent field.
    std::function<Choices(ShopFile&)> choices = {};
    /// What is wanted, said of a text in which no such thing can be read. Nothing: as the error
    /// says.
    QString wanted = {};
};

/// Why a record can't be kept as it is, and the field that says so.
struct PanelRefusal {
    std::string field;
    QString why;
};

using RecordRows = std::map<std::int64_t, FieldTexts>;

/// One kind of the shop's own records as its panel works with it.
struct PanelKind {
    RecordKind kind = RecordKind::person;
    QString about; ///< what belongs here and what it is good for
    QString empty; ///< for as long as there is none: the first step
    QString add;   ///< "Add person"
    QString fresh; ///< heading of one that isn't added yet
    std::vector<PanelField> fields;
    bool may_be_removed = true;
    /// How a record stands, with a sign before it, for the last column.
    QString state_title = {};
    std::function<QString(const FieldTexts&, const std::string& today)> state = {};
    /// Looks at a whole record before it is kept, among all of its kind; it may fill in what
    /// follows from the rest.
    std::function<std::optional<PanelRefusal>(ShopFile&, std::int64_t id, FieldTexts&,
                                              const RecordRows&, const std::string& today)>
        check = {};
    /// Which of them the panel is about. Nothing: all of the shop's.
    std::function<bool(const FieldTexts&)> belongs = {};
};

} // namespace rodway
