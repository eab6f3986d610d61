// The laws of the trade's pencil method: friction by a power law, branch entries by practice factors, mixing
// at a junction, and the balancing of branches. Suctions are magnitudes here: positive numbers.
#pragma once

#include <algorithm>
#include <cmath>

#include "base/law.h"
#include "base/quantity.h"
#include "physics/column.h"

namespace kerfdraft::hand {

inline constexpr double kFoot_m = 0.3048;
inline constexpr double kFootPerMinute_m_s = 0.00508;
inline constexpr double kCubicFootPerMinute_m3_s = kFoot_m * kFoot_m * kFoot_m / 60;

/// Branches at a junction whose suctions lie closer than this are taken as equal.
inline constexpr double kBalancedRatio = 1.05;
/// Beyond this a branch is designed again instead of given more air.
inline constexpr double kRedesignRatio = 1.20;

inline constexpr base::Law kTradeFriction{"trade-friction",
                                          "Friction by the trade's power law",
                                          "Hf",
                                          base::Kind::Ratio,
                                          "Hf[VP per ft] = a V^b / Q^c, V in fpm, Q in cfm",
                                          "Loeffler1980; AcgihIv, ch. 5",
                                          base::SourceStatus::FromMemory,
                                          "hand-method"};
inline constexpr base::Law kDensityCorrection{"density-correction",
                                              "Pressure of standard air corrected for density",
                                              "p",
                                              base::Kind::Pressure,
                                              "p = df p_standard, df = rho / (0.075 lb/ft3)",
                                              "AcgihIv, ch. 5",
                                              base::SourceStatus::FromMemory,
                                              "hand-method"};
inline constexpr base::Law kBranchEntry{"branch-entry-practice",
                                        "Branch entry, practice factor on the branch's VP",
                                        "K_e",
                                        base::Kind::Ratio,
                                        "K_e by angle from a table; 0 for the straight main",
                                        "AcgihIv, Figs. 5-13 and 5-16",
                                        base::SourceStatus::FromMemory,
                                        "hand-method"};
inline constexpr base::Law kResultantVelocityPressure{"resultant-velocity-pressure",
                                                      "Resultant velocity pressure of two streams",
                                                      "VPr",
                                                      base::Kind::Pressure,
                                                      "VPr = (Q1 VP1 + Q2 VP2) / (Q1 + Q2)",
                                                      "AcgihIv, ch. 5",
                                                      base::SourceStatus::Published,
                                                      "hand-method"};
inline constexpr base::Law kAcceleration{"junction-acceleration",
                                         "Acceleration into the main behind a junction",
                                         "dSP",
                                         base::Kind::Pressure,
                                         "dSP = max(0, VP3 - VPr)",
                                         "AcgihIv, ch. 5",
                                         base::SourceStatus::FromMemory,
                                         "hand-method"};
inline constexpr base::Law kBalanceRatio{"balance-ratio",
                                         "Ratio of branch suctions at a junction",
                                         "r",
                                         base::Kind::Ratio,
                                         "r = SP_governing / SP_branch",
                                         "AcgihIv, ch. 5",
                                         base::SourceStatus::FromMemory,
                                         "hand-method"};
inline constexpr base::Law kBalancedFlow{"balanced-flow",
                                         "Flow of a branch raised to the governing suction",
                                         "Q_corr",
                                         base::Kind::VolumeFlow,
                                         "Q_corr = Q sqrt(SP_governing / SP_branch)",
                                         "AcgihIv, ch. 5",
                                         base::SourceStatus::Published,
                                         "hand-method"};
inline constexpr base::Law kBalancingGate{"balancing-gate",
                                          "What a blast gate must take to balance a branch",
                                          "K_gate",
                                          base::Kind::Ratio,
                                          "K_gate = (SP_governing - SP_branch) / VP_branch",
                                          "UfcIndustrialVentilation, para. 2-3.7 (the method)",
                                          base::SourceStatus::Published,
                                          "hand-method"};

/// One row of the power law: the numbers of a kind of duct.
struct TradeFriction {
  double a = 0;
  double b = 0;
  double c = 0;
};

/// Galvanized duct with a joint about every 2.5 ft.
inline constexpr TradeFriction kGalvanizedFriction{0.0307, 0.533, 0.612};
/// Black iron, aluminium, plastic, stainless.
inline constexpr TradeFriction kSmoothFriction{0.0425, 0.465, 0.602};
/// Flexible duct with covered wires, pulled tight.
inline constexpr TradeFriction kFlexibleFriction{0.0311, 0.604, 0.639};

/// Friction in velocity pressures per foot of duct, at standard air. Speed [m/s] and flow [m3/s] above zero.
/// Stated for clean duct of 3 to 30 in at 1000 to 6000 fpm. Source: Loeffler 1980, from memory. Accuracy: the
/// galvanized row lies 0 to 4 % above Colebrook-White with 0.15 mm and 10 to 12 % above 0.09 mm
/// (PublishedHand.TradeFrictionStandsBesideColebrook).
template <class Note = base::Silent>
double tradeFrictionPerFoot(const TradeFriction& row, double speed_m_s, double flow_m3_s, Note&& note = {}) {
  const double speed_fpm = speed_m_s / kFootPerMinute_m_s;
  const double flow_cfm = flow_m3_s / kCubicFootPerMinute_m3_s;
  const double per_foot = row.a * std::pow(speed_fpm, row.b) / std::pow(flow_cfm, row.c);
  if constexpr (base::kNoted<Note>) {
    note.step(kTradeFriction, per_foot,
              {{"V", speed_m_s, base::Kind::Speed},
               {"Q", flow_m3_s, base::Kind::VolumeFlow},
               {"a", row.a, base::Kind::Ratio},
               {"b", row.b, base::Kind::Ratio},
               {"c", row.c, base::Kind::Ratio}});
  }
  return per_foot;
}

/// A pressure of standard air [Pa] at the density factor of the day.
template <class Note = base::Silent>
double correctForDensity(double standard_pa, double density_factor, Note&& note = {}) {
  const double p_pa = density_factor * standard_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kDensityCorrection, p_pa,
              {{"p_standard", standard_pa, base::Kind::Pressure}, {"df", density_factor, base::Kind::Ratio}});
  }
  return p_pa;
}

