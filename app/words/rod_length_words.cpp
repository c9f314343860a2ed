#include "app/words/rod_length_words.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct RodLengthWords {
    Q_DECLARE_TR_FUNCTIONS(RodLengthWords)
};

} // namespace

QString definition(LengthDefinition definition) {
    switch (definition) {
        case LengthDefinition::between_centres:
            return RodLengthWords::tr("between ball centres");
        case LengthDefinition::overall:
            return RodLengthWords::tr("overall");
        case LengthDefinition::effective:
            return RodLengthWords::tr("effective");
        case LengthDefinition::gauge:
            return RodLengthWords::tr("by the gauge");
    }
    return {};
}

QString token(LengthDefinition definition) {
    switch (definition) {
        case LengthDefinition::between_centres:
            return "centres";
        case LengthDefinition::overall:
            return "overall";
        case LengthDefinition::effective:
            return "effective";
        case LengthDefinition::gauge:
            return "gauge";
    }
    return {};
}

} // namespace rodway::words
