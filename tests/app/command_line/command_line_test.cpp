#include "app/command_line/command_line.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <QDir>
#include <QFile>
#include <QImage>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>
#include <cmath>

#include "tests/app/demo_plan.h"
#include "tests/app/program.h"

namespace rodway::tests {
namespace {

constexpr const char* v8 = "Halden V8";

/// A folder with a demo shop in it.
class CommandLineTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = path("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    [[nodiscard]] static QByteArray bytes_of(const QString& file) {
        QFile opened(file);
        EXPECT_TRUE(opened.open(QIODevice::ReadOnly)) << file.toStdString();
        return opened.readAll();
    }
    QString write(const QString& name, const QByteArray& bytes) const {
        QFile file(path(name));
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return file.fileName();
    }
    [[nodiscard]] QByteArray exported(const QString& build = v8) const {
        const QString file = path("exported.json");
        EXPECT_EQ(run({"export-set-up", shop_, build, file, "--replace"}).exit_code, 0);
        return bytes_of(file);
    }
    [[nodiscard]] QJsonObject clearance(const QStringList& more = {}, int exit_code = 0,
                                        const QString& build = v8) const {
        const Ran ran = run(QStringList{"clearance", shop_, build, "--json"} + more);
        EXPECT_EQ(ran.exit_code, exit_code) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    [[nodiscard]] static QJsonObject valve(const QJsonObject& answer, const QString& name) {
        for (const QJsonValue& value : answer["valves"].toArray()) {
            if (value.toObject()["valve"] == name) {
                return value.toObject();
            }
        }
        ADD_FAILURE() << "no valve " << name.toStdString();
        return {};
    }
    /// Refused with this exit code and this word in its complaint, and the set-up in hand
    /// untouched.
    void expect_refused(const QString& file, int exit_code, const QString& word) const {
        const QByteArray before = exported();
        const Ran ran = run({"import-set-up", shop_, v8, file});
        EXPECT_EQ(ran.exit_code, exit_code) << ran.complaints.toStdString();
        EXPECT_TRUE(ran.complaints.contains(word))
            << word.toStdString() << " not in: " << ran.complaints.toStdString();
        EXPECT_EQ(exported(), before);
        EXPECT_EQ(run({"check", shop_}).exit_code, 0);
    }

    QTemporaryDir folder_;
    QString shop_;
};

// The demo's own story: one intake rod fails at full lift on its inboard wall, and more gasket
// cures it.
TEST_F(CommandLineTest, TheDemosTightRodFailsOnANamedWallAndAGasketOfTheRightSignCuresIt) {
    const QJsonObject before = valve(clearance(), "3I");
    EXPECT_EQ(before["verdict"], "fail");
    EXPECT_EQ(before["wall"], "inboard");
    EXPECT_EQ(before["end"], "bottom");
    EXPECT_NEAR(before["lobe_lift_in"].toDouble(), 0.380, 0.0002); // the table's last digit, twice
    EXPECT_LT(before["minimum_in"].toDouble(), 0.010);
    EXPECT_EQ(before["minimum_in"], before["at_full_lift_in"]);

    const QJsonObject thicker = clearance({"--gasket-thicker", ".015"});
    for (const QJsonValue& value : thicker["valves"].toArray()) {
        EXPECT_TRUE(value.toObject()["verdict"].toString().startsWith("pass"))
            << value.toObject()["valve"].toString().toStdString();
    }
    EXPECT_GT(valve(thicker, "3I")["minimum_in"].toDouble(),
              before["minimum_in"].toDouble() + 0.010);

    const QJsonObject thinner = valve(clearance({"--gasket-thicker", "-.015"}), "3I");
    EXPECT_LT(thinner["minimum_in"].toDouble(), before["minimum_in"].toDouble() - 0.010);
}

TEST_F(CommandLineTest, JsonCarriesUnitsFullDigitsAndNullForWhatIsNotKnown) {
    const QJsonObject answer = clearance();
    EXPECT_EQ(answer["format"], "rodway-clearance");
    EXPECT_EQ(answer["valves"].toArray().size(), 16);
    for (const QJsonValue& value : answer["valves"].toArray()) {
        const QJsonObject line = value.toObject();
        EXPECT_LE(line["bound_in"].toDouble(), 0.001 / 25.4);
        EXPECT_GT(line["doubt_in"].toDouble(), 0.001);
        EXPECT_LT(line["doubt_in"].toDouble(), 0.006);
        EXPECT_EQ(line["doubt_kind"], "worked_out");
        const QJsonArray rod = line["rod_point_bank_in"].toArray();
        const QJsonArray wall = line["wall_point_bank_in"].toArray();
        double squared = 0.0;
        for (int at = 0; at < 3; ++at) {
            squared += std::pow(wall[at].toDouble() - rod[at].toDouble(), 2);
        }
        // The two witness points are as far apart as the clearance says; rounding only.
        EXPECT_NEAR(std::sqrt(squared), std::abs(line["minimum_in"].toDouble()), 1e-12);
        const bool heel = line["lobe_lift_in"].toDouble() == 0.0;
        EXPECT_EQ(line["opening_crank_deg"].isNull(), heel);
    }
    // The six's set-up assumes one for all its valves.
    const QJsonObject six = clearance({}, 0, "Merrow six");
    for (const QJsonValue& value : six["valves"].toArray()) {
        EXPECT_DOUBLE_EQ(value.toObject()["doubt_in"].toDouble(), 0.004);
        EXPECT_EQ(value.toObject()["doubt_kind"], "assumed");
    }
    // The flat four's set-up states no doubt: null, and nothing is passed.
    const QJsonObject flat = clearance({}, 0, "Corran flat four");
    for (const QJsonValue& value : flat["valves"].toArray()) {
        EXPECT_TRUE(value.toObject()["doubt_in"].isNull());
        EXPECT_EQ(value.toObject()["verdict"], "no_verdict_doubt_unknown");
    }
}

TEST_F(CommandLineTest, ExportThenImportIsTheIdentity) {
    for (const char* build : {v8, "Merrow six", "Corran flat four"}) {
        const QByteArray first = exported(build);
        const QString file = write("again.json", first);
        EXPECT_EQ(run({"import-set-up", shop_, build, file}).exit_code, 0);
        EXPECT_EQ(exported(build), first);
    }
}

TEST_F(CommandLineTest, RefusesEveryWrongSetUpWithItsFieldAndKeepsTheOldOne) {
    const QByteArray good = exported();
    const auto changed = [&](const char* from, const char* to) {
        QByteArray bytes = good;
        EXPECT_TRUE(bytes.contains(from)) << from;
        return bytes.replace(bytes.indexOf(from), static_cast<int>(qstrlen(from)), to);
    };
    expect_refused(write("a.json", changed("1-8-4-3-6-5-7-2", "1-8-4-3-6-5-7-7")), 3,
                   "cylinder 7 twice");
    expect_refused(write("b.json", changed("\"bore_in\": 0.5625", "\"bore_in\": 0")), 3,
                   "tube/bore");
    expect_refused(write("c.json", changed(",\n        \"bore_in\": 0.5625", "")), 3, "tube/bore");
    expect_refused(write("d.json", changed("\"bore_in\": 0.5625", "\"bore_in\": 0.3")), 3,
                   "not larger than its rod");
    QByteArray swapped = good;
    const int axis = static_cast<int>(swapped.indexOf("\"axis\"", swapped.indexOf("\"tube\"")));
    const int open = static_cast<int>(swapped.indexOf('[', axis));
    const int close = static_cast<int>(swapped.indexOf(']', axis));
    const QList<QByteArray> numbers = swapped.mid(open + 1, close - open - 1).split(',');
    QByteArrayList turned;
    for (QByteArray number : numbers) {
        number = number.trimmed();
        turned << (number.startsWith('-') ? number.mid(1) : "-" + number);
    }
    swapped.replace(open + 1, close - open - 1, turned.join(", "));
    expect_refused(write("e.json", swapped), 3, "from the rocker end to the lifter end");
    expect_refused(write("f.json", good.left(good.size() / 2)), 3, "line");
    expect_refused(
        write("g.json", changed("\"stroke_in\": 3.7", "\"stroke_in\": 3.7, \"stroke_in\": 3.7")), 3,
        "twice");
    expect_refused(write("h.json", {}), 3, "empty");
    expect_refused(write("i.json", changed("\"length_in\": 8.97", "\"length_in\": 227.8")), 3,
                   "millimetres");
    expect_refused(write("j.json", QByteArray(good).replace("_in\"", "_mm\"")), 3, "inches");
    expect_refused(write("k.json", "[1, 2]"), 3, "not a Rodway set-up");
    expect_refused(write("l.json", changed("\"version\": 1", "\"version\": 2")), 4, "newer");
    expect_refused(path("not-there.json"), 6, "can't be read");
    QByteArray utf16("\xff\xfe");
    for (const char c : good) {
        utf16 += c;
        utf16 += '\0';
    }
    expect_refused(write("m.json", utf16), 3, "UTF-16");
}

TEST_F(CommandLineTest, ARodTooShortOrBesideItsTubeIsNoAnswerNeverAPass) {
    QByteArray bytes = exported();
    const int at = static_cast<int>(bytes.indexOf("\"length_in\": 8.97"));
    ASSERT_GT(at, 0);
    bytes.replace(at, 17, "\"length_in\": 8.40");
    ASSERT_EQ(run({"import-set-up", shop_, v8, write("short.json", bytes)}).exit_code, 0);
    const Ran ran = run({"clearance", shop_, v8});
    EXPECT_EQ(ran.exit_code, 5);
    EXPECT_TRUE(ran.complaints.contains("too short")) << ran.complaints.toStdString();
    const QJsonObject line = valve(clearance({}, 5), "1E");
    EXPECT_EQ(line["status"], "adjuster_out_of_thread");
    EXPECT_TRUE(line["minimum_in"].isNull());
    EXPECT_TRUE(line["verdict"].isNull());
    // The others still have theirs.
    EXPECT_EQ(valve(clearance({}, 5), "3I")["verdict"], "fail");

    // The gasket so thick that every intake tube has left its rod.
    const QJsonObject beside = valve(clearance({"--gasket-thicker", ".700"}, 5), "7I");
    EXPECT_EQ(beside["status"], "does_not_go_through");
    EXPECT_TRUE(beside["verdict"].isNull());
}

TEST_F(CommandLineTest, AValveLeftOutOfTheSetUpIsNamedNotPassedOver) {
    QByteArray bytes = exported();
    const int from = static_cast<int>(bytes.indexOf("    \"3I\": {"));
    const int to = static_cast<int>(bytes.indexOf("    \"4E\": {"));
    ASSERT_GT(from, 0);
    ASSERT_GT(to, from);
    bytes.remove(from, to - from);
    ASSERT_EQ(run({"import-set-up", shop_, v8, write("without.json", bytes)}).exit_code, 0);
    const QJsonObject answer = clearance({}, 5);
    EXPECT_EQ(answer["not_in_set_up"].toArray(), QJsonArray{"3I"});
    EXPECT_TRUE(run({"clearance", shop_, v8}).complaints.contains("3I is not in the set-up"));
}

TEST_F(CommandLineTest, LiftTablesAreReadAskedAboutOrRefused) {
    const auto import = [&](const QString& file, const QStringList& more = {}) {
        return run(QStringList{"import-lift-table", shop_, v8, file, "--valves", "intake"} + more);
    };
    const QByteArray before = exported();
    EXPECT_EQ(import(write("empty.csv", {})).exit_code, 3);
    const Ran order = import(
        write("order.csv",
              "cam deg,in\n-40,0\n-30,.05\n-20,.15\n-25,.2\n0,.3\n10,.25\n20,.2\n30,.1\n40,0\n"));
    EXPECT_EQ(order.exit_code, 3);
    EXPECT_TRUE(order.complaints.contains("line 5")) << order.complaints.toStdString();
    QByteArray utf16("\xff\xfe");
    for (const char c : QByteArray("0,0\n1,1\n")) {
        utf16 += c;
        utf16 += '\0';
    }
    const Ran encoded = import(write("utf16.csv", utf16));
    EXPECT_EQ(encoded.exit_code, 3);
    EXPECT_TRUE(encoded.complaints.contains("UTF-16"));
    const QByteArray bare =
        "-60;0\n-50;0,02\n-40;0,10\n-30;0,20\n-20;0,28\n-10;0,33\n0;0,35\n10;0,33\n20;0,28\n30;0,"
        "20\n"
        "40;0,10\n50;0,02\n60;0\n";
    const Ran asked = import(write("bare.csv", bare));
    EXPECT_EQ(asked.exit_code, 3);
    EXPECT_TRUE(asked.complaints.contains("--degrees")) << asked.complaints.toStdString();
    EXPECT_EQ(exported(), before);
    EXPECT_EQ(import(path("bare.csv"), {"--degrees", "cam"}).exit_code, 0);
    EXPECT_NE(exported(), before);
    // Full lift is now the new table's, written to 0.01 in: half a step is as near as smoothing
    // comes.
    EXPECT_NEAR(valve(clearance(), "3I")["lobe_lift_in"].toDouble(), 0.350, 0.005);
}

TEST_F(CommandLineTest, ShopFilesThatAreNoneAreRefusedAndLeftAlone) {
    const QString text = write("notes.rodway", "rods, 8.97 long, 16 of\n");
    EXPECT_EQ(run({"clearance", text, "1"}).exit_code, 4);
    EXPECT_EQ(bytes_of(text), QByteArray("rods, 8.97 long, 16 of\n"));
    EXPECT_EQ(run({"clearance", path("nowhere.rodway"), "1"}).exit_code, 6);
    EXPECT_FALSE(QFile::exists(path("nowhere.rodway")));
    EXPECT_EQ(run({"demo", shop_}).exit_code, 6);
    EXPECT_EQ(run({"check", shop_}).exit_code, 0);
    const QByteArray whole = bytes_of(shop_);
    const QString cut = write("cut.rodway", whole.left(whole.size() / 2));
    EXPECT_EQ(run({"check", cut}).exit_code, 4);
    EXPECT_EQ(bytes_of(cut), whole.left(whole.size() / 2));
}

TEST_F(CommandLineTest, AReadOnlyFolderIsRefusedAndNothingIsLeftBehind) {
    const QString folder = path("locked");
    ASSERT_TRUE(QDir().mkdir(folder));
    ASSERT_TRUE(QFile::setPermissions(folder_.path(), QFile::ReadOwner | QFile::ExeOwner |
                                                          QFile::WriteOwner | QFile::ReadOther |
                                                          QFile::ExeOther));
    ASSERT_TRUE(QFile::setPermissions(
        folder, QFile::ReadOwner | QFile::ExeOwner | QFile::ReadOther | QFile::ExeOther));
    // As another user: the super-user may write anywhere.
    const pid_t child = fork();
    if (child == 0) {
        if (getuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0)) {
            _exit(100);
        }
        const QByteArray shop = (folder + "/shop.rodway").toUtf8();
        execl(RODWAY_PROGRAM, RODWAY_PROGRAM, "demo", shop.constData(), nullptr);
        _exit(101);
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 6);
    EXPECT_TRUE(
        QDir(folder).entryList(QDir::AllEntries | QDir::NoDotAndDotDot | QDir::Hidden).isEmpty());
}

TEST_F(CommandLineTest, PicturesCurvesAndPapersAreWhatTheySay) {
    // Nothing that goes out ever replaces the shop, whatever name it is given.
    const QByteArray whole = bytes_of(shop_);
    for (const char* command : {"picture", "curve", "document", "bench-sheet"}) {
        EXPECT_EQ(run({command, shop_, v8, shop_}).exit_code, 6) << command;
    }
    EXPECT_EQ(run({"export-set-up", shop_, v8, shop_, "--replace"}).exit_code, 6);
    EXPECT_EQ(bytes_of(shop_), whole);
    const QString png = path("tight.png");
    ASSERT_EQ(run({"picture", shop_, v8, png, "--width", "640", "--height", "400"}).exit_code, 0);
    EXPECT_EQ(QImage(png).size(), QSize(640, 400));
    const QString other = path("other.png");
    ASSERT_EQ(
        run({"picture", shop_, v8, other, "--valve", "8E", "--width", "640", "--height", "400"})
            .exit_code,
        0);
    EXPECT_NE(QImage(png), QImage(other));
    const QString svg = path("curve.svg");
    ASSERT_EQ(run({"curve", shop_, v8, svg}).exit_code, 0);
    EXPECT_TRUE(bytes_of(svg).contains("<svg"));
    for (const char* paper : {"document", "bench-sheet"}) {
        const QString pdf = path(QString(paper) + ".pdf");
        ASSERT_EQ(run({paper, shop_, v8, pdf}).exit_code, 0);
        EXPECT_TRUE(bytes_of(pdf).startsWith("%PDF-"));
        EXPECT_TRUE(bytes_of(pdf).contains("/Count 1")) << "one page";
    }
    EXPECT_EQ(run({"picture", shop_, v8, png, "--valve", "9I"}).exit_code, 3);
    EXPECT_EQ(run({"picture", shop_, v8, path("no/such/folder.png")}).exit_code, 6);
}

TEST_F(CommandLineTest, OpenValvesFollowTheFiringOrder) {
    const auto open_at = [&](const char* crank, const QString& build) {
        QStringList open;
        const Ran ran = run({"open-valves", shop_, build, crank, "--json"});
        EXPECT_EQ(ran.exit_code, 0);
        for (const QJsonValue& value :
             QJsonDocument::fromJson(ran.output.toUtf8()).object()["valves"].toArray()) {
            if (value.toObject()["open"].toBool()) {
                open << value.toObject()["valve"].toString();
            }
        }
        return open;
    };
    // Cylinder 1 of the six at firing top dead centre: both its valves are shut; its mate 6 rocks.
    const QStringList open = open_at("0", "Merrow six");
    EXPECT_FALSE(open.contains("1I"));
    EXPECT_FALSE(open.contains("1E"));
    EXPECT_TRUE(open.contains("6I") || open.contains("6E"));
    // One turn on, they have changed over.
    const QStringList later = open_at("360", "Merrow six");
    EXPECT_TRUE(later.contains("1I") || later.contains("1E"));
    EXPECT_FALSE(later.contains("6I"));
    EXPECT_EQ(open_at("720", "Merrow six"), open);
    EXPECT_EQ(run({"open-valves", shop_, v8, "ninety"}).exit_code, 2);
    EXPECT_EQ(run({"open-valves", shop_, v8, "nan"}).exit_code, 2);
}

TEST_F(CommandLineTest, EveryCommandHasHelpAndWrongCallsAreRefused) {
    for (const char* command : {"demo", "builds", "add-build", "check", "import-set-up",
                                "export-set-up", "import-lift-table", "clearance", "open-valves",
                                "picture", "curve", "document", "bench-sheet", "window"}) {
        const Ran ran = run({command, "--help"});
        EXPECT_EQ(ran.exit_code, 0) << command;
        EXPECT_TRUE(ran.output.contains("Usage")) << command;
    }
    EXPECT_TRUE(run({"--help"}).output.contains("Exit codes"));
    EXPECT_EQ(run({"clearance"}).exit_code, 2);
    EXPECT_EQ(run({"nonsense"}).exit_code, 2);
    EXPECT_EQ(run({"clearance", shop_, "No such build"}).exit_code, 3);
    EXPECT_EQ(run({"clearance", shop_, v8, "--lifter-taller", "10"}).exit_code, 3);
    EXPECT_EQ(run({"clearance", shop_, v8, "--gasket-thicker", "middle=.010"}).exit_code, 3);
    EXPECT_EQ(run({"clearance", shop_, v8, "--rod-thicker", ".300"}).exit_code, 3);
}

TEST_F(CommandLineTest, BuildsAreListedAndAdded) {
    EXPECT_EQ(run({"add-build", shop_, "Brae single", "--customer", "O. Lund", "--engine",
                   "Brae 30", "--by", "MH"})
                  .exit_code,
              0);
    const Ran ran = run({"builds", shop_, "--json"});
    const QJsonArray builds =
        QJsonDocument::fromJson(ran.output.toUtf8()).object()["builds"].toArray();
    ASSERT_EQ(builds.size(), 4);
    EXPECT_EQ(builds[3].toObject()["name"], "Brae single");
    EXPECT_EQ(builds[0].toObject()["steps_ticked"],
              steps_before("complete_build", "clearance_walked"));
    EXPECT_TRUE(builds[0].toObject()["next_step"].toString().startsWith("Pushrod clearance: "));
    EXPECT_EQ(builds[3].toObject()["steps"], steps_before("complete_build", "called_back") + 1);
    // A build without a set-up says so.
    const Ran without = run({"clearance", shop_, "Brae single"});
    EXPECT_EQ(without.exit_code, 3);
    EXPECT_TRUE(without.complaints.contains("set_up"));
}

} // namespace
} // namespace rodway::tests
