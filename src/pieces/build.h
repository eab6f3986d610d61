// From the drawing to the pieces: what the network solves, the sheet adds up and the parts list counts.
#pragma once

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

/// Turns a project into keyed pieces in runs between nodes (docs/theory/from-drawing-to-pieces.md).
/// Nothing is found by nearness: what is joined is what the project says is joined. Refused with a sentence:
/// catalogue keys that do not exist (near ones are offered), numbers outside what a law holds for, entries
/// that contradict each other. What was assumed, and what deserves a look, stands in Pieces::notes.
base::Result<Pieces> buildPieces(const shop::Project& project, const catalogue::Catalogue& catalogue);

}  // namespace kerfdraft::pieces
