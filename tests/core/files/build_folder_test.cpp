#include "core/files/build_folder.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

const std::string digest(64, 'a');

BuildTransfer sample() {
    BuildTransfer build;
    build.shop.push_back({"customer", 1, {{"exists", "1"}, {"name", "R. Marsh"}}, true, 0});
    TransferAct act{"Dee", "2026-03-01T12:00:00Z", std::nullopt, {}, 0};
    act.edits.push_back({"build", 1, "exists", std::nullopt, "1", 0});
    act.edits.push_back({"build", 1, "name", std::nullopt, "a \"blue\"\n\\ \x01 pickup, 5/8″", 0});
    build.history.push_back(act);
    act.edits = {{"build", 1, "note", "a", std::nullopt, 0}};
    act.undoes = 1;
    build.history.push_back(act);
    build.records.push_back({"build", 1, {{"exists", "1"}, {"name", "Blue"}}, false, 0});
    build.photos.push_back({digest, digest + ".jpg", 0});
    build.photos.push_back({std::string(64, 'b'), std::nullopt, 0});
    return build;
}

std::string with(const std::string& from, const std::string& to) {
    std::string bytes = write_build_json(sample());
    const auto at = bytes.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return bytes.replace(at, from.size(), to);
}

TEST(BuildFolder, EveryTextComesBackAsItWasWithTheLineOnWhichItStands) {
    const std::string bytes = write_build_json(sample());
    const auto read = read_build_json(bytes);
    ASSERT_TRUE(read.ok()) << read.error().field;
    EXPECT_EQ(write_build_json(*read), bytes);
    ASSERT_EQ(read->history.size(), 2U);
    EXPECT_EQ(read->history[0].edits[1].after, sample().history[0].edits[1].after);
    EXPECT_EQ(read->history[0].edits[1].before, std::nullopt);
    EXPECT_EQ(read->history[1].undoes, 1);
    EXPECT_EQ(read->history[1].edits[0].before, "a");
    EXPECT_TRUE(read->shop[0].removed);
    EXPECT_EQ(read->shop[0].fields, sample().shop[0].fields);
    EXPECT_FALSE(read->records[0].removed);
    EXPECT_EQ(read->photos[0].file, digest + ".jpg");
    EXPECT_EQ(read->photos[1].file, std::nullopt);
    EXPECT_EQ(read->shop[0].line, 5);
    EXPECT_EQ(read->history[0].edits[1].line, 10);
}

TEST(BuildFolder, WhatIsOffIsRefusedByItsPathAndLine) {
    struct Case {
        std::string from;
        std::string to;
        ErrorCode code;
        std::string field;
    };
    const std::vector<Case> cases{
        {"rodway-build", "rodway-set-up", ErrorCode::wrong_format, "format"},
        {"\"version\": 1", "\"version\": 2", ErrorCode::newer_version, "version"},
        {"\"version\": 1", "\"version\": 1.5", ErrorCode::wrong_type, "version"},
        {"\"id\": 1", "\"id\": 0", ErrorCode::out_of_range, "shop/0/id"},
        {"\"id\": 1", "\"id\": 1e0", ErrorCode::out_of_range, "shop/0/id"},
        {"\"id\": 1", "\"id\": 99999999999999999999", ErrorCode::out_of_range, "shop/0/id"},
        {"\"id\": 1", "\"id\": \"1\"", ErrorCode::wrong_type, "shop/0/id"},
        {"\"act\": 2", "\"act\": 3", ErrorCode::out_of_range, "history/1/act"},
        {"\"who\"", "\"whom\"", ErrorCode::unknown_field, "history/0/whom"},
        {"\"who\": \"Dee\", ", "", ErrorCode::missing_field, "history/0/who"},
        {"\"who\": \"Dee\"", "\"who\": \"\"", ErrorCode::empty_text, "history/0/who"},
        {"\"who\": \"Dee\"", "\"who\": \"Dee\", \"who\": \"Kim\"", ErrorCode::duplicate_field,
         "who"},
        {"\"after\": \"1\"", "\"after\": null", ErrorCode::wrong_type, "history/0/edits/0/after"},
        {"\"removed\": true", "\"removed\": 1", ErrorCode::wrong_type, "shop/0/removed"},
        {digest + ".jpg", "../" + digest + ".jpg", ErrorCode::wrong_type, "photos/0/file"},
        {digest + ".jpg", digest + "./../x", ErrorCode::wrong_type, "photos/0/file"},
        {digest + ".jpg", digest + ".", ErrorCode::wrong_type, "photos/0/file"},
        {"{\"name\": \"Blue\"}", std::string(5000, '['), ErrorCode::not_json, ""},
    };
    for (const Case& each : cases) {
        const auto read = read_build_json(with(each.from, each.to));
        ASSERT_FALSE(read.ok()) << each.to;
        EXPECT_EQ(read.error().code, each.code) << each.to;
        EXPECT_EQ(read.error().field, each.field) << each.to;
    }
    EXPECT_EQ(read_build_json(with("\"act\": 2", "\"act\": 3")).error().line, 12);
    EXPECT_EQ(read_build_json("").error().code, ErrorCode::empty_file);
    EXPECT_EQ(read_build_json("[]").error().code, ErrorCode::wrong_format);
}

} // namespace
} // namespace rodway
