#pragma once

#include <memory>

#include "app/command_line/build_commands.h"
#include "app/edit_stack/shop_session.h"
#include "app/work/build_state.h"
#include "app/work/given.h"

namespace rodway {

/// What the commands that do work on a build are told; it lives as long as the program's parser.
struct WorkOptions {
    BuildOptions build;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    std::string now; ///< UTC as of which the work is judged; empty: now
};

void add_who_option(CLI::App& command, std::string& who);
/// The moment as of which something is judged, to look ahead or back.
void add_now_option(CLI::App& command, std::string& now);

/// The moment asked for. Error: not_a_date "now".
[[nodiscard]] Result<Moment> moment_of(const std::string& now);

/// A build and how it stands, for as long as one command runs.
struct BuildAtWork {
    ShopSession session;
    Build build;
    BuildState state;
};

/// Opens the shop and loads how the build stands.
[[nodiscard]] Result<std::unique_ptr<BuildAtWork>> open_build(const WorkOptions& options);

/// Opens it, lets `work` do something, and says what went wrong.
ExitCode with_build_at_work(const WorkOptions& options,
                            const std::function<Shown(BuildAtWork&)>& work);

/// A stage by its place in the plan ("2"), or by its title without regard to capitals.
/// Error: no_such_record "stage".
[[nodiscard]] Result<const Stage*> find_stage(const BuildState& state, const std::string& named);
/// A step by its places ("2.3"), or by its title without regard to capitals if one has it.
/// Error: no_such_record "step".
[[nodiscard]] Result<const Step*> find_step(const BuildState& state, const std::string& named);
/// "2.3": as `find_step` takes it.
[[nodiscard]] QString step_number(const BuildState& state, const Step& step);

/// A record by its number. Error: no_such_record, with this field.
template <typename Record>
[[nodiscard]] Result<const Record*> find_record(const std::vector<Record>& records, std::int64_t id,
                                                const char* field) {
    for (const Record& record : records) {
        if (record.id == id) {
            return &record;
        }
    }
    return Error{ErrorCode::no_such_record, field, std::to_string(id), {}, {}, {}};
}

/// `null` where there is none.
[[nodiscard]] QJsonValue text_or_null(const std::optional<std::string>& text);
[[nodiscard]] QJsonValue number_or_null(const std::optional<std::int64_t>& number);
[[nodiscard]] QJsonArray json_list(const std::vector<std::string>& texts);

/// The answer of a command that did one thing: in words, or its format and what it did it to.
ExitCode say_done(const BuildOptions& options, const char* format, const QJsonObject& json,
                  const QString& line);

} // namespace rodway
