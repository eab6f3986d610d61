// Ratings handed to physics/fan.h.
#include "pieces/fans.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "physics/fan.h"
#include "physics/velocity_pressure.h"
#include "pieces/rating_basis.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

template <class T>
Result<T> at(Result<T> result, const std::string& label) {
  if (!result) {
    std::string& where = result.error().where;
    where = where.empty() ? label : label + ", " + where;
  }
  return result;
}

Result<physics::FanRating> curveRating(const FanPlace& place, const shop::FanRating& rating,
                                       double test_bore_m, double density_kg_m3, double speed_ratio) {
  std::vector<physics::FanPoint> points;
  points.reserve(rating.points.size());
  for (const shop::CurvePoint& point : rating.points) {
    points.push_back({point.flow.si(), point.pressure.si()});
  }
  physics::RatingConditions conditions;
  conditions.basis = basisOf(rating.basis);
  conditions.density_kg_m3 = density_kg_m3;
  if (test_bore_m > 0) {
    conditions.test_bore_m = test_bore_m;
  }
  conditions.outlet_bore_m = place.outlet_bore_m;
  conditions.speed_ratio = speed_ratio;
  return at(physics::makeFanRating(points, conditions), place.label);
}

/// Total pressure rise in one density, through the same flows.
Result<physics::FanCurve> totalCurve(const physics::FanRating& rating, const shop::FanRating& given) {
  const double rho = rating.density_kg_m3;
  std::vector<physics::FanPoint> points;
  for (const shop::CurvePoint& point : given.points) {
    const double flow_m3_s = rating.speed_ratio * point.flow.si();
    points.push_back({flow_m3_s, std::max(0.0, physics::fanRise(rating, flow_m3_s, rho, rho).p_pa)});
  }
  if (!points.empty()) {
    return physics::makeFanCurve(points);
  }
  // Label: p_s (1 - (Q/Q0)^2) less the velocity pressure of the inlet pipe is such a law again.
  const double n = rating.speed_ratio;
  const double shutoff_pa = n * n * rating.curve.shutoff();
  const double zero_m3_s = n * rating.curve.lastFlow();
  const double vp_share = 0.5 * rho / (rating.section_m2 * rating.section_m2);
  const double share = shutoff_pa / (zero_m3_s * zero_m3_s) + vp_share;
  return physics::makeLawCurve(shutoff_pa, std::sqrt(shutoff_pa / share));
}

Result<std::optional<physics::PiecewiseCubic>> powerCurve(const FanPlace& place,
                                                          const shop::FanRating& rating) {
  std::vector<physics::FanPoint> points;
  for (const shop::CurvePoint& point : rating.points) {
    if (point.power) {
      points.push_back({point.flow.si(), point.power->si()});
    }
  }
  if (points.size() < 2) {
    return std::optional<physics::PiecewiseCubic>();
  }
  return at(physics::makePowerCurve(points), place.label).map([](physics::PiecewiseCubic curve) {
    return std::optional<physics::PiecewiseCubic>(std::move(curve));
  });
}

}  // namespace

Result<Fan> makeFan(Draft& draft, const FanPlace& place, const shop::FanRating& rating,
                    const shop::Motor& motor) {
  Fan out;
  out.key = place.key;
  out.id = place.id;
  out.label = place.label;
  out.non_return = place.non_return;
  out.inlet_bore_m = place.inlet_bore_m;
  out.outlet_bore_m = place.outlet_bore_m.value_or(0.0);
  out.stopped_k = physics::kStoppedFanK;
  out.stopped_bore_m = place.outlet_bore_m.value_or(place.inlet_bore_m);
  if (motor.power) {
    out.motor_power_w = motor.power->si();
  }
  double speed_ratio = 1;
  if (motor.speed && rating.speed) {
    if (!(rating.speed->si() > 0)) {
      return fail(ErrorCode::Range,
                  fmt::format("the speed of a fan's test must be above zero, not {}", rating.speed->text()),
                  place.label);
    }
    speed_ratio = motor.speed->si() / rating.speed->si();
  }
  const double density_kg_m3 = rating.density ? rating.density->si() : physics::kStandardDensity_kg_m3;
  double test_bore_m = rating.test_bore ? rating.test_bore->si() : 0.0;
  const bool needs_bore = rating.basis == shop::RatingBasis::StaticAtInlet || rating.points.empty();
  if (needs_bore && !rating.test_bore) {
    test_bore_m = place.inlet_bore_m;
    draft.note(place.key, fmt::format("{}: assumed that it was rated in a pipe of its inlet bore, {}",
                                      place.label, draft.say(Kind::Bore, test_bore_m)));
  }
  if (!rating.points.empty()) {
    auto made = curveRating(place, rating, test_bore_m, density_kg_m3, speed_ratio);
    if (!made) {
      return Failure(made.error());
    }
    out.rating = std::move(*made);
  } else if (rating.free_air_flow && rating.greatest_suction) {
    auto made = at(physics::makeLabelRating(rating.free_air_flow->si(), rating.greatest_suction->si(),
                                            test_bore_m, density_kg_m3),
                   place.label);
    if (!made) {
      return Failure(made.error());
    }
    made->speed_ratio = speed_ratio;
    out.rating = std::move(*made);
    out.label_only = true;
    draft.note(place.key,
               fmt::format("{}: assumed curve from its label, {} in free air and {}; the band is wide",
                           place.label, rating.free_air_flow->text(), rating.greatest_suction->text()));
  } else {
    return fail(
        ErrorCode::Conflict,
        "a fan needs a curve of at least two points, or from its label the free-air flow and the greatest "
        "suction",
        place.label);
  }
  out.rated_at_inlet = physics::ratedAtInlet(out.rating->basis);
  out.curve_density_kg_m3 = density_kg_m3;
  auto total = totalCurve(*out.rating, rating);
  // A fan static curve may rise throughout once the outlet's velocity pressure is added: then there is no
  // such curve, and the rating alone speaks.
  if (total) {
    out.curve = std::move(*total);
  }
  auto power = powerCurve(place, rating);
  if (!power) {
    return Failure(power.error());
  }
  out.power = std::move(*power);
  return out;
}

double flowAtHalfSuction(const Fan& fan) {
  const physics::FanRating& rating = *fan.rating;
  return rating.speed_ratio * std::max(0.0, rating.curve.largestFlowAt(0.5 * rating.curve.shutoff()));
}

}  // namespace kerfdraft::pieces
