// Loss of total pressure along a stretch of one bore, with the density that the local suction gives the air,
// or with one density. Used by the solver for whole stretches and, piece by piece, by the sheet and the
// explanations.
//
// A piece takes velocity pressures off the total pressure P = p + G²/(2ρ) (p static, G = m/A, a = barometric
// pressure over room density, ρ = (p + barometric)/a):
//     ρ dP = −dS,  S = C G|G|/2 + R m
// where C counts velocity pressures and R is a filter's resistance. Integrated from 1 to 2:
//     a (ρ1² − ρ2²)/2 − (G²/2) ln(ρ1/ρ2) = S
// so pieces of one bore add exactly, in any order, and a chain of them is one stretch. To second order in the
// change of density this is "C × velocity pressure at the mean density of the two ends". docs/decisions/0010.
#pragma once

#include <cmath>

#include "base/law.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

using base::Kind;

/// Air that a network is computed with.
struct DuctAir {
  DuctAir() = default;
  DuctAir(double room_density, double barometric, double viscosity, bool local_density)
      : room_density_kg_m3(room_density),
        barometric_pa(barometric),
        viscosity_pa_s(viscosity),
        local(local_density),
        stiffness_pa_m3_kg(barometric / room_density),
        softness_kg_m3_pa(room_density / barometric) {}

  double room_density_kg_m3 = 1.2;
  double barometric_pa = 101325;
  double viscosity_pa_s = 1.82e-5;
  bool local = true;  ///< false: one density everywhere
  double stiffness_pa_m3_kg =
      101325 / 1.2;  ///< a: d(static)/d(density); kept, since the solver asks it millions of times
  double softness_kg_m3_pa = 1.2 / 101325;  ///< 1/a

  double stiffness() const { return stiffness_pa_m3_kg; }
};

namespace internal {

/// ln(r1/r2); near 1 by the series of 2 artanh, whose first term left out is below 1e-16.
inline double logRatio(double r1, double r2) {
  const double x = (r1 - r2) / (r1 + r2);
  const double x2 = x * x;
  if (x2 < 1e-3) {
    return 2 * x * (1 + x2 * (1.0 / 3 + x2 * (1.0 / 5 + x2 * (1.0 / 7 + x2 * (1.0 / 9 + x2 / 11)))));
  }
  return std::log(r1 / r2);
}

}  // namespace internal

/// Density in a bore where the total pressure is known, with its derivatives.
struct DensityAt {
  double rho = 0;
  double d_total = 0;   ///< d ρ/d P [kg/(m3 Pa)]
  double d_flux = 0;    ///< d ρ/d G [s/m]
  bool choked = false;  ///< no such flow exists: ρ is that of the fastest one
};

/// Density of air of total (gauge) pressure P moving with mass flux G [kg/(s m2)]. Outside what can be
/// (choked, or below absolute zero) a positive value is returned and `choked` set, so that a solver can walk
/// back.
inline DensityAt densityFromTotal(const DuctAir& air, double total_pa, double flux) {
  if (!air.local) {
    return {air.room_density_kg_m3, 0, 0, false};
  }
  const double soft = air.softness_kg_m3_pa;
  const double least = 0.05 * air.room_density_kg_m3;
  const double b = (total_pa + air.barometric_pa) * soft;
  const double disc = b * b - 2 * flux * flux * soft;
  if (b < 2 * least || disc < 1e-4 * b * b) {
    const double rho = b / 2 > least ? b / 2 : least;
    return {rho, soft, 0, true};
  }
  const double root = std::sqrt(disc);
  const double rho = 0.5 * (b + root);
  const double per_root = soft / root;
  return {rho, rho * per_root, -flux * per_root, false};
}

/// Static pressure (gauge) of a density.
inline double staticOfDensity(const DuctAir& air, double rho) {
  return air.stiffness() * rho - air.barometric_pa;
}

/// Density at the far end of a stretch, with its derivatives.
struct DensityAfter {
  double rho = 0;
  double d_rho1 = 0;
  double d_flux = 0;  ///< at constant S
  double d_loss_weight = 0;
  bool choked = false;
};

/// Solves a (ρ1² − ρ2²)/2 − (G²/2) ln(ρ1/ρ2) = S for ρ2. A closed form that treats the logarithm to second
/// order is right to 1e-6 in ordinary ducts; one Newton step makes that 1e-13, and where the step was not
/// small (a vacuum line) more follow. Accuracy: 1e-13 of ρ (tests/physics/stretch_test.cpp).
inline DensityAfter densityAfter(const DuctAir& air, double rho1, double flux, double loss_weight) {
  const double a = air.stiffness();
  const double g2 = 0.5 * flux * flux;
  const double slope1 = a * rho1 - g2 / rho1;
  const double square1 = rho1 * rho1;
  const double square2 = square1 - 2 * loss_weight * rho1 / slope1;
  if (!(slope1 > 0) || square2 < 0.01 * square1) {
    return {0.1 * rho1, 0.1, 0, 0, true};
  }
  double rho2 = std::sqrt(square2);
  double log_ratio = 0;
  double slope2 = 0;
  for (int step = 0; step < 6; ++step) {
    log_ratio = internal::logRatio(rho1, rho2);
    const double miss = 0.5 * a * (rho1 - rho2) * (rho1 + rho2) - g2 * log_ratio - loss_weight;
    slope2 = a * rho2 - g2 / rho2;
    if (!(slope2 > 0)) {
      return {0.1 * rho1, 0.1, 0, 0, true};
    }
    const double moved = miss / slope2;
    rho2 += moved;
    if (std::abs(moved) < 3e-7 * rho1) {
      break;
    }
  }
  const double per_slope = 1 / slope2;
  return {rho2, slope1 * per_slope, -flux * log_ratio * per_slope, -per_slope, false};
}

