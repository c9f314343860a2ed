#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/build/edit.h"

namespace rodway {

/// Gathers the edits that create one record; a field of no value needs none.
class NewRecordEdits {
  public:
    explicit NewRecordEdits(RecordRef record) : record_(record) { set("exists", "1"); }

    NewRecordEdits& set(const std::string& field, const std::optional<std::string>& value) {
        if (value && !value->empty()) edits_.push_back(Edit{record_, field, std::nullopt, value});
        return *this;
    }
    NewRecordEdits& set_number(const std::string& field, std::optional<std::int64_t> value) {
        if (value) set(field, std::to_string(*value));
        return *this;
    }
    [[nodiscard]] std::vector<Edit> take() { return std::move(edits_); }

  private:
    RecordRef record_;
    std::vector<Edit> edits_;
};

} // namespace rodway
