// From what was rated on a fan or collector to the rise of total pressure that a network uses; fan laws,
// powers, and what a label claims against what a wheel and a motor can do.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "base/law.h"
#include "base/result.h"
#include "physics/fan_curve.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

/// What a rated pressure was. It must be said: the same number means different air.
enum class RatingBasis {
  StaticAtInlet,  ///< suction read at a wall tap in the pipe before the unit
  TotalAtInlet,   ///< suction of total pressure before the unit
  FanStatic,      ///< fan static pressure: total out - total in - velocity pressure at the fan outlet
  FanTotal,       ///< fan total pressure: total out - total in
};

/// "static in the inlet pipe" and the like, for sentences.
std::string_view toText(RatingBasis basis);

/// True where the rating holds everything behind the inlet, the discharge too. Such a unit takes up the
/// thinner air at its inlet by itself (pressure goes with room density), and a duct behind it starts at total
/// pressure 0.
constexpr bool ratedAtInlet(RatingBasis basis) {
  return basis == RatingBasis::StaticAtInlet || basis == RatingBasis::TotalAtInlet;
}

/// Multipliers of flow, pressure and power for a fan of the same shape.
struct FanScale {
  double flow = 1;
  double pressure = 1;
  double power = 1;
};

inline constexpr base::Law kFanLawFlow{
    "fan-law-flow", "Flow of a fan by the fan laws", "Q2/Q1", base::Kind::Ratio, "Q2/Q1 = n d^3",
    "Amca210",      base::SourceStatus::FromMemory,  "fans"};
inline constexpr base::Law kFanLawPressure{"fan-law-pressure",
                                           "Pressure of a fan by the fan laws",
                                           "p2/p1",
                                           base::Kind::Ratio,
                                           "p2/p1 = n^2 d^2 (rho2/rho1)",
                                           "Amca210",
                                           base::SourceStatus::FromMemory,
                                           "fans"};
inline constexpr base::Law kFanLawPower{"fan-law-power",
                                        "Power of a fan by the fan laws",
                                        "P2/P1",
                                        base::Kind::Ratio,
                                        "P2/P1 = n^3 d^5 (rho2/rho1)",
                                        "Amca210",
                                        base::SourceStatus::FromMemory,
                                        "fans"};
inline constexpr base::Law kFanRiseAsRated{"fan-rise-as-rated",
                                           "Rise of total pressure of the fan",
                                           "p_t",
                                           base::Kind::Pressure,
                                           "p_t = n^2 (rho/rho_test) p_f",
                                           "Amca210",
                                           base::SourceStatus::FromMemory,
                                           "fans"};
inline constexpr base::Law kFanRiseFromInletStatic{
    "fan-rise-from-inlet-static",
    "Rise of total pressure of the unit, from static in its inlet pipe",
    "p_t",
    base::Kind::Pressure,
    "p_t = n^2 (rho/rho_test) p_f - VP",
    "",
    base::SourceStatus::Ours,
    "fans"};
inline constexpr base::Law kFanRiseFromFanStatic{"fan-rise-from-fan-static",
                                                 "Rise of total pressure of the fan, from fan static",
                                                 "p_t",
                                                 base::Kind::Pressure,
                                                 "p_t = n^2 (rho/rho_test) p_f + VP",
                                                 "Amca210",
                                                 base::SourceStatus::FromMemory,
                                                 "fans"};
inline constexpr base::Law kAirPower{"air-power",
                                     "Air power",
                                     "P_air",
                                     base::Kind::Power,
                                     "P_air = Q p_t",
                                     "Amca210",
                                     base::SourceStatus::FromMemory,
                                     "fans"};
inline constexpr base::Law kShaftPower{"shaft-power",
                                       "Shaft power",
                                       "P",
                                       base::Kind::Power,
                                       "P = P_air / eta",
                                       "Amca210",
                                       base::SourceStatus::FromMemory,
                                       "fans"};
inline constexpr base::Law kTipSpeed{
    "tip-speed", "Speed of the wheel's rim",     "u",   base::Kind::Speed, "u = omega D / 2",
    "Amca210",   base::SourceStatus::FromMemory, "fans"};
inline constexpr base::Law kTipPressure{"tip-pressure",
                                        "Pressure scale of the wheel",
                                        "rho u^2",
                                        base::Kind::Pressure,
                                        "p_u = rho u^2; shut-off 0.60 to 0.65 of it",
                                        "",
                                        base::SourceStatus::CommonPractice,
                                        "fans"};

