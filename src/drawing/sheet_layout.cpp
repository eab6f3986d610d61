// One layout for all drawings of a shop, so that a set of sheets looks like one.
#include "drawing/sheet_layout.h"

#include "drawing/shapes.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kMargin_mm = 9;
constexpr double kBareMargin_mm = 1.5;
constexpr double kLegendColumn_mm = 58;
constexpr double kLegendRows_mm = 54;
constexpr double kLeastBeside_mm = 230;
constexpr double kRoomForLabels_mm = 13;
constexpr double kRoomBare_mm = 9;

}  // namespace

SheetLayout layOutSheet(const Paper& paper, double width_m, double height_m, bool furniture, bool legend,
                        base::UnitSystem units) {
  SheetLayout out;
  out.paper = paper;
  const double margin = furniture ? kMargin_mm : kBareMargin_mm;
  out.frame = {margin, margin, std::max(paper.width_mm - margin, margin + 1),
               std::max(paper.height_mm - margin, margin + 1)};
  out.drawing = out.frame;
  if (furniture) {
    out.title = {out.frame.left + 3, out.frame.bottom - kTitleStrip_mm, out.frame.right - 3,
                 out.frame.bottom};
    out.drawing.bottom = std::max(out.title.top, out.drawing.top + 1);
  }
  out.legend = out.drawing;
  if (legend || furniture) {
    // A column beside the drawing would leave too little of a narrow page.
    if (paper.width_mm >= paper.height_mm && paper.width_mm >= kLeastBeside_mm) {
      out.legend.left = std::max(out.drawing.right - kLegendColumn_mm, out.drawing.left + 1);
      out.drawing.right = out.legend.left;
    } else {
      out.legend.top = std::max(out.drawing.bottom - kLegendRows_mm, out.drawing.top + 1);
      out.drawing.bottom = out.legend.top;
    }
  }
  const double room = furniture ? kRoomForLabels_mm : kRoomBare_mm;
  out.scale =
      scaleFor(width_m, height_m, out.drawing.width() - 2 * room, out.drawing.height() - 2 * room, units);
  return out;
}

double barLeft(const SheetLayout& layout) {
  constexpr double kBarAndNorth_mm = 66;
  return layout.legend.width() > kLegendColumn_mm + 1 ? layout.legend.right - kBarAndNorth_mm
                                                      : layout.legend.left + 5;
}

void drawFurniture(const SheetLayout& layout, const TitleBlock& title, const std::string& scale,
                   std::vector<Shape>& out) {
  out.push_back(rectangle(layout.frame, std::nullopt, stroke(kThick_mm)));
  const std::string on = layout.paper.name.empty() ? "" : " on " + layout.paper.name;
  append(out, titleStrip(layout.title, title, scale + on));
}

SheetLayout layOutWindow(const Window& window) {
  SheetLayout layout;
  layout.paper = {"", window.width_mm, window.height_mm};
  layout.frame = layout.drawing = {0, 0, window.width_mm, window.height_mm};
  layout.scale.ratio = 1000 / window.mm_per_m;
  return layout;
}

void keepInside(std::vector<Label>& labels, const Box& inside) {
  for (Label& label : labels) {
    std::erase_if(label.anchors, [&](At anchor) { return !inside.contains(anchor); });
  }
  std::erase_if(labels, [](const Label& label) { return label.anchors.empty(); });
}

}  // namespace kerfdraft::drawing
