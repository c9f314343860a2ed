#include <QFileInfo>
#include <QImage>
#include <QMap>
#include <cmath>

#include "tests/app/command_line/demo_engine.h"

namespace rodway::tests {
namespace {

class PictureCommands : public DemoEngine {
  protected:
    [[nodiscard]] QString file(const QString& name) const { return folder_.filePath(name); }

    /// Exit code; what was complained of is shown where that isn't the one wanted.
    void expect_code(int wanted, const QString& name, const QStringList& more) const {
        const Ran ran = command(name, more);
        EXPECT_EQ(ran.exit_code, wanted)
            << name.toStdString() << " " << more.join(' ').toStdString() << "\n"
            << ran.complaints.toStdString();
    }
    [[nodiscard]] QImage picture(const QStringList& more) const {
        const QString name = file("one.png");
        QFile::remove(name);
        expect_code(0, "picture", QStringList{name, "--width", "320", "--height", "200"} + more);
        return QImage(name).convertToFormat(QImage::Format_RGB32);
    }
    [[nodiscard]] QByteArray bytes(const QString& name) const {
        QFile opened(file(name));
        EXPECT_TRUE(opened.open(QIODevice::ReadOnly)) << name.toStdString();
        return opened.readAll();
    }
    /// A table's cells by row; these have no quoted ones.
    [[nodiscard]] QList<QStringList> table(const QString& name) const {
        const QByteArray table = bytes(name);
        EXPECT_TRUE(table.startsWith("\xEF\xBB\xBF"));
        const QString text = QString::fromUtf8(table.mid(3));
        QList<QStringList> rows;
        for (const QString& line : text.split("\r\n", Qt::SkipEmptyParts)) {
            rows << line.split(',');
        }
        return rows;
    }
};

int pixels_apart(const QImage& one, const QImage& other) {
    EXPECT_EQ(one.size(), other.size());
    int count = 0;
    for (int y = 0; y < one.height(); ++y) {
        for (int x = 0; x < one.width(); ++x) {
            count += one.pixel(x, y) != other.pixel(x, y) ? 1 : 0;
        }
    }
    return count;
}

// Every option does something of its own to the picture, and a picture asked for twice is one.
TEST_F(PictureCommands, EveryViewIsAnotherPictureAndTheSameAgain) {
    QMap<QString, QImage> seen;
    const QList<QStringList> views{
        {},
        {"--look", "front"},
        {"--look", "rear"},
        {"--look", "left"},
        {"--look", "right"},
        {"--look", "above"},
        {"--look", "rod"},
        {"--look", "rod", "--rockers", "shown"},
        {"--look", "rod", "--rockers", "hidden"},
        {"--yaw", "-60", "--pitch", "10"},
        {"--engine"},
        {"--engine", "--verdicts"},
        {"--others", "hidden"},
        {"--others", "hidden", "--sweep"},
        {"--others", "shown"},
        {"--section", "across-crank"},
        {"--section", "along-crank"},
        {"--section", "across-rod"},
        {"--section", "across-rod", "--section-by", ".5"},
        {"--valve", "3I", "--crank", "200"},
        {"--valve", "4E"},
        {"--no-lens"},
        {"--no-closest"},
        {"--engine", "--no-pistons"},
        {"--dark"},
    };
    for (const QStringList& view : views) {
        const QImage made = picture(view);
        ASSERT_EQ(made.size(), QSize(320, 200)) << view.join(' ').toStdString();
        for (auto other = seen.cbegin(); other != seen.cend(); ++other) {
            EXPECT_GT(pixels_apart(made, other.value()), 60)
                << view.join(' ').toStdString() << " against " << other.key().toStdString();
        }
        seen[view.join(' ')] = made;
    }
    EXPECT_EQ(pixels_apart(picture({"--look", "left"}), seen["--look left"]), 0);
    EXPECT_EQ(pixels_apart(picture({"--look", "rod", "--rockers", "glass"}), seen["--look rod"]), 0)
        << "down the rod, rockers are glass unless asked otherwise";
}

TEST_F(PictureCommands, WhatIsNoViewIsRefusedByName) {
    const QString name = file("none.png");
    expect_code(2, "picture", {name, "--look", "sideways"});
    expect_code(2, "picture", {name, "--section", "somewhere"});
    expect_code(2, "picture", {name, "--width", "9"});
    expect_code(3, "picture", {name, "--crank", "soon"});
    expect_code(3, "picture", {name, "--pitch", "91"});
    expect_code(3, "picture", {name, "--yaw", "nan"});
    expect_code(3, "picture", {name, "--section-by", "3"}); // inches or millimetres?
    expect_code(3, "picture", {name, "--valve", "9I"});
    EXPECT_TRUE(command("picture", {name, "--pitch", "91"}).complaints.contains("--pitch"));
    expect_code(3, "tube", {name, "--passage", "chimney"});
    EXPECT_TRUE(command("tube", {name, "--passage", "chimney"}).complaints.contains("tube"))
        << "names the passages there are";
    expect_code(3, "tube", {name, "--depth", "deep"});
    EXPECT_FALSE(QFile::exists(name));
}

TEST_F(PictureCommands, TheTubeAndThePlanAreDrawnAsPixelsAndAsLines) {
    for (const char* name : {"tube", "plan-picture"}) {
        expect_code(0, name, {file("drawn.png"), "--width", "640", "--height", "400"});
        EXPECT_EQ(QImage(file("drawn.png")).size(), QSize(640, 400));
        expect_code(0, name, {file("drawn.svg"), "--width", "640", "--height", "400"});
        const QByteArray svg = bytes("drawn.svg");
        EXPECT_TRUE(svg.contains("<svg")) << name;
        EXPECT_FALSE(svg.contains("<image")) << name << ": lines, not pixels";
        QFile::remove(file("drawn.png"));
        QFile::remove(file("drawn.svg"));
    }
    // What it says is what `clearance` answers.
    const double least_in = valve(answer("clearance"), "3I")["minimum_in"].toDouble();
    expect_code(0, "tube", {file("3I.svg"), "--valve", "3I"});
    const QString said = QString::number(least_in, 'f', 3) + " in";
    EXPECT_TRUE(bytes("3I.svg").contains(said.toUtf8())) << said.toStdString();
    // Another depth, another crank angle, another drawing.
    expect_code(0, "tube", {file("a.svg"), "--valve", "3I", "--depth", ".5"});
    expect_code(0, "tube", {file("b.svg"), "--valve", "3I", "--depth", "1.0"});
    expect_code(0, "tube", {file("c.svg"), "--valve", "3I", "--depth", ".5", "--crank", "300"});
    EXPECT_NE(bytes("a.svg"), bytes("b.svg"));
    EXPECT_NE(bytes("a.svg"), bytes("c.svg"));
}

TEST_F(PictureCommands, TheClearanceTableIsWhatTheCommandAnswers) {
    expect_code(0, "clearance-table", {file("clearances.csv")});
    const QList<QStringList> rows = table("clearances.csv");
    ASSERT_EQ(rows.size(), 17);
    const QStringList head = rows[0];
    for (const char* column : {"valve", "least_in", "on_heel_in", "at_full_lift_in", "wall", "end",
                               "clock_hours", "verdict"}) {
        ASSERT_TRUE(head.contains(column)) << column;
    }
    const QJsonObject answered = answer("clearance");
    for (int row = 1; row < rows.size(); ++row) {
        const auto cell = [&](const char* column) { return rows[row][head.indexOf(column)]; };
        const QJsonObject line = valve(answered, cell("valve"));
        EXPECT_NEAR(cell("least_in").toDouble(), line["minimum_in"].toDouble(), 1e-6);
        EXPECT_EQ(cell("wall"), line["wall"].toString());
        EXPECT_EQ(cell("end"), line["end"].toString());
        EXPECT_NEAR(cell("clock_hours").toDouble(), line["clock_hours"].toDouble(), 1e-5);
        EXPECT_EQ(cell("verdict"), line["verdict"].toString());
        EXPECT_LE(cell("least_in").toDouble(), cell("on_heel_in").toDouble());
        EXPECT_LE(cell("least_in").toDouble(), cell("at_full_lift_in").toDouble());
    }
}

TEST_F(PictureCommands, TheCurvesTableComesDownToEachMinimumAndNoFurther) {
    expect_code(0, "curve-table", {file("curves.csv")});
    const QList<QStringList> rows = table("curves.csv");
    ASSERT_GT(rows.size(), 300);
    const QJsonObject answered = answer("clearance");
    for (int column = 1; column < rows[0].size(); ++column) {
        double least = 1e9;
        double greatest = -1e9;
        for (int row = 1; row < rows.size(); ++row) {
            ASSERT_EQ(rows[row].size(), rows[0].size());
            least = std::min(least, rows[row][column].toDouble());
            greatest = std::max(greatest, rows[row][column].toDouble());
        }
        const QString name = rows[0][column].section('_', 0, 0);
        if (rows[0][column].endsWith("_clearance_in")) {
            const double certified = valve(answered, name)["minimum_in"].toDouble();
            // Every second degree: a flank's minimum may lie between two rows.
            EXPECT_GE(least, certified - 1e-6) << name.toStdString();
            EXPECT_LT(least, certified + 0.002) << name.toStdString();
        } else {
            EXPECT_NEAR(least, 0.0, 1e-9) << name.toStdString();
            EXPECT_GT(greatest, 0.4) << name.toStdString();
        }
    }
}

} // namespace
} // namespace rodway::tests
