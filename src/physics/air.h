// Air: density of moist air, viscosity and the pressure of the day. Everything else in physics takes a
// density and a viscosity from here.
#pragma once

#include <cmath>
#include <string>

#include "base/law.h"
#include "base/quantity.h"
#include "base/result.h"

namespace kerfdraft::physics {

inline constexpr double kZeroCelsius_k = 273.15;
inline constexpr double kStandardGravity_m_s2 = 9.80665;
inline constexpr double kStandardPressure_pa = 101325.0;
/// Standard air of the trade, 0.075 lb/ft3: a rounded convention, 0.15 % above dry air at 70 F.
inline constexpr double kStandardDensity_kg_m3 = 0.075 * 0.45359237 / (0.3048 * 0.3048 * 0.3048);
/// Viscosity of the check rows, Sutherland at 70 F rounded to five digits.
inline constexpr double kStandardViscosity_pa_s = 1.8187e-5;

/// Air of one place and day. Made by airState() or airAtAltitude(), which check the ranges.
struct AirState {
  double temperature_k = kZeroCelsius_k + 190.0 / 9.0;  ///< 70 F
  double pressure_pa = kStandardPressure_pa;            ///< barometric, absolute
  double humidity = 0;                                  ///< relative, 0 to 1
  double density_kg_m3 = kStandardDensity_kg_m3;
  double viscosity_pa_s = kStandardViscosity_pa_s;
};

inline constexpr base::Law kSaturationPressure{"saturation-pressure",
                                               "Saturation vapour pressure",
                                               "psv",
                                               base::Kind::AbsolutePressure,
                                               "psv = exp(A T^2 + B T + C + D/T)",
                                               "Cipm2007, eq. A1.1",
                                               base::SourceStatus::Published,
                                               "air"};
inline constexpr base::Law kVapourFraction{"vapour-fraction",
                                           "Mole fraction of water vapour",
                                           "xv",
                                           base::Kind::Ratio,
                                           "xv = h f psv / p, f = 1.00062 + 3.14e-8 p + 5.6e-7 t^2",
                                           "Cipm2007, eq. A1.2",
                                           base::SourceStatus::Published,
                                           "air"};
inline constexpr base::Law kCompressibility{
    "air-compressibility",
    "Compressibility factor of moist air",
    "Z",
    base::Kind::Ratio,
    "Z = 1 - (p/T)[a0 + a1 t + a2 t^2 + (b0 + b1 t) xv + (c0 + c1 t) xv^2] + (p/T)^2 (d + e xv^2)",
    "Cipm2007, eq. A1.4",
    base::SourceStatus::Published,
    "air"};
inline constexpr base::Law kAirDensity{"air-density",
                                       "Density of moist air",
                                       "rho",
                                       base::Kind::Density,
                                       "rho = p Ma / (Z R T) [1 - xv (1 - Mv/Ma)]",
                                       "Cipm2007, eq. 1",
                                       base::SourceStatus::Published,
                                       "air"};
inline constexpr base::Law kIdealAirDensity{"air-density-ideal",
                                            "Density of moist air, ideal gas",
                                            "rho",
                                            base::Kind::Density,
                                            "rho = (p - 0.37802 h psv) / (287.055 T)",
                                            "Cipm2007, eq. 1 with Z = f = 1",
                                            base::SourceStatus::Published,
                                            "air"};
inline constexpr base::Law kMoistVolume{"moist-volume",
                                        "Volume of moist air per mass of dry air",
                                        "v",
                                        base::Kind::Ratio,
                                        "v = 287.042 T (1 + 1.607858 W) / p",
                                        "AshraeF2009, ch. 1",
                                        base::SourceStatus::FromMemory,
                                        "air"};
inline constexpr base::Law kViscosity{"air-viscosity",
                                      "Viscosity of air",
                                      "mu",
                                      base::Kind::Viscosity,
                                      "mu = 1.458e-6 T^1.5 / (T + 110.4)",
                                      "UsStdAtm1976, eq. 51",
                                      base::SourceStatus::Published,
                                      "air"};
inline constexpr base::Law kPressureAtAltitude{
    "pressure-at-altitude",
    "Barometric pressure at altitude",
    "p",
    base::Kind::AbsolutePressure,
    "H = r0 z/(r0 + z); p = 101325 (288.15/(288.15 - 0.0065 H))^-5.255877",
    "UsStdAtm1976, eq. 18 and 33a",
    base::SourceStatus::Published,
    "air"};
inline constexpr base::Law kLocalDensity{"local-density",
                                         "Density at the static pressure of the place",
                                         "rho",
                                         base::Kind::Density,
                                         "rho = rho_room (p_bar + p) / p_bar",
                                         "",
                                         base::SourceStatus::Ours,
                                         "air"};
inline constexpr base::Law kDensityFactor{"density-factor",
                                          "Density factor of the exhaust trade",
                                          "df",
                                          base::Kind::Ratio,
                                          "df = 530/(460 + tF) (1 - 6.73e-6 z_ft)^5.258",
                                          "AcgihIv, ch. 5",
                                          base::SourceStatus::FromMemory,
                                          "air"};

/// Saturation vapour pressure over water [Pa] at `temperature_k` [K]. Source: CIPM-2007, eq. A1.1.
/// Accuracy: repeats rows A13 to their last digit (tests/published/air_test.cpp).
template <class Note = base::Silent>
double saturationPressure(double temperature_k, Note&& note = {}) {
  const double t = temperature_k;
  const double psv_pa = std::exp(1.2378847e-5 * t * t - 1.9121316e-2 * t + 33.93711047 - 6.3431645e3 / t);
  if constexpr (base::kNoted<Note>) {
    note.step(kSaturationPressure, psv_pa, {{"T", temperature_k, base::Kind::Temperature}});
  }
  return psv_pa;
}

/// Mole fraction of water vapour, with the enhancement factor f, for relative humidity 0 to 1.
template <class Note = base::Silent>
double vapourFraction(double temperature_k, double pressure_pa, double humidity, Note&& note = {}) {
  const double celsius = temperature_k - kZeroCelsius_k;
  const double f = 1.00062 + 3.14e-8 * pressure_pa + 5.6e-7 * celsius * celsius;
  const double psv_pa = saturationPressure(temperature_k, note);
  const double xv = humidity * f * psv_pa / pressure_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kVapourFraction, xv,
              {{"h", humidity, base::Kind::Ratio},
               {"f", f, base::Kind::Ratio},
               {"psv", psv_pa, base::Kind::AbsolutePressure},
               {"p", pressure_pa, base::Kind::AbsolutePressure}});
  }
  return xv;
}

