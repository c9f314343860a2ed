#pragma once

#include <QString>

#include "app/book/sheet_blocks.h"
#include "core/base/result.h"

namespace rodway {

/// One kind of sheet as a PDF, see `sheet_blocks`. Error: as `write_output`.
Result<Done> write_sheet_paper(const SheetPaper& paper, const QString& path);

} // namespace rodway
