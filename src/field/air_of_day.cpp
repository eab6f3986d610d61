// From what a person gave to a density with its inputs.
// Spreads of what was not given are wide and named as assumed.
#include "field/air_of_day.h"

#include <fmt/format.h>

#include <cmath>

namespace kerfdraft::field {
namespace {

using base::ErrorCode;
using base::Kind;
using base::Result;

constexpr double kRoomTemperature_k = physics::kZeroCelsius_k + 20;

Uncertain input(std::string key, std::string name, Kind kind, double value, std::string source) {
  Uncertain u;
  u.key = std::move(key);
  u.name = std::move(name);
  u.kind = kind;
  u.value = value;
  u.source = std::move(source);
  return u;
}

Uncertain temperatureInput(const AirEntry& e) {
  if (e.temperature_k) {
    return rectangular(input("temperature", "Temperature of the air", Kind::Temperature, *e.temperature_k,
                             "entered; ±2 K common practice"),
                       2);
  }
  return rectangular(input("temperature", "Temperature of the air", Kind::Temperature, kRoomTemperature_k,
                           "assumed 20 °C ±10 K"),
                     10);
}

Uncertain barometricInput(const AirEntry& e) {
  if (e.barometric_pa) {
    return rectangular(input("barometer", "Barometric pressure", Kind::AbsolutePressure, *e.barometric_pa,
                             "entered; ±200 Pa common practice"),
                       200);
  }
  // Weather moves the barometer by about 0.8 kPa (standard) in temperate places.
  Uncertain u = input("barometer", "Barometric pressure", Kind::AbsolutePressure,
                      physics::pressureAtAltitude(e.altitude_m.value_or(0)),
                      e.altitude_m ? "UsStdAtm1976 at the altitude; weather 0.8 kPa ours"
                                   : "assumed sea level, UsStdAtm1976; weather 0.8 kPa ours");
  u.standard = 800;
  return u;
}

Uncertain humidityInput(const AirEntry& e) {
  return e.humidity
             ? rectangular(input("humidity", "Relative humidity", Kind::Ratio, *e.humidity,
                                 "entered; ±0.1 common practice"),
                           0.1)
             : rectangular(input("humidity", "Relative humidity", Kind::Ratio, 0.5, "assumed 0.5 ±0.3"), 0.3);
}

Uncertain staticInput(const AirEntry& e) {
  if (e.static_pa) {
    Uncertain u = input("static", "Static pressure at the plane", Kind::Pressure, *e.static_pa,
                        "entered; 2 % common practice");
    u.standard = 0.02 * std::abs(*e.static_pa);
    return u;
  }
  return rectangular(input("static", "Static pressure at the plane", Kind::Pressure, 0,
                           "not given: that of the room, ±1 kPa"),
                     1000);
}

/// A barometer reduced to sea level is the usual slip: weather services publish that one.
Result<void> checkBarometer(const AirEntry& e, std::string_view where) {
  if (!e.barometric_pa || !e.altitude_m) {
    return {};
  }
  const double expected_pa = physics::pressureAtAltitude(*e.altitude_m);
  if (std::abs(*e.barometric_pa / expected_pa - 1) <= 0.05) {
    return {};
  }
  return base::fail(
      ErrorCode::Conflict,
      fmt::format("A barometer of {:.1f} hPa cannot be the pressure at {:.0f} m, which is about {:.1f} "
                  "hPa. Weather services give it reduced to sea level: give the pressure at the "
                  "place, or leave it out.",
                  *e.barometric_pa / 100, *e.altitude_m, expected_pa / 100),
      std::string(where));
}

Result<physics::AirState> computedState(const AirEntry& e, std::string_view where) {
  const base::Temperature t(e.temperature_k.value_or(kRoomTemperature_k));
  const double h = e.humidity.value_or(0.5);
  if (e.barometric_pa) {
    return physics::airState(t, base::AbsolutePressure(*e.barometric_pa), h, std::string(where));
  }
  return physics::airAtAltitude(t, base::Length(e.altitude_m.value_or(0)), h, std::string(where));
}

Notice standardAtAltitude(double used, double real) {
  Notice n;
  n.key = "standard-air-at-altitude";
  n.level = Notice::Level::Caution;
  n.quantities = {{"density-used", Kind::Density, used},
                  {"density-of-day", Kind::Density, real},
                  {"speed-ratio", Kind::Ratio, std::sqrt(used / real)}};
  n.source = "UsStdAtm1976";
  return n;
}

}  // namespace

Graded moistAirDensity(const Graded& t, const Graded& p, const Graded& h) {
  const auto rho = [](double t_k, double p_pa, double rh) { return physics::airDensity(t_k, p_pa, rh); };
  const double tv = t.value();
  const double pv = p.value();
  const double hv = h.value();
  const double by_t = (rho(tv + 0.01, pv, hv) - rho(tv - 0.01, pv, hv)) / 0.02;
  const double by_p = (rho(tv, pv + 10, hv) - rho(tv, pv - 10, hv)) / 20;
  const double by_h = (rho(tv, pv, hv + 1e-3) - rho(tv, pv, hv - 1e-3)) / 2e-3;
  return Graded::chain(rho(tv, pv, hv), t, by_t, p, by_p) + Graded::chain(0, h, by_h);
}

Result<AirOfDay> airOfDay(const AirEntry& e, std::string_view where) {
  if (e.altitude_m && !(*e.altitude_m >= -430 && *e.altitude_m <= 6000)) {
    return base::fail(ErrorCode::Range,
                      fmt::format("An altitude of {:.6g} m is outside -430 to 6000 m.", *e.altitude_m),
                      std::string(where));
  }
  if (const Result<void> ok = checkBarometer(e, where); !ok) {
    return tl::unexpected(ok.error());
  }
  const Result<physics::AirState> state = computedState(e, where);
  if (!state) {
    return tl::unexpected(state.error());
  }
  AirOfDay air;
  air.barometric_pa = state->pressure_pa;
  air.static_gauge = staticInput(e);
  if (e.static_pa && !(*e.static_pa > -0.5 * air.barometric_pa && *e.static_pa < 0.5 * air.barometric_pa)) {
    return base::fail(
        ErrorCode::Range,
        fmt::format("A static pressure of {:.6g} Pa in the duct is more than half the barometric "
                    "pressure of {:.6g} Pa.",
                    *e.static_pa, air.barometric_pa),
        std::string(where));
  }
  const bool place_known = e.barometric_pa || e.altitude_m;
  if (place_known) {
    air.computed_density_kg_m3 = state->density_kg_m3;
  }
  if (e.density_kg_m3) {
    const double rho = *e.density_kg_m3;
    if (!(rho >= 0.5 && rho <= 1.7)) {
      return base::fail(ErrorCode::Range,
                        fmt::format("An air density of {:.6g} kg/m3 is outside 0.5 to 1.7 kg/m3.", rho),
                        std::string(where));
    }
    air.basis = AirOfDay::Basis::Entered;
    air.room_density_kg_m3 = rho;
    air.density = rectangular(
        input("density", "Density of the room air", Kind::Density, rho, "entered; ±1 % common practice"),
        0.01 * rho);
    if (place_known && std::abs(rho / state->density_kg_m3 - 1) > 0.03) {
      air.notices.push_back(standardAtAltitude(rho, state->density_kg_m3));
    }
    return air;
  }
  if (!place_known && !e.temperature_k && !e.humidity) {
    air.density = rectangular(input("density", "Density of the room air", Kind::Density,
                                    physics::kStandardDensity_kg_m3, "standard air assumed; ±6 % ours"),
                              0.06 * physics::kStandardDensity_kg_m3);
    air.notices.push_back({"standard-air-assumed",
                           Notice::Level::Note,
                           {{"density-used", Kind::Density, physics::kStandardDensity_kg_m3}},
                           {},
                           "convention of the trade"});
    return air;
  }
  air.basis = AirOfDay::Basis::Computed;
  air.temperature = temperatureInput(e);
  air.barometric = barometricInput(e);
  air.humidity = humidityInput(e);
  air.room_density_kg_m3 = state->density_kg_m3;
  const double standard = physics::kStandardDensity_kg_m3;
  if (!place_known) {
    air.notices.push_back({"altitude-unstated", Notice::Level::Note, {}, {}, "assumed"});
  } else if (std::abs(standard / state->density_kg_m3 - 1) > 0.03) {
    Notice n = standardAtAltitude(standard, state->density_kg_m3);
    n.key = "density-corrected";
    n.level = Notice::Level::Note;
    air.notices.push_back(std::move(n));
  }
  return air;
}

}  // namespace kerfdraft::field
