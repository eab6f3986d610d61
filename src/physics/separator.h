// Separators ahead of a filter or fan as loss coefficients on their inlet velocity pressure: cyclone, lid,
// drop box. localLoss() charges them; physics/cyclone.h has the cyclone's own numbers.
#pragma once

#include <cmath>

#include "base/law.h"
#include "physics/air.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

/// Cyclone of which nothing is known: inlet velocity heads on its round inlet, and their band (common
/// practice).
inline constexpr double kCycloneDefaultHeads = 3.0;
inline constexpr double kCycloneDefaultHeadsBand = 1.5;
/// Lid separator: pressure at its rated flow in standard air, 2.0 in w.g. (common practice; 1 to 3 are
/// reported).
inline constexpr double kLidDrop_pa = 2.0 * 249.08891;
/// Drop box or settling chamber, on the velocity pressure of its inlet: 1.0 for the entry into a large box
/// and 0.5 for leaving it sharp-edged (Idelchik); the practice figure is the same 1.5.
inline constexpr double kDropBoxK = 1.5;

inline constexpr base::Law kLidSeparator{"lid-separator",
                                         "Loss coefficient of a lid separator",
                                         "K",
                                         base::Kind::Ratio,
                                         "K = 2.0 in w.g. / VP of the inlet at the rated flow, standard air",
                                         "",
                                         base::SourceStatus::CommonPractice,
                                         "filters"};
inline constexpr base::Law kSettling{"drop-box-collection",
                                     "Share that settles in a chamber",
                                     "eta",
                                     base::Kind::Ratio,
                                     "plug: min(1, v_t L/(V H)); mixed: 1 - exp(-v_t L/(V H))",
                                     "AirPollutionTexts",
                                     base::SourceStatus::FromMemory,
                                     "filters"};

/// K of a lid separator on the velocity pressure of its inlet, from the flow it is rated for. All above zero.
template <class Note = base::Silent>
double lidSeparatorK(double rated_flow_m3_s, double inlet_m2, Note&& note = {}) {
  const double vp_pa = velocityPressure(kStandardDensity_kg_m3, rated_flow_m3_s / inlet_m2, note);
  const double k = kLidDrop_pa / vp_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kLidSeparator, k,
              {{"dp", kLidDrop_pa, base::Kind::Pressure}, {"VP", vp_pa, base::Kind::Pressure}});
  }
  return k;
}

/// Two limits of how much settles in a chamber: nothing mixes, or all is mixed.
struct Settling {
  double plug = 0;
  double mixed = 0;
};

/// Share of pieces of terminal velocity `fall_m_s` that settle in a chamber of this length and height at the
/// mean speed of the air. All above zero.
template <class Note = base::Silent>
Settling settling(double fall_m_s, double length_m, double height_m, double speed_m_s, Note&& note = {}) {
  const double number = fall_m_s * length_m / (speed_m_s * height_m);
  const Settling out{number < 1 ? number : 1.0, -std::expm1(-number)};
  if constexpr (base::kNoted<Note>) {
    note.step(kSettling, out.mixed,
              {{"v_t", fall_m_s, base::Kind::Speed},
               {"L", length_m, base::Kind::Length},
               {"V", speed_m_s, base::Kind::Speed},
               {"H", height_m, base::Kind::Length}});
  }
  return out;
}

}  // namespace kerfdraft::physics
