// Ratings with their refusals, and the checks of a label against its wheel and motor.
#include "physics/fan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace kerfdraft::physics {

namespace {

using base::ErrorCode;
using base::fail;

double roundArea(double bore_m) {
  return std::numbers::pi * bore_m * bore_m / 4;
}

bool positive(double x) {
  return std::isfinite(x) && x > 0;
}

}  // namespace

std::string_view toText(RatingBasis basis) {
  switch (basis) {
    case RatingBasis::StaticAtInlet:
      return "static in the inlet pipe";
    case RatingBasis::TotalAtInlet:
      return "total at the inlet";
    case RatingBasis::FanStatic:
      return "fan static";
    case RatingBasis::FanTotal:
      return "fan total";
  }
  return "";
}

base::Result<FanRating> makeFanRating(std::span<const FanPoint> points, const RatingConditions& conditions) {
  if (!positive(conditions.density_kg_m3)) {
    return fail(ErrorCode::Range,
                fmt::format("the air density of a fan's test must be above zero, not {:.6g} kg/m3",
                            conditions.density_kg_m3));
  }
  if (!positive(conditions.speed_ratio)) {
    return fail(ErrorCode::Range,
                fmt::format("a running fan's speed must be above zero, not {:.6g} times the rated speed",
                            conditions.speed_ratio));
  }
  for (const auto& bore : {conditions.test_bore_m, conditions.outlet_bore_m}) {
    if (bore && !positive(*bore)) {
      return fail(
          ErrorCode::Range,
          fmt::format("the bore of a fan's test pipe or outlet must be above zero, not {:.6g} m", *bore));
    }
  }
  if (conditions.basis == RatingBasis::StaticAtInlet && !conditions.test_bore_m) {
    return fail(
        ErrorCode::Range,
        "a pressure rated as static in the inlet pipe needs the bore of that pipe, since the velocity "
        "pressure in it is part of the reading");
  }
  auto curve = makeFanCurve(points);
  if (!curve) {
    return base::Failure(curve.error());
  }
  FanRating rating{.curve = std::move(*curve),
                   .basis = conditions.basis,
                   .density_kg_m3 = conditions.density_kg_m3,
                   .section_m2 = 0,
                   .speed_ratio = conditions.speed_ratio};
  if (conditions.basis == RatingBasis::StaticAtInlet) {
    rating.section_m2 = roundArea(*conditions.test_bore_m);
  } else if (conditions.basis == RatingBasis::FanStatic && conditions.outlet_bore_m) {
    rating.section_m2 = roundArea(*conditions.outlet_bore_m);
  }
  return rating;
}

base::Result<FanRating> makeLabelRating(double free_air_flow_m3_s, double greatest_suction_pa,
                                        double inlet_bore_m, double density_kg_m3) {
  if (!positive(free_air_flow_m3_s)) {
    return fail(
        ErrorCode::Range,
        fmt::format("the free-air flow of a label must be above zero, not {:.6g} m3/s", free_air_flow_m3_s));
  }
  if (!positive(inlet_bore_m)) {
    return fail(
        ErrorCode::Range,
        fmt::format("the bore of a collector's inlet must be above zero, not {:.6g} m", inlet_bore_m));
  }
  if (!positive(density_kg_m3)) {
    return fail(ErrorCode::Range,
                fmt::format("an air density must be above zero, not {:.6g} kg/m3", density_kg_m3));
  }
  auto curve = makeLawCurve(greatest_suction_pa, kLabelFlowShare * free_air_flow_m3_s);
  if (!curve) {
    return base::Failure(curve.error());
  }
  return FanRating{.curve = std::move(*curve),
                   .basis = RatingBasis::StaticAtInlet,
                   .density_kg_m3 = density_kg_m3,
                   .section_m2 = roundArea(inlet_bore_m),
                   .speed_ratio = 1};
}

