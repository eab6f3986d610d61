// Carrying chips: how fast pieces fall, the saltation and pickup models, the air's share of dust and what it
// costs. The models explain a speed and never lower the trade's minimum (docs/theory/conveying.md).
#pragma once

#include <cmath>
#include <numbers>

#include "base/law.h"
#include "physics/air.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

inline constexpr base::Law kDragCoefficient{"drag-coefficient",
                                            "Drag coefficient of a piece",
                                            "C_D",
                                            base::Kind::Ratio,
                                            "C_D = 24/Re (1 + A Re^B) + C/(1 + D/Re); A = exp(2.3288 - "
                                            "6.4581 s + 2.4486 s^2), B = 0.0964 + 0.5565 s, "
                                            "C = exp(4.905 - 13.8944 s + 18.4222 s^2 - 10.2599 s^3), D = "
                                            "exp(1.4681 + 12.2584 s - 20.7322 s^2 + 15.8855 s^3)",
                                            "HaiderLevenspiel1989",
                                            base::SourceStatus::FromMemory,
                                            "conveying"};
inline constexpr base::Law kTerminalSpeed{"terminal-speed",
                                          "Speed at which a piece falls in still air",
                                          "v_t",
                                          base::Kind::Speed,
                                          "C_D rho v_t^2/2 = (2/3) (rho_p - rho) g d",
                                          "HaiderLevenspiel1989",
                                          base::SourceStatus::FromMemory,
                                          "conveying"};
inline constexpr base::Law kSolidsRatio{"solids-ratio",
                                        "Solids per air",
                                        "mu",
                                        base::Kind::Ratio,
                                        "mu = m_s / m_air",
                                        "",
                                        base::SourceStatus::CommonPractice,
                                        "conveying"};
inline constexpr base::Law kRizk{"saltation-rizk",
                                 "Saltation speed, Rizk",
                                 "U",
                                 base::Kind::Speed,
                                 "m_s/(rho U A) = 10^-(1440 d + 1.96) (U/sqrt(g D))^(1100 d + 2.5)",
                                 "Rizk1973",
                                 base::SourceStatus::Published,
                                 "conveying"};
inline constexpr base::Law kMatsumoto1974{"saltation-matsumoto-1974",
                                          "Saltation speed, Matsumoto 1974",
                                          "U",
                                          base::Kind::Speed,
                                          "m_s/(rho U A) = 0.448 (rho_p/rho)^0.50 (Fr_p/10)^-1.75 "
                                          "(Fr/10)^3.0, Fr_p = v_t/sqrt(g d), Fr = U/sqrt(g D)",
                                          "Matsumoto1974",
                                          base::SourceStatus::FromMemory,
                                          "conveying"};
inline constexpr base::Law kMatsumoto1975{"saltation-matsumoto-1975",
                                          "Saltation speed, Matsumoto 1975",
                                          "U",
                                          base::Kind::Speed,
                                          "m_s/(rho U A) = 1.11 (rho_p/rho)^0.55 (Fr_p/10)^-2.3 (Fr/10)^3.0",
                                          "Matsumoto1975",
                                          base::SourceStatus::FromMemory,
                                          "conveying"};
inline constexpr base::Law kMatsumoto1977{
    "saltation-matsumoto-1977",
    "Saltation speed, Matsumoto 1977",
    "U",
    base::Kind::Speed,
    "d > 1.39 D (rho_p/rho)^-0.74: m_s/(rho U A) = 0.373 (rho_p/rho)^1.06 (Fr_p/10)^-3.7 (Fr/10)^3.61; "
    "else 5560 (d/D)^1.43 (Fr/10)^4",
    "Matsumoto1977",
    base::SourceStatus::FromMemory,
    "conveying"};
inline constexpr base::Law kCabrejosKlinzing{
    "pickup-cabrejos-klinzing",
    "Pickup speed from a bed, Cabrejos and Klinzing",
    "U",
    base::Kind::Speed,
    "U/sqrt(g d) = 0.0428 Re_p^0.175 (D/d)^0.25 (rho_p/rho)^0.75, Re_p = rho U d/mu",
    "CabrejosKlinzing1994",
    base::SourceStatus::FromMemory,
    "conveying"};
