// Hose: the check of typed lengths.
// The laws are inline in the header.
#include "physics/hose.h"

#include <fmt/format.h>

#include <utility>

namespace kerfdraft::physics {

base::Result<double> hoseCompression(base::Length installed, base::Length stretched, std::string where) {
  if (!(installed.si() > 0) || !(stretched.si() > 0) || !std::isfinite(installed.si()) ||
      !std::isfinite(stretched.si())) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("Hose of {:.4g} m installed and {:.4g} m stretched: both lengths must be "
                                  "above 0.",
                                  installed.si(), stretched.si()),
                      std::move(where));
  }
  const double compression = 1 - installed / stretched;
  if (compression < 0) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("Hose of {:.4g} m installed cannot be longer than its stretched length of "
                                  "{:.4g} m.",
                                  installed.si(), stretched.si()),
                      std::move(where));
  }
  if (compression > 0.9) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("Hose of {:.4g} m stretched cannot be pushed together to {:.4g} m.",
                                  stretched.si(), installed.si()),
                      std::move(where));
  }
  return compression;
}

}  // namespace kerfdraft::physics
