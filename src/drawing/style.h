// Line widths, tones and text sizes of all pictures. docs/drawing.md gives the reasons.
#pragma once

#include "drawing/display_list.h"

namespace kerfdraft::drawing {

inline constexpr Colour kInk{0x22, 0x2b, 0x33};    ///< lines and text: a blue black
inline constexpr Colour kFaint{0x6b, 0x75, 0x7d};  ///< second-rank text: 4.6 to 1 on white
inline constexpr Colour kPale{0xb4, 0xbb, 0xc0};   ///< hatches, grids
inline constexpr Colour kWall{0xcd, 0xd2, 0xd6};   ///< cut walls
inline constexpr Colour kBody{0xf3, 0xf1, 0xec};   ///< machines: the tone of planed wood
inline constexpr Colour kWhite{0xff, 0xff, 0xff};
inline constexpr Colour kGrid{0xe3, 0xe6, 0xe8};   ///< of charts
inline constexpr Colour kMetal{0xe4, 0xe9, 0xec};  ///< ducts without a grade
/// Marks on the fills of the scale: a hair beside white and ink, since on a dark ground these turn and marks
/// must not.
inline constexpr Colour kOnDark{0xfe, 0xfe, 0xfe};
inline constexpr Colour kOnLight{0x23, 0x2b, 0x33};
inline constexpr Colour kBlue{0x1f, 0x5f, 0x8b};  ///< measured or drawn curves that need a second tone

inline constexpr double kHair_mm = 0.13;   ///< leaders, grids, hatches
inline constexpr double kThin_mm = 0.18;   ///< symbols, openings
inline constexpr double kMiddle_mm = 0.3;  ///< rims of ducts and machines
inline constexpr double kThick_mm = 0.5;   ///< walls, frames, gates

inline constexpr double kSmall_mm = 2.0;  ///< text: details
inline constexpr double kText_mm = 2.4;   ///< text: labels
inline constexpr double kHeading_mm = 3.2;
inline constexpr double kTitle_mm = 4.6;

}  // namespace kerfdraft::drawing
