// The style sheet of written pages. Private to this room.
#pragma once

#include <string>

#include "base/units.h"

namespace kerfdraft::papers {

/// Rules for screen and paper; what stands in the foot of every printed page is `foot`.
/// `brief`: narrower margins above and below, for a page that is to fit two sides.
std::string pageStyle(base::UnitSystem units, const std::string& foot, bool brief);

}  // namespace kerfdraft::papers
