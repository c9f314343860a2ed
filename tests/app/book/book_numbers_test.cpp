#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "app/first_run/new_build.h"
#include "app/valvetrain/tube_pictures.h"
#include "app/words/box_words.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/pull_words.h"
#include "app/words/sheet_words.h"
#include "core/clearance/causes.h"
#include "core/dyno/power_correction.h"
#include "core/engine/set_up.h"
#include "db/set_up_store.h"
#include "tests/app/book/book_shop.h"

// Every number of the pulls, the settings card and the valvetrain, traced to what was read or
// typed.

namespace rodway {
namespace {

using tests::printed_by;

const std::string only_dyno = "book B\nsection dyno\n";
const std::string only_settings = "book B\nsection settings\n";
const std::string only_valvetrain = "book B\nsection valvetrain\n";

QStringList numbers_in(const QString& text) {
    static const QRegularExpression number("\\d*\\.?\\d+");
    QStringList found;
    for (auto at = number.globalMatch(text); at.hasNext();) found << at.next().captured();
    return found;
}

double tol_of(const QString& number) {
    const auto point = number.indexOf(u'.');
    const auto decimals = point < 0 ? 0 : number.size() - point - 1;
    return 0.5000001 * std::pow(10.0, -static_cast<double>(decimals)); // its last digit
}

class BookNumbersTest : public tests::BookShop {
  protected:
    /// A book's lines as they stand on paper, without heads, feet and the blanks between columns.
    QStringList lines_of(const std::string& pattern) {
        const QString pdf = write_book(pattern, "numbers.pdf");
        QStringList lines;
        for (const QString& page :
             printed_by("pdftotext", {"-layout", pdf, "-"}).split('\f', Qt::SkipEmptyParts)) {
            const QStringList all = page.split('\n', Qt::SkipEmptyParts);
            for (const QString& line : all.mid(1)) {
                const QString plain = line.simplified();
                if (!plain.isEmpty() && !plain.startsWith("Page ")) lines << plain;
            }
        }
        return lines;
    }
    /// Lines of one that the other hasn't.
    static QStringList only_in(const QStringList& one, QStringList other) {
        QStringList left;
        for (const QString& line : one) {
            if (!other.removeOne(line)) left << line;
        }
        return left;
    }
    static QStringList part(const QStringList& lines, const QString& from, const QString& to = {}) {
        const auto begin = lines.indexOf(from);
        const auto end = to.isEmpty() ? -1 : lines.indexOf(to);
        EXPECT_GE(begin, 0) << from.toStdString();
        return lines.mid(begin, end < 0 ? -1 : end - begin);
    }
    /// Numbers of a text that are none of those known.
    static QStringList unknown(const QStringList& lines, const QStringList& known) {
        std::set<QString> all;
        for (const QString& one : known) {
            for (const QString& number : numbers_in(one)) all.insert(number);
        }
        QStringList found;
        for (const QString& line : lines) {
            for (const QString& number : numbers_in(line)) {
                if (all.count(number) == 0) found << number + " in: " + line;
            }
        }
        return found;
    }

