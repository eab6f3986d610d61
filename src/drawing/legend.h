// Rows of samples and words beside a drawing. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "drawing/geometry.h"

namespace kerfdraft::drawing {

inline constexpr double kLegendSample_mm = 11;

struct LegendRow {
  std::vector<Shape> sample{};  ///< drawn from (0, 0) to (kLegendSample_mm, 0), its middle line at y = 0
  std::string words{};
  std::string more{};  ///< at the right edge, in grey
  bool heading = false;
};

LegendRow legendHeading(std::string words);

/// Draws the rows in as many columns as the box has room for, notes below. Returns the height used.
double drawLegendRows(std::vector<LegendRow> rows, const std::vector<std::string>& notes, const Box& where,
                      std::vector<Shape>& out);

}  // namespace kerfdraft::drawing
