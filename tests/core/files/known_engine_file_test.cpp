#include "core/files/known_engine_file.h"

#include <gtest/gtest.h>

#include "tests/core/describe/measured_engine.h"

namespace rodway {
namespace {

KnownEngine merrow() {
    KnownEngine engine;
    engine.name = "Merrow \"261\" six";
    engine.measured_by = "T. Orme";
    engine.measured_on = "2026-11-30";
    engine.note = "Tubes 4 and 5\nby feelers only";
    engine.fields = MeasuredEngine(demo_fields("inline-six")).fields();
    return engine;
}

TEST(KnownEngineFile, GivesBackWhatWasWritten) {
    const KnownEngine engine = merrow();
    const auto read = read_known_engine_file(write_known_engine_file(engine));
    ASSERT_TRUE(read.ok()) << read.error().field;
    EXPECT_EQ(read->name, engine.name);
    EXPECT_EQ(read->measured_by, engine.measured_by);
    EXPECT_EQ(read->measured_on, engine.measured_on);
    EXPECT_EQ(read->note, engine.note);
    EXPECT_EQ(read->fields, engine.fields);
    KnownEngine bare = engine;
    bare.measured_by.reset();
    bare.measured_on.reset();
    bare.note.reset();
    const auto again = read_known_engine_file(write_known_engine_file(bare));
    ASSERT_TRUE(again.ok());
    EXPECT_FALSE(again->measured_by || again->measured_on || again->note);
}

TEST(KnownEngineFile, ASetUpFileIsOneOfWhichNobodyIsNamed) {
    const auto read = read_known_engine_file(demo_bytes("flat-four"));
    ASSERT_TRUE(read.ok());
    EXPECT_EQ(read->name, "Corran 190 flat four");
    EXPECT_FALSE(read->measured_by.has_value());
    EXPECT_EQ(read->fields, demo_fields("flat-four"));
}

TEST(KnownEngineFile, WhatIsWrongIsToldWithItsLineInTheWholeFile) {
    std::string text = write_known_engine_file(merrow());
    const std::size_t at = text.find("\"bore_in\": 3.76");
    ASSERT_NE(at, std::string::npos);
    text.replace(at, 15, "\"bore_in\": 37.6");
    const auto read = read_known_engine_file(text);
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(read.error().field, "engine/bore");
    EXPECT_EQ(read.error().line,
              1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

TEST(KnownEngineFile, ANewerOneAndOneWithoutItsPartsAreRefused) {
    const std::string good = write_known_engine_file(merrow());
    const auto with = [&](const std::string& from, const std::string& to) {
        std::string text = good;
        text.replace(text.find(from), from.size(), to);
        const auto read = read_known_engine_file(text);
        return read.ok() ? std::optional<ErrorCode>() : std::optional(read.error().code);
    };
    EXPECT_EQ(with("\"version\": 1", "\"version\": 2"), ErrorCode::newer_version);
    EXPECT_EQ(with("\"name\"", "\"nome\""), ErrorCode::missing_field);
    EXPECT_EQ(with("\"set_up\"", "\"set_down\""), ErrorCode::missing_field);
    EXPECT_EQ(with("\"T. Orme\"", "7"), ErrorCode::wrong_type);
    EXPECT_FALSE(read_known_engine_file("{").ok());
}

} // namespace
} // namespace rodway
