// Fittings: checks of typed values and of table columns.
// The laws are inline in the header.
#include "physics/fittings.h"

#include <fmt/format.h>

#include <utility>

namespace kerfdraft::physics {

bool validColumn(const Column& column) {
  if (column.x.empty() || column.x.size() != column.y.size()) {
    return false;
  }
  for (std::size_t k = 0; k < column.x.size(); ++k) {
    if (!std::isfinite(column.x[k]) || !std::isfinite(column.y[k])) {
      return false;
    }
    if (k > 0 && !(column.x[k] > column.x[k - 1])) {
      return false;
    }
  }
  return true;
}

base::Result<void> checkElbow(base::Angle angle, double radius_over_bore, bool is_mitre, std::string where) {
  const double degrees = angle.si() * 180 / std::numbers::pi;
  const double most = is_mitre ? 90 : 180;
  if (!(degrees >= 0 && degrees <= most + 1e-9)) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("{} of {:.4g}° is outside 0 to {:.0f}°.", is_mitre ? "A mitre" : "An elbow",
                                  degrees, most),
                      std::move(where));
  }
  if (!is_mitre && (!(radius_over_bore > 0) || !std::isfinite(radius_over_bore))) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("A bend radius of {:.4g} bores is not above 0.", radius_over_bore),
                      std::move(where));
  }
  return {};
}

base::Result<void> checkScreen(double free_fraction, std::string where) {
  if (!(free_fraction >= 0.3 && free_fraction <= 1)) {
    return base::fail(
        base::ErrorCode::Range,
        fmt::format("A screen with {:.4g} % free area is outside 30 to 100 %.", 100 * free_fraction),
        std::move(where));
  }
  return {};
}

}  // namespace kerfdraft::physics