inline constexpr base::Law kKalman{"pickup-kalman",
                                   "Pickup speed from a bed, Kalman and others",
                                   "U",
                                   base::Kind::Speed,
                                   "Re* = 5 Ar^(3/7) for Ar > 16.5, 16.7 down to 0.45, 21.8 Ar^(1/3) below; "
                                   "Re* = rho U d/(mu (1.4 - 0.8 exp(-(D/50.8 mm)/1.5)))",
                                   "Kalman2005",
                                   base::SourceStatus::FromMemory,
                                   "conveying"};
inline constexpr base::Law kDustFriction{"dust-friction-factor",
                                         "Factor on friction for the dust carried",
                                         "f_mu",
                                         base::Kind::Ratio,
                                         "f_mu = 1 + 0.5 mu",
                                         "",
                                         base::SourceStatus::CommonPractice,
                                         "conveying"};
inline constexpr base::Law kDustAcceleration{"dust-acceleration",
                                             "Loss to bring the dust to speed",
                                             "dp",
                                             base::Kind::Pressure,
                                             "dp = 0.8 mu rho U^2, forward flow only",
                                             "",
                                             base::SourceStatus::CommonPractice,
                                             "conveying"};
inline constexpr base::Law kAltitudeMinimum{"minimum-speed-at-density",
                                            "Least conveying speed in thinner air",
                                            "U_min",
                                            base::Kind::Speed,
                                            "U_min = U_0 sqrt(rho_0/rho)",
                                            "",
                                            base::SourceStatus::Ours,
                                            "conveying"};

/// Drag coefficient at a Reynolds number on the diameter of the sphere of equal volume, for a sphericity of
/// 0.3 to 1. Source: Haider and Levenspiel 1989, the general four-parameter form; stated for Re up to 2.6e5.
template <class Note = base::Silent>
double dragCoefficient(double re, double sphericity, Note&& note = {}) {
  const double s = sphericity;
  const double a = std::exp(2.3288 - 6.4581 * s + 2.4486 * s * s);
  const double b = 0.0964 + 0.5565 * s;
  const double c = std::exp(4.905 - 13.8944 * s + 18.4222 * s * s - 10.2599 * s * s * s);
  const double d = std::exp(1.4681 + 12.2584 * s - 20.7322 * s * s + 15.8855 * s * s * s);
  const double cd = 24 / re * (1 + a * std::pow(re, b)) + c / (1 + d / re);
  if constexpr (base::kNoted<Note>) {
    note.step(kDragCoefficient, cd, {{"Re", re, base::Kind::Ratio}, {"s", sphericity, base::Kind::Ratio}});
  }
  return cd;
}

/// A piece of wood in air. `size_m` is the diameter of the sphere of equal volume; `sphericity` 1 for a ball,
/// 0.7 to 0.8 for sawdust, 0.3 to 0.5 for shavings (common practice).
struct Piece {
  double size_m = 0;
  double density_kg_m3 = 0;
  double sphericity = 1;
};

/// Speed [m/s] at which a piece falls in still air, to 1e-12 relative (bisection, no allocation). Zero for a
/// piece no heavier than air. Rows of woodshop pieces within their last digit
/// (tests/published/conveying_test.cpp).
template <class Note = base::Silent>
double terminalSpeed(const Piece& piece, double air_kg_m3, double viscosity_pa_s, Note&& note = {}) {
  const double weight = 2.0 / 3 * (piece.density_kg_m3 - air_kg_m3) * kStandardGravity_m_s2 * piece.size_m;
  double low = 0;
  if (weight > 0) {
    double high = 1e-3;
    const auto drag = [&](double v) {
      const double re = air_kg_m3 * v * piece.size_m / viscosity_pa_s;
      return dragCoefficient(re, piece.sphericity) * 0.5 * air_kg_m3 * v * v;
    };
    while (drag(high) < weight && high < 1e6) {
      low = high;
      high *= 2;
    }
    while (high - low > 1e-12 * high) {
      const double middle = 0.5 * (low + high);
      if (middle <= low || middle >= high) {
        break;
      }
      (drag(middle) < weight ? low : high) = middle;
    }
  }
  if constexpr (base::kNoted<Note>) {
    if (low > 0) {
      dragCoefficient(air_kg_m3 * low * piece.size_m / viscosity_pa_s, piece.sphericity, note);
    }
    note.step(kTerminalSpeed, low,
              {{"rho", air_kg_m3, base::Kind::Density},
               {"rho_p", piece.density_kg_m3, base::Kind::Density},
               {"d", piece.size_m, base::Kind::Bore},
               {"g", kStandardGravity_m_s2, base::Kind::Ratio}});
  }
  return low;
}

