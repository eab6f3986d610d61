// Heights count only where both places have one.
#include "desk/models/measure.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace kerfdraft::desk {

Measured measure(const Snapped& from, const Snapped& to) {
  Measured out;
  out.east_m = static_cast<double>(to.at.x_um - from.at.x_um) * 1e-6;
  out.north_m = static_cast<double>(to.at.y_um - from.at.y_um) * 1e-6;
  out.plan_m = std::hypot(out.east_m, out.north_m);
  out.angle_rad = std::atan2(out.north_m, out.east_m);
  if (out.angle_rad < 0) {
    out.angle_rad += 2 * std::numbers::pi;
  }
  out.space_m = out.plan_m;
  if (from.z_um && to.z_um) {
    out.rise_m = static_cast<double>(*to.z_um - *from.z_um) * 1e-6;
    out.space_m = std::hypot(out.plan_m, *out.rise_m);
  }
  return out;
}

std::vector<std::string> toWords(const Measured& measured, base::UnitSystem units) {
  const auto length = [units](double m) { return base::formatQuantity(base::Kind::Length, m, units); };
  std::vector<std::string> lines{length(measured.plan_m) + " on the plan"};
  lines.push_back(fmt::format("{} {}, {} {}", length(std::abs(measured.east_m)),
                              measured.east_m < 0 ? "west" : "east", length(std::abs(measured.north_m)),
                              measured.north_m < 0 ? "south" : "north"));
  lines.push_back(fmt::format("at {:.1f}°", measured.angle_rad * 180 / std::numbers::pi));
  if (measured.rise_m) {
    lines.push_back(fmt::format("{} {}, {} in space", length(std::abs(*measured.rise_m)),
                                *measured.rise_m < 0 ? "down" : "up", length(measured.space_m)));
  }
  return lines;
}

}  // namespace kerfdraft::desk
