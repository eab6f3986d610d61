// Colours and text size of all widgets, from the tones of the drawings.
#pragma once

#include <QPalette>

#include "paint/tones.h"

namespace kerfdraft::desk {

QPalette paletteOf(paint::Tones tones);

/// Dresses every widget of the program, tooltips and menus too.
void applyTheme(paint::Tones tones, double text_factor);

inline constexpr double kLeastText = 0.8;
inline constexpr double kMostText = 2.0;

}  // namespace kerfdraft::desk