/// Solids per air by mass, at most 1 (beyond that it is bulk transfer, not dust collection); 0 without air.
template <class Note = base::Silent>
double solidsRatio(double solids_kg_s, double air_kg_s, Note&& note = {}) {
  const double ratio = air_kg_s > 0 ? solids_kg_s / air_kg_s : 0.0;
  const double mu = ratio < 1 ? ratio : 1.0;
  if constexpr (base::kNoted<Note>) {
    note.step(kSolidsRatio, mu,
              {{"m_s", solids_kg_s, base::Kind::MassFlow}, {"m_air", air_kg_s, base::Kind::MassFlow}});
  }
  return mu;
}

/// What is carried where, for the models below: all above zero.
struct Carried {
  double solids_kg_s = 0;
  double bore_m = 0;
  double air_kg_m3 = 0;
};

/// Rizk 1973, closed in U. Mean error stated as 54 %, best below 200 um. Woodshop row 8 (a textbook's
/// example).
template <class Note = base::Silent>
double saltationRizk(const Carried& carried, double size_m, Note&& note = {}) {
  const double n = 1100 * size_m + 2.5;
  const double flux = carried.solids_kg_s / (carried.air_kg_m3 * roundArea(carried.bore_m));
  const double u = std::pow(
      flux * std::pow(10.0, 1440 * size_m + 1.96) * std::pow(kStandardGravity_m_s2 * carried.bore_m, 0.5 * n),
      1 / (n + 1));
  if constexpr (base::kNoted<Note>) {
    note.step(kRizk, u,
              {{"m_s", carried.solids_kg_s, base::Kind::MassFlow},
               {"rho", carried.air_kg_m3, base::Kind::Density},
               {"D", carried.bore_m, base::Kind::Bore},
               {"d", size_m, base::Kind::Bore}});
  }
  return u;
}

namespace detail {

/// U of m_s/(rho U A) = c (Fr/10)^n.
inline double saltationByFroude(const Carried& carried, double c, double n) {
  const double flux = carried.solids_kg_s / (carried.air_kg_m3 * roundArea(carried.bore_m));
  const double scale_m_s = 10 * std::sqrt(kStandardGravity_m_s2 * carried.bore_m);
  return std::pow(flux / c * std::pow(scale_m_s, n), 1 / (n + 1));
}

template <class Note>
void noteMatsumoto(Note& note, const base::Law& law, double u, const Carried& carried, const Piece& piece,
                   double terminal_m_s) {
  note.step(law, u,
            {{"m_s", carried.solids_kg_s, base::Kind::MassFlow},
             {"rho", carried.air_kg_m3, base::Kind::Density},
             {"D", carried.bore_m, base::Kind::Bore},
             {"d", piece.size_m, base::Kind::Bore},
             {"rho_p", piece.density_kg_m3, base::Kind::Density},
             {"v_t", terminal_m_s, base::Kind::Speed}});
}

}  // namespace detail

