// Ducts cut into runs at their meetings. Private to this room.
#pragma once

#include <vector>

#include "pieces/draft.h"
#include "pieces/drawing.h"

namespace kerfdraft::pieces {

/// Which run each leg of each duct went into.
struct RunsOfLegs {
  std::vector<std::vector<std::size_t>> run;  ///< by duct and leg
};

/// All runs of all ducts, with entries, outlets, ports and moved hoses. The nodes of meetings must be there.
base::Result<RunsOfLegs> addDuctRuns(Draft& draft, const Drawing& drawing);

}  // namespace kerfdraft::pieces