/// Practice factor of a branch entry on the velocity pressure of the branch; nothing is charged to the main.
/// `by_angle` is data/branch_entry_k.csv; below its first angle the line goes to 0 straight on, above its
/// last the end is held and `clamped` says so. Valid near equal speeds and conserved area only: there it is
/// the momentum law within 0.06 (docs/theory/hand-method.md).
template <class Note = base::Silent>
physics::Reading branchEntry(const physics::Column& by_angle, double angle_rad, Note&& note = {}) {
  physics::Reading factor = physics::readColumn(by_angle, angle_rad);
  const double first_rad = by_angle.x[0];
  if (angle_rad < first_rad) {
    factor = {by_angle.y[0] * std::max(0.0, angle_rad) / first_rad, false};
  }
  if constexpr (base::kNoted<Note>) {
    note.step(kBranchEntry, factor.value, {{"angle", angle_rad, base::Kind::Angle}});
  }
  return factor;
}

/// Velocity pressure of two streams together [Pa], weighted by flow [m3/s, not both zero]. A third stream is
/// added by calling it again with the sum of the first two. Rows V1 to V4.
template <class Note = base::Silent>
double resultantVelocityPressure(double flow1_m3_s, double vp1_pa, double flow2_m3_s, double vp2_pa,
                                 Note&& note = {}) {
  const double vp_pa = (flow1_m3_s * vp1_pa + flow2_m3_s * vp2_pa) / (flow1_m3_s + flow2_m3_s);
  if constexpr (base::kNoted<Note>) {
    note.step(kResultantVelocityPressure, vp_pa,
              {{"Q1", flow1_m3_s, base::Kind::VolumeFlow},
               {"VP1", vp1_pa, base::Kind::Pressure},
               {"Q2", flow2_m3_s, base::Kind::VolumeFlow},
               {"VP2", vp2_pa, base::Kind::Pressure}});
  }
  return vp_pa;
}

/// Suction that the main needs beyond the governing branch [Pa]: to speed the air up, never a credit for
/// slowing it down (practice). Rows V2 to V4, N6.
template <class Note = base::Silent>
double accelerationPressure(double main_vp_pa, double resultant_vp_pa, Note&& note = {}) {
  const double extra_pa = std::max(0.0, main_vp_pa - resultant_vp_pa);
  if constexpr (base::kNoted<Note>) {
    note.step(kAcceleration, extra_pa,
              {{"VP3", main_vp_pa, base::Kind::Pressure}, {"VPr", resultant_vp_pa, base::Kind::Pressure}});
  }
  return extra_pa;
}

/// Higher suction over lower, both above zero [Pa].
template <class Note = base::Silent>
double balanceRatio(double governing_pa, double branch_pa, Note&& note = {}) {
  const double ratio = governing_pa / branch_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kBalanceRatio, ratio,
              {{"SP_governing", governing_pa, base::Kind::Pressure},
               {"SP_branch", branch_pa, base::Kind::Pressure}});
  }
  return ratio;
}

/// Flow of the branch at the governing suction [m3/s]. Approximate: friction goes with a power of flow a
/// little below 2, so the flow is 0.1 % low at a ratio of 1.1 (PublishedHand.N4ExactFlow). Rows N1, N2, N4.
template <class Note = base::Silent>
double balancedFlow(double flow_m3_s, double governing_pa, double branch_pa, Note&& note = {}) {
  const double corrected_m3_s = flow_m3_s * std::sqrt(governing_pa / branch_pa);
  if constexpr (base::kNoted<Note>) {
    note.step(kBalancedFlow, corrected_m3_s,
              {{"Q", flow_m3_s, base::Kind::VolumeFlow},
               {"SP_governing", governing_pa, base::Kind::Pressure},
               {"SP_branch", branch_pa, base::Kind::Pressure}});
  }
  return corrected_m3_s;
}

/// Velocity pressures of the branch that its gate must take, so that it keeps its design flow.
template <class Note = base::Silent>
double balancingGate(double governing_pa, double branch_pa, double branch_vp_pa, Note&& note = {}) {
  const double k = (governing_pa - branch_pa) / branch_vp_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kBalancingGate, k,
              {{"SP_governing", governing_pa, base::Kind::Pressure},
               {"SP_branch", branch_pa, base::Kind::Pressure},
               {"VP_branch", branch_vp_pa, base::Kind::Pressure}});
  }
  return k;
}

/// What the trade does about two suctions that differ.
enum class Verdict { Balanced, CorrectFlow, Redesign };

/// Below 1.05 nothing, to 1.20 the weaker branch is given more air, beyond that it is designed again.
constexpr Verdict judgeBalance(double ratio) {
  if (ratio < kBalancedRatio) {
    return Verdict::Balanced;
  }
  return ratio <= kRedesignRatio ? Verdict::CorrectFlow : Verdict::Redesign;
}

}  // namespace kerfdraft::hand