/// Matsumoto and others 1974 (exponent signs from memory).
template <class Note = base::Silent>
double saltationMatsumoto1974(const Carried& carried, const Piece& piece, double terminal_m_s,
                              Note&& note = {}) {
  const double fr_p = terminal_m_s / std::sqrt(kStandardGravity_m_s2 * piece.size_m);
  const double c = 0.448 * std::sqrt(piece.density_kg_m3 / carried.air_kg_m3) * std::pow(fr_p / 10, -1.75);
  const double u = detail::saltationByFroude(carried, c, 3.0);
  if constexpr (base::kNoted<Note>) {
    detail::noteMatsumoto(note, kMatsumoto1974, u, carried, piece, terminal_m_s);
  }
  return u;
}

/// Matsumoto and others 1975 (from memory).
template <class Note = base::Silent>
double saltationMatsumoto1975(const Carried& carried, const Piece& piece, double terminal_m_s,
                              Note&& note = {}) {
  const double fr_p = terminal_m_s / std::sqrt(kStandardGravity_m_s2 * piece.size_m);
  const double c = 1.11 * std::pow(piece.density_kg_m3 / carried.air_kg_m3, 0.55) * std::pow(fr_p / 10, -2.3);
  const double u = detail::saltationByFroude(carried, c, 3.0);
  if constexpr (base::kNoted<Note>) {
    detail::noteMatsumoto(note, kMatsumoto1975, u, carried, piece, terminal_m_s);
  }
  return u;
}

/// Matsumoto and others 1977 (from memory): two forms, by a size that depends on bore and density. The
/// published form jumps between them.
template <class Note = base::Silent>
double saltationMatsumoto1977(const Carried& carried, const Piece& piece, double terminal_m_s,
                              Note&& note = {}) {
  const double ratio = piece.density_kg_m3 / carried.air_kg_m3;
  const bool coarse = piece.size_m > 1.39 * carried.bore_m * std::pow(ratio, -0.74);
  double u = 0;
  if (coarse) {
    const double fr_p = terminal_m_s / std::sqrt(kStandardGravity_m_s2 * piece.size_m);
    u = detail::saltationByFroude(carried, 0.373 * std::pow(ratio, 1.06) * std::pow(fr_p / 10, -3.7), 3.61);
  } else {
    u = detail::saltationByFroude(carried, 5560 * std::pow(piece.size_m / carried.bore_m, 1.43), 4.0);
  }
  if constexpr (base::kNoted<Note>) {
    detail::noteMatsumoto(note, kMatsumoto1977, u, carried, piece, terminal_m_s);
  }
  return u;
}

/// A pickup speed and whether the model was fitted there.
struct Pickup {
  double speed_m_s = 0;
  bool in_range = false;
};

/// Cabrejos and Klinzing 1994, closed in U; the Reynolds number taken with U, which is our reading of it.
/// Fitted for 25 < Re_p < 5000, 8 < D/d < 1340, 700 < rho_p/rho < 4240: wood in air (400 to 650) is outside.
template <class Note = base::Silent>
Pickup pickupCabrejosKlinzing(const Piece& piece, double bore_m, double air_kg_m3, double viscosity_pa_s,
                              Note&& note = {}) {
  const double ratio = piece.density_kg_m3 / air_kg_m3;
  const double c = 0.0428 * std::sqrt(kStandardGravity_m_s2 * piece.size_m) *
                   std::pow(air_kg_m3 * piece.size_m / viscosity_pa_s, 0.175) *
                   std::pow(bore_m / piece.size_m, 0.25) * std::pow(ratio, 0.75);
  Pickup out;
  out.speed_m_s = std::pow(c, 1 / (1 - 0.175));
  const double re = air_kg_m3 * out.speed_m_s * piece.size_m / viscosity_pa_s;
  const double bores = bore_m / piece.size_m;
  out.in_range = re > 25 && re < 5000 && bores > 8 && bores < 1340 && ratio > 700 && ratio < 4240;
  if constexpr (base::kNoted<Note>) {
    note.step(kCabrejosKlinzing, out.speed_m_s,
              {{"d", piece.size_m, base::Kind::Bore},
               {"D", bore_m, base::Kind::Bore},
               {"rho_p", piece.density_kg_m3, base::Kind::Density},
               {"rho", air_kg_m3, base::Kind::Density},
               {"mu", viscosity_pa_s, base::Kind::Viscosity}});
  }
  return out;
}

