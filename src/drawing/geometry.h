// Flat geometry of pictures: boxes, thick lines, polygons. All in millimetres on paper.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "drawing/display_list.h"

namespace kerfdraft::drawing {

inline At operator+(At a, At b) {
  return {a.x + b.x, a.y + b.y};
}
inline At operator-(At a, At b) {
  return {a.x - b.x, a.y - b.y};
}
inline At operator*(At a, double f) {
  return {a.x * f, a.y * f};
}
inline double length(At a) {
  return std::hypot(a.x, a.y);
}
inline double dot(At a, At b) {
  return a.x * b.x + a.y * b.y;
}
/// Turned a quarter to the left as seen on paper.
inline At leftOf(At a) {
  return {a.y, -a.x};
}
/// Unit vector; to the right where there is no direction.
inline At unit(At a) {
  const double l = length(a);
  return l > 0 ? a * (1 / l) : At{1, 0};
}
inline At between(At a, At b, double share) {
  return a + (b - a) * share;
}

/// A rectangle with level sides. Empty until something is put into it.
struct Box {
  double left = 1e30;
  double top = 1e30;
  double right = -1e30;
  double bottom = -1e30;

  bool empty() const { return right < left || bottom < top; }
  double width() const { return empty() ? 0 : right - left; }
  double height() const { return empty() ? 0 : bottom - top; }
  At centre() const { return {(left + right) / 2, (top + bottom) / 2}; }
  Box grown(double by) const { return {left - by, top - by, right + by, bottom + by}; }
  void add(At p) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  void add(const Box& b) {
    if (!b.empty()) {
      add(At{b.left, b.top});
      add(At{b.right, b.bottom});
    }
  }
  bool contains(At p) const { return p.x >= left && p.x <= right && p.y >= top && p.y <= bottom; }
  bool contains(const Box& b) const {
    return b.left >= left && b.right <= right && b.top >= top && b.bottom <= bottom;
  }
  bool operator==(const Box&) const = default;
};

/// True where the insides meet: boxes that only touch do not.
inline bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/// Area that two boxes share.
inline double sharedArea(const Box& a, const Box& b) {
  return overlap(a, b) ? (std::min(a.right, b.right) - std::max(a.left, b.left)) *
                             (std::min(a.bottom, b.bottom) - std::max(a.top, b.top))
                       : 0;
}

struct LinePart {
  At from;
  At to;
};

/// The part of a line from a to b that lies in a box; nothing where it passes by.
std::optional<LinePart> clipped(const Box& box, At a, At b);

/// Length of that part.
double lengthInside(const Box& box, At a, At b);

/// Distance of a point from the line between two others.
double distanceToLine(At p, At a, At b);

/// The place of a box (or its edge) nearest to a point; the point itself where it lies inside.
inline At nearestIn(const Box& box, At p) {
  return {std::clamp(p.x, box.left, box.right), std::clamp(p.y, box.top, box.bottom)};
}

/// True where the lines a–b and c–d cross or touch.
bool linesCross(At a, At b, At c, At d);

/// True where a point lies in a polygon (even-odd rule).
bool insidePolygon(const std::vector<At>& polygon, At p);

/// Area of a polygon with the sign of its way round: positive clockwise on paper, where y goes down.
double signedArea(const std::vector<At>& polygon);

/// Parallel lines that fill a polygon, rising to the right at 45° or falling, `apart` from each other. They
/// sit on a grid of the whole paper, so that hatches of neighbours line up.
std::vector<LinePart> hatch(const std::vector<At>& polygon, double apart, bool rising = true);

/// Box round all that a shape draws, lines with their width, text by its measure.
Box boundsOf(const Shape& shape);

}  // namespace kerfdraft::drawing
