#include "app/work/ticks.h"

#include "db/stage_store.h"

namespace rodway {

Result<Act> tick(ShopSession& session, const Step& step) {
    return session.act(edits_to_tick(step, session.who().toStdString(), session.now()),
                       QObject::tr("tick"));
}

Result<Act> untick(ShopSession& session, const Step& step) {
    return session.act(edits_to_untick(step), QObject::tr("tick taken back"));
}

} // namespace rodway
