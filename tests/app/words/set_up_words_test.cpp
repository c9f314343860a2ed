#include "app/words/set_up_words.h"

#include <gtest/gtest.h>

#include <map>

#include "core/describe/dimension.h"
#include "core/engine/set_up_fields.h"

namespace rodway {
namespace {

/// A path of a field, its names filled in as a set-up has them.
std::string filled(std::string_view pattern) {
    std::string path(pattern);
    const std::string name = path.starts_with("banks/")       ? "left"
                             : path.starts_with("cylinders/") ? "3"
                             : path.starts_with("trains/")    ? "3I"
                             : path.starts_with("described/") ? "3I"
                             : path.starts_with("doubt/")     ? "rod_length"
                             : path.starts_with("obstacles/") ? "coolant_pipe"
                                                              : "intake";
    for (std::size_t star = path.find('*'); star != std::string::npos; star = path.find('*')) {
        path.replace(star, 1, path.find("passages/*") == star - 9 ? "guide_plate" : name);
    }
    return path;
}

bool is_component(const std::string& path) {
    return path.ends_with("/x") || path.ends_with("/y") || path.ends_with("/z");
}

TEST(SetUpWords, EveryFieldOfASetUpHasWordsOfItsOwn) {
    std::map<QString, std::string> said;
    for (const FieldSpec& spec : set_up_field_specs()) {
        const std::string path = filled(spec.pattern);
        const words::SetUpField field = words::set_up_field(path);
        EXPECT_FALSE(field.what.isEmpty() || field.what.contains('/') || field.what.contains('_'))
            << path << ": " << field.what.toStdString();
        EXPECT_FALSE(field.where.contains('/') || field.where.contains('_'))
            << path << ": " << field.where.toStdString();
        const std::string group = is_component(path) ? path.substr(0, path.size() - 2) : path;
        // What an engine is described by is another word for the places that it makes.
        const QString by = path.starts_with("described/") ? "described " : "";
        const auto [at, fresh] = said.emplace(by + words::set_up_field_text(path), group);
        EXPECT_TRUE(fresh || at->second == group)
            << path << " and " << at->second << ": " << at->first.toStdString();
    }
}

TEST(SetUpWords, SayWhoseFieldItIs) {
    const auto text = [](const char* path) { return words::set_up_field_text(path).toStdString(); };
    EXPECT_EQ(text("banks/left/flange/gasket"), "intake gasket, left bank");
    EXPECT_EQ(text("trains/3I/rod/overall_length"), "pushrod's overall length, 3I");
    EXPECT_EQ(text("trains/3I/passages/guide_plate/bore"), "passage's bore, guide plate of 3I");
    EXPECT_EQ(text("cylinders/3/centre_x"), "cylinder's distance from the front, cylinder 3");
    EXPECT_EQ(text("engine/stroke"), "stroke");
    // A dimension by which an engine is described goes by the words it has where it is typed.
    EXPECT_TRUE(words::set_up_field_text("described/left/intake_gasket/size")
                    .contains("intake gasket", Qt::CaseInsensitive))
        << text("described/left/intake_gasket/size");
    EXPECT_NE(text("described/left/intake_gasket/size"),
              text("described/left/intake_gasket/doubt"));
    // What no set-up has isn't dressed up.
    EXPECT_EQ(text("banks/left/no_such_thing"), "banks/left/no_such_thing");
}

} // namespace
} // namespace rodway