/// Compressibility factor Z of moist air. Source: CIPM-2007, eq. A1.4.
template <class Note = base::Silent>
double airCompressibility(double temperature_k, double pressure_pa, double xv, Note&& note = {}) {
  const double t = temperature_k - kZeroCelsius_k;
  const double pt = pressure_pa / temperature_k;
  const double first = 1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t + (5.707e-6 - 2.051e-8 * t) * xv +
                       (1.9898e-4 - 2.376e-6 * t) * xv * xv;
  const double z = 1 - pt * first + pt * pt * (1.83e-11 - 0.765e-8 * xv * xv);
  if constexpr (base::kNoted<Note>) {
    note.step(kCompressibility, z,
              {{"p", pressure_pa, base::Kind::AbsolutePressure},
               {"T", temperature_k, base::Kind::Temperature},
               {"xv", xv, base::Kind::Ratio}});
  }
  return z;
}

/// Density of moist air [kg/m3] at absolute pressure [Pa] and relative humidity 0 to 1, with 400 ppm CO2.
/// Source: CIPM-2007. Stated for 600 to 1100 hPa and 15 to 27 C with 22e-6; outside it degrades slowly
/// (about 1e-4 against the ideal gas form at 0 to 40 C). Rows A1, A3 to A8 within their last digit.
template <class Note = base::Silent>
double airDensity(double temperature_k, double pressure_pa, double humidity, Note&& note = {}) {
  constexpr double kMolarGas_j_mol_k = 8.314472;
  constexpr double kDryAir_kg_mol = 28.96546e-3;
  constexpr double kWater_kg_mol = 18.01528e-3;
  const double xv = vapourFraction(temperature_k, pressure_pa, humidity, note);
  const double z = airCompressibility(temperature_k, pressure_pa, xv, note);
  const double rho = pressure_pa * kDryAir_kg_mol / (z * kMolarGas_j_mol_k * temperature_k) *
                     (1 - xv * (1 - kWater_kg_mol / kDryAir_kg_mol));
  if constexpr (base::kNoted<Note>) {
    note.step(kAirDensity, rho,
              {{"p", pressure_pa, base::Kind::AbsolutePressure},
               {"Ma", kDryAir_kg_mol, base::Kind::Ratio},
               {"Z", z, base::Kind::Ratio},
               {"R", kMolarGas_j_mol_k, base::Kind::Ratio},
               {"T", temperature_k, base::Kind::Temperature},
               {"xv", xv, base::Kind::Ratio},
               {"Mv", kWater_kg_mol, base::Kind::Ratio}});
  }
  return rho;
}

/// Density of moist air as an ideal gas [kg/m3]. A check on airDensity(): 0.04 % lower at 20 C, 50 % (A12).
template <class Note = base::Silent>
double idealAirDensity(double temperature_k, double pressure_pa, double humidity, Note&& note = {}) {
  const double psv_pa = saturationPressure(temperature_k, note);
  const double rho = (pressure_pa - 0.37802 * humidity * psv_pa) / (287.055 * temperature_k);
  if constexpr (base::kNoted<Note>) {
    note.step(kIdealAirDensity, rho,
              {{"p", pressure_pa, base::Kind::AbsolutePressure},
               {"h", humidity, base::Kind::Ratio},
               {"psv", psv_pa, base::Kind::AbsolutePressure},
               {"T", temperature_k, base::Kind::Temperature}});
  }
  return rho;
}

