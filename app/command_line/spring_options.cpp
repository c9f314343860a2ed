#include "app/command_line/spring_options.h"

#include <QCoreApplication>

#include "app/command_line/build_commands.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct SpringOptions {
    Q_DECLARE_TR_FUNCTIONS(SpringOptions)
};

} // namespace

void add_to_bind_option(CLI::App& command, std::string& to_bind) {
    command.add_option(
        "--to-bind", to_bind,
        SpringOptions::tr("Least room before the coils touch at full lift (.060)").toStdString());
}

Result<double> option_mm(const std::string& text, const char* option) {
    const auto typed = parse_length(text, BareNumber::inches);
    if (!typed) {
        return in_field(typed.error(), option);
    }
    return typed->middle().in_mm();
}

} // namespace rodway
