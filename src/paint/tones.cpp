// Each neutral tone of drawing/style.h has a partner with about the same contrast to the dark ground.
#include "paint/tones.h"

#include <array>

#include "drawing/style.h"

namespace kerfdraft::paint {
namespace {

struct Pair {
  drawing::Colour light;
  drawing::Colour dark;
};

// Contrast of ink to ground: 12 to 1, of faint text 6 to 1 (tests/paint/tones_test.cpp).
constexpr std::array<Pair, 9> kPairs{{
    {drawing::kWhite, {0x1d, 0x22, 0x27}},
    {drawing::kInk, {0xe4, 0xe7, 0xe9}},
    {drawing::kFaint, {0x9f, 0xa8, 0xaf}},
    {drawing::kPale, {0x4b, 0x54, 0x5b}},
    {drawing::kWall, {0x4e, 0x57, 0x5e}},
    {drawing::kBody, {0x33, 0x36, 0x35}},
    {drawing::kGrid, {0x33, 0x3a, 0x40}},
    {drawing::kMetal, {0x3a, 0x42, 0x48}},
    {drawing::kBlue, {0x78, 0xb6, 0xdc}},
}};

}  // namespace

QColor shown(drawing::Colour colour, Tones tones) {
  if (tones == Tones::Dark) {
    for (const Pair& pair : kPairs) {
      if (pair.light == colour) {
        colour = pair.dark;
        break;
      }
    }
  }
  return {colour.red, colour.green, colour.blue};
}

}  // namespace kerfdraft::paint
