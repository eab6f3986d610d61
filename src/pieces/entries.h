// Where air comes in: machines as bodies with ports and blowers, and free ends. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "pieces/draft.h"

namespace kerfdraft::pieces {

/// Nodes of all machines: bodies with their openings, blowers with the joint behind them.
base::Result<void> addMachines(Draft& draft);

/// The entry from a machine into a port's bore. `moved` is the moved hose that stands there, or no id.
base::Result<DraftPiece> portEntry(Draft& draft, const shop::PortRef& ref, Id moved);

/// The entry of a duct that starts in free air.
base::Result<DraftPiece> freeEntry(const Draft& draft, const shop::FreeAir& end, Id duct,
                                   const std::string& label, double bore_m);

}  // namespace kerfdraft::pieces
