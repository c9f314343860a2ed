#pragma once

#include <QString>

#include "app/words/sheet_words.h"
#include "core/build/records.h"
#include "core/sheets/sheet_assessment.h"

namespace rodway {

/// How a sheet is put on paper.
struct SheetPaper {
    const Build& build;
    const AssessedSheet& sheet;
    const words::OwnTitles& own_titles;
    bool blank = false; ///< boxes are left empty for the pencil, to be keyed in later
    /// For the drawings of joints, which are left out without them.
    const TakenReadings* readings = nullptr;
    const EnginePlaces* places = nullptr;
};

/// One kind of sheet as a PDF: positions down, quantities across, units and limits at the head of
/// each column. As it stands, every value with its verdict where it isn't within the limit, figures
/// worked out in brackets, what each row comes to, and what is pointed out at the end. Of
/// fasteners, a drawing of each joint. Error: as `write_output`.
Result<Done> write_sheet_paper(const SheetPaper& paper, const QString& path);

} // namespace rodway
