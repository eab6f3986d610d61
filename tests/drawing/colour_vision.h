// How a colour looks to an eye that lacks one kind of cone, and how far two colours are apart.
#pragma once

#include <array>
#include <string_view>

#include "drawing/display_list.h"

namespace kerfdraft::drawing {

enum class Eye { Usual, Protanope, Deuteranope, Tritanope };

inline constexpr std::array<Eye, 4> kEyes{Eye::Usual, Eye::Protanope, Eye::Deuteranope, Eye::Tritanope};

std::string_view toText(Eye eye);

/// CIE 1976 L*a*b* under D65, as the eye sees the colour.
std::array<double, 3> labOf(Colour colour, Eye eye);

/// Distance in L*a*b*: about 2.3 can just be told apart side by side.
double apart(Colour a, Colour b, Eye eye);

/// Contrast of two colours by the definition of WCAG 2: 1 to 21.
double contrast(Colour a, Colour b);

}  // namespace kerfdraft::drawing