WheelCheck checkWheel(double claimed_shutoff_pa, double wheel_m, double speed_rad_s, double density_kg_m3) {
  WheelCheck out;
  out.tip_speed_m_s = tipSpeed(wheel_m, speed_rad_s);
  out.tip_pressure_pa = tipPressure(density_kg_m3, out.tip_speed_m_s);
  out.shutoff_low_pa = kShutoffShareLow * out.tip_pressure_pa;
  out.shutoff_high_pa = kShutoffShareHigh * out.tip_pressure_pa;
  out.claimed_pa = claimed_shutoff_pa;
  out.claim_over_high = claimed_shutoff_pa / out.shutoff_high_pa;
  out.above_wheel = out.claim_over_high > 1;
  return out;
}

MotorCheck checkMotor(const FanRating& rating, double motor_w) {
  const double end_m3_s = rating.speed_ratio * rating.curve.lastFlow();
  const auto power = [&](double q) {
    const double rise_pa = fanRise(rating, q, rating.density_kg_m3, rating.density_kg_m3).p_pa;
    return airPower(q, rise_pa);
  };
  // A scan finds the right hill, a golden section its top; air power is smooth in the flow.
  constexpr int kSteps = 400;
  int best = 0;
  for (int i = 1; i <= kSteps; ++i) {
    if (power(end_m3_s * i / kSteps) > power(end_m3_s * best / kSteps)) {
      best = i;
    }
  }
  double low = end_m3_s * std::max(best - 1, 0) / kSteps;
  double high = end_m3_s * std::min(best + 1, kSteps) / kSteps;
  const double golden = 0.5 * (std::sqrt(5.0) - 1);
  for (int i = 0; i < 60; ++i) {
    const double left = high - golden * (high - low);
    const double right = low + golden * (high - low);
    (power(left) < power(right) ? low : high) = power(left) < power(right) ? left : right;
  }
  MotorCheck out;
  out.at.flow_m3_s = 0.5 * (low + high);
  out.at.p_pa = fanRise(rating, out.at.flow_m3_s, rating.density_kg_m3, rating.density_kg_m3).p_pa;
  out.air_power_w = airPower(out.at.flow_m3_s, out.at.p_pa);
  out.motor_w = motor_w;
  out.efficiency_needed = out.air_power_w / motor_w;
  out.above_motor = out.efficiency_needed > 1;
  out.above_small_fan = out.efficiency_needed > kSmallFanEfficiency;
  return out;
}

base::Result<PiecewiseCubic> makePowerCurve(std::span<const FanPoint> points) {
  const std::size_t n = points.size();
  if (n < 2) {
    return fail(ErrorCode::Range, fmt::format("a power curve needs at least two points, this one has {}", n));
  }
  std::vector<double> q(n);
  std::vector<double> p(n);
  for (std::size_t i = 0; i < n; ++i) {
    q[i] = points[i].flow_m3_s;
    p[i] = points[i].p_pa;
    const std::string where = fmt::format("point {}", i + 1);
    if (!(q[i] >= 0 && q[i] <= 1e4)) {
      return fail(
          ErrorCode::Range,
          fmt::format("the flow of a power curve must be a number from 0 to 10000 m3/s, not {:.6g} m3/s",
                      q[i]),
          where);
    }
    if (!(p[i] >= 0 && p[i] <= 1e8)) {
      return fail(
          ErrorCode::Range,
          fmt::format("the power of a power curve must be a number from 0 to 100 MW, not {:.6g} W", p[i]),
          where);
    }
    if (i > 0 && q[i] - q[i - 1] <= 1e-9 * q[i]) {
      return fail(ErrorCode::Range,
                  fmt::format("the flows of a power curve must increase, but {:.6g} m3/s follows {:.6g} m3/s",
                              q[i], q[i - 1]),
                  where);
    }
  }
  std::vector<double> slopes(n);
  pchipSlopes(q, p, slopes);
  PiecewiseCubic out;
  out.add(q[0], {.p0 = p[0], .c1 = 0, .c2 = 0, .c3 = 0, .beyond = true});
  for (std::size_t i = 0; i + 1 < n; ++i) {
    out.add(q[i], cubicBetween(q[i + 1] - q[i], p[i], p[i + 1], slopes[i], slopes[i + 1]));
  }
  out.add(q[n - 1], {.p0 = p[n - 1], .c1 = slopes[n - 1], .c2 = 0, .c3 = 0, .beyond = true});
  return out;
}

}  // namespace kerfdraft::physics
