// Moves everything up by what is cut off on top.
#include "drawing/trim.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "drawing/geometry.h"
#include "drawing/shapes.h"

namespace kerfdraft::drawing {
namespace {

void lift(Shape& shape, double by_mm) {
  if (auto* path = std::get_if<Path>(&shape.what)) {
    for (At& point : path->points) {
      point.y -= by_mm;
    }
  } else if (auto* circle = std::get_if<Circle>(&shape.what)) {
    circle->centre.y -= by_mm;
  } else if (auto* arc = std::get_if<Arc>(&shape.what)) {
    arc->centre.y -= by_mm;
  } else if (auto* words = std::get_if<Text>(&shape.what)) {
    words->at.y -= by_mm;
  } else if (auto* group = std::get_if<Group>(&shape.what)) {
    for (Shape& each : group->shapes) {
      lift(each, by_mm);
    }
  }
}

/// The filled sheet under everything.
bool isPaper(const Shape& shape, const Picture& picture) {
  const auto* path = std::get_if<Path>(&shape.what);
  const std::vector<At> sheet = cornersOf({0, 0, picture.width_mm, picture.height_mm});
  return path != nullptr && path->fill && !path->stroke && path->points == sheet;
}

}  // namespace

void trimHeight(Picture& picture, double rim_mm) {
  Box drawn;
  for (const Shape& shape : picture.shapes) {
    if (!isPaper(shape, picture)) {
      drawn.add(boundsOf(shape));
    }
  }
  const double from = std::max(drawn.top - rim_mm, 0.0);
  const double height_mm = std::min(drawn.bottom + rim_mm, picture.height_mm) - from;
  if (drawn.empty() || !(height_mm > 0)) {
    return;
  }
  Picture cut = picture;
  cut.height_mm = height_mm;
  for (std::size_t k = 0; k < cut.shapes.size(); ++k) {
    if (isPaper(picture.shapes[k], picture)) {
      cut.shapes[k] = rectangle({0, 0, cut.width_mm, height_mm}, std::get<Path>(picture.shapes[k].what).fill);
    } else {
      lift(cut.shapes[k], from);
    }
  }
  picture = std::move(cut);
}

}  // namespace kerfdraft::drawing
