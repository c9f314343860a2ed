#include "app/words/look_only_words.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct LookOnlyWords {
    Q_DECLARE_TR_FUNCTIONS(LookOnlyWords)
};

QString reason(LookOnly::Reason reason) {
    switch (reason) {
        case LookOnly::Reason::disk:
            return LookOnlyWords::tr(
                "the disk with the shop file is read-only. To work in it, copy the shop file and "
                "its folder of photos to another disk.");
        case LookOnly::Reason::folder:
            return LookOnlyWords::tr(
                "you may not write in the folder with the shop file. To work in it, have that "
                "allowed and open it again.");
        case LookOnly::Reason::file:
            return LookOnlyWords::tr(
                "you may not write the shop file. To work in it, have that allowed and open it "
                "again.");
    }
    return {};
}

} // namespace

QString look_only(const LookOnly& look_only) {
    return LookOnlyWords::tr("Only to look at: nothing can be changed, for %1 %2")
        .arg(reason(look_only.reason),
             look_only.follows ? LookOnlyWords::tr("What others change in it shows here.")
                               : LookOnlyWords::tr("It shows what was in it when it was opened."));
}

} // namespace rodway::words
