// Places are taken apart along the two axes, which need not be at right angles.
#include "desk/models/curve_tracing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;

double onScale(AxisScale scale, double value) {
  switch (scale) {
    case AxisScale::Linear:
      return value;
    case AxisScale::Square:
      return value * value;
    case AxisScale::Root:
      return std::sqrt(value);
    case AxisScale::Logarithm:
      return std::log(value);
  }
  return value;
}

double offScale(AxisScale scale, double place) {
  switch (scale) {
    case AxisScale::Linear:
      return place;
    case AxisScale::Square:
      return std::sqrt(place);
    case AxisScale::Root:
      return place < 0 ? std::sqrt(place) : place * place;
    case AxisScale::Logarithm:
      return std::exp(place);
  }
  return place;
}

double cross(drawing::At a, drawing::At b) {
  return a.x * b.y - a.y * b.x;
}

}  // namespace

std::string_view toText(AxisScale scale) {
  switch (scale) {
    case AxisScale::Linear:
      return "even steps";
    case AxisScale::Square:
      return "steps that widen (squares)";
    case AxisScale::Root:
      return "steps that narrow (square roots)";
    case AxisScale::Logarithm:
      return "tenfold steps (logarithms)";
  }
  return "";
}

base::Result<PictureScale::Axis> PictureScale::axis(const KnownAxis& known, base::Kind kind,
                                                    const std::string& name) {
  Axis out;
  out.scale = known.scale;
  out.from = known.places[0].at;
  out.along = {known.places[1].at.x - out.from.x, known.places[1].at.y - out.from.y};
  std::array<double, 2> values{};
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string where = fmt::format("{} place of the {}", i == 0 ? "first" : "second", name);
    const auto value = base::parseQuantity(kind, known.places[i].value, where);
    if (!value) {
      return base::Failure(value.error());
    }
    if (*value < 0) {
      return fail(ErrorCode::Range,
                  fmt::format("{} is below zero; read suctions without their minus", known.places[i].value),
                  where);
    }
    if (known.scale == AxisScale::Logarithm && !(*value > 0)) {
      return fail(ErrorCode::Range,
                  fmt::format("{} stands nowhere on an axis of tenfold steps", known.places[i].value), where);
    }
    values[i] = *value;
  }
  if (values[0] == values[1]) {
    return fail(ErrorCode::Conflict,
                fmt::format("both places have the value {}; take two that differ", known.places[0].value),
                name);
  }
  constexpr double kLeast_px = 3;
  if (!(std::hypot(out.along.x, out.along.y) >= kLeast_px)) {
    return fail(ErrorCode::Conflict, "both places lie on each other; take two far apart", name);
  }
  out.low = onScale(known.scale, values[0]);
  out.high = onScale(known.scale, values[1]);
  return out;
}

base::Result<PictureScale> PictureScale::make(const KnownAxis& flow, const KnownAxis& pressure) {
  const auto x = axis(flow, base::Kind::VolumeFlow, "flow");
  if (!x) {
    return base::Failure(x.error());
  }
  const auto y = axis(pressure, base::Kind::Pressure, "pressure");
  if (!y) {
    return base::Failure(y.error());
  }
  constexpr double kLeastSine = 0.2;
  const double lengths = std::hypot(x->along.x, x->along.y) * std::hypot(y->along.x, y->along.y);
  if (!(std::abs(cross(x->along, y->along)) > kLeastSine * lengths)) {
    return fail(ErrorCode::Conflict,
                "the places of the flow and those of the pressure lie in nearly the same direction");
  }
  PictureScale out;
  out.x_ = *x;
  out.y_ = *y;
  return out;
}

drawing::ChartPoint PictureScale::valueAt(drawing::At at) const {
  const double turn = cross(x_.along, y_.along);
  const drawing::At from_x{at.x - x_.from.x, at.y - x_.from.y};
  const drawing::At from_y{at.x - y_.from.x, at.y - y_.from.y};
  const double s = cross(from_x, y_.along) / turn;
  const double t = cross(x_.along, from_y) / turn;
  return {offScale(x_.scale, x_.low + s * (x_.high - x_.low)),
          offScale(y_.scale, y_.low + t * (y_.high - y_.low))};
}

drawing::At PictureScale::placeOf(const drawing::ChartPoint& value) const {
  const double s = (onScale(x_.scale, value.x) - x_.low) / (x_.high - x_.low);
  const double t = (onScale(y_.scale, value.y) - y_.low) / (y_.high - y_.low);
  // Lines of equal flow run along the pressure's axis, and the other way.
  const drawing::At a{x_.from.x + s * x_.along.x, x_.from.y + s * x_.along.y};
  const drawing::At b{y_.from.x + t * y_.along.x, y_.from.y + t * y_.along.y};
  const double up = cross(x_.along, {b.x - a.x, b.y - a.y}) / cross(x_.along, y_.along);
  return {a.x + up * y_.along.x, a.y + up * y_.along.y};
}

base::Result<std::vector<TypedPoint>> tracedPoints(const PictureScale& scale,
                                                   const std::vector<drawing::At>& clicked, double reach_px,
                                                   base::UnitSystem units) {
  if (clicked.size() < 2) {
    return fail(ErrorCode::Conflict, "click at least two points along the curve; five to eight are good");
  }
  std::vector<drawing::ChartPoint> points;
  points.reserve(clicked.size());
  for (std::size_t i = 0; i < clicked.size(); ++i) {
    drawing::ChartPoint point = scale.valueAt(clicked[i]);
    // A click beside the axis is one on it.
    for (double drawing::ChartPoint::*part : {&drawing::ChartPoint::x, &drawing::ChartPoint::y}) {
      if (point.*part >= 0) {
        continue;
      }
      drawing::ChartPoint on = point;
      on.*part = 0;
      const drawing::At at = scale.placeOf(on);
      if (!(std::hypot(at.x - clicked[i].x, at.y - clicked[i].y) <= reach_px)) {
        return fail(ErrorCode::Range, "it lies outside the axes, below zero", fmt::format("point {}", i + 1));
      }
      point = on;
    }
    if (!std::isfinite(point.x) || !std::isfinite(point.y)) {
      return fail(ErrorCode::Range, "it lies outside the axes", fmt::format("point {}", i + 1));
    }
    points.push_back(point);
  }
  std::sort(points.begin(), points.end(),
            [](const drawing::ChartPoint& a, const drawing::ChartPoint& b) { return a.x < b.x; });
  std::vector<TypedPoint> out;
  out.reserve(points.size());
  for (const drawing::ChartPoint& point : points) {
    TypedPoint typed{base::formatQuantity(base::Kind::VolumeFlow, point.x, units),
                     base::formatQuantity(base::Kind::Pressure, point.y, units), ""};
    if (!out.empty() && out.back()[0] == typed[0]) {
      return fail(ErrorCode::Conflict,
                  fmt::format("two points lie at the flow {}; take one of them away", typed[0]));
    }
    out.push_back(std::move(typed));
  }
  return out;
}

}  // namespace kerfdraft::desk
