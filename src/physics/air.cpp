// Air: the range checks at the edge of the room.
// Inside, the laws trust their inputs.
#include "physics/air.h"

#include <fmt/format.h>

#include <utility>

namespace kerfdraft::physics {

using base::ErrorCode;
using base::fail;
using base::Result;

AirState standardAir() {
  return AirState{};
}

Result<AirState> airState(base::Temperature temperature, base::AbsolutePressure pressure, double humidity,
                          std::string where) {
  const double celsius = temperature.si() - kZeroCelsius_k;
  if (!(celsius >= -40 && celsius <= 60)) {
    return fail(ErrorCode::Range,
                fmt::format("An air temperature of {:.4g} °C is outside -40 to 60 °C.", celsius),
                std::move(where));
  }
  if (!(pressure.si() >= 45e3 && pressure.si() <= 110e3)) {
    return fail(
        ErrorCode::Range,
        fmt::format("A barometric pressure of {:.4g} kPa is outside 45 to 110 kPa.", pressure.si() / 1000),
        std::move(where));
  }
  if (!(humidity >= 0 && humidity <= 1)) {
    return fail(ErrorCode::Range,
                fmt::format("A relative humidity of {:.4g} % is outside 0 to 100 %.", 100 * humidity),
                std::move(where));
  }
  return AirState{temperature.si(), pressure.si(), humidity,
                  airDensity(temperature.si(), pressure.si(), humidity), airViscosity(temperature.si())};
}

Result<AirState> airAtAltitude(base::Temperature temperature, base::Length altitude, double humidity,
                               std::string where) {
  if (!(altitude.si() >= -430 && altitude.si() <= 6000)) {
    return fail(ErrorCode::Range,
                fmt::format("An altitude of {:.6g} m is outside -430 to 6000 m.", altitude.si()),
                std::move(where));
  }
  return airState(temperature, base::AbsolutePressure(pressureAtAltitude(altitude.si())), humidity,
                  std::move(where));
}

}  // namespace kerfdraft::physics
