// From a raw reading to pressure, speed and flow: each law once, for plain numbers and for numbers that
// carry their derivatives.
#pragma once

#include <cmath>
#include <numbers>

#include "base/law.h"
#include "field/graded.h"

namespace kerfdraft::field {

/// Weight of conventional water, 1000 kg/m3 × 9.80665 m/s2; one inch of it is 249.08891 Pa.
inline constexpr double kConventionalWater_pa_m = 9806.65;

inline constexpr base::Law kLegsSummed{"u-tube-legs-summed",
                                       "Difference of the two levels",
                                       "h",
                                       base::Kind::Bore,
                                       "h = h1 + h2",
                                       "",
                                       base::SourceStatus::CommonPractice,
                                       "instruments"};
inline constexpr base::Law kOneLegDoubled{"u-tube-one-leg",
                                          "Difference of the two levels from one leg",
                                          "h",
                                          base::Kind::Bore,
                                          "h = n h1, n = 2",
                                          "",
                                          base::SourceStatus::CommonPractice,
                                          "instruments"};
inline constexpr base::Law kInclinedHeight{"inclined-height",
                                           "Height from the reading along an inclined leg",
                                           "h",
                                           base::Kind::Bore,
                                           "h = R (s + a/Aw)",
                                           "Iso3966, gauges",
                                           base::SourceStatus::FromMemory,
                                           "instruments"};
inline constexpr base::Law kColumnPressure{"column-pressure",
                                           "Pressure of a liquid column",
                                           "dp",
                                           base::Kind::Pressure,
                                           "dp = SG (1000 g0) h",
                                           "NistSp811, conventional water",
                                           base::SourceStatus::FromMemory,
                                           "instruments"};
inline constexpr base::Law kOtherLiquid{"scale-other-liquid",
                                        "Pressure from a scale made for another liquid",
                                        "dp",
                                        base::Kind::Pressure,
                                        "dp = p_scale SG/SG_scale",
                                        "",
                                        base::SourceStatus::CommonPractice,
                                        "instruments"};
inline constexpr base::Law kTubeSpeed{"tube-speed",
                                      "Speed from a pitot tube",
                                      "V",
                                      base::Kind::Speed,
                                      "V = C sqrt(2 dp/rho)",
                                      "Epa40Cfr60M2, eq. 2-7 without its unit constant",
                                      base::SourceStatus::FromMemory,
                                      "instruments"};
inline constexpr base::Law kEntryCoefficient{"entry-coefficient",
                                             "Coefficient of entry",
                                             "Ce",
                                             base::Kind::Ratio,
                                             "Ce = 1/sqrt(1 + Fh)",
                                             "AcgihIv, ch. 3",
                                             base::SourceStatus::FromMemory,
                                             "instruments"};
inline constexpr base::Law kHoodSpeed{"hood-speed",
                                      "Speed from hood static pressure",
                                      "V",
                                      base::Kind::Speed,
                                      "V = Ce sqrt(2 SPh/rho)",
                                      "AcgihIv, ch. 3",
                                      base::SourceStatus::FromMemory,
                                      "instruments"};
inline constexpr base::Law kThermalSpeed{"thermal-speed",
                                         "Speed from a hot-wire indication",
                                         "V",
                                         base::Kind::Speed,
                                         "V = V_ind rho_cal/rho",
                                         "Ashrae111",
                                         base::SourceStatus::FromMemory,
                                         "instruments"};
inline constexpr base::Law kMeanOfSpeeds{
    "mean-of-speeds", "Mean of the speeds",           "Vm",         base::Kind::Speed, "Vm = sum(V_i)/n",
    "Epa40Cfr60M2",   base::SourceStatus::FromMemory, "instruments"};
inline constexpr base::Law kFactoredSpeed{"factored-speed",
                                          "Speed of the section",
                                          "V",
                                          base::Kind::Speed,
                                          "V = k Vm",
                                          "",
                                          base::SourceStatus::CommonPractice,
                                          "instruments"};
inline constexpr base::Law kRoundArea{
    "round-area", "Area of a round section",     "A", base::Kind::Area, "A = pi d^2/4",
    "geometry",   base::SourceStatus::Published, ""};
inline constexpr base::Law kRectangularArea{
    "rectangular-area", "Area of a rectangular section", "A", base::Kind::Area, "A = a b",
    "geometry",         base::SourceStatus::Published,   ""};
inline constexpr base::Law kFlowThrough{
    "flow-through-section", "Flow through a section",      "Q", base::Kind::VolumeFlow, "Q = A V",
    "continuity",           base::SourceStatus::Published, ""};

/// Difference of levels [m] of a U-tube: the rise in one leg plus the fall in the other.
template <class Real, class Note = base::Silent>
Real legsSummed(const Real& leg_1_m, const Real& leg_2_m, Note&& note = {}) {
  const Real h_m = leg_1_m + leg_2_m;
  if constexpr (base::kNoted<Note>) {
    note.step(kLegsSummed, valueOf(h_m),
              {{"h1", valueOf(leg_1_m), base::Kind::Bore}, {"h2", valueOf(leg_2_m), base::Kind::Bore}});
  }
  return h_m;
}

/// Difference of levels [m] from the movement of one leg; `legs` is 2 for legs of equal bore.
template <class Real, class Note = base::Silent>
Real oneLegDoubled(const Real& leg_m, const Real& legs, Note&& note = {}) {
  const Real h_m = legs * leg_m;
  if constexpr (base::kNoted<Note>) {
    note.step(kOneLegDoubled, valueOf(h_m),
              {{"n", valueOf(legs), base::Kind::Ratio}, {"h1", valueOf(leg_m), base::Kind::Bore}});
  }
  return h_m;
}

/// Height [m] between the levels of a gauge with a reservoir and one leg that rises `rise` per length, read
/// `along_m` from its zero. `well` is leg area / reservoir area; 0 where the scale was shortened for it.
template <class Real, class Note = base::Silent>
Real inclinedHeight(const Real& along_m, const Real& rise, const Real& well, Note&& note = {}) {
  const Real h_m = along_m * (rise + well);
  if constexpr (base::kNoted<Note>) {
    note.step(kInclinedHeight, valueOf(h_m),
              {{"R", valueOf(along_m), base::Kind::Bore},
               {"s", valueOf(rise), base::Kind::Ratio},
               {"a/Aw", valueOf(well), base::Kind::Ratio}});
  }
  return h_m;
}

/// Pressure [Pa] of a column of height [m]; specific gravity against conventional water (1000 kg/m3).
template <class Real, class Note = base::Silent>
Real columnPressure(const Real& specific_gravity, const Real& height_m, Note&& note = {}) {
  const Real dp_pa = Real(kConventionalWater_pa_m) * specific_gravity * height_m;
  if constexpr (base::kNoted<Note>) {
    note.step(
        kColumnPressure, valueOf(dp_pa),
        {{"SG", valueOf(specific_gravity), base::Kind::Ratio}, {"h", valueOf(height_m), base::Kind::Bore}});
  }
  return dp_pa;
}

/// Pressure [Pa] from a scale marked in pressure for `scale_gravity` while the tube holds `gravity`.
template <class Real, class Note = base::Silent>
Real otherLiquid(const Real& scale_pa, const Real& gravity, const Real& scale_gravity, Note&& note = {}) {
  const Real dp_pa = scale_pa * gravity / scale_gravity;
  if constexpr (base::kNoted<Note>) {
    note.step(kOtherLiquid, valueOf(dp_pa),
              {{"p_scale", valueOf(scale_pa), base::Kind::Pressure},
               {"SG", valueOf(gravity), base::Kind::Ratio},
               {"SG_scale", valueOf(scale_gravity), base::Kind::Ratio}});
  }
  return dp_pa;
}

/// Speed [m/s] from the difference [Pa] of a pitot tube of coefficient C. Incompressible: below 60 m/s the
/// air's compression changes dp by less than 0.8 %. Rows B16–B19 in tests/published/reading_test.cpp.
template <class Real, class Note = base::Silent>
Real tubeSpeed(const Real& coefficient, const Real& dp_pa, const Real& density_kg_m3, Note&& note = {}) {
  using std::sqrt;
  const Real speed_m_s = coefficient * sqrt(Real(2.0) * dp_pa / density_kg_m3);
  if constexpr (base::kNoted<Note>) {
    note.step(kTubeSpeed, valueOf(speed_m_s),
              {{"C", valueOf(coefficient), base::Kind::Ratio},
               {"dp", valueOf(dp_pa), base::Kind::Pressure},
               {"rho", valueOf(density_kg_m3), base::Kind::Density}});
  }
  return speed_m_s;
}

/// Coefficient of entry from the entry loss of a hood on velocity pressure.
template <class Real, class Note = base::Silent>
Real entryCoefficient(const Real& entry_loss, Note&& note = {}) {
  using std::sqrt;
  const Real ce = Real(1.0) / sqrt(Real(1.0) + entry_loss);
  if constexpr (base::kNoted<Note>) {
    note.step(kEntryCoefficient, valueOf(ce), {{"Fh", valueOf(entry_loss), base::Kind::Ratio}});
  }
  return ce;
}

/// Speed [m/s] in the duct from the hood static suction [Pa, as a magnitude]. Rows E4 and E5.
template <class Real, class Note = base::Silent>
Real hoodSpeed(const Real& entry, const Real& suction_pa, const Real& density_kg_m3, Note&& note = {}) {
  using std::sqrt;
  const Real speed_m_s = entry * sqrt(Real(2.0) * suction_pa / density_kg_m3);
  if constexpr (base::kNoted<Note>) {
    note.step(kHoodSpeed, valueOf(speed_m_s),
              {{"Ce", valueOf(entry), base::Kind::Ratio},
               {"SPh", valueOf(suction_pa), base::Kind::Pressure},
               {"rho", valueOf(density_kg_m3), base::Kind::Density}});
  }
  return speed_m_s;
}

/// Speed [m/s] where a heated sensor, which feels mass flow, shows the speed of air of its calibration.
template <class Real, class Note = base::Silent>
Real thermalSpeed(const Real& shown_m_s, const Real& calibration_kg_m3, const Real& density_kg_m3,
                  Note&& note = {}) {
  const Real speed_m_s = shown_m_s * calibration_kg_m3 / density_kg_m3;
  if constexpr (base::kNoted<Note>) {
    note.step(kThermalSpeed, valueOf(speed_m_s),
              {{"V_ind", valueOf(shown_m_s), base::Kind::Speed},
               {"rho_cal", valueOf(calibration_kg_m3), base::Kind::Density},
               {"rho", valueOf(density_kg_m3), base::Kind::Density}});
  }
  return speed_m_s;
}

/// Mean [m/s] of n speeds, given as their sum. Speeds are averaged, never pressures.
template <class Real, class Note = base::Silent>
Real meanOfSpeeds(const Real& sum_m_s, double count, Note&& note = {}) {
  const Real mean_m_s = sum_m_s / Real(count);
  if constexpr (base::kNoted<Note>) {
    note.step(kMeanOfSpeeds, valueOf(mean_m_s),
              {{"sum", valueOf(sum_m_s), base::Kind::Speed}, {"n", count, base::Kind::Ratio}});
  }
  return mean_m_s;
}

/// Speed times one correction factor (place in the duct, integration, alignment …).
template <class Real, class Note = base::Silent>
Real factoredSpeed(const Real& factor, const Real& speed_m_s, Note&& note = {}) {
  const Real result_m_s = factor * speed_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kFactoredSpeed, valueOf(result_m_s),
              {{"k", valueOf(factor), base::Kind::Ratio}, {"Vm", valueOf(speed_m_s), base::Kind::Speed}});
  }
  return result_m_s;
}

