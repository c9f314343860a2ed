#include "app/words/check_words.h"
#include "app/words/counted.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct Check {
    Q_DECLARE_TR_FUNCTIONS(Check)
};

} // namespace

QString check_finding(const Finding& finding) {
    const QString detail = QString::fromStdString(finding.detail);
    switch (finding.code) {
        case FindingCode::damaged_pages:
            return Check::tr("Damaged pages: %1").arg(detail);
        case FindingCode::broken_reference:
            return Check::tr("A row of %1 refers to one that isn't there.").arg(detail);
        case FindingCode::photo_missing:
            return Check::tr("A photo's file is missing (%1).").arg(detail);
        case FindingCode::photo_altered:
            return Check::tr("A photo's file was altered: %1").arg(detail);
        case FindingCode::history_altered:
            return finding.record ? Check::tr(
                                        "Build %1: act %2 of its history is not what was done; "
                                        "it was changed outside the program.")
                                        .arg(QString::number(finding.record->id), detail)
                                  : Check::tr(
                                        "Act %1 of the shop's history is not what was done; it "
                                        "was changed outside the program.")
                                        .arg(detail);
        case FindingCode::history_shortened:
            return counted(detail.toInt(), Check::tr("1 act was taken off the end of the history."),
                           Check::tr("%1 acts were taken off the end of the history."));
        case FindingCode::history_broken:
            return Check::tr("The history doesn't hold together at %1.").arg(detail);
        case FindingCode::record_differs:
            return Check::tr("%1 is not what its history leads to.").arg(detail);
        case FindingCode::reading_position_unreadable:
            return Check::tr("Reading %1 stands at “%2”, which is no place.")
                .arg(QString::number(finding.record->id), detail);
        case FindingCode::search_index_differs:
            return Check::tr(
                "The index for searching is not up to date; make it again with: rodway find SHOP "
                "--rebuild");
        case FindingCode::reading_text_unreadable:
            return Check::tr("Reading %1 can't be read: “%2”.")
                .arg(QString::number(finding.record->id), detail);
    }
    return {};
}

} // namespace rodway::words
