// Building fan curves: slopes, continuations, and the refusals. Evaluation is in the header.
#include "physics/fan_curve.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <string>

namespace kerfdraft::physics {

namespace {

using base::ErrorCode;
using base::fail;

// Far outside anything a workshop fan does; they keep the arithmetic finite.
constexpr double kMostFlow = 1e4;
constexpr double kMostPressure = 1e6;
constexpr double kLeastStep = 1e-9;

double sign(double x) {
  return x > 0 ? 1.0 : (x < 0 ? -1.0 : 0.0);
}

/// The one-sided three-point slope, limited so that it keeps the shape of the data.
double endSlope(double h0, double h1, double secant0, double secant1) {
  const double slope = ((2 * h0 + h1) * secant0 - h0 * secant1) / (h0 + h1);
  if (sign(slope) != sign(secant0)) {
    return 0;
  }
  if (sign(secant0) != sign(secant1) && std::abs(slope) > 3 * std::abs(secant0)) {
    return 3 * secant0;
  }
  return slope;
}

std::string pointName(std::size_t index) {
  return fmt::format("point {}", index + 1);
}

}  // namespace

void pchipSlopes(std::span<const double> x, std::span<const double> y, std::span<double> slopes) {
  const std::size_t n = x.size();
  const auto step = [&](std::size_t i) { return x[i + 1] - x[i]; };
  const auto secant = [&](std::size_t i) { return (y[i + 1] - y[i]) / step(i); };
  if (n == 2) {
    slopes[0] = secant(0);
    slopes[1] = slopes[0];
    return;
  }
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const double left = secant(i - 1);
    const double right = secant(i);
    if (sign(left) * sign(right) <= 0) {
      slopes[i] = 0;
      continue;
    }
    const double w1 = 2 * step(i) + step(i - 1);
    const double w2 = step(i) + 2 * step(i - 1);
    slopes[i] = (w1 + w2) / (w1 / left + w2 / right);
  }
  slopes[0] = endSlope(step(0), step(1), secant(0), secant(1));
  slopes[n - 1] = endSlope(step(n - 2), step(n - 3), secant(n - 2), secant(n - 3));
}

PiecewiseCubic::Piece cubicBetween(double h, double p0, double p1, double slope0, double slope1) {
  const double secant = (p1 - p0) / h;
  return {.p0 = p0,
          .c1 = slope0,
          .c2 = (3 * secant - 2 * slope0 - slope1) / h,
          .c3 = (slope0 + slope1 - 2 * secant) / (h * h),
          .beyond = false};
}

void FanCurve::addReversed(double slope_at_zero) {
  const double limit = std::min(slope_at_zero, -kLeastFall * peak_.p_pa / last_flow_m3_s_);
  const double band_m3_s = kSlopeBand * last_flow_m3_s_;
  // Within the band the slope runs from `limit` at -band to `slope_at_zero` at 0.
  const double c2 = (slope_at_zero - limit) / (2 * band_m3_s);
  const double p_at_band_pa = shutoff_pa_ - band_m3_s * (limit + band_m3_s * c2);
  cubic_.add(-band_m3_s, {.p0 = p_at_band_pa, .c1 = limit, .c2 = 0, .c3 = 0, .beyond = true});
  if (slope_at_zero > limit) {
    // The first piece goes on to the left of its start, so the ramp starts at the same flow, as the second
    // piece.
    cubic_.add(-band_m3_s, {.p0 = p_at_band_pa, .c1 = limit, .c2 = c2, .c3 = 0, .beyond = true});
  }
}

void FanCurve::addBeyond(double end_p_pa, double end_slope) {
  const double q = last_flow_m3_s_;
  const double limit = std::min(end_slope, -kLeastFall * peak_.p_pa / q);
  const double excess = end_slope - limit;
  const double curvature = limit / (2 * q);
  if (excess > 0) {
    const double band_m3_s = kSlopeBand * q;
    const PiecewiseCubic::Piece ramp{
        .p0 = end_p_pa, .c1 = end_slope, .c2 = curvature - excess / (2 * band_m3_s), .c3 = 0, .beyond = true};
    cubic_.add(q, ramp);
    const double p_pa = ramp.p0 + band_m3_s * (ramp.c1 + band_m3_s * ramp.c2);
    cubic_.add(q + band_m3_s,
               {.p0 = p_pa, .c1 = limit * (1 + kSlopeBand), .c2 = curvature, .c3 = 0, .beyond = true});
  } else {
    cubic_.add(q, {.p0 = end_p_pa, .c1 = limit, .c2 = curvature, .c3 = 0, .beyond = true});
  }
}

double FanCurve::largestFlowAt(double p_pa) const {
  const auto& starts = cubic_.starts();
  const auto bisect = [&](double low, double high) {
    // The pressure is at or above p_pa at `low`, below it at `high`, and falls between them.
    for (int i = 0; i < 200 && high - low > 1e-13 * last_flow_m3_s_; ++i) {
      const double middle = 0.5 * (low + high);
      (value(middle).p_pa >= p_pa ? low : high) = middle;
    }
    return 0.5 * (low + high);
  };
  double high = std::max(starts.back(), last_flow_m3_s_);
  while (value(high).p_pa >= p_pa) {
    high *= 2;
  }
  for (std::size_t k = starts.size(); k-- > 0;) {
    if (starts[k] >= high) {
      continue;
    }
    // Walk the piece's monotone stretches from the right; a cubic has at most two turning points.
    const PiecewiseCubic::Piece& piece = cubic_.pieces()[k];
    std::array<double, 3> stops{starts[k], starts[k], starts[k]};
    const double discriminant = piece.c2 * piece.c2 - 3 * piece.c3 * piece.c1;
    if (piece.c3 != 0 && discriminant > 0) {
      const double root = std::sqrt(discriminant);
      stops[1] = starts[k] + (-piece.c2 - root) / (3 * piece.c3);
      stops[2] = starts[k] + (-piece.c2 + root) / (3 * piece.c3);
    } else if (piece.c2 != 0) {
      stops[1] = starts[k] - piece.c1 / (2 * piece.c2);
    }
    std::sort(stops.begin(), stops.end(), std::greater<>());
    for (const double stop : stops) {
      if (stop < starts[k] || stop >= high) {
        continue;
      }
      if (value(stop).p_pa >= p_pa) {
        return bisect(stop, high);
      }
      high = stop;
    }
  }
  // Reversed flow beyond the band: the first piece is a falling straight line.
  const PiecewiseCubic::Piece& line = cubic_.pieces().front();
  return starts.front() + (p_pa - line.p0) / line.c1;
}

