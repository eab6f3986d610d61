// Filters: pressure through a medium with its dust, the three states that a shop knows (clean, seasoned,
// due), what is charged when the filter was in the fan's test, and how much medium a flow needs.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "base/law.h"
#include "base/result.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

enum class FilterState { Clean, Seasoned, Due };

/// "clean", "seasoned", "due".
std::string_view toText(FilterState state);

inline constexpr base::Law kFilterFaceSpeed{"filter-face-speed",
                                            "Speed through the filter medium",
                                            "V_f",
                                            base::Kind::Speed,
                                            "V_f = Q / A",
                                            "WangPereiraHung2004, p. 61",
                                            base::SourceStatus::Published,
                                            "filters"};
inline constexpr base::Law kFilterResistance{"filter-resistance",
                                             "Resistance of a medium with its dust",
                                             "R",
                                             base::Kind::Ratio,
                                             "R = (S_e + K2 W) / A, in Pa s/m3",
                                             "WangPereiraHung2004, p. 61",
                                             base::SourceStatus::Published,
                                             "filters"};
inline constexpr base::Law kFilterLoss{"filter-loss",
                                       "Pressure through a filter",
                                       "dp",
                                       base::Kind::Pressure,
                                       "dp = R m / rho",
                                       "WangPereiraHung2004, p. 61",
                                       base::SourceStatus::Published,
                                       "filters"};
inline constexpr base::Law kFilterCharged{
    "filter-charged",
    "Resistance charged beside a curve that was measured with the filter fitted",
    "R",
    base::Kind::Ratio,
    "R = max(0, R(state) - R(clean))",
    "",
    base::SourceStatus::Ours,
    "filters"};
inline constexpr base::Law kFilterAreaNeeded{
    "filter-area-needed", "Filter area for a loading limit", "A",      base::Kind::Area, "A = Q / V_limit",
    "Dguv209044, 5.4",    base::SourceStatus::Published,     "filters"};
inline constexpr base::Law kGasToCloth{
    "gas-to-cloth",
    "Gas-to-cloth ratio of a pulse-jet filter",
    "V_f",
    base::Kind::Speed,
    "G/C[fpm] = 2.878 A B T[F]^-0.2335 L[gr/ft3]^-0.06021 (0.7471 + 0.0853 ln D[um])",
    "EpaCostManual, baghouse chapter",
    base::SourceStatus::FromMemory,
    "filters"};
inline constexpr base::Law kPulseJetPressure{"pulse-jet-pressure",
                                             "Pressure through a pulse-jet filter",
                                             "dp",
                                             base::Kind::Pressure,
                                             "dp[in w.g.] = 6.08 V[fpm] P_j[psig]^-0.65 + K2 C_i V^2 t",
                                             "EpaCostManual, baghouse chapter",
                                             base::SourceStatus::FromMemory,
                                             "filters"};

/// Speed [m/s] through `area_m2` of medium.
template <class Note = base::Silent>
double filterFaceSpeed(double flow_m3_s, double area_m2, Note&& note = {}) {
  const double speed_m_s = flow_m3_s / area_m2;
  if constexpr (base::kNoted<Note>) {
    note.step(kFilterFaceSpeed, speed_m_s,
              {{"Q", flow_m3_s, base::Kind::VolumeFlow}, {"A", area_m2, base::Kind::Area}});
  }
  return speed_m_s;
}

/// Resistance [Pa s/m3] of a medium with dust on it. `medium_pa_s_m` is S_e, `dust_per_s` is K2 [1/s], and
/// `dust_kg_m2` the mass per area since cleaning. Rows L1 to L3. At constant caught mass, half the area has
/// four times the resistance of the cake.
template <class Note = base::Silent>
double filterResistance(double medium_pa_s_m, double dust_per_s, double dust_kg_m2, double area_m2,
                        Note&& note = {}) {
  const double resistance = (medium_pa_s_m + dust_per_s * dust_kg_m2) / area_m2;
  if constexpr (base::kNoted<Note>) {
    note.step(kFilterResistance, resistance,
              {{"S_e", medium_pa_s_m, base::Kind::Ratio},
               {"K2", dust_per_s, base::Kind::Ratio},
               {"W", dust_kg_m2, base::Kind::Ratio},
               {"A", area_m2, base::Kind::Area}});
  }
  return resistance;
}

