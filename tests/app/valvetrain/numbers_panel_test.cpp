#include "app/valvetrain/numbers_panel.h"

#include <QTextDocument>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/clearance/survey.h"
#include "core/units/angle.h"
#include "core/valvetrain/train_motion.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

class NumbersPanelTest : public ValvetrainTest {
  protected:
    /// What a person reads: name of the figure -> its text.
    std::map<QString, QString> figures() {
        QTextDocument page;
        page.setHtml(text("figures"));
        std::map<QString, QString> read;
        QString name;
        for (QString line : page.toPlainText().split('\n')) {
            line = line.replace(QChar(u'\u00a0'), ' ').trimmed();
            if (names_.contains(line)) {
                name = line;
            } else if (!name.isEmpty() && !read.contains(name)) {
                read[name] = line;
            }
        }
        return read;
    }
    const QStringList names_{"On the heel",   "At full lift", "Least",       "Least at",
                             "Nearest",       "Depth",        "Lift",        "Ratio",
                             "Rod to lifter", "Rod to cup",   "Tip's sweep", "Set"};
};

// The core's own figures, worked out here from the shop file's fields, for every valve.
TEST_F(NumbersPanelTest, EveryValvesFiguresAreTheCores) {
    open_panel("Numbers");
    const Engine engine = engine_of_shop();
    const auto lines = survey(engine);
    ASSERT_TRUE(lines.ok());
    ASSERT_EQ(lines->size(), 16U);
    const auto thou = [](double mm) { return words::inches(mm).remove(" in"); };
    for (const ValveClearance& line : *lines) {
        click_valve(line.position);
        auto read = figures();
        const std::string valve = position_name(line.position);
        EXPECT_EQ(text("figure"),
                  thou(line.found.minimum->clearance_mm) + " ± " + words::inches(*line.doubt_mm))
            << valve;
        EXPECT_TRUE(text("verdict").contains(words::verdict(*line.verdict))) << valve;
        EXPECT_TRUE(read["On the heel"].startsWith(thou(line.found.on_heel->clearance_mm) + " ± "))
            << valve << read["On the heel"].toStdString();
        EXPECT_TRUE(
            read["At full lift"].startsWith(thou(line.found.at_full_lift->clearance_mm) + " ± "))
            << valve << read["At full lift"].toStdString();
        EXPECT_EQ(read["Least at"], words::when(line)) << valve;
        EXPECT_EQ(read["Nearest"], words::place(*line.found.minimum, engine)) << valve;
        const Train& train = *engine.train(line.position);
        const TrainMotion motion =
            train_motion(train, engine.lobes(line.position).lobe.full_lift_mm());
        EXPECT_EQ(read["Ratio"], QString("%1 / %2 / %3")
                                     .arg(motion.on_heel->gross_ratio, 0, 'f', 2)
                                     .arg(motion.half_lift->gross_ratio, 0, 'f', 2)
                                     .arg(motion.full_lift->gross_ratio, 0, 'f', 2))
            << valve;
        EXPECT_TRUE(read["Tip's sweep"].startsWith(words::inches(motion.sweep->width_mm())))
            << valve;
        EXPECT_TRUE(read["Rod to cup"].contains(
            words::crank_degrees(degrees(motion.full_lift->rod_to_adjuster_rad))))
            << valve;
        EXPECT_TRUE(text("details").contains(QString::number(line.found.bound_mm, 'f', 6)))
            << valve;
    }
}

// Where the least is at full lift, both figures are of one place and must have one doubt.
TEST_F(NumbersPanelTest, TheDoubtAtFullLiftIsThatOfTheMinimumThere) {
    for (const ValveClearance& line : model().lines()) {
        if (position_name(line.position) == "3I") {
            ASSERT_EQ(line.found.minimum->lobe_lift_mm, line.found.at_full_lift->lobe_lift_mm);
            click_valve(line.position);
        }
    }
    auto read = figures();
    EXPECT_EQ(read["At full lift"], read["Least"]);
    EXPECT_NE(read["On the heel"], read["Least"]);
}

TEST_F(NumbersPanelTest, FiguresAtTheCrankFollowIt) {
    click_valve({3, ValveKind::intake, 1});
    const Engine engine = engine_of_shop();
    const Train& train = *engine.train({3, ValveKind::intake, 1});
    const auto closed = train_surroundings(engine, train);
    ASSERT_TRUE(closed && closed->surroundings);
    QString before;
    for (const double deg : {0.0, 90.0, 250.0, 640.0}) {
        model().set_crank(CrankAngle::deg(deg));
        const double lobe = engine.lobe_lift_mm(train.position, CrankAngle::deg(deg));
        const auto here = least_clearance_at(*closed->surroundings, lobe);
        const auto stands = train_at_lift(train, closed->surroundings->linkage, lobe);
        const QString now = text("now");
        EXPECT_TRUE(now.contains(words::inches(here->clearance_mm))) << now.toStdString();
        EXPECT_TRUE(now.contains(words::inches(stands->net_lift_mm))) << now.toStdString();
        EXPECT_NE(now, before);
        before = now;
    }
}

TEST_F(NumbersPanelTest, WhileSomethingIsTriedWhatStandsIsBesideIt) {
    click_valve({3, ValveKind::intake, 1});
    const QString stood = figures()["Least"];
    EXPECT_FALSE(text("figures").contains("was " + stood));
    try_in("what_if_gasket_left", "+.015");
    EXPECT_TRUE(text("figures").contains("was " + stood)) << text("figures").toStdString();
    EXPECT_NE(figures()["Least"], stood);
    EXPECT_TRUE(text("what_if_answer").contains("TRIED"));
    keep_picture("numbers tried");
}

} // namespace
} // namespace rodway
