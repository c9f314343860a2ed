#include <QCoreApplication>
#include <cmath>

#include "app/compare/build_comparison.h"
#include "core/files/readings_csv.h"

namespace rodway {
namespace {

struct Comparison {
    Q_DECLARE_TR_FUNCTIONS(Comparison)
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// "+0.0003 in", of the middles.
QString by_text(const ComparedLine& line) {
    if (!line.by || !line.quantity) return {};
    const double by = line.by->middle();
    const QString size = words::amount(std::abs(by), *line.quantity);
    return (by < 0.0 ? QString(QChar(0x2212)) : QStringLiteral("+")) + size;
}

} // namespace

QString difference_sign(Difference difference) {
    switch (difference) {
        case Difference::none:
            return QStringLiteral("=");
        case Difference::within_doubt:
            return QString(QChar(0x2248));
        case Difference::more:
            return QString(QChar(0x25b2));
        case Difference::less:
            return QString(QChar(0x25bc));
        case Difference::other:
            return QString(QChar(0x2260));
        case Difference::first_only:
            return QString(QChar(0x25e7));
        case Difference::second_only:
            return QString(QChar(0x25e8));
    }
    return {};
}

QString difference_text(const ComparedLine& line) {
    switch (line.difference) {
        case Difference::none:
            return Comparison::tr("the same");
        case Difference::within_doubt:
            return Comparison::tr("alike, within the last digit");
        case Difference::more:
            return line.quantity ? by_text(line) : Comparison::tr("more in the second");
        case Difference::less:
            return line.quantity ? by_text(line) : Comparison::tr("less in the second");
        case Difference::other:
            return Comparison::tr("differs");
        case Difference::first_only:
            return Comparison::tr("only in the first");
        case Difference::second_only:
            return Comparison::tr("only in the second");
    }
    return {};
}

const char* difference_token(Difference difference) {
    switch (difference) {
        case Difference::none:
            return "none";
        case Difference::within_doubt:
            return "within_doubt";
        case Difference::more:
            return "more";
        case Difference::less:
            return "less";
        case Difference::other:
            return "other";
        case Difference::first_only:
            return "first_only";
        case Difference::second_only:
            return "second_only";
    }
    return "";
}

QString compared_heading(const ComparedLine& line, const words::OwnTitles& own) {
    switch (line.part) {
        case ComparedPart::readings:
            return words::sheet_title(line.sheet, own);
        case ComparedPart::set_up:
            return Comparison::tr("Set-up");
        case ComparedPart::parts:
            return Comparison::tr("Parts");
    }
    return {};
}

QString compared_what(const ComparedLine& line, const words::OwnTitles& own) {
    if (line.part == ComparedPart::readings) return words::sheet_title(line.what, own);
    return text(line.what).replace('_', ' ');
}

std::string comparison_csv(const BuildComparison& comparison) {
    std::string out = "\xEF\xBB\xBF"; // or spreadsheets take it for another encoding
    const auto put = [&out](const std::vector<std::string>& cells) {
        for (std::size_t which = 0; which < cells.size(); ++which) {
            out += (which == 0 ? "" : ",") + csv_cell(cells[which]);
        }
        out += "\r\n";
    };
    put({"section", "what", "position", comparison.first.name, comparison.second.name, "difference",
         "by"});
    for (const ComparedLine& line : comparison.lines) {
        put({compared_heading(line, comparison.own_titles).toStdString(),
             compared_what(line, comparison.own_titles).toStdString(), line.position,
             line.first.value_or(""), line.second.value_or(""), difference_token(line.difference),
             by_text(line).replace(QChar(0x2212), u'-').toStdString()});
    }
    return out;
}

} // namespace rodway