inline constexpr base::Law kPieceLoss{
    "piece-loss",
    "Loss of total pressure of one piece",
    "dP",
    Kind::Pressure,
    "a (rho1^2 - rho2^2)/2 - (G^2/2) ln(rho1/rho2) = C G|G|/2 + R m, dP = P1 - P2, P = p + G^2/(2 rho), "
    "a = barometric pressure / room density; with one density dP = (C G|G|/2 + R m)/rho",
    "Darcy-Weisbach, isothermal ideal gas; docs/decisions/0010",
    base::SourceStatus::Ours,
    "density"};
inline constexpr base::Law kMeanVelocityPressure{"mean-velocity-pressure",
                                                 "Velocity pressure at the mean density of the piece",
                                                 "VP",
                                                 Kind::Pressure,
                                                 "VP = (m/A)^2 / (2 rho), rho = (rho1 + rho2)/2",
                                                 "AshraeF2009, ch. 21",
                                                 base::SourceStatus::Published,
                                                 ""};

/// The air before and behind one piece.
struct PieceFlow {
  double rho_in = 0;
  double rho_out = 0;
  double static_in_pa = 0;
  double static_out_pa = 0;
  double total_out_pa = 0;
  double loss_pa = 0;
  double velocity_pressure_pa = 0;  ///< at the mean density
  double mean_density = 0;
  bool choked = false;
};

/// One piece in the drawn direction.
/// @param total_in_pa total pressure before it [Pa]
/// @param flow_kg_s mass flow [kg/s], any sign
/// @param coefficient velocity pressures lost, friction included [1], ≥ 0
/// @param linear_pa_s_m3 a filter's resistance [Pa s/m3], ≥ 0
template <class Note = base::Silent>
PieceFlow pieceFlow(const DuctAir& air, double bore_m, double total_in_pa, double flow_kg_s,
                    double coefficient, double linear_pa_s_m3, Note&& note = {}) {
  PieceFlow r;
  const double flux = flow_kg_s / roundArea(bore_m);
  const double weight = 0.5 * coefficient * flux * std::abs(flux) + linear_pa_s_m3 * flow_kg_s;
  const DensityAt in = densityFromTotal(air, total_in_pa, flux);
  r.rho_in = in.rho;
  r.choked = in.choked;
  if (air.local) {
    const DensityAfter out = densityAfter(air, in.rho, flux, weight);
    r.rho_out = out.rho;
    r.choked = r.choked || out.choked;
    r.static_in_pa = staticOfDensity(air, r.rho_in);
    r.static_out_pa = staticOfDensity(air, r.rho_out);
    // The difference of two large numbers would lose digits; the difference of densities does not.
    r.loss_pa = air.stiffness() * (r.rho_in - r.rho_out) +
                0.5 * flux * flux * (r.rho_out - r.rho_in) / (r.rho_in * r.rho_out);
    r.total_out_pa = total_in_pa - r.loss_pa;
  } else {
    r.rho_out = r.rho_in;
    r.loss_pa = weight / r.rho_in;
    r.total_out_pa = total_in_pa - r.loss_pa;
    r.static_in_pa = total_in_pa - 0.5 * flux * flux / r.rho_in;
    r.static_out_pa = r.total_out_pa - 0.5 * flux * flux / r.rho_in;
  }
  r.mean_density = 0.5 * (r.rho_in + r.rho_out);
  r.velocity_pressure_pa = 0.5 * flux * flux / r.mean_density;
  if constexpr (base::kNoted<Note>) {
    note.step(kMeanVelocityPressure, r.velocity_pressure_pa,
              {{"m", flow_kg_s, Kind::MassFlow},
               {"D", bore_m, Kind::Bore},
               {"rho1", r.rho_in, Kind::Density},
               {"rho2", r.rho_out, Kind::Density}});
    note.step(kPieceLoss, r.loss_pa,
              {{"C", coefficient, Kind::Ratio},
               {"R", linear_pa_s_m3, Kind::Ratio},
               {"m", flow_kg_s, Kind::MassFlow},
               {"D", bore_m, Kind::Bore},
               {"P1", total_in_pa, Kind::Pressure},
               {"rho1", r.rho_in, Kind::Density},
               {"rho2", r.rho_out, Kind::Density}});
  }
  return r;
}

}  // namespace kerfdraft::physics