/// Fan laws for the same point of rating: speed, wheel diameter and inlet density, each new over old, above
/// zero. Exact for similar fans of small pressure ratio. Source: AMCA 210 (from memory). Test:
/// PublishedFan.FanLawTable (P2), 8e-6 relative, which is the table's own rounding.
template <class Note = base::Silent>
FanScale fanLaws(double speed_ratio, double diameter_ratio, double density_ratio, Note&& note = {}) {
  const double n = speed_ratio;
  const double d = diameter_ratio;
  FanScale out;
  out.flow = n * d * d * d;
  out.pressure = n * n * d * d * density_ratio;
  out.power = n * n * n * d * d * d * d * d * density_ratio;
  if constexpr (base::kNoted<Note>) {
    note.step(kFanLawFlow, out.flow, {{"n", n, base::Kind::Ratio}, {"d", d, base::Kind::Ratio}});
    note.step(kFanLawPressure, out.pressure,
              {{"n", n, base::Kind::Ratio},
               {"d", d, base::Kind::Ratio},
               {"rho2/rho1", density_ratio, base::Kind::Ratio}});
    note.step(kFanLawPower, out.power,
              {{"n", n, base::Kind::Ratio},
               {"d", d, base::Kind::Ratio},
               {"rho2/rho1", density_ratio, base::Kind::Ratio}});
  }
  return out;
}

/// A rated curve, ready for a network. Made by makeFanRating() or makeLabelRating(), which check.
struct FanRating {
  FanCurve curve;  ///< in the rated basis, at the rated speed and density
  RatingBasis basis = RatingBasis::StaticAtInlet;
  double density_kg_m3 =
      0;  ///< of the test: in the room for a rating at the inlet, at the fan's inlet otherwise
  /// Section of the velocity pressure between the rated and the total pressure: the test bore for static at
  /// the inlet, the fan outlet for fan static; 0 where there is none, or where the outlet is not known.
  double section_m2 = 0;
  double speed_ratio = 1;  ///< running over rated
};

/// Rise of total pressure [Pa] from the inlet to the outlet of a running unit, and its derivative by the flow
/// at constant densities.
///
/// `flow_m3_s` is actual air at the inlet, any sign. For a rating at the inlet the curve is scaled by
/// `room_density_kg_m3`, since the thinner air at the inlet was in the test too; a fan rating is scaled by
/// `inlet_density_kg_m3`. The velocity pressure of the section is taken at `inlet_density_kg_m3`, and only
/// for forward flow: reversed flow through a running fan is a continuation, not data. In uniform density give
/// the same density twice. C1 everywhere. `rising` and `beyond_data` are those of the rated curve. Source:
/// definitions of AMCA 210 and ISO 5801 (from memory). Tests: Fan.RiseMatchesItsDerivative,
/// PublishedFan.InletAndOutletReadings (P1).
template <class Note = base::Silent>
CurveValue fanRise(const FanRating& rating, double flow_m3_s, double room_density_kg_m3,
                   double inlet_density_kg_m3, Note&& note = {}) {
  const double n = rating.speed_ratio;
  const double rho = ratedAtInlet(rating.basis) ? room_density_kg_m3 : inlet_density_kg_m3;
  const double scale = n * n * rho / rating.density_kg_m3;
  CurveValue out = fanCurvePoint(rating.curve, flow_m3_s / n, note);
  const double rated_pa = out.p_pa;
  out.p_pa *= scale;
  out.dp_d_q *= scale / n;
  const double sign =
      rating.section_m2 <= 0 ? 0.0 : (rating.basis == RatingBasis::StaticAtInlet ? -1.0 : 1.0);
  double vp_pa = 0;
  if (sign != 0 && flow_m3_s > 0) {
    const double speed_m_s = flow_m3_s / rating.section_m2;
    vp_pa = velocityPressure(inlet_density_kg_m3, speed_m_s, note);
    out.p_pa += sign * vp_pa;
    out.dp_d_q += sign * inlet_density_kg_m3 * speed_m_s / rating.section_m2;
  }
  if constexpr (base::kNoted<Note>) {
    using base::Kind;
    const base::Law& law =
        sign == 0 ? kFanRiseAsRated : (sign < 0 ? kFanRiseFromInletStatic : kFanRiseFromFanStatic);
    note.step(law, out.p_pa,
              {{"n", n, Kind::Ratio},
               {"rho", rho, Kind::Density},
               {"rho_test", rating.density_kg_m3, Kind::Density},
               {"p_f", rated_pa, Kind::Pressure},
               {"VP", vp_pa, Kind::Pressure}});
  }
  return out;
}

/// What must be known beside the points. Bores are inside diameters.
struct RatingConditions {
  RatingBasis basis = RatingBasis::StaticAtInlet;
  double density_kg_m3 = 0;                          ///< of the test
  std::optional<double> test_bore_m = std::nullopt;  ///< needed for static at the inlet
  std::optional<double> outlet_bore_m =
      std::nullopt;        ///< for fan static; unknown: no velocity pressure is added
  double speed_ratio = 1;  ///< running over rated
};

/// A rating from points. Refused with a sentence: what makeFanCurve() refuses; static in the inlet pipe
/// without the bore of that pipe; bores, density or speed that are not above zero.
base::Result<FanRating> makeFanRating(std::span<const FanPoint> points, const RatingConditions& conditions);

