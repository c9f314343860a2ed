#include "app/build/stage_sign.h"

#include <QCoreApplication>
#include <QPainter>
#include <algorithm>
#include <functional>

#include "core/build/stage_state.h"
#include "render/cylinder_plan.h"

namespace rodway {
namespace {

struct StageSigns {
    Q_DECLARE_TR_FUNCTIONS(StageSigns)
};

constexpr int sharpness = 2; // for screens of twice the usual density

/// Work that is merely still to be done holds nobody up.
bool keeps_waiting(const Hold& hold) {
    switch (hold.kind) {
        case HoldKind::step_open:
        case HoldKind::sheet_missing:
        case HoldKind::sheet_incomplete:
        case HoldKind::clearance_not_known:
            return false;
        case HoldKind::part_awaited:
            return hold.wait != PartWait::not_listed && hold.wait != PartWait::not_fitted;
        default:
            return true;
    }
}

void paint_tick(QPainter& painter, const QRectF& place, const QColor& colour) {
    const QPointF c = place.center();
    const double k = 0.5 * place.width();
    painter.setPen(QPen(colour, 0.22 * k + 1.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolyline(
        QPolygonF({c + QPointF(-0.45 * k, 0.02 * k), c + QPointF(-0.1 * k, 0.4 * k),
                   c + QPointF(0.5 * k, -0.4 * k)}));
}

QColor on(const QColor& fill) {
    return fill.lightnessF() > 0.55 ? QColor(Qt::black) : QColor(Qt::white);
}

void paint_look(QPainter& painter, const QRectF& place, StageLook look, const Palette& palette) {
    const QPen outline(palette.ink, 1.6);
    painter.setPen(outline);
    painter.setBrush(Qt::NoBrush);
    switch (look) {
        case StageLook::not_begun:
            painter.setPen(QPen(palette.ink, 1.4, Qt::DotLine));
            painter.drawEllipse(place);
            return;
        case StageLook::begun:
            painter.drawEllipse(place);
            painter.setBrush(palette.ink);
            painter.drawPie(place, 90 * 16, 180 * 16);
            return;
        case StageLook::in_hand: {
            painter.setBrush(palette.accent);
            painter.drawPolygon(
                QPolygonF({place.topLeft() + QPointF(0.12 * place.width(), 0.0),
                           QPointF(place.right(), place.center().y()),
                           place.bottomLeft() + QPointF(0.12 * place.width(), 0.0)}));
            return;
        }
        case StageLook::held: {
            const QColor& fill = palette.of(CheckState::failed);
            painter.setBrush(fill);
            painter.drawRect(place.adjusted(1, 1, -1, -1));
            painter.fillRect(
                QRectF(place.left() + 4.0, place.center().y() - 1.8, place.width() - 8.0, 3.6),
                on(fill));
            return;
        }
        case StageLook::passed:
            painter.drawEllipse(place);
            paint_tick(painter, place, palette.ink);
            return;
        case StageLook::signed_off: {
            const QColor& fill = palette.of(CheckState::passed);
            painter.setBrush(fill);
            painter.drawEllipse(place);
            paint_tick(painter, place, on(fill));
            return;
        }
        case StageLook::overtaken:
            paint_state_sign(painter, place, CheckState::stale, palette);
            return;
    }
}

using PaintSign = std::function<void(QPainter&, const QRectF&)>;

QPixmap sign_picture(int before, bool chosen, const Palette& palette, const PaintSign& paint) {
    QPixmap picture((before + stage_sign_px) * sharpness, stage_sign_px * sharpness);
    picture.setDevicePixelRatio(sharpness);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    if (chosen) {
        // A ground of its own, so that it stands out from the colour of what is chosen.
        painter.setPen(Qt::NoPen);
        painter.setBrush(palette.paper);
        painter.drawRoundedRect(QRectF(before, 0, stage_sign_px, stage_sign_px), 5.0, 5.0);
    }
    paint(painter, QRectF(before + 3, 3, stage_sign_px - 6, stage_sign_px - 6));
    return picture;
}

QIcon sign_of(int before, const Palette& palette, const PaintSign& paint) {
    QIcon icon(sign_picture(before, false, palette, paint));
    icon.addPixmap(sign_picture(before, true, palette, paint), QIcon::Selected);
    return icon;
}

} // namespace

StageLook stage_look(const BuildShown& shown, const StageWithSteps& stage) {
    const auto done = std::count_if(stage.steps.begin(), stage.steps.end(), [](const Step& step) {
        return step.ticked_at || step.not_needed;
    });
    const StageShown* standing = shown.standing ? shown.standing->stage(stage.stage.id) : nullptr;
    if (standing == nullptr) {
        return done == 0 ? StageLook::not_begun : StageLook::begun;
    }
    if (standing->state.overtaken) {
        return StageLook::overtaken;
    }
    if (standing->state.sign_off_id) {
        return StageLook::signed_off;
    }
    if (standing->state.passed) {
        return StageLook::passed;
    }
    const auto& holds = shown.standing->state.holds.holds;
    const bool held = std::any_of(holds.begin(), holds.end(), [&](const Hold& hold) {
        return hold.stage_id == stage.stage.id && hold.stands() && keeps_waiting(hold);
    });
    const bool in_hand = shown.standing->state.next.stage_id == stage.stage.id;
    return held       ? StageLook::held
           : in_hand  ? StageLook::in_hand
           : done > 0 ? StageLook::begun
                      : StageLook::not_begun;
}

QString stage_look_text(StageLook look) {
    switch (look) {
        case StageLook::not_begun:
            return StageSigns::tr("not begun");
        case StageLook::begun:
            return StageSigns::tr("begun");
        case StageLook::in_hand:
            return StageSigns::tr("in hand");
        case StageLook::held:
            return StageSigns::tr("held up");
        case StageLook::passed:
            return StageSigns::tr("done");
        case StageLook::signed_off:
            return StageSigns::tr("signed off");
        case StageLook::overtaken:
            return StageSigns::tr("overtaken: open again");
    }
    return {};
}

QIcon stage_sign(StageLook look, const Palette& palette) {
    return sign_of(0, palette, [&](QPainter& painter, const QRectF& place) {
        paint_look(painter, place, look, palette);
    });
}

CheckState hold_sign(const std::vector<Hold>& holds) {
    if (holds.empty()) {
        return CheckState::passed;
    }
    const auto worst =
        std::find_if(holds.begin(), holds.end(), [](const Hold& hold) { return hold.stands(); });
    if (worst == holds.end()) {
        return CheckState::waived;
    }
    switch (worst->kind) {
        case HoldKind::contact:
        case HoldKind::check_failed:
            return CheckState::failed;
        case HoldKind::check_too_close:
            return CheckState::too_close;
        case HoldKind::check_stale:
            return CheckState::stale;
        case HoldKind::clearance_no_answer:
        case HoldKind::needs_not_readable:
            return CheckState::no_answer;
        default:
            return CheckState::not_yet;
    }
}

QIcon set_in_sign(CheckState state, int level, const Palette& palette) {
    return sign_of(level * level_px, palette, [&](QPainter& painter, const QRectF& place) {
        paint_state_sign(painter, place, state, palette);
    });
}

} // namespace rodway