/// Loss through a filter of `resistance_pa_s_m3`, laminar: proportional to the actual volume, of the sign of
/// the flow. At fixed mass flow it goes as 1/rho. Exact derivative. Test: Filter.LossMatchesItsDerivative.
template <class Note = base::Silent>
Loss filterLoss(double resistance_pa_s_m3, double flow_kg_s, double density_kg_m3, Note&& note = {}) {
  const double slope = resistance_pa_s_m3 / density_kg_m3;
  const Loss loss{slope * flow_kg_s, slope};
  if constexpr (base::kNoted<Note>) {
    note.step(kFilterLoss, loss.dp_pa,
              {{"R", resistance_pa_s_m3, base::Kind::Ratio},
               {"m", flow_kg_s, base::Kind::MassFlow},
               {"rho", density_kg_m3, base::Kind::Density}});
  }
  return loss;
}

/// What is charged beside a curve that already holds the clean filter: the rest, never below zero.
template <class Note = base::Silent>
double filterCharged(double resistance_pa_s_m3, double clean_pa_s_m3, Note&& note = {}) {
  const double rest = resistance_pa_s_m3 - clean_pa_s_m3;
  const double charged = rest > 0 ? rest : 0.0;
  if constexpr (base::kNoted<Note>) {
    note.step(kFilterCharged, charged,
              {{"R(state)", resistance_pa_s_m3, base::Kind::Ratio},
               {"R(clean)", clean_pa_s_m3, base::Kind::Ratio}});
  }
  return charged;
}

/// Area [m2] that keeps the speed through the medium at `limit_m_s`. Woodshop rows: 820 m3/h at 150 m3/(m2
/// h).
template <class Note = base::Silent>
double filterAreaNeeded(double flow_m3_s, double limit_m_s, Note&& note = {}) {
  const double area_m2 = flow_m3_s / limit_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kFilterAreaNeeded, area_m2,
              {{"Q", flow_m3_s, base::Kind::VolumeFlow}, {"V_limit", limit_m_s, base::Kind::Speed}});
  }
  return area_m2;
}

/// A pressure at a flow, as a gauge on the filter shows it.
struct DropAtFlow {
  double dp_pa = 0;
  double flow_m3_s = 0;
};

/// A medium by its coefficients, with the dust on it in each state.
struct FilterMedium {
  double medium_pa_s_m = 0;
  double dust_per_s = 0;
  double clean_kg_m2 = 0;
  double seasoned_kg_m2 = 0;
  double due_kg_m2 = 0;
};

/// What is known of a filter. Everything may be missing; a reading goes before coefficients, these before
/// defaults.
struct FilterData {
  std::optional<double> area_m2 = std::nullopt;
  std::optional<FilterMedium> medium = std::nullopt;  ///< needs the area
  std::optional<DropAtFlow> clean = std::nullopt;
  std::optional<DropAtFlow> seasoned = std::nullopt;
  std::optional<DropAtFlow> due = std::nullopt;
};

/// Resistances [Pa s/m3] of the three states, each marked where it is a default and not data.
struct FilterResistances {
  double clean = 0;
  double seasoned = 0;
  double due = 0;
  bool clean_assumed = false;
  bool seasoned_assumed = false;
  bool due_assumed = false;

  double at(FilterState state) const {
    return state == FilterState::Clean ? clean : (state == FilterState::Seasoned ? seasoned : due);
  }
  bool assumed(FilterState state) const {
    return state == FilterState::Clean ? clean_assumed
                                       : (state == FilterState::Seasoned ? seasoned_assumed : due_assumed);
  }
};

/// Defaults where nothing is known (common practice; band: a factor 1.6).
inline constexpr double kFilterCleanDrop_pa = 120;
inline constexpr double kFilterSeasonedOverClean = 3;
inline constexpr double kFilterDueDrop_pa = 1100;
inline constexpr double kFilterDueOverSeasoned = 1.5;
inline constexpr double kFilterReferenceSpeed_m_s = 0.025;

