#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/build/build_change.h"

namespace rodway {

/// Writes a history as a shop file would: every edit begins with what stands there.
class HistoryMaker {
  public:
    /// The edits from here on belong to a new act.
    void begin_act(const std::string& who = "MH");
    /// Sets a field, or takes it away; nothing if it is so already.
    void set(RecordRef record, const std::string& field, const std::optional<std::string>& text);
    /// One act that makes a record.
    void make(RecordRef record, const std::map<std::string, std::string>& fields);
    /// One act that removes one with all its fields.
    void remove(RecordRef record);
    /// One act that takes back another, if all it wrote still stands and nothing hangs on it; else
    /// false, and nothing is done.
    bool undo(std::int64_t act);

    void part(std::int64_t id, const std::map<std::string, std::string>& fields) {
        make({RecordKind::part, id}, fields);
    }
    void set_part(std::int64_t id, const std::string& field,
                  const std::optional<std::string>& text) {
        begin_act();
        set({RecordKind::part, id}, field, text);
    }
    void set_up(std::int64_t id, const std::map<std::string, std::string>& fields) {
        make({RecordKind::set_up, id}, fields);
    }
    void set_path(std::int64_t id, const std::string& path,
                  const std::optional<std::string>& text) {
        begin_act();
        set({RecordKind::set_up, id}, path, text);
    }
    /// Answers the reading's id.
    std::int64_t reading(const std::string& quantity, const std::string& position,
                         const std::string& text, const std::string& unit = "in");

    [[nodiscard]] const std::vector<BuildChange>& changes() const { return changes_; }
    [[nodiscard]] std::int64_t act() const { return act_; }
    [[nodiscard]] std::optional<std::string> stored(RecordRef record,
                                                    const std::string& field) const;
    [[nodiscard]] std::string time_of(std::int64_t act) const;

  private:
    std::vector<BuildChange> changes_;
    std::map<std::pair<RecordKind, std::int64_t>, std::map<std::string, std::string>> stored_;
    std::int64_t act_ = 0;
    std::int64_t last_reading_ = 0;
    std::string who_;
};

} // namespace rodway
