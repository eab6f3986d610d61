// The style sheet of written pages. Private to this room.
#pragma once

#include <string>

#include "base/units.h"

namespace kerfdraft::papers {

/// Rules for screen and paper; what stands in the foot of every printed page is `foot`.
std::string pageStyle(base::UnitSystem units, const std::string& foot);

}  // namespace kerfdraft::papers
