// Places in the shop: integer micrometres, so that snapping, equality and round trips are exact.
#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace kerfdraft::shop {

/// x to the east, y to the north, z up from the floor, from the south-west floor corner [µm].
struct Point {
  std::int64_t x_um = 0;
  std::int64_t y_um = 0;
  std::int64_t z_um = 0;
  auto operator<=>(const Point&) const = default;
};

/// A place on the floor plan [µm].
struct PlanPoint {
  std::int64_t x_um = 0;
  std::int64_t y_um = 0;
  auto operator<=>(const PlanPoint&) const = default;
};

/// Distance of two points [m].
inline double distance(const Point& a, const Point& b) {
  const double x = static_cast<double>(b.x_um - a.x_um) * 1e-6;
  const double y = static_cast<double>(b.y_um - a.y_um) * 1e-6;
  const double z = static_cast<double>(b.z_um - a.z_um) * 1e-6;
  return std::hypot(x, y, z);
}

/// Angle by which a path a → b → c turns at b [rad]: 0 straight on, pi straight back. Zero where two points
/// coincide.
inline double turn(const Point& a, const Point& b, const Point& c) {
  const double ux = static_cast<double>(b.x_um - a.x_um);
  const double uy = static_cast<double>(b.y_um - a.y_um);
  const double uz = static_cast<double>(b.z_um - a.z_um);
  const double vx = static_cast<double>(c.x_um - b.x_um);
  const double vy = static_cast<double>(c.y_um - b.y_um);
  const double vz = static_cast<double>(c.z_um - b.z_um);
  const double cross = std::hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  return std::atan2(cross, ux * vx + uy * vy + uz * vz);
}

}  // namespace kerfdraft::shop
