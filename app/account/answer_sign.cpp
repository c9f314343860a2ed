#include "app/account/answer_sign.h"

#include <QPainter>

#include "render/cylinder_plan.h"

namespace rodway {

QIcon answer_sign(ApprovalAnswer answer, const Palette& palette) {
    constexpr int px = 32; // drawn at half its size on most screens
    const CheckState state = answer == ApprovalAnswer::asked      ? CheckState::not_yet
                             : answer == ApprovalAnswer::approved ? CheckState::passed
                                                                  : CheckState::failed;
    QPixmap picture(px, px);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    paint_state_sign(painter, QRectF(3, 3, px - 6, px - 6), state, palette);
    return QIcon(picture);
}

} // namespace rodway