base::Result<FanCurve> makeFanCurve(std::span<const FanPoint> points) {
  const std::size_t n = points.size();
  if (n < 2) {
    return fail(ErrorCode::Range, fmt::format("a fan curve needs at least two points, this one has {}", n));
  }
  std::vector<double> q(n);
  std::vector<double> p(n);
  for (std::size_t i = 0; i < n; ++i) {
    q[i] = points[i].flow_m3_s;
    p[i] = points[i].p_pa;
    if (!(q[i] >= 0 && q[i] <= kMostFlow)) {
      return fail(
          ErrorCode::Range,
          fmt::format("the flow of a fan curve must be a number from 0 to 10000 m3/s, not {:.6g} m3/s", q[i]),
          pointName(i));
    }
    if (!(p[i] >= 0 && p[i] <= kMostPressure)) {
      return fail(
          ErrorCode::Range,
          fmt::format("the pressure of a fan curve must be a number from 0 to 1000000 Pa, not {:.6g} Pa",
                      p[i]),
          pointName(i));
    }
    if (i > 0 && q[i] - q[i - 1] <= kLeastStep * q[i]) {
      return fail(ErrorCode::Range,
                  fmt::format("the flows of a fan curve must increase, but {:.6g} m3/s follows {:.6g} m3/s",
                              q[i], q[i - 1]),
                  pointName(i));
    }
  }
  if (p[0] <= 0) {
    return fail(ErrorCode::Range,
                fmt::format("the first pressure of a fan curve must be above zero, not {:.6g} Pa", p[0]),
                pointName(0));
  }
  const auto peak = static_cast<std::size_t>(std::max_element(p.begin(), p.end()) - p.begin());
  if (p[n - 1] >= p[peak]) {
    return fail(
        ErrorCode::Range,
        fmt::format(
            "the curve does not fall: its last pressure, {:.6g} Pa at {:.6g} m3/s, is its greatest; a fan's "
            "pressure falls at large flow",
            p[n - 1], q[n - 1]),
        pointName(n - 1));
  }
  std::vector<double> slopes(n);
  pchipSlopes(q, p, slopes);

  FanCurve curve;
  curve.first_flow_m3_s_ = q[0];
  curve.last_flow_m3_s_ = q[n - 1];
  curve.peak_ = {q[peak], p[peak]};
  curve.shutoff_pa_ = p[0] - slopes[0] * q[0];
  if (curve.shutoff_pa_ <= 0) {
    return fail(ErrorCode::Range,
                fmt::format("the curve rises so steeply from its first point, {:.6g} Pa at {:.6g} m3/s, that "
                            "nothing would be "
                            "left at zero flow; a point at zero flow is needed",
                            p[0], q[0]),
                pointName(0));
  }
  curve.addReversed(slopes[0]);
  if (q[0] > 0) {
    curve.cubic_.add(0, {.p0 = curve.shutoff_pa_, .c1 = slopes[0], .c2 = 0, .c3 = 0, .beyond = true});
  }
  curve.has_rising_part_ = slopes[0] > 0;
  for (std::size_t i = 0; i + 1 < n; ++i) {
    curve.has_rising_part_ = curve.has_rising_part_ || p[i + 1] > p[i];
    curve.cubic_.add(q[i], cubicBetween(q[i + 1] - q[i], p[i], p[i + 1], slopes[i], slopes[i + 1]));
  }
  curve.addBeyond(p[n - 1], slopes[n - 1]);
  return curve;
}

base::Result<FanCurve> makeLawCurve(double shutoff_pa, double zero_pressure_flow_m3_s) {
  if (!(shutoff_pa > 0 && shutoff_pa <= kMostPressure)) {
    return fail(ErrorCode::Range,
                fmt::format("the greatest suction of a fan must be above zero, not {:.6g} Pa", shutoff_pa));
  }
  if (!(zero_pressure_flow_m3_s > 1e-9 && zero_pressure_flow_m3_s <= kMostFlow)) {
    return fail(ErrorCode::Range,
                fmt::format("the flow at which a fan's pressure is zero must be above zero, not {:.6g} m3/s",
                            zero_pressure_flow_m3_s));
  }
  FanCurve curve;
  curve.last_flow_m3_s_ = zero_pressure_flow_m3_s;
  curve.peak_ = {0, shutoff_pa};
  curve.shutoff_pa_ = shutoff_pa;
  curve.addReversed(0);
  const double curvature = -shutoff_pa / (zero_pressure_flow_m3_s * zero_pressure_flow_m3_s);
  curve.cubic_.add(0, {.p0 = shutoff_pa, .c1 = 0, .c2 = curvature, .c3 = 0, .beyond = false});
  curve.addBeyond(0, 2 * curvature * zero_pressure_flow_m3_s);
  return curve;
}

}  // namespace kerfdraft::physics