/// A rating from a label alone: free-air flow Q_f and greatest suction p_s give p = p_s (1 - (Q/(0.75
/// Q_f))^2), static in the inlet pipe of bore `inlet_bore_m` (common practice; band 30 %). Refused: anything
/// not above zero.
base::Result<FanRating> makeLabelRating(double free_air_flow_m3_s, double greatest_suction_pa,
                                        double inlet_bore_m, double density_kg_m3);

/// The share of the free-air flow of a label at which its suction is taken to be used up (common practice).
inline constexpr double kLabelFlowShare = 0.75;

/// Loss coefficient of a fan that does not turn, both ways, on its outlet velocity pressure, or its inlet's
/// where that is not known (common practice); localLoss() charges it.
inline constexpr double kStoppedFanK = 4.0;

/// Power given to the air [W]: flow at the fan's inlet times rise of total pressure. Compressibility is left
/// out: 0.9 % at 2.5 kPa, 4 % at 10 kPa.
template <class Note = base::Silent>
double airPower(double flow_m3_s, double total_rise_pa, Note&& note = {}) {
  const double power_w = flow_m3_s * total_rise_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kAirPower, power_w,
              {{"Q", flow_m3_s, base::Kind::VolumeFlow}, {"p_t", total_rise_pa, base::Kind::Pressure}});
  }
  return power_w;
}

/// Power at the shaft [W] by a known total efficiency (above 0, at most 1). Without one, or a power curve,
/// shaft power is unknown and nothing may be said about overload.
template <class Note = base::Silent>
double shaftPower(double air_power_w, double efficiency, Note&& note = {}) {
  const double power_w = air_power_w / efficiency;
  if constexpr (base::kNoted<Note>) {
    note.step(kShaftPower, power_w,
              {{"P_air", air_power_w, base::Kind::Power}, {"eta", efficiency, base::Kind::Ratio}});
  }
  return power_w;
}

/// Speed of the wheel's rim [m/s] from its diameter and rotational speed [rad/s].
template <class Note = base::Silent>
double tipSpeed(double wheel_m, double speed_rad_s, Note&& note = {}) {
  const double u_m_s = 0.5 * wheel_m * speed_rad_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kTipSpeed, u_m_s,
              {{"omega", speed_rad_s, base::Kind::RotationalSpeed}, {"D", wheel_m, base::Kind::Length}});
  }
  return u_m_s;
}

/// rho u^2 [Pa], the pressure scale of a wheel.
template <class Note = base::Silent>
double tipPressure(double density_kg_m3, double tip_speed_m_s, Note&& note = {}) {
  const double p_pa = density_kg_m3 * tip_speed_m_s * tip_speed_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kTipPressure, p_pa,
              {{"rho", density_kg_m3, base::Kind::Density}, {"u", tip_speed_m_s, base::Kind::Speed}});
  }
  return p_pa;
}

/// Shut-off pressure of radial and paddle wheels as a share of rho u^2 (common practice).
inline constexpr double kShutoffShareLow = 0.60;
inline constexpr double kShutoffShareHigh = 0.65;
/// Total efficiency that small collector fans do not pass (common practice: 40 to 55 %).
inline constexpr double kSmallFanEfficiency = 0.55;

/// A claim beside what the wheel gives. `claim_over_high` above 1: the wheel as stated cannot make that
/// suction.
struct WheelCheck {
  double tip_speed_m_s = 0;
  double tip_pressure_pa = 0;
  double shutoff_low_pa = 0;
  double shutoff_high_pa = 0;
  double claimed_pa = 0;
  double claim_over_high = 0;
  bool above_wheel = false;
};

/// Greatest suction claimed against wheel diameter and speed; judged as data, said elsewhere.
WheelCheck checkWheel(double claimed_shutoff_pa, double wheel_m, double speed_rad_s, double density_kg_m3);

/// The greatest air power of a curve beside a motor. `efficiency_needed` above 1 is impossible.
struct MotorCheck {
  CurvePoint at;  ///< flow and rise of total pressure where the air power is greatest
  double air_power_w = 0;
  double motor_w = 0;
  double efficiency_needed = 0;
  bool above_motor = false;      ///< more air power than the motor has
  bool above_small_fan = false;  ///< more than kSmallFanEfficiency of it
};

/// Greatest air power of a rating at its own density against the motor's rated output [W, above zero].
/// Accuracy of the power: 1e-9.
MotorCheck checkMotor(const FanRating& rating, double motor_w);

/// Shaft power [W] against flow from points, shape-preserving; flat to the left of the first point, straight
/// on beyond the last one with its end slope, both flagged. `p_pa` of its values holds watts. Refused: fewer
/// than two points, negative or not-a-number entries, flows that do not increase.
base::Result<PiecewiseCubic> makePowerCurve(std::span<const FanPoint> points);

}  // namespace kerfdraft::physics