/// Area [m2] of a round section.
template <class Real, class Note = base::Silent>
Real roundArea(const Real& bore_m, Note&& note = {}) {
  const Real area_m2 = Real(std::numbers::pi / 4) * bore_m * bore_m;
  if constexpr (base::kNoted<Note>) {
    note.step(kRoundArea, valueOf(area_m2), {{"d", valueOf(bore_m), base::Kind::Bore}});
  }
  return area_m2;
}

/// Area [m2] of a rectangular section.
template <class Real, class Note = base::Silent>
Real rectangularArea(const Real& width_m, const Real& height_m, Note&& note = {}) {
  const Real area_m2 = width_m * height_m;
  if constexpr (base::kNoted<Note>) {
    note.step(kRectangularArea, valueOf(area_m2),
              {{"a", valueOf(width_m), base::Kind::Bore}, {"b", valueOf(height_m), base::Kind::Bore}});
  }
  return area_m2;
}

/// Flow [m3/s] of the air as it is at the plane.
template <class Real, class Note = base::Silent>
Real flowThrough(const Real& area_m2, const Real& speed_m_s, Note&& note = {}) {
  const Real flow_m3_s = area_m2 * speed_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kFlowThrough, valueOf(flow_m3_s),
              {{"A", valueOf(area_m2), base::Kind::Area}, {"V", valueOf(speed_m_s), base::Kind::Speed}});
  }
  return flow_m3_s;
}

}  // namespace kerfdraft::field
