// Points of a curve from a picture of it: two known places on each axis, and clicks along the curve.
// Without Qt.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/units.h"
#include "desk/models/fan_entry.h"
#include "drawing/chart.h"

namespace kerfdraft::desk {

/// How the values stand along an axis: the distance grows with this of the value.
enum class AxisScale { Linear, Square, Root, Logarithm };
inline constexpr std::array kAxisScales{AxisScale::Linear, AxisScale::Square, AxisScale::Root,
                                        AxisScale::Logarithm};
std::string_view toText(AxisScale scale);

struct KnownPlace {
  drawing::At at;     ///< in pixels of the picture
  std::string value;  ///< "400 cfm"
};

struct KnownAxis {
  AxisScale scale = AxisScale::Linear;
  std::array<KnownPlace, 2> places;
};

/// A picture and the values in it; it may be turned or askew.
class PictureScale {
 public:
  /// Refused: values that cannot be read or are the same, places that lie on each other, axes that run
  /// alike.
  static base::Result<PictureScale> make(const KnownAxis& flow, const KnownAxis& pressure);

  /// Flow [m3/s] and pressure [Pa] at a place; not a number where the scale ends before it (the root of
  /// less than nothing).
  drawing::ChartPoint valueAt(drawing::At at) const;
  drawing::At placeOf(const drawing::ChartPoint& value) const;

 private:
  struct Axis {
    AxisScale scale = AxisScale::Linear;
    drawing::At from;
    drawing::At along;  ///< from the first place to the second
    double low = 0;     ///< of the scale, at the two places
    double high = 0;
  };
  static base::Result<Axis> axis(const KnownAxis& known, base::Kind kind, const std::string& name);

  Axis x_;
  Axis y_;
};

/// The points clicked, in the order of flow, as texts. Values a little below an axis, within `reach_px`, are
/// taken as zero. Refused: fewer than two points, a point outside, two of the same flow.
base::Result<std::vector<TypedPoint>> tracedPoints(const PictureScale& scale,
                                                   const std::vector<drawing::At>& clicked, double reach_px,
                                                   base::UnitSystem units);

}  // namespace kerfdraft::desk
