// Coordinates as text: whole micrometres written in the unit in which they are shortest.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/units.h"

namespace kerfdraft::files {

/// Whole micrometres of "1.5 ft", rounded to the nearest. Refused as parseQuantity does, and outside
/// kCoordinate.
base::Result<std::int64_t> parseCoordinate(std::string_view text, std::string_view where = {});

/// The shortest text in ft, in, m or mm that parseCoordinate reads back to the same number; a unit of the
/// other system only where it is much shorter. "um" where none does, which is outside kCoordinate only.
std::string coordinateText(std::int64_t um, base::UnitSystem system);

}  // namespace kerfdraft::files
