#include <gtest/gtest.h>

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QMap>
#include <QRegularExpression>
#include <QSet>

#include "app/words/error_text.h"
#include "app/words/field_words.h"
#include "core/files/pull_header.h"

// Whatever token an error of the trade's arithmetic can carry must have words. The tokens are taken
// from core's sources, so that a new one without words is found here.

namespace rodway {
namespace {

const QStringList rooms{"bottom_end", "break_in", "distributor", "dyno",      "fasteners",
                        "found",      "heads",    "intake",      "loads",     "piston",
                        "sheets",     "tubes",    "units",       "valvetrain"};
const QStringList files{"engine/compression.cpp", "engine/displacement.cpp",
                        "engine/dynamic_compression.cpp", "files/pull_csv.cpp",
                        "files/pull_header.cpp"};

/// Literals that stand where a field could stand and are none: words that people type, units, and
/// paths of a set-up, which are said as they are.
const QSet<QString> no_fields{"a",
                              "and",
                              "at",
                              "atdc",
                              "baro",
                              "cadmium",
                              "carb",
                              "coarse",
                              "cons",
                              "coolant",
                              "degrees",
                              "fine",
                              "goes",
                              "half",
                              "hot",
                              "humid",
                              "loosen",
                              "lubricated",
                              "m",
                              "mil",
                              "mils",
                              "mm",
                              "n/m",
                              "nc",
                              "nf",
                              "no",
                              "ok",
                              "onseat",
                              "over",
                              "plus",
                              "pres",
                              "press",
                              "pwr",
                              "rel",
                              "rpm",
                              "sae",
                              "same",
                              "snug",
                              "temp",
                              "survived",
                              "then",
                              "to",
                              "touch",
                              "tpi",
                              "tq",
                              "trq",
                              "unc",
                              "under",
                              "unf",
                              "vap",
                              "vapor",
                              "yes",
                              "zinc",
                              "plain_black",
                              "adjuster/axis",
                              "adjuster/thread_away_from_rod",
                              "adjuster/thread_towards_rod",
                              "lifter/axis",
                              "lifter/foot",
                              "lifter/plunger_travel",
                              "lifter/seat_height",
                              "rocker/axis",
                              "rocker/ball_arm",
                              "rocker/pivot",
                              "rocker/tip_arm",
                              "rod/length",
                              "valve/axis"};

QString source(const QString& path) {
    QFile file(path);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << path.toStdString();
    static const QRegularExpression remark("//[^\n]*");
    return QString::fromUtf8(file.readAll()).remove(remark);
}

QStringList arithmetic_sources() {
    const QString core = QStringLiteral(RODWAY_RESOURCES "/../core/");
    QStringList paths;
    for (const QString& room : rooms) {
        const auto found =
            QDir(core + room).entryInfoList({"*.cpp", "*.h"}, QDir::Files, QDir::Name);
        EXPECT_FALSE(found.isEmpty()) << room.toStdString();
        for (const QFileInfo& file : found) {
            paths << file.filePath();
        }
    }
    for (const QString& file : files) {
        paths << core + file;
    }
    return paths;
}

QStringList all_sources() {
    QStringList paths;
    QDirIterator every(QStringLiteral(RODWAY_RESOURCES "/../core"), {"*.cpp", "*.h"}, QDir::Files,
                       QDirIterator::Subdirectories);
    while (every.hasNext()) {
        paths << every.next();
    }
    return paths;
}

/// Every match's first group, with where it stands.
QMap<QString, QString> literals(const QStringList& paths, const QRegularExpression& pattern) {
    QMap<QString, QString> found;
    for (const QString& path : paths) {
        const QString text = source(path);
        auto matches =
            text.contains("Error") ? pattern.globalMatch(text) : QRegularExpressionMatchIterator();
        while (matches.hasNext()) {
            found.insert(matches.next().captured(1), path);
        }
    }
    return found;
}

TEST(ErrorTokens, EveryFieldOfTheTradesArithmeticHasWords) {
    // Where a field can stand: first of a call or of braces, or behind an error's code.
    static const QRegularExpression field(
        "(?:[({]|ErrorCode::\\w+,|code,|\\* (?:const )?\\w+ =)\\s*\"([a-z][a-z_/]*)\"\\s*[,+)};]");
    const auto found = literals(arithmetic_sources(), field);
    int fields = 0;
    for (auto one = found.begin(); one != found.end(); ++one) {
        QString token = one.key();
        if (no_fields.contains(token)) {
            EXPECT_TRUE(words::field_title(token.toStdString()).isEmpty()) << token.toStdString();
            continue;
        }
        while (token.endsWith('/')) {
            token.chop(1);
        }
        EXPECT_FALSE(words::field_title(token.toStdString()).isEmpty())
            << token.toStdString() << " in " << one.value().toStdString();
        ++fields;
    }
    EXPECT_GE(fields, 200); // fewer: the sources weren't read
}

TEST(ErrorTokens, EveryColumnOfAPullHasWords) {
    for (int quantity = 0; quantity <= static_cast<int>(PullQuantity::air_fuel_ratio); ++quantity) {
        const std::string name(pull_quantity_name(static_cast<PullQuantity>(quantity)));
        EXPECT_FALSE(words::field_title(name).isEmpty()) << name;
    }
}

/// A sentence that only repeats its token says it of any other token as well.
bool only_repeats(ErrorCode code, const QString& token) {
    const auto text = [&](const QString& expected) {
        return words::error_text({code, {}, "1", expected.toStdString(), {}, {}});
    };
    return text(token) == text("zzz").replace("zzz", token);
}

TEST(ErrorTokens, EveryThingWantedAndEveryKindThatDoesNotGoHasWords) {
    struct Walked {
        ErrorCode code;
        const char* name;
        int least;
    };
    for (const Walked& walked : {Walked{ErrorCode::wrong_type, "wrong_type", 6},
                                 Walked{ErrorCode::not_of_this_kind, "not_of_this_kind", 8}}) {
        // What is expected stands behind the field, or the value, or both.
        const QRegularExpression expected(
            QStringLiteral(
                "ErrorCode::%1,\\s*(?:[^,;()]+(?:\\([^()]*\\))?[^,;()]*,\\s*){1,2}\"([a-z_]+)\"")
                .arg(walked.name));
        const auto found = literals(all_sources(), expected);
        EXPECT_GE(found.size(), walked.least);
        for (auto one = found.begin(); one != found.end(); ++one) {
            EXPECT_FALSE(only_repeats(walked.code, one.key()))
                << one.key().toStdString() << " in " << one.value().toStdString();
        }
    }
}

TEST(ErrorTokens, APartOfAFieldThatIsANumberStaysOne) {
    EXPECT_EQ(words::field_title("order/7"), "Order, 7");
    EXPECT_EQ(words::field_title("first/rows"), "First pull, Rows");
    EXPECT_EQ(words::field_title("trains/3I/valve/lash"), "");
    EXPECT_EQ(words::field_title("7"), "");
    EXPECT_EQ(words::field_title(""), "");
}

// Each by what a person must do next, which no sentence for another field would say.
TEST(ErrorTokens, APullsFileIsToldWhatToMend) {
    struct Told {
        Error error;
        const char* says;
    };
    const Told told[] = {
        {{ErrorCode::unit_unclear, "torque", "Torque", "Nm lb-ft", 1, {}}, "behind it: Nm, lb-ft"},
        {{ErrorCode::separator_unclear, "decimal_mark", "", ". ,", 2, {}}, "decimal mark"},
        {{ErrorCode::column_count, "columns", "3", "2", 2, {}}, "3 cells; the headings have 2"},
        {{ErrorCode::column_count, "cell", "", "\"", 2, {}}, "never closed"},
        {{ErrorCode::order_wrong, "speed", "2000", "", 3, {}}, "speeds must rise"},
        {{ErrorCode::missing_field, "torque", "", "", {}, {}}, "as the brake read it"},
        {{ErrorCode::missing_field, "barometer_kind", "", "station sea_level", {}, {}},
         "say station, sea_level"},
        {{ErrorCode::duplicate_field, "pull", "1", "3", {}, {}}, "next free one is 3"},
        {{ErrorCode::duplicate_field, "torque", "torque lb-ft", "Torque Nm", 1, {}},
         "“Torque Nm” and “torque lb-ft”"},
        {{ErrorCode::not_of_this_kind, "wet_bulb", "", "relative_humidity", {}, {}},
         "leave one of them out"},
        {{ErrorCode::out_of_range, "Torque Nm", "40000", "", 2, Limits{0, 20000, "Nm"}},
         "0 to 20000 Nm"},
    };
    for (const Told& one : told) {
        const QString text = words::error_text(one.error);
        EXPECT_TRUE(text.contains(QString::fromUtf8(one.says))) << text.toStdString();
        EXPECT_FALSE(text.contains("lift")) << text.toStdString();
    }
}

TEST(ErrorTokens, AHintForALashPutsTheUnitBeforeItsHeat) {
    const QString text = words::error_text({ErrorCode::unit_needed, "", "18 hot", "", {}, {}});
    EXPECT_TRUE(text.contains("18 thou hot or 18 mm hot")) << text.toStdString();
}

} // namespace
} // namespace rodway