    void fill_pulls() {
        std::vector<Typed> all;
        for (int pull = 1; pull <= 2; ++pull) {
            const std::string name = "pull " + std::to_string(pull);
            all.push_back({"pull_air_pressure", name, pull == 1 ? "29.31" : "28.87"});
            all.push_back({"pull_barometer_kind", name, "station"});
            all.push_back({"pull_dry_bulb", name, pull == 1 ? "78" : "91"});
            all.push_back({"pull_humidity", name, pull == 1 ? "45" : "62"});
            all.push_back({"pull_correction", name, pull == 1 ? "j1349" : "j607"});
            for (int row = 0; row < 5; ++row) {
                all.push_back({"pull_torque",
                               name + ' ' + std::to_string(3000 + 300 * row) + " rpm",
                               std::to_string(371 + 17 * pull + 7 * row - row * row) + ".5"});
            }
        }
        read(all);
    }
    /// What the sheet of pulls says by the shop's records, by a road of its own.
    QStringList dyno_facts() {
        QStringList texts{"for 1000 ci", "kg/m3"};
        const auto sheets = BuildSheets::load(session().shop(), build_);
        const AssessedSheet sheet =
            sheets->assess(*sheets->kind("dyno_pull"), EntryOrder::by_number);
        for (const SheetLine& line : sheet.lines) {
            texts << words::sheet_title(line.quantity.id);
            for (const SheetBox& box : line.boxes) {
                texts << QString::fromStdString(box.position);
                if (box.taken) texts << QString::fromStdString(box.taken->reading.text);
                if (box.figure) texts << words::amount(*box.figure, line.quantity);
            }
            for (const SheetFinding& one : sheet.findings) {
                if (one.quantity == line.quantity.id) texts << words::finding(one, line.quantity);
            }
        }
        for (const SheetPull& pull : sheet_pulls(sheets->facts())) {
            const auto raw = pull_figures(*pull.raw);
            texts << words::pull_peaks(*raw);
            for (const PowerStandard standard :
                 {PowerStandard::sae_j607, PowerStandard::sae_j1349, PowerStandard::iso_1585,
                  PowerStandard::din_70020}) {
                const auto by = power_correction(standard, pull.air->airs.front());
                texts << words::standard_title(standard) << QString::number(by->factor, 'f', 3)
                      << words::pull_peaks(*raw, by->factor);
            }
        }
        return texts;
    }
    /// What a pull's plot has along its edges: nothing but rounded numbers.
    static bool is_scale(const QString& line) {
        static const QRegularExpression only("^[\\d ]+$");
        return only.match(line).hasMatch();
    }
    static QString row_at(const QStringList& lines, const QString& first) {
        for (const QString& line : lines) {
            if (line.startsWith(first + ' ') && !is_scale(line)) return line;
        }
        ADD_FAILURE() << "no row " << first.toStdString();
        return {};
    }

    /// The set-up in hand with one field otherwise, as a new one.
    void change_set_up(const std::string& path, const std::string& text) {
        const auto now = newest_set_up(session().shop(), build_);
        ASSERT_TRUE(now.ok() && now->has_value());
        SetUpFields fields = (*now)->fields;
        ASSERT_EQ(fields.count(path), 1U) << path;
        fields[path].text = text;
        ASSERT_TRUE(add_set_up(session(), build_, "Tried", fields).ok());
    }
    struct Surveyed {
        Engine engine;
        std::vector<ValveClearance> lines;
    };
    Surveyed surveyed() {
        const auto now = newest_set_up(session().shop(), build_);
        auto engine = make_engine((*now)->fields);
        EXPECT_TRUE(engine.ok());
        auto lines = survey(*engine);
        EXPECT_TRUE(lines.ok());
        return {std::move(engine).value(), std::move(lines).value()};
    }
    static QString thou(double mm) { return words::inches(mm).remove(" in"); }

