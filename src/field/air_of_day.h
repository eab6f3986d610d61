// The air of the day at the place of measurement, with what is known of it and what is assumed.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "field/budget.h"
#include "field/instrument_laws.h"
#include "field/notice.h"
#include "physics/air.h"

namespace kerfdraft::field {

/// What a person gave; SI. Nothing given: standard air of the trade, and a notice that says so.
struct AirEntry {
  std::optional<double> temperature_k;
  std::optional<double> altitude_m;
  std::optional<double> barometric_pa;  ///< station pressure, not reduced to sea level
  std::optional<double> humidity;       ///< relative, 0 to 1
  std::optional<double> density_kg_m3;  ///< of the room air; stands above all others
  std::optional<double> static_pa;      ///< gauge pressure in the duct at the plane of measurement
};

struct AirOfDay {
  enum class Basis { StandardAssumed, Entered, Computed };
  Basis basis = Basis::StandardAssumed;
  Uncertain temperature;  ///< the three inputs of a computed density
  Uncertain barometric;
  Uncertain humidity;
  Uncertain density;       ///< the input otherwise
  Uncertain static_gauge;  ///< static pressure at the plane
  double barometric_pa = physics::kStandardPressure_pa;
  double room_density_kg_m3 = physics::kStandardDensity_kg_m3;
  std::optional<double>
      computed_density_kg_m3;  ///< by altitude or barometer, also where a density was entered
  std::vector<Notice> notices;
};

/// Checks ranges; refuses a barometer that cannot be the station pressure at the altitude (over 5 % off).
base::Result<AirOfDay> airOfDay(const AirEntry& entry, std::string_view where = {});

/// Density of moist air for numbers that carry derivatives: the law of physics with its slopes taken as
/// central differences (relative error below 1e-7).
Graded moistAirDensity(const Graded& temperature_k, const Graded& pressure_pa, const Graded& humidity);

template <class Note>
double moistAirDensity(double temperature_k, double pressure_pa, double humidity, Note&& note) {
  return physics::airDensity(temperature_k, pressure_pa, humidity, note);
}

/// Density at the plane [kg/m3]: room density, thinned by the static pressure there. `hood_static_pa` stands
/// for the static pressure where the measurement itself is one.
template <class Inputs, class Note>
typename Inputs::Real planeDensity(const AirOfDay& air,
                                   const std::optional<typename Inputs::Real>& hood_static_pa, Inputs& in,
                                   Note& note) {
  using Real = typename Inputs::Real;
  Real room = 0;
  if (air.basis == AirOfDay::Basis::Computed) {
    const Real t = in(air.temperature);
    const Real p = in(air.barometric);
    const Real h = in(air.humidity);
    if constexpr (std::is_same_v<Real, Graded>) {
      room = moistAirDensity(t, p, h);
    } else {
      room = moistAirDensity(t, p, h, note);
    }
  } else {
    room = in(air.density);
  }
  const Real static_pa = hood_static_pa ? *hood_static_pa : in(air.static_gauge);
  const Real bar(air.barometric_pa);
  const Real density = room * (bar + static_pa) / bar;
  if constexpr (base::kNoted<Note>) {
    note.step(physics::kLocalDensity, valueOf(density),
              {{"rho_room", valueOf(room), base::Kind::Density},
               {"p_bar", air.barometric_pa, base::Kind::AbsolutePressure},
               {"p", valueOf(static_pa), base::Kind::Pressure}});
  }
  return density;
}

}  // namespace kerfdraft::field
