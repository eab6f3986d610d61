// How much air there is against what is needed, in five steps with a colour, a pattern and words each, so
// that nothing hangs on colour alone. docs/drawing.md says why these.
#pragma once

#include <array>
#include <string_view>

#include "drawing/display_list.h"

namespace kerfdraft::drawing {

enum class Grade {
  FarBelow,   ///< under 80 % of the need
  Below,      ///< 80 to 100 %
  Just,       ///< 100 to 115 %
  Ample,      ///< 115 to 160 %
  Plenty,     ///< more than 160 %
  NotJudged,  ///< air moves, and nothing is asked here
  Still,      ///< no air, or a state leaves it shut
};

inline constexpr std::array<Grade, 5> kScale{Grade::FarBelow, Grade::Below, Grade::Just, Grade::Ample,
                                             Grade::Plenty};

/// Where the steps begin, as a share of the need.
inline constexpr double kBelowFrom = 0.8;
inline constexpr double kJustFrom = 1.0;
inline constexpr double kAmpleFrom = 1.15;
inline constexpr double kPlentyFrom = 1.6;

/// The step of what there is over what is needed, in whole percent as a reader sees it: a prediction knows no
/// finer, and "17.8 of 17.8" must not be called too little. Precondition: not NaN.
constexpr Grade gradeOf(double share) {
  const double ratio = share + 0.005;
  return ratio < kBelowFrom    ? Grade::FarBelow
         : ratio < kJustFrom   ? Grade::Below
         : ratio < kAmpleFrom  ? Grade::Just
         : ratio < kPlentyFrom ? Grade::Ample
                               : Grade::Plenty;
}

/// Lighter with every step: the grey of a copy still shows the order.
constexpr Colour fillOf(Grade grade) {
  switch (grade) {
    case Grade::FarBelow:
      return {0x4d, 0x12, 0x36};
    case Grade::Below:
      return {0xa3, 0x3a, 0x2c};
    case Grade::Just:
      return {0xd6, 0x84, 0x2e};
    case Grade::Ample:
      return {0x8f, 0xc0, 0xd2};
    case Grade::Plenty:
      return {0xcf, 0xe8, 0xea};
    case Grade::NotJudged:
    case Grade::Still:
      return {0xff, 0xff, 0xff};
  }
  return {0xff, 0xff, 0xff};
}

/// "well below", "below", "just enough", "enough", "plenty".
std::string_view toText(Grade grade);

/// "under 80 %", "80 to 100 %", … of the need.
std::string_view rangeText(Grade grade);

}  // namespace kerfdraft::drawing
