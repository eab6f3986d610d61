// Velocity pressure, the measure of every loss, and the loss of a piece that is so many velocity pressures.
// Flows are mass flows with a sign; a loss has the sign of its flow.
#pragma once

#include <cmath>
#include <numbers>

#include "base/law.h"
#include "base/quantity.h"

namespace kerfdraft::physics {

/// A loss of total pressure and its slope, both at the same flow.
struct Loss {
  double dp_pa = 0;          ///< sign of the flow
  double slope_pa_s_kg = 0;  ///< d dp / d mass flow, never negative
};

inline constexpr base::Law kRoundArea{"round-area",
                                      "Area of a round bore",
                                      "A",
                                      base::Kind::Area,
                                      "A = pi D^2 / 4",
                                      "",
                                      base::SourceStatus::CommonPractice,
                                      ""};
inline constexpr base::Law kMeanSpeed{
    "mean-speed", "Mean speed in a section",          "V", base::Kind::Speed, "V = m / (rho A)",
    "",           base::SourceStatus::CommonPractice, ""};
inline constexpr base::Law kVelocityPressure{"velocity-pressure",
                                             "Velocity pressure",
                                             "VP",
                                             base::Kind::Pressure,
                                             "VP = rho V^2 / 2",
                                             "AcgihIv, ch. 1",
                                             base::SourceStatus::FromMemory,
                                             "air"};
inline constexpr base::Law kSpeedFromVelocityPressure{"speed-from-velocity-pressure",
                                                      "Speed from velocity pressure",
                                                      "V",
                                                      base::Kind::Speed,
                                                      "V = sqrt(2 VP / rho)",
                                                      "AcgihIv, ch. 1",
                                                      base::SourceStatus::FromMemory,
                                                      "air"};
inline constexpr base::Law kTradeSpeed{"trade-speed",
                                       "Speed from velocity pressure, the trade's form",
                                       "V",
                                       base::Kind::Ratio,
                                       "V[fpm] = 4005 sqrt(VP[in w.g.] / df)",
                                       "AcgihIv, ch. 1",
                                       base::SourceStatus::Published,
                                       "air"};
inline constexpr base::Law kLocalLoss{"local-loss",
                                      "Loss of a fitting",
                                      "dp",
                                      base::Kind::Pressure,
                                      "dp = K VP of the named section",
                                      "AshraeF2009, ch. 21",
                                      base::SourceStatus::Published,
                                      ""};

/// Area [m2] of a round bore [m].
template <class Note = base::Silent>
constexpr double roundArea(double bore_m, Note&& note = {}) {
  const double area_m2 = std::numbers::pi / 4 * bore_m * bore_m;
  if constexpr (base::kNoted<Note>) {
    note.step(kRoundArea, area_m2, {{"D", bore_m, base::Kind::Bore}});
  }
  return area_m2;
}

/// Mean speed [m/s] of a mass flow [kg/s], with its sign.
template <class Note = base::Silent>
double meanSpeed(double flow_kg_s, double density_kg_m3, double area_m2, Note&& note = {}) {
  const double speed_m_s = flow_kg_s / (density_kg_m3 * area_m2);
  if constexpr (base::kNoted<Note>) {
    note.step(kMeanSpeed, speed_m_s,
              {{"m", flow_kg_s, base::Kind::MassFlow},
               {"rho", density_kg_m3, base::Kind::Density},
               {"A", area_m2, base::Kind::Area}});
  }
  return speed_m_s;
}

/// Velocity pressure [Pa], never negative. Rows B1 to B12 (tests/published/velocity_pressure_test.cpp).
template <class Note = base::Silent>
double velocityPressure(double density_kg_m3, double speed_m_s, Note&& note = {}) {
  const double vp_pa = 0.5 * density_kg_m3 * speed_m_s * speed_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kVelocityPressure, vp_pa,
              {{"rho", density_kg_m3, base::Kind::Density}, {"V", speed_m_s, base::Kind::Speed}});
  }
  return vp_pa;
}

/// Speed [m/s] from a velocity pressure [Pa], which must not be negative: the caller refuses such a reading.
template <class Note = base::Silent>
double speedFromVelocityPressure(double vp_pa, double density_kg_m3, Note&& note = {}) {
  const double speed_m_s = std::sqrt(2 * vp_pa / density_kg_m3);
  if constexpr (base::kNoted<Note>) {
    note.step(kSpeedFromVelocityPressure, speed_m_s,
              {{"VP", vp_pa, base::Kind::Pressure}, {"rho", density_kg_m3, base::Kind::Density}});
  }
  return speed_m_s;
}

/// The trade's form, for the hand method and for checks: speed [fpm] from inches of water. Its 4005 belongs
/// to 0.075 lb/ft3 and to water at 68 F (248.64 Pa an inch); with the conventional inch it is 4008.6.
template <class Note = base::Silent>
double tradeSpeed(double vp_inches, double density_factor, Note&& note = {}) {
  const double speed_fpm = 4005 * std::sqrt(vp_inches / density_factor);
  if constexpr (base::kNoted<Note>) {
    note.step(kTradeSpeed, speed_fpm,
              {{"VP", vp_inches, base::Kind::Ratio}, {"df", density_factor, base::Kind::Ratio}});
  }
  return speed_fpm;
}

/// Loss of K velocity pressures in a section [m2]: `k_forward` for a flow with positive sign, `k_backward`
/// for one against it. dp = K m|m| / (2 rho A^2); continuous with slope 0 where the flow turns.
/// At fixed mass flow the loss goes as 1/rho, so d dp / d rho = -dp / rho.
template <class Note = base::Silent>
Loss localLoss(double k_forward, double k_backward, double flow_kg_s, double density_kg_m3, double area_m2,
               Note&& note = {}) {
  const double k = flow_kg_s < 0 ? k_backward : k_forward;
  const double slope = k * std::abs(flow_kg_s) / (density_kg_m3 * area_m2 * area_m2);
  const Loss loss{0.5 * slope * flow_kg_s, slope};
  if constexpr (base::kNoted<Note>) {
    const double speed_m_s = meanSpeed(flow_kg_s, density_kg_m3, area_m2, note);
    const double vp_pa = velocityPressure(density_kg_m3, speed_m_s, note);
    note.step(kLocalLoss, loss.dp_pa, {{"K", k, base::Kind::Ratio}, {"VP", vp_pa, base::Kind::Pressure}});
  }
  return loss;
}

}  // namespace kerfdraft::physics
