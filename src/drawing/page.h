// The sheet round a picture: paper, scale, title strip, scale bar, marks of north and origin.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "drawing/geometry.h"

namespace kerfdraft::drawing {

struct Paper {
  std::string name;  ///< "A3"
  double width_mm = 0;
  double height_mm = 0;
};

/// Sheets laid sideways, smaller ones first: A4 and A3, or letter and tabloid; then larger ones.
std::vector<Paper> papers(base::UnitSystem system);
/// By name, letter case aside: "a4", "a3", "a2", "letter", "tabloid"; "-upright" behind it turns the sheet.
std::optional<Paper> paperNamed(std::string_view name);

/// What a window shows of a drawing.
struct Window {
  double width_mm = 0;
  double height_mm = 0;
  double mm_per_m = 20;
  At origin;          ///< where the shop's origin is, from the upper left corner [mm]
  double rim_mm = 0;  ///< at the left and on top, where no label stands: rulers lie there
};

/// A drawing scale 1 : ratio.
struct Scale {
  double ratio = 50;
  std::string text;  ///< "1 : 50", "1/4 in = 1 ft (1 : 48)"
};

/// The largest usual scale at which something of this size fits into a room on paper; where none does, a
/// round one that does.
Scale scaleFor(double width_m, double height_m, double room_width_mm, double room_height_mm,
               base::UnitSystem system);

/// What stands in the strip below a picture. Empty fields leave no gap.
struct TitleBlock {
  std::string shop;
  std::string note;      ///< small, below the name
  std::string drawing;   ///< "Plan"
  std::string state;     ///< "state: planer alone"
  std::string filter;    ///< "filter seasoned"
  std::string standing;  ///< "predicted"
  std::string date;
  std::string caution;
};

inline constexpr std::string_view kCaution =
    "A prediction to plan by, not for construction: check every dimension on site.";

inline constexpr double kTitleStrip_mm = 17;

/// The strip over the whole width of a box.
std::vector<Shape> titleStrip(const Box& where, const TitleBlock& title, std::string_view scale);

/// A bar of whole feet or metres, its left end at `at`, no longer than asked. Takes 7 mm of height.
std::vector<Shape> scaleBar(At at, double longest_mm, double mm_per_m, base::UnitSystem system);

/// An arrow to the north (up) of 11 mm height, its foot at `at`.
std::vector<Shape> northMark(At at);

/// The mark of the place from which coordinates are measured.
std::vector<Shape> originMark(At at);

}  // namespace kerfdraft::drawing
