// Joint leakage, put where model.md section 4 puts it: half at each end of every stretch between devices.
// Private to this room.
#pragma once

#include "pieces/draft.h"

namespace kerfdraft::pieces {

/// Shut-off pressure of the largest fan from which a system is built tight: a vacuum line.
inline constexpr double kVacuumLine_pa = 5000;

/// Leak stations of all runs, and the slots of gates in a vacuum line.
void addLeaks(Draft& draft);

}  // namespace kerfdraft::pieces
