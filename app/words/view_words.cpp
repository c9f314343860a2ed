#include "app/words/view_words.h"

#include <QCoreApplication>

namespace rodway::words {
namespace {

struct View {
    Q_DECLARE_TR_FUNCTIONS(View)
};

} // namespace

QString part_kind(PartKind kind, const std::string& name) {
    switch (kind) {
        case PartKind::camshaft:
            return View::tr("camshaft");
        case PartKind::cam_gear:
            return View::tr("cam drive, at the front");
        case PartKind::lobe:
            return View::tr("lobe");
        case PartKind::lifter:
            return View::tr("lifter");
        case PartKind::lifter_roller:
            return View::tr("lifter's roller");
        case PartKind::rod:
            return View::tr("pushrod");
        case PartKind::rod_sweep:
            return View::tr("space the pushrod takes");
        case PartKind::rocker:
            return View::tr("rocker");
        case PartKind::roller:
            return View::tr("rocker's roller");
        case PartKind::adjuster:
            return View::tr("adjuster");
        case PartKind::shaft:
            return View::tr("rocker shaft");
        case PartKind::stud:
            return View::tr("rocker stud");
        case PartKind::valve:
            return View::tr("valve");
        case PartKind::spring:
            return View::tr("valve spring");
        case PartKind::retainer:
            return View::tr("retainer");
        case PartKind::tube:
        case PartKind::tube_rims:
            return name == Passage{}.name
                       ? View::tr("port tube")
                       : View::tr("passage %1").arg(QString::fromStdString(name));
        case PartKind::obstacle:
            return QString::fromStdString(name);
        case PartKind::piston:
            return View::tr("piston");
        case PartKind::bore_outline:
            return View::tr("cylinder");
        case PartKind::crank_axis:
            return View::tr("crank's axis");
        case PartKind::front_mark:
            return View::tr("front of the engine, and which way it turns");
    }
    return {};
}

} // namespace rodway::words
