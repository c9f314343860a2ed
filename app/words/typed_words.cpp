#include "app/words/typed_words.h"

#include <QCoreApplication>

#include "app/words/error_text.h"
#include "core/build/part_check.h"

namespace rodway::words {
namespace {

struct Typed {
    Q_DECLARE_TR_FUNCTIONS(Typed)
};

/// What was typed is shown, but a pasted page isn't.
QString shown(const std::string& value) {
    QString text = QString::fromStdString(value).simplified();
    constexpr int most = 60;
    if (text.size() > most) {
        text = text.left(most) + QChar(u'…');
    }
    return text;
}

/// Empty for a token that isn't of the forms' own.
QString sentence(const QString& token, const QString& value) {
    if (token == "money") {
        return Typed::tr("“%1” is no amount of money. Accepted are 1250, 1,250.50, $40, -12.")
            .arg(value);
    }
    if (token == "money_three_digits") {
        return Typed::tr(
                   "“%1” could be a thousand and more, or one and a fraction: type it without the "
                   "point, or with two digits behind it.")
            .arg(value);
    }
    if (token == "money_cents") {
        return Typed::tr("“%1” has a fraction of a cent: two digits behind the point are the most.")
            .arg(value);
    }
    if (token == "money_currency") {
        return Typed::tr(
                   "“%1” is in another currency than the shop's account: type the amount in the "
                   "shop's own, without a sign.")
            .arg(value);
    }
    if (token == "money_size") {
        return Typed::tr("That is more than an account can hold: 999,999,999,999.99 is the most.");
    }
    if (token == "not_below_zero") {
        return Typed::tr("“%1” is less than nothing: type 0 or more.").arg(value);
    }
    if (token == "above_zero") {
        return Typed::tr("“%1” is nothing or less: type more than 0, such as 583.9 g.").arg(value);
    }
    if (token == "hours") {
        return Typed::tr("“%1” can't be read as hours. Accepted are 2.5, 2:30, 2 h 30, 45 min.")
            .arg(value);
    }
    if (token == "hours_of_a_day") {
        return Typed::tr("“%1” is no time of one day: between one minute and 24 hours.").arg(value);
    }
    if (token == "one_line") {
        return Typed::tr("That holds several lines or cells, as of a pasted table: type one line.");
    }
    if (token == "shorter") {
        return Typed::tr("That is too long: %1 letters are the most.").arg(longest_line);
    }
    if (token == "count") {
        return Typed::tr("“%1” is no count: type a whole number from 1 to 9999.").arg(value);
    }
    if (token == "day_gone_by") {
        return Typed::tr("%1 is still to come: type the day on which it was, or leave it empty.")
            .arg(value);
    }
    if (token == "day_order") {
        return Typed::tr(
                   "%1 comes before the day of the step before it: ordered, received, measured, "
                   "fitted go in this order.")
            .arg(value);
    }
    if (token == "day_answered") {
        return Typed::tr("%1 comes before the day on which it was asked.").arg(value);
    }
    if (token == "thread") {
        return Typed::tr("“%1” is no thread. Accepted are 7/16-14, 3/8-16, #10-24, M10x1.25.")
            .arg(value);
    }
    if (token == "tightening_steps") {
        return Typed::tr(
                   "“%1” can't be read as steps of tightening. Accepted are 45/65/65+90, "
                   "20 then 1/4 turn, 25 Nm + 60 deg, stretch .006.")
            .arg(value);
    }
    if (token == "note_shorter") {
        return Typed::tr("That is too long: 20,000 letters are the most. Keep it as a file.");
    }
    if (token == "same_day") {
        return Typed::tr("%1 is the day that stands now: type another.").arg(value);
    }
    if (token == "picture") {
        return Typed::tr("%1 is not a picture that can be shown. Nothing was added.").arg(value);
    }
    if (token == "whole_picture") {
        return Typed::tr(
                   "%1 is cut short: it has no end. Copy it again from where it came; nothing was "
                   "added.")
            .arg(value);
    }
    if (token == "one_size") {
        return Typed::tr("“%1” is no single size: type one, such as 2.500 or 64 mm.").arg(value);
    }
    return {};
}

} // namespace

QString typed_error(const Error& error, const QString& box) {
    const QString own = error.code == ErrorCode::wrong_type
                            ? sentence(QString::fromStdString(error.expected), shown(error.value))
                            : QString();
    Error bare = error;
    bare.field.clear();
    bare.value = shown(error.value).toStdString();
    const QString why = own.isEmpty() ? error_text(bare) : own;
    return box.isEmpty() ? why : Typed::tr("%1: %2").arg(box, why);
}

} // namespace rodway::words
