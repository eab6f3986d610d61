// The stretches between corners: duct and hose with their gates, in the order of the air. Private to this
// room.
#pragma once

#include <vector>

#include "pieces/draft.h"
#include "pieces/drawing.h"

namespace kerfdraft::pieces {

/// The pieces of leg `leg`: straights or hoses, split by its gates.
base::Result<std::vector<DraftPiece>> legPieces(Draft& draft, const DrawnDuct& duct, std::size_t leg);

/// Finds the pieces that the taps of a duct are in; `run_of_leg` says which run each leg went into.
void addTaps(Draft& draft, const DrawnDuct& duct, const std::vector<std::size_t>& run_of_leg);

}  // namespace kerfdraft::pieces
