// From space to paper for the isometric sketch. Private to this room.
#pragma once

#include <cmath>
#include <numbers>
#include <vector>

#include "drawing/duct_legs.h"
#include "drawing/geometry.h"

namespace kerfdraft::drawing {

inline constexpr double kCos = std::numbers::sqrt3 / 2;  ///< of 30°

/// A place in the shop [m].
struct Spot {
  double x = 0;
  double y = 0;
  double z = 0;
};

inline Spot spotOf(const shop::Point& p) {
  return {static_cast<double>(p.x_um) * 1e-6, static_cast<double>(p.y_um) * 1e-6,
          static_cast<double>(p.z_um) * 1e-6};
}
inline Spot mix(const Spot& a, const Spot& b, double share) {
  return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share, a.z + (b.z - a.z) * share};
}
inline double apart(const Spot& a, const Spot& b) {
  return std::hypot(b.x - a.x, b.y - a.y, b.z - a.z);
}

struct View {
  double mm_per_m = 20;
  At origin;
  double turned_rad = 0;  ///< of the shop about a plumb line, anticlockwise from above

  /// As the eye stands: turned, not moved.
  Spot facing(const Spot& p) const {
    const double c = std::cos(turned_rad);
    const double s = std::sin(turned_rad);
    return {c * p.x - s * p.y, s * p.x + c * p.y, p.z};
  }
  At at(const Spot& p) const {
    const Spot f = facing(p);
    return {origin.x + (f.x + f.y) * kCos * mm_per_m, origin.y - (f.z + (f.y - f.x) / 2) * mm_per_m};
  }
  /// Greater is nearer to the eye.
  double nearness(const Spot& p) const {
    const Spot f = facing(p);
    return f.x - f.y + f.z;
  }
};

/// Where the picture lies for a scale of 1 m = 1 mm and the origin at zero.
Box flatBounds(const shop::Project& project, const std::vector<DuctLeg>& legs, double turned_rad);

/// Middle of an outline's corners, on the floor.
Spot middleOf(const std::vector<shop::PlanPoint>& outline);

/// A body with an upright outline: the faces that the eye sees.
std::vector<Shape> blockFaces(const View& view, const std::vector<shop::PlanPoint>& outline, double bottom_m,
                              double top_m, Colour lid, Colour side);

}  // namespace kerfdraft::drawing
