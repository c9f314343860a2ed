#include <QFile>
#include <stdexcept>

#include "tests/app/month/month.h"

namespace rodway::tests {

QString Month::set_up_file(const QString& demo, const QString& name,
                           const QList<QPair<QString, QString>>& changes) {
    QFile from(QStringLiteral(RODWAY_RESOURCES "/demo/%1.json").arg(demo));
    QFile to(file(name));
    if (!from.open(QIODevice::ReadOnly) || !to.open(QIODevice::WriteOnly)) {
        throw std::runtime_error("no set-up file");
    }
    QString text = QString::fromUtf8(from.readAll());
    for (const auto& [before, after] : changes) {
        if (!text.contains(before)) {
            throw std::runtime_error("the demo engine says nothing of " + before.toStdString());
        }
        text.replace(before, after);
    }
    to.write(text.toUtf8());
    return to.fileName();
}

void first_calls(Month& month) {
    Hand& hand = month.hand();
    month.at("2026-12-01T10:00:00Z");
    month.who("PO");
    hand.look("bench-first-morning");

    // Crushed, its intake gaskets are thinner than those its tubes were surveyed with.
    month.new_build({"Solvik V8", "Runa Solvik", "Solvik 402 V8, solid flat tappets", "2026-12-22",
                     month.set_up_file("v8-port-tubes", "solvik.json",
                                       {{"\"gasket_in\": 0.06,", "\"gasket_in\": 0.055,"},
                                        {"Halden 402 V8", "Solvik 402 V8"}}),
                     "Complete build"});
    hand.look("solvik-begun");
    hand.tab("Job");
    hand.type("Job number", "26-118");
    hand.type("Use", "lake boat, weekends");
    hand.type("Fuel", "pump petrol");
    hand.type("Speeds", "2,500 to 5,200");
    hand.type("Scope: what is done", "Whole engine, block to first start; dyno by the customer");
    hand.type("Exclusions: what isn't", "Carburettor, exhaust");
    hand.type("Terms accepted, by whom and when", "R. Solvik, 1 December");
    hand.type("Power wanted", "380 hp");
    hand.look("solvik-job");
    month.account_lines("Estimate", {{"Take apart, clean, measure", "980"},
                                     {"Machining", "2,100.00"},
                                     {"Assembly and first start", "1,900"}});
    hand.look("solvik-estimate");
    month.account_lines("Deposit", {{"With the order", "1500"}});
    month.stage("Enquiry and quote");
    month.tick_all();
    hand.look("solvik-enquiry-done");

    month.new_build({"Tveit heads", "Signe Tveit", "Tveit 190 flat four, two heads", "2026-12-15",
                     month.set_up_file("flat-four", "tveit.json", {}), "Head work"});
    month.account_lines("Estimate", {{"Guides, seats, faces", "640"}});
    month.stage("Enquiry and quote");
    month.tick_all();

    month.new_build({"Lindal six", "Aksel Lindal", "Lindal 261 six, own long block", "2026-12-18",
                     month.set_up_file("inline-six", "lindal.json", {}), "Valvetrain mock-up"});
    month.account_lines("Estimate", {{"Mock-up and written answer", "720"}});
    month.place("Bench");
    hand.look("bench-six-builds");
}

} // namespace rodway::tests