/// Kalman and others 2005. Never flagged out of range: three zones cover all Archimedes numbers, fitted for
/// grains.
template <class Note = base::Silent>
Pickup pickupKalman(const Piece& piece, double bore_m, double air_kg_m3, double viscosity_pa_s,
                    Note&& note = {}) {
  const double ar = kStandardGravity_m_s2 * air_kg_m3 * (piece.density_kg_m3 - air_kg_m3) * piece.size_m *
                    piece.size_m * piece.size_m / (viscosity_pa_s * viscosity_pa_s);
  const double re = ar > 16.5 ? 5 * std::pow(ar, 3.0 / 7) : (ar > 0.45 ? 16.7 : 21.8 * std::cbrt(ar));
  const double bore_factor = 1.4 - 0.8 * std::exp(-(bore_m / 0.0508) / 1.5);
  const Pickup out{re * viscosity_pa_s * bore_factor / (air_kg_m3 * piece.size_m), true};
  if constexpr (base::kNoted<Note>) {
    note.step(kKalman, out.speed_m_s,
              {{"Ar", ar, base::Kind::Ratio},
               {"d", piece.size_m, base::Kind::Bore},
               {"D", bore_m, base::Kind::Bore},
               {"rho", air_kg_m3, base::Kind::Density},
               {"mu", viscosity_pa_s, base::Kind::Viscosity}});
  }
  return out;
}

/// What dust costs in a run (common practice: 0.3 to 1 for the first, 0.7 to 0.85 for the second).
inline constexpr double kDustFrictionShare = 0.5;
inline constexpr double kDustAccelerationShare = 0.8;

/// Factor on the friction of duct and hose at a solids ratio.
template <class Note = base::Silent>
double dustFrictionFactor(double solids_ratio, Note&& note = {}) {
  const double factor = 1 + kDustFrictionShare * solids_ratio;
  if constexpr (base::kNoted<Note>) {
    note.step(kDustFriction, factor, {{"mu", solids_ratio, base::Kind::Ratio}});
  }
  return factor;
}

/// Loss that brings the dust to speed, once after each inlet; zero for reversed flow, continuous with slope 0
/// at zero. dp = 0.8 mu m^2/(rho A^2); at fixed mass flow it goes as 1/rho. Exact derivative.
template <class Note = base::Silent>
Loss dustAcceleration(double solids_ratio, double flow_kg_s, double density_kg_m3, double area_m2,
                      Note&& note = {}) {
  Loss loss;
  if (flow_kg_s > 0) {
    const double c = kDustAccelerationShare * solids_ratio / (density_kg_m3 * area_m2 * area_m2);
    loss.dp_pa = c * flow_kg_s * flow_kg_s;
    loss.slope_pa_s_kg = 2 * c * flow_kg_s;
  }
  if constexpr (base::kNoted<Note>) {
    const double speed_m_s = meanSpeed(flow_kg_s, density_kg_m3, area_m2, note);
    note.step(kDustAcceleration, loss.dp_pa,
              {{"mu", solids_ratio, base::Kind::Ratio},
               {"rho", density_kg_m3, base::Kind::Density},
               {"U", speed_m_s, base::Kind::Speed}});
  }
  return loss;
}

/// The trade's least speed raised for thinner air, so that the drag on a piece stays; never lowered in denser
/// air.
template <class Note = base::Silent>
double minimumSpeedAt(double minimum_m_s, double air_kg_m3, Note&& note = {}) {
  const double ratio = kStandardDensity_kg_m3 / air_kg_m3;
  const double speed_m_s = ratio > 1 ? minimum_m_s * std::sqrt(ratio) : minimum_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kAltitudeMinimum, speed_m_s,
              {{"U_0", minimum_m_s, base::Kind::Speed},
               {"rho_0", kStandardDensity_kg_m3, base::Kind::Density},
               {"rho", air_kg_m3, base::Kind::Density}});
  }
  return speed_m_s;
}

}  // namespace kerfdraft::physics
