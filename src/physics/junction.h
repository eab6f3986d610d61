// Where ducts meet: a law of all legs at once. Air that enters brings its momentum, air that leaves takes
// some of it along; how much is decided by geometry alone, in one matrix of effective cosines.
// The derivation is in docs/theory/junction.md.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <string>

#include "base/law.h"
#include "base/result.h"
#include "physics/column.h"
#include "physics/fittings.h"

namespace kerfdraft::physics {

inline constexpr std::size_t kMaxLegs = 8;

inline constexpr base::Law kEffectiveCosine{
    "effective-cosine",
    "Effective cosine of a junction leg",
    "c",
    base::Kind::Ratio,
    "straight 1; to 60 degrees cos(alpha), from a = 0.5 rising to 1 - K_mitre/2 at a = 1; at 90 degrees "
    "beside a straight main 0 to 0.40 by a; between linear; beyond 90 c(90) + cos(alpha)",
    "Idelchik, p. 417 (cos); Idelchik1960 (90 degrees); SmacnaA7 (mitre)",
    base::SourceStatus::Ours,
    "junction"};
inline constexpr base::Law kJunctionInlet{"junction-inlet",
                                          "Total pressure at an inlet of a junction over its plenum pressure",
                                          "P - p_in",
                                          base::Kind::Pressure,
                                          "P - p_in = rho V^2 / 2",
                                          "Idelchik, p. 417 eq. 7-1",
                                          base::SourceStatus::Published,
                                          "junction"};
inline constexpr base::Law kJunctionOutlet{
    "junction-outlet",
    "Total pressure at an outlet of a junction over its plenum pressure",
    "P - p_in",
    base::Kind::Pressure,
    "P - p_in = -rho V^2 / 2 + rho V sum_j (Q_j/Q_leaving) V_j c_j",
    "Idelchik, p. 417 eq. 7-1",
    base::SourceStatus::Ours,
    "junction"};

/// What the flow law needs: areas of the runs' ends and effective cosines.
struct JunctionGeometry {
  std::size_t legs = 0;
  std::size_t nominal_outlet = 0;
  std::array<double, kMaxLegs> area_m2{};
  std::array<std::array<double, kMaxLegs>, kMaxLegs> cosine{};  ///< [from leg][to leg]
};

/// How far a leg counts as a straight main: 1 up to 15 degrees of turn, 0 from 30 on, linear between.
inline double straightness(double turn_rad) {
  constexpr double kDegree = std::numbers::pi / 180;
  return std::clamp((30 * kDegree - turn_rad) / (15 * kDegree), 0.0, 1.0);
}

/// The part of the incoming momentum that a leg at `turn_rad` (0: straight on, pi: turned back) hands to the
/// nominal outlet. `area_ratio` is leg over outlet, `main_straightness` the straightness of the straightest
/// inlet, `mitre_k` single mitre K by angle [rad]. Never above 1; continuous in every argument.
/// Tests: Junction.CosineIsContinuousInAngleAndArea, PublishedJunction.
template <class Note = base::Silent>
double effectiveCosine(double turn_rad, double area_ratio, double main_straightness, const Column& mitre_k,
                       Note&& note = {});

/// Geometry from areas [m2] and the symmetric matrix of turns [rad], row by row: turn[i n + j] is how far air
/// is turned that goes from leg i to leg j, 0 straight on. Refuses fewer than 2 or more than 8 legs, areas
/// not above 0, turns outside 0 to pi, an outlet that is no leg.
base::Result<JunctionGeometry> junctionGeometry(std::span<const double> area_m2,
                                                std::span<const double> turn_rad, std::size_t nominal_outlet,
                                                const Column& mitre_k, std::string where = {});

/// Turns between legs from their directions, unit vectors pointing away from the junction; row by row.
/// `turn_rad` has n x n entries.
void junctionTurns(std::span<const std::array<double, 3>> outward, std::span<double> turn_rad);

/// All flow that leaves [kg/s], and whether it is counted over the legs that leave. Air that leaks in through
/// the node counts with those, so that it dilutes the momentum; air that leaks out counts by the legs that
/// enter. In balance without leaks both are the same.
struct Leaving {
  double flow_kg_s = 0;
  bool by_outlets = true;
};

inline Leaving leavingFlow(std::span<const double> inflow_kg_s) {
  double in = 0;
  double out = 0;
  for (const double flow : inflow_kg_s) {
    (flow >= 0 ? in : out) += flow;
  }
  return -out >= in ? Leaving{-out, true} : Leaving{in, false};
}

/// Total pressure at the end of leg `end` over the plenum pressure p_in [Pa], and, where `slope` is not
/// null, its derivatives by every leg's inflow [Pa s/kg]. `inflow_kg_s` is positive into the junction, one
/// per leg. One density for all, that of p_in; rise goes as 1/density, so d rise / d density = -rise/density.
///
/// Defined for every flow, continuous where a flow passes zero. There the slope has a step (an inlet's rise
/// starts flat, an outlet's with the momentum that it takes over); at exactly zero the leg is an inlet: shut,
/// it sees p_in. Homogeneous of second degree, so flat where everything rests.
template <class Note = base::Silent>
double junctionRise(const JunctionGeometry& geometry, std::span<const double> inflow_kg_s, Leaving leaving,
                    double density_kg_m3, std::size_t end, double* slope, Note&& note = {}) {
  const std::size_t n = geometry.legs;
  const double specific = 1 / density_kg_m3;
  const double area = geometry.area_m2[end];
  const double flow = inflow_kg_s[end];
  if (slope != nullptr) {
    std::fill_n(slope, n, 0.0);
  }
  if (flow >= 0) {
    const double speed_slope = flow * specific / (area * area);
    const double rise_pa = 0.5 * flow * speed_slope;
    if (slope != nullptr) {
      slope[end] = speed_slope;
    }
    if constexpr (base::kNoted<Note>) {
      note.step(kJunctionInlet, rise_pa,
                {{"rho", density_kg_m3, base::Kind::Density},
                 {"V", std::abs(flow) * specific / area, base::Kind::Speed}});
    }
    return rise_pa;
  }
  // Momentum of what enters, as far as it points along this outlet.
  double momentum = 0;
  for (std::size_t j = 0; j < n; ++j) {
    const double in = inflow_kg_s[j];
    if (in > 0) {
      momentum += in * in / geometry.area_m2[j] * geometry.cosine[j][end];
    }
  }
  const double share = specific / (area * leaving.flow_kg_s);
  const double out = -flow;
  const double carried = share * momentum;
  const double rise_pa = out * (carried - 0.5 * out * specific / (area * area));
  if (slope != nullptr) {
    const double by_leaving = out * carried / leaving.flow_kg_s;
    for (std::size_t j = 0; j < n; ++j) {
      const double in = inflow_kg_s[j];
      if (in > 0) {
        slope[j] = 2 * out * share * in / geometry.area_m2[j] * geometry.cosine[j][end];
      }
      if (leaving.by_outlets) {
        slope[j] += in < 0 ? by_leaving : 0.0;
      } else {
        slope[j] -= in > 0 ? by_leaving : 0.0;
      }
    }
    slope[end] += out * specific / (area * area) - carried;
  }
  if constexpr (base::kNoted<Note>) {
    note.step(kJunctionOutlet, rise_pa,
              {{"rho", density_kg_m3, base::Kind::Density},
               {"V", out * specific / area, base::Kind::Speed},
               {"sum", carried * area, base::Kind::Speed}});
  }
  return rise_pa;
}

/// junctionRise() for every leg: `rise_pa` has n entries, `slope` n x n row by row (row: end, column: flow),
/// or is null. Allocates nothing.
inline void junctionEnds(const JunctionGeometry& geometry, std::span<const double> inflow_kg_s,
                         double density_kg_m3, double* rise_pa, double* slope) {
  const Leaving leaving = leavingFlow(inflow_kg_s);
  for (std::size_t end = 0; end < geometry.legs; ++end) {
    double* row = slope == nullptr ? nullptr : slope + end * geometry.legs;
    rise_pa[end] = junctionRise(geometry, inflow_kg_s, leaving, density_kg_m3, end, row);
  }
}

template <class Note>
double effectiveCosine(double turn_rad, double area_ratio, double main_straightness, const Column& mitre_k,
                       Note&& note) {
  constexpr double kDegree = std::numbers::pi / 180;
  const double a = area_ratio;
  const auto slanted = [&](double turn) {
    const double equal_leg = 1 - mitre(mitre_k, turn).k / 2;
    const double small_leg = std::cos(turn);
    return small_leg + std::clamp(2 * a - 1, 0.0, 1.0) * (equal_leg - small_leg);
  };
  const auto square = [&] {
    static constexpr std::array<double, 4> kArea{0.2, 0.3, 0.8, 1.0};
    static constexpr std::array<double, 4> kCosine{0, 0.30, 0.30, 0.40};
    return main_straightness * readColumn({kArea, kCosine}, a).value;
  };
  double c = 0;
  if (turn_rad <= 60 * kDegree) {
    const double w = straightness(turn_rad);
    c = w + (1 - w) * slanted(turn_rad);
  } else if (turn_rad <= 90 * kDegree) {
    const double t = (turn_rad - 60 * kDegree) / (30 * kDegree);
    c = (1 - t) * slanted(60 * kDegree) + t * square();
  } else {
    c = square() + std::cos(turn_rad);
  }
  if constexpr (base::kNoted<Note>) {
    note.step(kEffectiveCosine, c,
              {{"alpha", turn_rad, base::Kind::Angle},
               {"a", area_ratio, base::Kind::Ratio},
               {"w_main", main_straightness, base::Kind::Ratio}});
  }
  return c;
}

}  // namespace kerfdraft::physics
