// Gates: the check of typed values.
// The law is inline in the header.
#include "physics/gate.h"

#include <fmt/format.h>

#include <utility>

namespace kerfdraft::physics {

base::Result<void> checkGate(double travel, base::Length slot, base::Length bore, std::string where) {
  if (!(travel >= 0 && travel <= 1)) {
    return base::fail(
        base::ErrorCode::Range,
        fmt::format("A gate drawn by {:.4g} % of its bore is outside 0 to 100 %.", 100 * travel),
        std::move(where));
  }
  if (!(bore.si() > 0)) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("A gate's bore of {:.4g} mm is not above 0.", 1000 * bore.si()),
                      std::move(where));
  }
  if (!(slot.si() >= 0 && slot.si() <= 0.1 * bore.si())) {
    return base::fail(
        base::ErrorCode::Range,
        fmt::format("A gate's slot of {:.4g} mm is outside 0 to a tenth of its bore of {:.4g} mm.",
                    1000 * slot.si(), 1000 * bore.si()),
        std::move(where));
  }
  return {};
}

}  // namespace kerfdraft::physics