/// Resistances from what is known. A state that is not known is 120 Pa clean, 3 x clean seasoned, 1.1 kPa due
/// but never below 1.5 x seasoned; the pressures hold at the flow of 25 mm/s through the medium, or without
/// area at `unit_flow_m3_s` (the unit's flow at half its shut-off suction), or without that at the flow of a
/// reading given. Where only a dirtier state is known, a cleaner one is the default, but never above what the
/// known one allows (seasoned/3, due/1.5). Refused with a sentence: an area, flow, pressure or coefficient
/// that is not above zero or not a number (dust may be zero); a medium without area; states in which a
/// dirtier filter has less resistance; nothing to take a reference flow from.
base::Result<FilterResistances> filterResistances(const FilterData& data,
                                                  std::optional<double> unit_flow_m3_s = std::nullopt,
                                                  std::string where = {});

/// A factor formula's result, with the reach of its data.
struct GasToCloth {
  double speed_m_s = 0;
  bool in_range = true;
};

/// Gas-to-cloth speed of a pulse-jet filter: `material` A and `application` B from the source's tables,
/// temperature [K] (50 to 275 F), dust load [kg/m3] (0.05 to 100 gr/ft3), mass mean size [m] (3 to 100 um). A
/// check on a filter's size, not a law of the network. Rows L4 (worked calculation elsewhere, 4.689222 fpm),
/// L6.
template <class Note = base::Silent>
GasToCloth gasToCloth(double material, double application, double temperature_k, double load_kg_m3,
                      double size_m, Note&& note = {}) {
  constexpr double kGrainPerFoot3_kg_m3 = 0.45359237 / 7000 / (0.3048 * 0.3048 * 0.3048);
  constexpr double kFpm_m_s = 0.3048 / 60;
  const double fahrenheit = temperature_k * 1.8 - 459.67;
  const double load = load_kg_m3 / kGrainPerFoot3_kg_m3;
  const double size_um = size_m * 1e6;
  const double ratio_fpm = 2.878 * material * application * std::pow(fahrenheit, -0.2335) *
                           std::pow(load, -0.06021) * (0.7471 + 0.0853 * std::log(size_um));
  GasToCloth out;
  out.speed_m_s = ratio_fpm * kFpm_m_s;
  // The edges of the ranges are inside: a unit converted there and back must not fall out.
  const auto within = [](double x, double low, double high) {
    return x >= low * (1 - 1e-9) && x <= high * (1 + 1e-9);
  };
  out.in_range = within(fahrenheit, 50, 275) && within(load, 0.05, 100) && within(size_um, 3, 100);
  if constexpr (base::kNoted<Note>) {
    note.step(kGasToCloth, out.speed_m_s,
              {{"A", material, base::Kind::Ratio},
               {"B", application, base::Kind::Ratio},
               {"T", temperature_k, base::Kind::Temperature},
               {"L", load_kg_m3, base::Kind::Density},
               {"D", size_m, base::Kind::Bore}});
  }
  return out;
}

/// Pressure [Pa] through a pulse-jet filter at `speed_m_s` with `pulse_pa` (gauge) of cleaning air, specific
/// resistance `dust_per_s` [1/s], load [kg/m3] and time since cleaning [s]. The first term is that of the
/// source with the conventional inch of water. Row L5.
template <class Note = base::Silent>
double pulseJetPressure(double speed_m_s, double pulse_pa, double dust_per_s, double load_kg_m3,
                        double time_s, Note&& note = {}) {
  constexpr double kInch_pa = 249.08891;
  constexpr double kFpm_m_s = 0.3048 / 60;
  constexpr double kPsi_pa = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
  const double cleaned_pa = 6.08 * kInch_pa * (speed_m_s / kFpm_m_s) * std::pow(pulse_pa / kPsi_pa, -0.65);
  const double caught_kg_m2 = load_kg_m3 * speed_m_s * time_s;
  const double dp_pa = cleaned_pa + dust_per_s * caught_kg_m2 * speed_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kPulseJetPressure, dp_pa,
              {{"V", speed_m_s, base::Kind::Speed},
               {"P_j", pulse_pa, base::Kind::Pressure},
               {"K2", dust_per_s, base::Kind::Ratio},
               {"C_i", load_kg_m3, base::Kind::Density},
               {"t", time_s, base::Kind::Time}});
  }
  return dp_pa;
}

}  // namespace kerfdraft::physics