    /// The row of the survey's table that a valve should have, as far as it is numbers.
    static QString wanted_row(const ValveClearance& line) {
        return QString("%1 %2 %3 %4")
            .arg(words::valve(line.position), thou(line.found.on_heel->clearance_mm),
                 thou(line.found.at_full_lift->clearance_mm),
                 thou(line.found.minimum->clearance_mm));
    }
};

TEST_F(BookNumbersTest, EveryNumberOfThePullsIsReadOrFollowsFromWhatWasRead) {
    fill_pulls();
    QStringList lines = lines_of(only_dyno);
    const QStringList scales = lines.filter(QRegularExpression("^[\\d ]+$"));
    lines.removeIf(is_scale);
    EXPECT_EQ(unknown(lines, dyno_facts()).join('\n').toStdString(), "");
    ASSERT_GT(scales.size(), 8);
    for (const QString& scale : scales) {
        for (const QString& number : numbers_in(scale)) EXPECT_EQ(number.toInt() % 100, 0);
    }
    // Every reading stands there.
    const QString all = lines.join('\n');
    const auto sheets = BuildSheets::load(session().shop(), build_);
    for (const Reading& reading : sheets->readings()) {
        if (reading.quantity.rfind("pull_", 0) == 0 && reading.quantity != "pull_correction") {
            EXPECT_TRUE(all.contains(QString::fromStdString(reading.text))) << reading.text;
        }
    }
}

// Power is torque × speed / 5252; mean effective pressure of a four-stroke is 150.8 × torque /
// cubic inches (both handbook formulas). J607: 29.92 / dry inHg × √(°R / 520). DIN 70020: 1013 /
// mbar × √(K / 293), of the air as it is.
TEST_F(BookNumbersTest, RowsAndFactorsOfAPullAreWhatTheHandbooksFormulasMakeOfItsReadings) {
    fill_pulls();
    const QStringList lines = lines_of(only_dyno);
    for (const int pull : {1, 2}) {
        const QStringList here =
            pull == 1 ? part(lines, "Pull 1", "Pull 2") : part(lines, "Pull 2");
        const double dry = numbers_in(row_at(here, "Dry pressure,")).first().toDouble();
        const QString j607 = numbers_in(row_at(here, "SAE J607"))[1];
        const double fahrenheit = pull == 1 ? 78.0 : 91.0;
        EXPECT_NEAR(j607.toDouble(), 29.92 / dry * std::sqrt((fahrenheit + 459.67) / 519.67),
                    0.0015);
        const double mbar = (pull == 1 ? 29.31 : 28.87) * 33.8639;
        EXPECT_NEAR(numbers_in(row_at(here, "DIN 70020"))[1].toDouble(),
                    1013.0 / mbar * std::sqrt(((fahrenheit - 32.0) / 1.8 + 273.0) / 293.0), 0.0015);
        const QString factor = pull == 1 ? numbers_in(row_at(here, "SAE J1349"))[1] : j607;
        for (int row = 0; row < 5; ++row) {
            const int rpm = 3000 + 300 * row;
            const double torque = 371.5 + 17 * pull + 7 * row - row * row;
            const QStringList said = numbers_in(row_at(here, QString::number(rpm)));
            ASSERT_GE(said.size(), 10) << rpm;
            const double power = torque * rpm / 5252.0;
            EXPECT_EQ(said[1].toDouble(), torque) << rpm;
            EXPECT_NEAR(said[2].toDouble(), power, 0.02) << rpm;
            EXPECT_NEAR(said[4].toDouble(), torque * factor.toDouble(), 0.4) << rpm;
            EXPECT_NEAR(said[6].toDouble(), power * factor.toDouble(), 0.4) << rpm;
            EXPECT_NEAR(said[8].toDouble(), 150.8 * torque / 401.35, 0.02) << rpm;
        }
    }
}

TEST_F(BookNumbersTest, ATorqueReadAgainChangesItsRowAndWhatFollowsOfItsPullAlone) {
    fill_pulls();
    const QStringList before = lines_of(only_dyno);
    read("pull_torque", "pull 2 3600 rpm", "433.5");
    const QStringList after = lines_of(only_dyno);
    EXPECT_EQ(part(before, "Pull 1", "Pull 2"), part(after, "Pull 1", "Pull 2"));
    const QStringList was = part(before, "Pull 2");
    const QStringList is = part(after, "Pull 2");
    EXPECT_EQ(numbers_in(row_at(is, "3600"))[1], "433.5");
    for (const char* rpm : {"3000", "3300", "3900", "4200"}) {
        EXPECT_EQ(row_at(is, rpm), row_at(was, rpm));
    }
    // Greatest torque, its speed, averages; neither the weather nor the greatest power.
    static const QRegularExpression follows(
        "^(3600 |as read |SAE |ISO |DIN |Peak torque|Speed of peak torque|Average |Torque plus)");
    const QStringList changed = only_in(is, was);
    EXPECT_GE(changed.size(), 10);
    for (const QString& line : changed) {
        EXPECT_TRUE(follows.match(line).hasMatch()) << line.toStdString();
    }
    EXPECT_TRUE(row_at(is, "as read").startsWith("as read 433.5 lb-ft at 3600 rpm, 333.9 hp"));
    EXPECT_FALSE(is.join('\n').contains("415.5")) << "what it was before";
}

TEST_F(BookNumbersTest, WeatherReadAgainChangesFactorsAndWhatIsCorrectedButNothingRaw) {
    fill_pulls();
    const QStringList before = lines_of(only_dyno);
    read("pull_dry_bulb", "pull 1", "84");
    const QStringList after = lines_of(only_dyno);
    EXPECT_EQ(part(before, "Pull 2"), part(after, "Pull 2"));
    const QStringList is = part(after, "Pull 1", "Pull 2");
    const QStringList was = part(before, "Pull 1", "Pull 2");
    EXPECT_EQ(row_at(is, "Dry bulb, degF"), "Dry bulb, degF 84");
    EXPECT_NE(row_at(is, "SAE J1349"), row_at(was, "SAE J1349"));
    EXPECT_EQ(row_at(is, "as read"), row_at(was, "as read"));
    for (const char* raw : {"Peak torque, lb-ft", "Peak power, hp", "Average torque, lb-ft",
                            "Average power, hp", "Pressure in the room, inHg"}) {
        EXPECT_EQ(row_at(is, raw), row_at(was, raw));
    }
    for (int rpm = 3000; rpm <= 4200; rpm += 300) {
        const QStringList now = numbers_in(row_at(is, QString::number(rpm)));
        const QStringList then = numbers_in(row_at(was, QString::number(rpm)));
        EXPECT_EQ(now.mid(0, 3), then.mid(0, 3)) << "read, and its power";
        EXPECT_NE(now[4], then[4]);
    }
}

TEST_F(BookNumbersTest, EverySettingStandsOnTheCardAtItsPlaceAndNoOtherNumber) {
    std::vector<Typed> all;
    int step = 20;
    for (int cylinder = 1; cylinder <= 8; ++cylinder) {
        for (const char* valve : {"I", "E"}) {
            all.push_back(
                {"lash_hot", std::to_string(cylinder) + valve, ".0" + std::to_string(step++)});
        }
    }
    all.push_back({"oil_used", "", "20W-50, 5 quarts"});
    all.push_back({"prime_pressure", "", "62"});
    all.push_back({"break_in_total", "", "27"});
    all.push_back({"pull_ignition_timing", "pull 1", "34"});
    read(all);
    const QStringList before = lines_of(only_settings);
    QStringList known;
    const auto sheets = BuildSheets::load(session().shop(), build_);
    for (const SheetKind& kind : sheets->kinds()) {
        for (const SheetLine& line : sheets->assess(kind, EntryOrder::by_number).lines) {
            for (const SheetBox& box : line.boxes) {
                if (box.figure) known << words::amount(*box.figure, line.quantity);
                if (!box.taken) continue;
                known << QString::fromStdString(box.taken->reading.text)
                      << QString::fromStdString(box.position)
                      << words::both_units(box.taken->value, line.quantity);
            }
        }
    }
    EXPECT_EQ(unknown(before, known).join('\n').toStdString(), "");
    for (const Typed& typed : all) {
        if (typed.quantity != std::string("lash_hot")) continue;
        const QString row =
            QString("Lash, hot %1 %2 (0%2 in").arg(typed.position.c_str(), typed.text.c_str());
        EXPECT_EQ(before.filter(row).size(), 1) << row.toStdString();
    }
    EXPECT_TRUE(before.contains("Oil 20W-50, 5 quarts")) << before.join('\n').toStdString();
    EXPECT_EQ(before.filter("Minutes altogether 27 min").size(), 1) << "its unit is said";
    EXPECT_EQ(before.filter("Prime pressure 62 (62 psi = ").size(), 1);

    read("lash_hot", "5E", ".0777");
    const QStringList after = lines_of(only_settings);
    const QStringList gone = only_in(before, after);
    const QStringList come = only_in(after, before);
    ASSERT_EQ(gone.size(), 1) << gone.join('\n').toStdString();
    ASSERT_EQ(come.size(), 1) << come.join('\n').toStdString();
    EXPECT_TRUE(gone.front().startsWith("Lash, hot 5E .029 "));
    EXPECT_EQ(come.front(), "Lash, hot 5E .0777 (0.0777 in = 1.974 mm)");
}

TEST_F(BookNumbersTest, EveryValvesRowAndPlaceOnThePlanHasItsOwnClearances) {
    const QStringList lines = lines_of(only_valvetrain);
    const Surveyed now = surveyed();
    ASSERT_EQ(now.lines.size(), 16U);
    for (const ValveClearance& line : now.lines) {
        const QString row = wanted_row(line);
        EXPECT_EQ(
            lines.filter(QRegularExpression('^' + QRegularExpression::escape(row) + ' ')).size(), 1)
            << row.toStdString();
    }
    // The plan: cylinders, their valves and numbers below each other; the near bank has its
    // cylinders last.
    const auto begin = lines.indexOf(QRegularExpression("^The engine from above.*"));
    QStringList plan = lines.mid(0, begin);
    plan = plan.filter(QRegularExpression("^(Front )?((E|I|\\.\\d+|\\d) ?)+$"));
    ASSERT_EQ(plan.size(), 6) << plan.join('\n').toStdString();
    const auto check = [&](const QString& cylinders, QString valves, const QString& numbers) {
        const QStringList of_cylinder = cylinders.split(' ');
        const QStringList of_valve = valves.remove("Front ").split(' ');
        const QStringList found = numbers.split(' ');
        ASSERT_EQ(found.size(), 8);
        for (qsizetype at = 0; at < found.size(); ++at) {
            const QString name = of_cylinder[at / 2] + of_valve[at];
            for (const ValveClearance& line : now.lines) {
                if (words::valve(line.position) == name) {
                    EXPECT_EQ('0' + found[at], thou(line.found.minimum->clearance_mm))
                        << name.toStdString();
                }
            }
        }
    };
    check(plan[0], plan[1], plan[2]);
    check(plan[5], plan[3], plan[4]);
}

TEST_F(BookNumbersTest, EveryNumberOfTheValvetrainIsWorkedOutTypedOrFound) {
    QStringList lines = lines_of(only_valvetrain);
    const Surveyed now = surveyed();
    QStringList known{"12 11 10 9 8 7 6 5 4 3 2 1"}; // the clock round the tube
    for (const ValveClearance& line : now.lines) {
        known << words::valve(line.position) << words::when(line) << words::doubt(line)
              << words::place(*line.found.minimum, now.engine)
              << words::verdict_reason(line, now.engine);
        for (const auto& at : {line.found.on_heel, line.found.at_full_lift, line.found.minimum}) {
            known << words::both_units(at->clearance_mm) << thou(at->clearance_mm).mid(1);
        }
    }
    known << words::both_units(now.engine.rod_clearance_limit_mm) << "wanted at mock-up .030"
          << "limit .010";
    const auto sheets = BuildSheets::load(session().shop(), build_);
    for (const Reading& reading : sheets->readings()) {
        known << QString::fromStdString(reading.text);
    }
    const auto fields = (*newest_set_up(session().shop(), build_))->fields;
    std::vector<double> typed;
    for (const auto& [path, value] : fields) {
        bool is_number = false;
        const double number = QString::fromStdString(value.text).toDouble(&is_number);
        if (is_number) typed.push_back(number);
    }
    // Sizes of the set-up stand as typed, but for zeros behind them.
    const QString about = part(lines, lines[1]).mid(0, 3).join(' ');
    for (const QString& number : numbers_in(about.section("“As first mocked up”", 1))) {
        const bool in_set_up = std::any_of(typed.begin(), typed.end(), [&](double one) {
            return std::abs(one - number.toDouble()) <= tol_of(number);
        });
        if (in_set_up) known << number;
    }
    const ValveClearance& tight =
        *std::min_element(now.lines.begin(), now.lines.end(), [](const auto& a, const auto& b) {
            return a.found.minimum->clearance_mm < b.found.minimum->clearance_mm;
        });
    const TubeContent tube =
        tube_content(now.engine, now.lines, {tight.position, 0, *tight.opening, std::nullopt});
    known << tube.heading << tube.notes;
    for (const TubeSlice& slice : tube.slices) known << slice.title;
    EXPECT_TRUE(lines.contains("Down the tube"));
    ASSERT_FALSE(tube.notes.empty());
    EXPECT_TRUE(lines.contains(tube.notes.front().simplified()))
        << tube.notes.front().toStdString();
    const auto causes = causes_of(now.engine, *now.engine.train(tight.position));
    ASSERT_TRUE(causes.ok() && causes->has_value());
    for (const Cause& cause : (*causes)->causes) {
        for (const auto& rate : {cause.adjuster_reset, cause.rod_rechosen}) {
            if (!rate) continue;
            for (const SideRate& side : {rate->when_more, rate->when_less}) {
                // Per radian of an angle, mm: a degree of it in thou.
                for (const double one : {side.per_unit, side.per_unit * M_PI / 180.0 / 0.0254}) {
                    known << QString::number(std::abs(one), 'f', 2);
                }
            }
        }
    }
    // The scales of the curves, a few numbers on a line each.
    const auto curves = lines.indexOf(QRegularExpression("^3I( \\d[IE])+$"));
    ASSERT_GE(curves, 0);
    const auto below = lines.indexOf(QRegularExpression("^Clearance of .*"));
    for (qsizetype at = curves + 1; at < below; ++at) {
        static const QRegularExpression scale(
            "^(\\D*0\\.\\d\\d|[\\d ]+|Crank, .* 1 firing|Clearance, in|Valve lift, in)$");
        EXPECT_TRUE(scale.match(lines[at]).hasMatch() || lines[at].contains("limit") ||
                    lines[at].contains("mock-up"))
            << lines[at].toStdString();
    }
    lines = lines.mid(0, curves) + lines.mid(below);
    EXPECT_EQ(unknown(lines, known).join('\n').toStdString(), "");
}

TEST_F(BookNumbersTest, AClearanceFoundByHandChangesItsValvesRowAlone) {
    const QStringList before = lines_of(only_valvetrain);
    read("rod_clearance", "5I", ".051");
    read("rod_clearance", "7E", ".0765");
    const QStringList after = lines_of(only_valvetrain);
    const QStringList come = only_in(after, before);
    ASSERT_EQ(come.size(), 2) << come.join('\n').toStdString();
    EXPECT_TRUE(come[0].startsWith("5I ") && come[0].contains(" .051 "));
    EXPECT_TRUE(come[1].startsWith("7E ") && come[1].contains(" .0765 "));
    EXPECT_EQ(only_in(before, after).size(), 2);
}

TEST_F(BookNumbersTest, ASizeOfOneTrainChangesThatValvesNumbersAlone) {
    // Twice: what was found by hand belongs to the set-up in which it was found.
    change_set_up("trains/6E/rod/diameter", ".32");
    const QStringList before = lines_of(only_valvetrain);
    const Surveyed was = surveyed();
    change_set_up("trains/6E/rod/diameter", ".33");
    const Surveyed now = surveyed();
    const QStringList after = lines_of(only_valvetrain);
    QStringList changed;
    for (std::size_t at = 0; at < now.lines.size(); ++at) {
        const QString row = wanted_row(now.lines[at]);
        EXPECT_EQ(
            after.filter(QRegularExpression('^' + QRegularExpression::escape(row) + ' ')).size(), 1)
            << row.toStdString();
        if (row != wanted_row(was.lines[at])) changed << words::valve(now.lines[at].position);
    }
    EXPECT_EQ(changed, QStringList{"6E"});
    // Its row, and its number on the plan among its neighbours'.
    const QStringList come = only_in(after, before);
    EXPECT_EQ(come.size(), 2) << come.join('\n').toStdString();
    for (const QString& line : come) {
        EXPECT_TRUE(line.startsWith("6E ") ||
                    QRegularExpression("^(\\.\\d+ ?)+$").match(line).hasMatch())
            << line.toStdString();
    }
}

} // namespace
} // namespace rodway
