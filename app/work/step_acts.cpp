#include "app/work/step_acts.h"

#include "core/build/part_check.h"
#include "db/record_fields.h"

namespace rodway {

Result<Act> leave_step_out(ShopSession& session, const Step& step, const std::string& reason) {
    const auto line = kept_line(reason, "not_needed");
    if (!line) {
        return line.error();
    }
    if (line->empty()) {
        return Error{ErrorCode::empty_text, "not_needed", {}, {}, {}, {}};
    }
    Step after = step;
    after.not_needed = *line;
    return session.act(edits_to_change(step, after), QObject::tr("step not needed"));
}

Result<Act> take_step_in(ShopSession& session, const Step& step) {
    Step after = step;
    after.not_needed.reset();
    return session.act(edits_to_change(step, after), QObject::tr("step needed after all"));
}

} // namespace rodway
