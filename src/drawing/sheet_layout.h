// How a sheet is cut into drawing, legend and title strip. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "drawing/page.h"

namespace kerfdraft::drawing {

struct SheetLayout {
  Paper paper;
  Box frame;    ///< everything inside the margin
  Box drawing;  ///< of it what the picture may use
  Box legend;   ///< beside the drawing on a sheet laid sideways, below it on one that stands
  Box title;
  Scale scale;  ///< at which the picture fits, with room for labels round it
};

SheetLayout layOutSheet(const Paper& paper, double width_m, double height_m, bool furniture, bool legend,
                        base::UnitSystem units);

/// Frame and title strip.
void drawFurniture(const SheetLayout& layout, const TitleBlock& title, const std::string& scale,
                   std::vector<Shape>& out);

}  // namespace kerfdraft::drawing
