#pragma once

#include <QPagedPaintDevice>
#include <QString>
#include <optional>
#include <vector>

#include "app/work/build_in_hand.h"
#include "db/stage_store.h"
#include "render/renderer.h"

namespace rodway {

/// What the one-page clearance document says.
struct ClearanceDocument {
    BuildInHand hand;
    std::vector<ValveClearance> lines;
    std::vector<StageWithSteps> stages;
    std::vector<Reading> readings;
    QString date; ///< of the document
};

/// Gathers it. Errors: those of the shop file, the set-up and the survey.
Result<ClearanceDocument> gather_document(ShopFile& shop, const Build& build);

/// Writes it as a PDF of one A4 page. Without a renderer the page says that no picture could be
/// drawn. Error: cannot_write.
Result<Done> write_clearance_document(const ClearanceDocument& document, Renderer* renderer,
                                      const QString& path);

} // namespace rodway
