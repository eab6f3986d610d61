// How a sheet is cut into drawing, legend and title strip. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "drawing/label_placer.h"
#include "drawing/page.h"

namespace kerfdraft::drawing {

struct SheetLayout {
  Paper paper;
  Box frame;    ///< everything inside the margin
  Box drawing;  ///< of it what the picture may use
  Box legend;   ///< beside the drawing, or below it on a sheet that stands or is narrow
  Box title;
  Scale scale;  ///< at which the picture fits, with room for labels round it
};

/// A smaller scale needs a larger sheet. Otherwise the two smallest sheets, which a person can print, will
/// do.
inline constexpr double kSmallestUsualScale = 101;

SheetLayout layOutSheet(const Paper& paper, double width_m, double height_m, bool furniture, bool legend,
                        base::UnitSystem units);

/// A view: all of it is drawing.
SheetLayout layOutWindow(const Window& window);

/// Leaves out labels of which no anchor lies inside, and those anchors that do not.
void keepInside(std::vector<Label>& labels, const Box& inside);

/// Where the scale bar begins: in the legend's lower left corner, or beside the north mark where rows of the
/// legend lie there.
double barLeft(const SheetLayout& layout);

/// Frame and title strip.
void drawFurniture(const SheetLayout& layout, const TitleBlock& title, const std::string& scale,
                   std::vector<Shape>& out);

}  // namespace kerfdraft::drawing
