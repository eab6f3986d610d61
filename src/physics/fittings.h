// Loss coefficients of fittings: elbows from measured tables, changes of size, outlets, and what a poor
// fit adds. Each says on the velocity pressure of which section it stands.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "base/law.h"
#include "base/quantity.h"
#include "base/result.h"
#include "physics/column.h"

namespace kerfdraft::physics {

inline constexpr double kRightAngle_rad = std::numbers::pi / 2;

inline constexpr base::Law kElbow{"elbow",
                                  "Elbow",
                                  "K",
                                  base::Kind::Ratio,
                                  "K = K15(D) r(R/D)/r15 w(angle), on its own VP",
                                  "AshraeF2009, p. 21.26 (K15); SmacnaA7 (r, w)",
                                  base::SourceStatus::Published,
                                  ""};
inline constexpr base::Law kElbowOfFixedK{"elbow-of-fixed-k",
                                          "Elbow of one shape",
                                          "K",
                                          base::Kind::Ratio,
                                          "K = K90 w(angle), on its own VP",
                                          "SmacnaA7 (w)",
                                          base::SourceStatus::CommonPractice,
                                          ""};
inline constexpr base::Law kMitre{"mitre",
                                  "Mitred elbow",
                                  "K",
                                  base::Kind::Ratio,
                                  "K by angle from a table, on its own VP",
                                  "SmacnaA7",
                                  base::SourceStatus::Published,
                                  ""};
inline constexpr base::Law kExpansion{
    "expansion",
    "Expansion",
    "K",
    base::Kind::Ratio,
    "K = min(1, 3.2 tan(theta/2)^1.25) (1 - A1/A2)^2, on the small upstream VP",
    "Idelchik, diag. 5-1; Borda-Carnot",
    base::SourceStatus::Published,
    ""};
inline constexpr base::Law kAbruptContraction{"contraction-abrupt",
                                              "Abrupt contraction",
                                              "K",
                                              base::Kind::Ratio,
                                              "K = 0.5 (1 - A2/A1)^0.75, on the small downstream VP",
                                              "Idelchik, diag. 4-9",
                                              base::SourceStatus::Published,
                                              ""};
inline constexpr base::Law kContraction{
    "contraction",
    "Contraction",
    "K",
    base::Kind::Ratio,
    "K = 0.8 sin(theta/2) (1 - A2/A1) to 45 degrees, linear in angle from there to the abrupt K at 180, "
    "never above the abrupt K; on the small downstream VP",
    "CraneTp410",
    base::SourceStatus::Published,
    ""};
inline constexpr base::Law kScreen{"screen",
                                   "Round-wire screen",
                                   "K",
                                   base::Kind::Ratio,
                                   "K = 0.52 (1 - s^2)/s^2, s = free part of the area, on the approach VP",
                                   "Blevins1984",
                                   base::SourceStatus::Published,
                                   ""};
inline constexpr base::Law kOutlet{"outlet",
                                   "Outlet to free air",
                                   "K",
                                   base::Kind::Ratio,
                                   "K = 1.0 + K_cap + K_screen, on the outlet VP",
                                   "AcgihIv, ch. 5",
                                   base::SourceStatus::FromMemory,
                                   ""};
inline constexpr base::Law kSystemEffect{"system-effect",
                                         "Elbow, bend or Y close to a fan's inlet",
                                         "K",
                                         base::Kind::Ratio,
                                         "K = SEF max(0, 1 - L/(5 D)), on the inlet VP",
                                         "AshraeHvac1988 (SEF)",
                                         base::SourceStatus::Ours,
                                         ""};

/// Added to the branch's own loss, on branch VP, where a branch was cut by hand into thin pipe (common
/// practice, no source).
inline constexpr double kHandCutSaddle = 0.3;
/// System effect factor where only "an elbow sits on the inlet" is known (about R/D 1.25 without vanes).
inline constexpr double kDefaultSystemEffect = 1.0;
/// Closer than this many bores, two elbows disturb each other: no credit, no penalty, a note.
inline constexpr double kCloseElbowSpacing = 2.0;

/// What an elbow of one construction reads (data/elbow_*.csv). `k_at_15` is measured on R/D 1.5 by bore;
/// `by_ratio` gives r(R/D) of the piece count at hand and `ratio_at_15` that r at R/D 1.5 which belongs to
/// `k_at_15`. So 3- and 4-piece elbows take the 5-piece `k_at_15` and `ratio_at_15` with their own
/// `by_ratio`, and pleated ones the 5-piece `by_ratio` and `ratio_at_15`.
struct ElbowTables {
  Column k_at_15;   ///< bore [m] -> K of 90 degrees
  Column by_ratio;  ///< R/D -> r
  double ratio_at_15 = 1;
  Column angle_factor;  ///< angle [rad] -> w, 1 at a right angle
};

/// A coefficient read from tables; `clamped` where an end of a table was held.
struct FittingK {
  double k = 0;
  bool clamped = false;
};

/// Elbow on its own VP. Angle 0 to 180 degrees (checkElbow() refuses the rest), R/D and bore are held at the
/// tables' ends. The length along the centre line is charged as friction besides.
template <class Note = base::Silent>
FittingK elbow(const ElbowTables& tables, double bore_m, double radius_over_bore, double angle_rad,
               Note&& note = {}) {
  const Reading base_k = readColumn(tables.k_at_15, bore_m);
  const Reading ratio = readColumn(tables.by_ratio, radius_over_bore);
  const Reading factor = readColumn(tables.angle_factor, angle_rad);
  const double k = base_k.value * (ratio.value / tables.ratio_at_15) * factor.value;
  if constexpr (base::kNoted<Note>) {
    note.step(kElbow, k,
              {{"D", bore_m, base::Kind::Bore},
               {"R/D", radius_over_bore, base::Kind::Ratio},
               {"angle", angle_rad, base::Kind::Angle},
               {"K15", base_k.value, base::Kind::Ratio},
               {"r", ratio.value, base::Kind::Ratio},
               {"r15", tables.ratio_at_15, base::Kind::Ratio},
               {"w", factor.value, base::Kind::Ratio}});
  }
  return {k, base_k.clamped || ratio.clamped || factor.clamped};
}

/// An elbow of one shape (plastic drain, adjustable gored): its K at a right angle times the angle factor.
template <class Note = base::Silent>
FittingK elbowOfFixedK(double k_right_angle, const Column& angle_factor, double angle_rad, Note&& note = {}) {
  const Reading factor = readColumn(angle_factor, angle_rad);
  const double k = k_right_angle * factor.value;
  if constexpr (base::kNoted<Note>) {
    note.step(kElbowOfFixedK, k,
              {{"K90", k_right_angle, base::Kind::Ratio},
               {"angle", angle_rad, base::Kind::Angle},
               {"w", factor.value, base::Kind::Ratio}});
  }
  return {k, factor.clamped};
}

/// Single mitre on its own VP, angle [rad] to a right angle. Below the table's first angle the line goes to
/// 0 at 0, since no turn is no loss.
template <class Note = base::Silent>
FittingK mitre(const Column& k_by_angle, double angle_rad, Note&& note = {}) {
  const Reading reading = readColumn(k_by_angle, angle_rad);
  const bool small = k_by_angle.x[0] > 0 && angle_rad < k_by_angle.x[0];
  const double k = small ? reading.value * std::max(0.0, angle_rad) / k_by_angle.x[0] : reading.value;
  if constexpr (base::kNoted<Note>) {
    note.step(kMitre, k, {{"angle", angle_rad, base::Kind::Angle}});
  }
  return {k, reading.clamped && !small};
}

/// Included angle [rad] of a cone between two bores over its length: 0 for equal bores, pi for no length.
inline double coneAngle(double bore_1_m, double bore_2_m, double length_m) {
  return 2 * std::atan2(std::abs(bore_1_m - bore_2_m), 2 * length_m);
}

/// Expansion from area 1 up to area 2, included angle [rad]; pi is a step (a stepped adaptor). On the VP of
/// the small upstream section. Rows X1 to X3.
template <class Note = base::Silent>
double expansion(double small_area_m2, double large_area_m2, double included_angle_rad, Note&& note = {}) {
  const double half = 0.5 * std::clamp(included_angle_rad, 0.0, std::numbers::pi);
  // The bound of 1 is met from 0.376 rad on, far from where the tangent grows without bound.
  const double cone = half < 0.5 ? std::min(1.0, 3.2 * std::pow(std::tan(half), 1.25)) : 1.0;
  const double step = 1 - small_area_m2 / large_area_m2;
  const double k = cone * step * step;
  if constexpr (base::kNoted<Note>) {
    note.step(kExpansion, k,
              {{"theta", included_angle_rad, base::Kind::Angle},
               {"A1", small_area_m2, base::Kind::Area},
               {"A2", large_area_m2, base::Kind::Area}});
  }
  return k;
}

/// Abrupt contraction on the VP of the small downstream section. Rows X7 to X9.
template <class Note = base::Silent>
double abruptContraction(double large_area_m2, double small_area_m2, Note&& note = {}) {
  const double k = 0.5 * std::pow(1 - small_area_m2 / large_area_m2, 0.75);
  if constexpr (base::kNoted<Note>) {
    note.step(kAbruptContraction, k,
              {{"A1", large_area_m2, base::Kind::Area}, {"A2", small_area_m2, base::Kind::Area}});
  }
  return k;
}

/// Contraction by a cone of the given included angle [rad]; pi is abrupt. On the VP of the small downstream
/// section. Continuous in the angle.
template <class Note = base::Silent>
double contraction(double large_area_m2, double small_area_m2, double included_angle_rad, Note&& note = {}) {
  constexpr double kSteep = std::numbers::pi / 4;
  const double theta = std::clamp(included_angle_rad, 0.0, std::numbers::pi);
  const double abrupt = abruptContraction(large_area_m2, small_area_m2, note);
  const double cone = 0.8 * std::sin(0.5 * std::min(theta, kSteep)) * (1 - small_area_m2 / large_area_m2);
  const double t = std::max(0.0, theta - kSteep) / (std::numbers::pi - kSteep);
  const double k = std::min(abrupt, cone + t * (abrupt - cone));
  if constexpr (base::kNoted<Note>) {
    note.step(kContraction, k,
              {{"theta", included_angle_rad, base::Kind::Angle},
               {"A1", large_area_m2, base::Kind::Area},
               {"A2", small_area_m2, base::Kind::Area}});
  }
  return k;
}

/// A change of size crossed either way. Both coefficients stand on the VP of the smaller section, so
/// localLoss(k_forward, k_backward, flow, density, area) takes them with `area_m2` as they are.
struct SizeChange {
  double k_forward = 0;
  double k_backward = 0;
  double area_m2 = 0;
};

/// Change of size from area 1 to area 2, in the direction of positive flow: a contraction or an expansion
/// forward, the opposite fitting backward.
template <class Note = base::Silent>
SizeChange sizeChange(double area_1_m2, double area_2_m2, double included_angle_rad, Note&& note = {}) {
  const double small = std::min(area_1_m2, area_2_m2);
  const double large = std::max(area_1_m2, area_2_m2);
  const double narrowing = contraction(large, small, included_angle_rad, note);
  const double widening = expansion(small, large, included_angle_rad, note);
  return area_2_m2 < area_1_m2 ? SizeChange{narrowing, widening, small}
                               : SizeChange{widening, narrowing, small};
}

/// Round-wire screen of free-area fraction 0 to 1, on the approach VP, about Re 400 of the wire.
template <class Note = base::Silent>
double screen(double free_fraction, Note&& note = {}) {
  const double s2 = free_fraction * free_fraction;
  const double k = 0.52 * (1 - s2) / s2;
  if constexpr (base::kNoted<Note>) {
    note.step(kScreen, k, {{"s", free_fraction, base::Kind::Ratio}});
  }
  return k;
}

/// Outlet to free air with what is fitted on it, on the outlet VP.
template <class Note = base::Silent>
double outlet(double cap_k, double screen_k, Note&& note = {}) {
  const double k = 1.0 + cap_k + screen_k;
  if constexpr (base::kNoted<Note>) {
    note.step(kOutlet, k, {{"K_cap", cap_k, base::Kind::Ratio}, {"K_screen", screen_k, base::Kind::Ratio}});
  }
  return k;
}

/// System effect on the inlet VP with `straight_over_bore` bores of straight duct between the elbow and the
/// fan: `factor` at the fan, fading linearly to 0 at 5 bores (ours; the published rows fall as fast).
template <class Note = base::Silent>
double systemEffect(double factor, double straight_over_bore, Note&& note = {}) {
  const double k = factor * std::clamp(1 - straight_over_bore / 5, 0.0, 1.0);
  if constexpr (base::kNoted<Note>) {
    note.step(kSystemEffect, k,
              {{"SEF", factor, base::Kind::Ratio}, {"L/D", straight_over_bore, base::Kind::Ratio}});
  }
  return k;
}

/// Two elbows so close that the published coefficients no longer add.
inline bool elbowsDisturb(double spacing_m, double bore_m) {
  return spacing_m < kCloseElbowSpacing * bore_m;
}

/// Refuses an elbow's angle outside 0 to 180 degrees (a mitre: 0 to 90) and an R/D that is not positive.
base::Result<void> checkElbow(base::Angle angle, double radius_over_bore, bool is_mitre,
                              std::string where = {});

/// Refuses a free-area fraction outside 0.3 to 1, where the screen law is not known.
base::Result<void> checkScreen(double free_fraction, std::string where = {});

}  // namespace kerfdraft::physics
