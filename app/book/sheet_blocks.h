#pragma once

#include "app/book/book_block.h"
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
    bool written_only = false; ///< boxes and lines of which nothing is known are left out
};

/// One kind of sheet: positions down, quantities across, units and limits at the head of each
/// column, in tables of the width given (1/96 in). As it stands, every value with its verdict where
/// it isn't within the limit, figures worked out in brackets, what each row comes to, and what is
/// pointed out at the end. Of fasteners, a drawing of each joint.
[[nodiscard]] BookBlocks sheet_blocks(const SheetPaper& paper, double width);

/// The drawings alone: every joint with its bolts, in which order they are tightened, and what is
/// ticked; of a blank paper nothing is.
[[nodiscard]] BookBlocks joint_blocks(const SheetPaper& paper);

} // namespace rodway
