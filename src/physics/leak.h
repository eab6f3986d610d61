// Leakage of joints: the duct trade's leakage class, made smooth through zero pressure.
#pragma once

#include <cmath>

#include "base/law.h"

namespace kerfdraft::physics {

/// Leakage classes by construction: cfm per 100 ft2 of surface at 1 in w.g.
inline constexpr double kLeakClassSealed = 3;     ///< taped, glued, gasketed
inline constexpr double kLeakClassSnapLock = 24;  ///< untaped snap-lock
inline constexpr double kLeakClassCuff = 12;      ///< hose cuffs
/// A hose leaks at its cuffs, each as this much surface of class 12.
inline constexpr double kCuffArea_m2 = 0.1;
/// Pressure below which the power law goes over into a straight line.
inline constexpr double kLeakKnee_pa = 0.025;

inline constexpr base::Law kLeakCoefficient{
    "leak-coefficient",
    "Leakage coefficient",
    "C",
    base::Kind::Ratio,
    "C = (C_L/100) A with cfm, ft2, in w.g. of 249.08891 Pa turned into SI",
    "SmacnaLeakage",
    base::SourceStatus::Published,
    "gates-and-leaks"};
inline constexpr base::Law kLeakage{"leakage",
                                    "Leakage through joints",
                                    "Q",
                                    base::Kind::VolumeFlow,
                                    "Q = C p (p^2 + p0^2)^-0.175, p0 = 0.025 Pa (|p|^0.65 away from zero)",
                                    "SmacnaLeakage",
                                    base::SourceStatus::Published,
                                    "gates-and-leaks"};

/// Flow [m3/s at room density] and its slope by pressure [m3/(s Pa)].
struct LeakFlow {
  double flow_m3_s = 0;
  double slope_m3_s_pa = 0;
};

/// Coefficient C [m3/s at 1 Pa^0.65] of a surface [m2] of a leakage class; linear in both.
template <class Note = base::Silent>
double leakCoefficient(double leak_class, double area_m2, Note&& note = {}) {
  constexpr double kFoot_m = 0.3048;
  constexpr double kCfm_m3_s = kFoot_m * kFoot_m * kFoot_m / 60;
  constexpr double kInchWater_pa = 249.08891;
  const double c =
      leak_class / 100 * (area_m2 / (kFoot_m * kFoot_m)) * kCfm_m3_s / std::pow(kInchWater_pa, 0.65);
  if constexpr (base::kNoted<Note>) {
    note.step(kLeakCoefficient, c,
              {{"C_L", leak_class, base::Kind::Ratio}, {"A", area_m2, base::Kind::Area}});
  }
  return c;
}

/// Leakage driven by `p_pa`, with its sign: positive pressure difference drives positive flow. Odd, smooth
/// and strictly rising, with a finite slope at 0. 1e-6 below |p|^0.65 at 10 Pa
/// (Leak.IsThePowerLawAwayFromZero).
template <class Note = base::Silent>
LeakFlow leakFlow(double coefficient, double p_pa, Note&& note = {}) {
  const double square = p_pa * p_pa + kLeakKnee_pa * kLeakKnee_pa;
  const double conductance = coefficient * std::pow(square, -0.175);
  const LeakFlow leak{conductance * p_pa, conductance * (1 - 0.35 * p_pa * p_pa / square)};
  if constexpr (base::kNoted<Note>) {
    note.step(kLeakage, leak.flow_m3_s,
              {{"C", coefficient, base::Kind::Ratio}, {"p", p_pa, base::Kind::Pressure}});
  }
  return leak;
}

}  // namespace kerfdraft::physics
