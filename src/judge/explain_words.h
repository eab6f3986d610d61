// How an explanation writes its numbers and names where they come from: for the command line and the window.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/law.h"
#include "base/units.h"

namespace kerfdraft::judge {

/// With five digits and its unit: coefficients need more of them than a table of flows gives.
std::string exactText(base::Kind kind, double si, base::UnitSystem units);

/// "entered", "catalogue", "number", "constant".
std::string_view toText(base::From from);

/// Whether a text holds every word that is asked for, letter case aside.
bool holdsWords(std::string_view text, std::string_view asked);

}  // namespace kerfdraft::judge
