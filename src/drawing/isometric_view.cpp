// Bounds and bodies in the isometric view.
#include "drawing/isometric_view.h"

#include "drawing/shapes.h"

namespace kerfdraft::drawing {

Box flatBounds(const shop::Project& project, const std::vector<DuctLeg>& legs, double turned_rad) {
  const View view{1, {0, 0}, turned_rad};
  Box box;
  for (const shop::Room& room : project.rooms) {
    for (const shop::PlanPoint& p : room.outline) {
      box.add(view.at(spotOf({p.x_um, p.y_um, 0})));
      box.add(view.at(spotOf({p.x_um, p.y_um, std::llround(room.height.si() * 1e6)})));
    }
  }
  for (const shop::Machine& machine : project.machines) {
    const Spot m = spotOf(machine.at);
    const double r = std::hypot(machine.width.si(), machine.depth.si()) / 2;
    for (const double x : {-r, r}) {
      for (const double y : {-r, r}) {
        box.add(view.at({m.x + x, m.y + y, m.z}));
        box.add(view.at({m.x + x, m.y + y, m.z + machine.height.si()}));
      }
    }
  }
  for (const DuctLeg& leg : legs) {
    for (const shop::Point& p : {leg.from, leg.to}) {
      const At at = view.at(spotOf(p));
      box.add(Box{at.x, at.y, at.x, at.y}.grown(leg.bore_m));
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    const At at = view.at(spotOf(collector.at));
    box.add(Box{at.x, at.y, at.x, at.y}.grown(0.5));
  }
  if (box.empty()) {
    box = {0, 0, 1, 1};
  }
  return box;
}

Spot middleOf(const std::vector<shop::PlanPoint>& outline) {
  Spot middle;
  for (const shop::PlanPoint& p : outline) {
    const Spot spot = spotOf({p.x_um, p.y_um, 0});
    middle.x += spot.x / static_cast<double>(outline.size());
    middle.y += spot.y / static_cast<double>(outline.size());
  }
  return middle;
}

std::vector<Shape> blockFaces(const View& view, const std::vector<shop::PlanPoint>& outline, double bottom_m,
                              double top_m, Colour lid, Colour side) {
  std::vector<Shape> faces;
  std::vector<At> lid_points;
  double area = 0;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    Spot a = spotOf({outline[k].x_um, outline[k].y_um, 0});
    const shop::PlanPoint& next = outline[(k + 1) % outline.size()];
    const Spot b = spotOf({next.x_um, next.y_um, 0});
    area += a.x * b.y - b.x * a.y;
    a.z = top_m;
    lid_points.push_back(view.at(a));
  }
  // A side is seen where it looks to the right or toward the eye.
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const shop::PlanPoint& next = outline[(k + 1) % outline.size()];
    Spot a = spotOf({outline[k].x_um, outline[k].y_um, 0});
    Spot b = spotOf({next.x_um, next.y_um, 0});
    const double round = area > 0 ? 1 : -1;
    const Spot from = view.facing(a);
    const Spot to = view.facing(b);
    if (((to.y - from.y) + (to.x - from.x)) * round <= 1e-9) {
      continue;
    }
    a.z = b.z = bottom_m;
    std::vector<At> face{view.at(a), view.at(b)};
    a.z = b.z = top_m;
    face.push_back(view.at(b));
    face.push_back(view.at(a));
    faces.push_back(polygon(std::move(face), side, stroke(kThin_mm, kFaint)));
  }
  faces.push_back(polygon(std::move(lid_points), lid, stroke(kThin_mm, kFaint)));
  return faces;
}

}  // namespace kerfdraft::drawing
