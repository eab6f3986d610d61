// The plan of a traverse: which lines across the duct, and where along each to hold the tube, as distances to
// mark on it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "field/measurement.h"
#include "field/notice.h"
#include "field/positions.h"
#include "field/straight_run.h"

namespace kerfdraft::field {

struct PlanRequest {
  Section section;
  PointRule rule = PointRule::LogLinear;
  int points = 0;  ///< on a diameter, or on every line of a rectangle along its height; 0: by the size
  int lines = 0;   ///< diameters (default 2), or lines across the width of a rectangle; 0: by the size
  std::optional<double> upstream_m;    ///< straight duct before the plane
  std::optional<double> downstream_m;  ///< and after
  double probe_diameter_m = 0;  ///< no mark nearer the wall than this (Iso3966, from memory); 0 unknown
  double nipple_m = 0;  ///< from where the marks are seen (end of a pipe stub, outer face) to the inner wall
};

struct Mark {
  double from_wall_m = 0;  ///< axis of the tube from the inner near wall
  double on_tube_m = 0;    ///< to mark on the tube: from_wall + nipple
  double fraction = 0;     ///< of the bore or height, by the rule, before a near-wall move
  bool moved = false;      ///< kept off the wall by the near-wall rule
};

struct PlanLine {
  std::string name;     ///< "diameter 1", "line 2"
  double across_m = 0;  ///< of a rectangle: distance of the line from the side wall
  std::vector<Mark> marks;
};

/// A rule about how many points, and whether this plan meets it.
struct CountVerdict {
  std::string rule;
  std::string source;
  int needed = 0;
  bool met = false;
};

struct TraversePlan {
  Section section;
  PointRule rule = PointRule::LogLinear;
  std::vector<PlanLine> lines;
  double diameter_m = 0;  ///< bore, or 2ab/(a + b)
  double least_from_wall_m = 0;
  std::string least_from_wall_source;  ///< "" where there is none
  std::optional<double> upstream_diameters;
  std::optional<double> downstream_diameters;
  std::vector<StraightVerdict> straight;  ///< empty where the straight run is not known
  std::vector<CountVerdict> counts;
  double integration_bias = 0;  ///< largest error of the rule on profiles of exponent 6 to 10, relative
  std::vector<Notice> notices;

  int pointCount() const;
};

/// Refused: a section outside 10 mm to 3 m, a number of points the rule does not have, a near-wall distance
/// that leaves no room.
base::Result<TraversePlan> planTraverse(const PlanRequest& request, std::string_view where = {});

/// A distance as a person marks it: "1 3/16 in" to the nearest 1/`denominator` inch.
std::string inchMark(double si_m, int denominator);
/// "30.0 mm" to the nearest half millimetre.
std::string millimetreMark(double si_m);

}  // namespace kerfdraft::field
