#include "app/sheets/before_panel.h"

#include <algorithm>

#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/words/sheet_words.h"
#include "db/alike_builds.h"

namespace rodway {
namespace {

constexpr int most_builds = 12;

QString text_of(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString said(const Reading& reading) {
    switch (reading.status) {
        case ReadingStatus::not_measured:
            return BeforePanel::tr("not measured");
        case ReadingStatus::same:
            return BeforePanel::tr("same");
        case ReadingStatus::see_photo:
            return BeforePanel::tr("see photo");
        default:
            return text_of(reading.text);
    }
}

QString build_text(const AlikeBuild& build, const Quantity& quantity, const std::string& position) {
    const QString why = build.because == Alike::engine ? BeforePanel::tr("same engine")
                                                       : BeforePanel::tr("same customer");
    std::string newest;
    for (const Reading& one : build.readings) {
        newest = std::max(newest, one.taken_at);
    }
    QStringList lines{
        BeforePanel::tr("%1, %2, %3").arg(text_of(build.name), words::day_of(newest), why)};
    QStringList others;
    for (const Reading& one : build.readings) {
        const QString where = words::sheet_position(one.position, quantity.place);
        if (one.position == position) {
            lines
                << BeforePanel::tr("%1: %2 %3").arg(where, said(one), text_of(one.unit)).trimmed();
        } else {
            others << BeforePanel::tr("%1 %2").arg(text_of(one.position), said(one)).trimmed();
        }
    }
    if (!others.isEmpty()) {
        lines << others.join("; ");
    }
    return lines.join('\n');
}

} // namespace

BeforePanel::BeforePanel(QWidget* parent) : QListWidget(parent) {
    setObjectName("before");
    setAccessibleName(tr("What we did last time"));
    setWordWrap(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setAlternatingRowColors(true);
    show_nothing();
}

void BeforePanel::show_nothing() {
    clear();
    addItem(tr("Choose a box: what other builds had there stands here."));
}

void BeforePanel::show_builds(ShopFile& shop, std::int64_t build_id, const Quantity& quantity,
                              const std::string& position) {
    clear();
    const auto builds = alike_builds(shop, build_id, quantity.id, most_builds);
    if (!builds) {
        emit failed(words::error_text(builds.error()));
        return;
    }
    for (const AlikeBuild& build : *builds) {
        addItem(build_text(build, quantity, position));
    }
    if (count() == 0) {
        addItem(tr("No other build of this engine family or customer has been measured here."));
    }
}

} // namespace rodway
