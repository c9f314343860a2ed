#include "app/words/place_words.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

std::string many(const std::vector<std::string>& positions) {
    return words::many_places(positions).toStdString();
}

TEST(PlaceWords, TellManyValvesByTheirCylinders) {
    // In whatever order they are kept, each once.
    EXPECT_EQ(many({"2E", "1I", "1E", "2I", "4I", "3I", "3E", "4E", "4E"}),
              "both valves of cylinders 1 to 4");
    EXPECT_EQ(many({"1I", "2I", "4I", "6I", "7I", "8I"}),
              "the intakes of cylinders 1, 2, 4 and 6 to 8");
    EXPECT_EQ(
        many({"1I", "2I", "3I", "3E", "12E"}),
        "both valves of cylinder 3; the intakes of cylinders 1 and 2; the exhaust of cylinder "
        "12");
    EXPECT_EQ(many({"1", "2", "3", "4", "5", "6"}), "cylinders 1 to 6");
}

TEST(PlaceWords, LeaveFewPlacesAndOtherKindsToBeToldOneByOne) {
    EXPECT_EQ(many({}), "");
    EXPECT_EQ(many({"1I", "1E", "2I", "2E"}), "");
    EXPECT_EQ(many({"J1", "J2", "J3", "J4", "J5"}), "");
    EXPECT_EQ(many({"1I", "1E", "2I", "2E", "left bank"}), "");
    // A second intake valve is another than the first: five of them are no five cylinders.
    EXPECT_EQ(many({"1I", "1I2", "2I", "2I2", "3I"}), "");
    EXPECT_EQ(many({"1I", "2I", "3I", "4I", "5"}), "");
    EXPECT_EQ(many({"1 top", "2 top", "3 top", "4 top", "5 top"}), "");
}

} // namespace
} // namespace rodway
