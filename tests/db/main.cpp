#include <gmock/gmock.h>

#include <QCoreApplication>
#include <cstring>

#include "tests/db/killed_writer.h"

int main(int argc, char** argv) {
    const QCoreApplication application(argc, argv);
    // The test of a killed writer starts this program again in that role.
    if (argc == 3 && std::strcmp(argv[1], rodway::killed_writer_role) == 0) {
        return rodway::write_until_killed(argv[2]);
    }
    ::testing::InitGoogleMock(&argc, argv);
    return RUN_ALL_TESTS();
}
