// Where air leaves: open duct ends with their caps. Private to this room.
#pragma once

#include <string>

#include "pieces/draft.h"

namespace kerfdraft::pieces {

/// The outlet of a duct that ends in free air: 1.0 of its velocity pressure and its cap or screen.
base::Result<DraftPiece> freeOutlet(const Draft& draft, const shop::FreeAir& end, Id duct,
                                    const std::string& label, double bore_m);

}  // namespace kerfdraft::pieces
