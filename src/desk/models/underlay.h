// Where a drawing or picture lies under the plan, and what the hand does with it: scaled by two known points,
// moved, turned. Without Qt.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "files/dxf.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// A place on the sheet in its own units: those of a DXF drawing, or a picture's pixels; x to the right, y
/// up.
using SheetPoint = files::DxfPoint;

/// The corners of a sheet, and what its file says of its unit.
struct SheetSize {
  SheetPoint low;
  SheetPoint high;
  std::optional<double> unit_m{};  ///< metres in one unit; a picture says nothing
};

/// Metres that one unit stands for: as scaled, else 1 cm, so that it can be seen before it is scaled.
double unitOf(const shop::Underlay& underlay);

shop::PlanPoint toShop(const shop::Underlay& underlay, const SheetPoint& sheet);
SheetPoint toSheet(const shop::Underlay& underlay, const shop::PlanPoint& at);

/// A sheet that was just chosen: at the south-west corner of what is drawn, in the unit that its file names;
/// without one as long as the shop, or 10 m, until it is scaled. Refused: a sheet without extent.
base::Result<shop::Underlay> laidUnder(const shop::Project& project, std::string file, const SheetSize& size);

/// Scaled so that two places of the sheet are as far apart as a person says; the first stays where it is.
/// Refused: places nearer than a millimetre, a length that is not above zero or beyond 1 km, a scale outside
/// the format's range.
base::Result<shop::Underlay> scaledBy(const shop::Underlay& underlay, const shop::PlanPoint& a,
                                      const shop::PlanPoint& b, std::string_view length);

/// Moved, so that what lies at `from` lies at `to`. Refused: beyond the coordinates of the format.
base::Result<shop::Underlay> movedBy(const shop::Underlay& underlay, const shop::PlanPoint& from,
                                     const shop::PlanPoint& to);

/// Turned anticlockwise about a place.
base::Result<shop::Underlay> turnedBy(const shop::Underlay& underlay, const shop::PlanPoint& about,
                                      double rad);

/// Turned about the first place by the least angle after which the line to the second runs along a wall of
/// the sheet's own right angle: east, north, west or south. Refused: places nearer than a millimetre.
base::Result<shop::Underlay> squared(const shop::Underlay& underlay, const shop::PlanPoint& a,
                                     const shop::PlanPoint& b);

/// What is typed while the underlay is in hand.
struct UnderlayTyped {
  enum class What { Length, Square, Turn, Hide, Show } what = What::Length;
  std::string length;   ///< as typed
  double turn_rad = 0;  ///< anticlockwise
};

/// "12 ft 6", "3.2 m": how far the two places are apart; "square"; "turn 90"; "hide"; "show". Refused with a
/// sentence: anything else.
base::Result<UnderlayTyped> parseUnderlayTyped(std::string_view text);

/// A layer of a DXF drawing in a list.
struct UnderlayLayer {
  std::string name;
  std::size_t strokes = 0;
  bool shown = true;
};
std::vector<UnderlayLayer> layersOf(const files::DxfDrawing& drawing, const shop::Underlay& underlay);

/// With a layer shown or not.
shop::Underlay withLayer(const shop::Underlay& underlay, const std::string& layer, bool shown);

/// How large it is and how that is known: "8.00 m × 6.00 m; one unit is 1 mm, as the file says".
std::string scaleWords(const shop::Underlay& underlay, const SheetSize& size, base::UnitSystem units);
/// What of a drawing is not shown: "Not shown: 12 texts, 3 hatches." Empty where all is.
std::string skippedWords(const files::DxfDrawing& drawing);

}  // namespace kerfdraft::desk
