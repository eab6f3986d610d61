// Random projects that hold together: every kind of entry, every way to end, odd units and texts.
#pragma once

#include "shop/project.h"

namespace kerfdraft::files {

/// Draws from RapidCheck, so a failing case is shrunk. To be called inside a property.
shop::Project randomProject();

}  // namespace kerfdraft::files
