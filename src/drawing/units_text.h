// Lengths, bores and flows as they stand on a drawing: short, in the reader's units, as the trade writes
// them.
#pragma once

#include <string>

#include "base/units.h"

namespace kerfdraft::drawing {

/// "8 ft 3 1/2 in" to the nearest eighth, or "2.52 m": a length to cut or to measure.
std::string lengthText(double m, base::UnitSystem system);

/// "Ø 6 in", "Ø 160 mm".
std::string boreText(double m, base::UnitSystem system);

/// Number and unit with the digits that a drawing needs: "812 cfm", "4070 fpm", "1.35 in w.g.", "336 Pa".
std::string shortText(base::Kind kind, double si, base::UnitSystem system);

}  // namespace kerfdraft::drawing