/// Volume of moist air per mass of dry air [m3/kg] at humidity ratio W [kg/kg]. Density is (1 + W)/v.
/// Row A9 to 15 digits.
template <class Note = base::Silent>
double moistVolume(double temperature_k, double pressure_pa, double humidity_ratio, Note&& note = {}) {
  const double v = 287.042 * temperature_k * (1 + 1.607858 * humidity_ratio) / pressure_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kMoistVolume, v,
              {{"T", temperature_k, base::Kind::Temperature},
               {"W", humidity_ratio, base::Kind::Ratio},
               {"p", pressure_pa, base::Kind::AbsolutePressure}});
  }
  return v;
}

/// Dynamic viscosity of dry air [Pa s], Sutherland's form. 100 to 1900 K; moisture lowers it by less than
/// 1 % in a shop, which is left out. Rows A15 to A19 within their last digit.
template <class Note = base::Silent>
double airViscosity(double temperature_k, Note&& note = {}) {
  const double mu = 1.458e-6 * temperature_k * std::sqrt(temperature_k) / (temperature_k + 110.4);
  if constexpr (base::kNoted<Note>) {
    note.step(kViscosity, mu, {{"T", temperature_k, base::Kind::Temperature}});
  }
  return mu;
}

/// Barometric pressure [Pa] at the geometric altitude [m], US Standard Atmosphere 1976, -610 m to 11 km.
/// Rows A20 to A28 within their last digit.
template <class Note = base::Silent>
double pressureAtAltitude(double altitude_m, Note&& note = {}) {
  constexpr double kEarthRadius_m = 6356766.0;
  constexpr double kExponent = kStandardGravity_m_s2 * 28.9644 / (8314.32 * 0.0065);
  const double geopotential_m = kEarthRadius_m * altitude_m / (kEarthRadius_m + altitude_m);
  const double p_pa = kStandardPressure_pa * std::pow((288.15 - 0.0065 * geopotential_m) / 288.15, kExponent);
  if constexpr (base::kNoted<Note>) {
    note.step(kPressureAtAltitude, p_pa,
              {{"z", altitude_m, base::Kind::Length}, {"H", geopotential_m, base::Kind::Length}});
  }
  return p_pa;
}

/// Density [kg/m3] where the gauge pressure is `static_pa`, isothermal from the room. Its derivative by
/// `static_pa` is room density / barometric pressure. The caller guards points below absolute zero.
template <class Note = base::Silent>
double localDensity(double room_density_kg_m3, double barometric_pa, double static_pa, Note&& note = {}) {
  const double rho = room_density_kg_m3 * (barometric_pa + static_pa) / barometric_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kLocalDensity, rho,
              {{"rho_room", room_density_kg_m3, base::Kind::Density},
               {"p_bar", barometric_pa, base::Kind::AbsolutePressure},
               {"p", static_pa, base::Kind::Pressure}});
  }
  return rho;
}

/// Density over that of standard air by the trade's own formula: 0.4 % above the standard atmosphere at
/// 5000 ft. For the hand method and for checks; the model uses airDensity().
template <class Note = base::Silent>
double tradeDensityFactor(double temperature_k, double altitude_m, Note&& note = {}) {
  const double fahrenheit = (temperature_k - kZeroCelsius_k) * 1.8 + 32;
  const double df = 530 / (460 + fahrenheit) * std::pow(1 - 6.73e-6 * altitude_m / 0.3048, 5.258);
  if constexpr (base::kNoted<Note>) {
    note.step(kDensityFactor, df,
              {{"t", temperature_k, base::Kind::Temperature}, {"z", altitude_m, base::Kind::Length}});
  }
  return df;
}

/// Standard air: 0.075 lb/ft3 and 1.8187e-5 Pa s, as the trade's tables and the check rows take it.
AirState standardAir();

/// Air at a temperature, barometric pressure and relative humidity (0 to 1; 0.5 unless known).
/// Refuses what is outside -40 to 60 C, 45 to 110 kPa, 0 to 1. `where` is the place said in the error.
base::Result<AirState> airState(base::Temperature temperature, base::AbsolutePressure pressure,
                                double humidity = 0.5, std::string where = {});

/// The same with the pressure of the US Standard Atmosphere 1976. Refuses altitudes outside -430 to 6000 m.
base::Result<AirState> airAtAltitude(base::Temperature temperature, base::Length altitude,
                                     double humidity = 0.5, std::string where = {});

}  // namespace kerfdraft::physics
