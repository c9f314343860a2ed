#pragma once

#include <CLI/CLI.hpp>
#include <QJsonArray>
#include <functional>

#include "app/command_line/output.h"
#include "app/work/build_in_hand.h"

namespace rodway {

/// What every command that answers from one build is told.
struct BuildOptions {
    std::string shop;
    std::string build;
    bool json = false;
};

/// Adds the shop, the build and --json to a command.
void add_build_options(CLI::App& command, BuildOptions& options);
void add_json_option(CLI::App& command, bool& json);

/// An answer given, or why there is none.
using Shown = Result<ExitCode>;

/// Opens the shop and takes the build in hand; `show` gets that. What is wrong is said.
ExitCode with_build(const BuildOptions& options,
                    const std::function<Shown(const BuildInHand&)>& show);

/// Format, version and the names of build, set-up and engine, with which an answer begins.
[[nodiscard]] QJsonObject head_json(const char* format, const BuildInHand& hand);
/// "Halden V8: Halden 402 V8, set-up “As first mocked up”".
void print_head(const BuildInHand& hand);

// Numbers of an answer: `null` where there is none.
[[nodiscard]] double inches_of(double mm);
[[nodiscard]] QJsonValue inches_or_null(const std::optional<double>& mm);
[[nodiscard]] QJsonValue number_or_null(const std::optional<double>& value);
[[nodiscard]] QJsonValue degrees_or_null(const std::optional<CrankAngle>& angle);

/// The same error, about an option.
[[nodiscard]] Error in_field(Error error, const std::string& field);

} // namespace rodway
