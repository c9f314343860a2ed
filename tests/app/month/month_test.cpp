#include <gtest/gtest.h>

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include "tests/app/month/end_record.h"
#include "tests/app/month/month.h"
#include "tests/app/program.h"

namespace rodway::tests {
namespace {

/// Without the words that say why something is expected.
QJsonValue without_reasons(const QJsonValue& value) {
    if (value.isArray()) {
        QJsonArray kept;
        for (const QJsonValue& one : value.toArray()) {
            kept.append(without_reasons(one));
        }
        return kept;
    }
    if (!value.isObject()) {
        return value;
    }
    QJsonObject kept;
    const QJsonObject all = value.toObject();
    for (auto one = all.begin(); one != all.end(); ++one) {
        if (one.key() != "why") {
            kept[one.key()] = without_reasons(one.value());
        }
    }
    return kept;
}

std::string shown(const QJsonValue& value) {
    const QJsonDocument document = value.isArray() ? QJsonDocument(value.toArray())
                                                   : QJsonDocument(QJsonObject{{"is", value}});
    return document.toJson(QJsonDocument::Indented).toStdString();
}

/// What must stand in the shop's file in the end, written down with its reasons before the month
/// was ever run.
QJsonObject expected_record() {
    QFile file(QStringLiteral(RODWAY_TEST_DATA "/../app/month/expected.json"));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(file.readAll(), &error);
    EXPECT_EQ(error.error, QJsonParseError::NoError) << error.errorString().toStdString();
    return without_reasons(document.object()).toObject();
}

TEST(MonthAtTheWindow, ThreeBuildsFromFirstCallToHandOff) {
    Month month;
    first_calls(month);
    v8_taken_in(month);
    heads_begun(month);
    v8_mocked_up(month);
    six_begun(month);
    v8_rod_cured(month);
    heads_handed_over(month);
    six_handed_over(month);
    v8_assembled(month);
    v8_handed_over(month);

    const QString shop = month.close();
    const QJsonObject expected = expected_record();
    const QJsonObject found = end_record(shop, expected.keys());
    ASSERT_EQ(expected.size(), 3);
    for (const QString& build : expected.keys()) {
        const QJsonObject wanted = expected[build].toObject();
        const QJsonObject there = found[build].toObject();
        EXPECT_EQ(wanted.keys(), there.keys()) << build.toStdString();
        for (const QString& part : wanted.keys()) {
            EXPECT_EQ(wanted[part], there[part])
                << build.toStdString() << ", " << part.toStdString() << "\nexpected "
                << shown(wanted[part]) << "found " << shown(there[part]);
        }
    }
    for (const char* paper : {"solvik.pdf", "tveit.pdf", "lindal.pdf"}) {
        QFile invoice(month.file(paper));
        ASSERT_TRUE(invoice.open(QIODevice::ReadOnly)) << paper;
        EXPECT_TRUE(invoice.readAll().startsWith("%PDF-")) << paper;
    }
    // The file holds together, its sealed history too.
    const Ran checked = run({"check", shop});
    EXPECT_EQ(checked.exit_code, 0) << checked.complaints.toStdString();
}

} // namespace
} // namespace rodway::tests
