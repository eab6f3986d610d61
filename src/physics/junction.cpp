// Junctions: from areas and angles to the matrix of effective cosines.
// The flow law itself is inline in the header.
#include "physics/junction.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace kerfdraft::physics {

using base::ErrorCode;
using base::fail;
using base::Result;

Result<JunctionGeometry> junctionGeometry(std::span<const double> area_m2, std::span<const double> turn_rad,
                                          std::size_t nominal_outlet, const Column& mitre_k,
                                          std::string where) {
  const std::size_t n = area_m2.size();
  if (n < 2 || n > kMaxLegs) {
    return fail(ErrorCode::Range, fmt::format("A junction of {} legs: it must have 2 to {}.", n, kMaxLegs),
                std::move(where));
  }
  base::check(turn_rad.size() == n * n, "junctionGeometry: turns are not n x n");
  base::check(validColumn(mitre_k), "junctionGeometry: mitre column");
  if (nominal_outlet >= n) {
    return fail(
        ErrorCode::Reference,
        fmt::format("Leg {} is named as outlet, but the junction has {} legs.", nominal_outlet + 1, n),
        std::move(where));
  }
  JunctionGeometry geometry;
  geometry.legs = n;
  geometry.nominal_outlet = nominal_outlet;
  double main_straightness = 0;
  for (std::size_t i = 0; i < n; ++i) {
    if (!(area_m2[i] > 0) || !std::isfinite(area_m2[i])) {
      return fail(ErrorCode::Range,
                  fmt::format("Leg {} of the junction has an area of {:.4g} m², which is not above 0.", i + 1,
                              area_m2[i]),
                  std::move(where));
    }
    geometry.area_m2[i] = area_m2[i];
    for (std::size_t j = 0; j < n; ++j) {
      const double turn = turn_rad[i * n + j];
      if (i != j && !(turn >= 0 && turn <= std::numbers::pi + 1e-9)) {
        return fail(ErrorCode::Range,
                    fmt::format("From leg {} to leg {} of the junction air would turn by {:.4g}°, which is "
                                "outside 0 to 180°.",
                                i + 1, j + 1, turn * 180 / std::numbers::pi),
                    std::move(where));
      }
    }
    if (i != nominal_outlet) {
      main_straightness = std::max(main_straightness, straightness(turn_rad[i * n + nominal_outlet]));
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      if (i == j) {
        continue;  // air does not leave by the leg it came from
      }
      const double turn = turn_rad[i * n + j];
      geometry.cosine[i][j] =
          j == nominal_outlet
              ? effectiveCosine(turn, area_m2[i] / area_m2[nominal_outlet], main_straightness, mitre_k)
              : std::cos(turn);
    }
  }
  return geometry;
}

void junctionTurns(std::span<const std::array<double, 3>> outward, std::span<double> turn_rad) {
  const std::size_t n = outward.size();
  base::check(turn_rad.size() == n * n, "junctionTurns: turns are not n x n");
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      const auto& a = outward[i];
      const auto& b = outward[j];
      const double dot = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
      const double x = a[1] * b[2] - a[2] * b[1];
      const double y = a[2] * b[0] - a[0] * b[2];
      const double z = a[0] * b[1] - a[1] * b[0];
      // The tangent is sharp where the cosine is flat: straight mains come out as straight.
      turn_rad[i * n + j] = std::atan2(std::sqrt(x * x + y * y + z * z), -dot);
    }
  }
}

}  // namespace kerfdraft::physics
