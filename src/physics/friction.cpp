// Friction: the range check at the edge of the room.
// The kernels are inline in the header.
#include "physics/friction.h"

#include <fmt/format.h>

#include <utility>

namespace kerfdraft::physics {

base::Result<double> relativeRoughness(base::Length roughness, base::Length bore, std::string where) {
  if (!(bore.si() > 0) || !std::isfinite(bore.si())) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("A bore of {:.4g} mm is not a positive length.", 1000 * bore.si()),
                      std::move(where));
  }
  const double relative = roughness / bore;
  if (!(relative >= 0)) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("A roughness of {:.4g} mm is below 0.", 1000 * roughness.si()),
                      std::move(where));
  }
  if (relative > kMaxRelativeRoughness) {
    return base::fail(
        base::ErrorCode::Range,
        fmt::format("A roughness of {:.4g} mm in a bore of {:.4g} mm is {:.3g} of the bore; the friction law "
                    "is measured to {:.2g} only.",
                    1000 * roughness.si(), 1000 * bore.si(), relative, kMaxRelativeRoughness),
        std::move(where));
  }
  return relative;
}

}  // namespace kerfdraft::physics
