// What is worth a note in a drawing that can be solved as it stands. Private to this room.
#pragma once

#include "pieces/draft.h"
#include "pieces/drawing.h"

namespace kerfdraft::pieces {

/// Elbows closer than two bores, bores that are not sold, hose drawn longer than it is.
base::Result<void> addNotes(Draft& draft, const Drawing& drawing);

/// Marks the runs behind the first separator or filter: no chips travel there.
void markChips(Draft& draft);

}  // namespace kerfdraft::pieces
