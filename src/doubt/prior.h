// How sure each kind of input is before anything is measured, and what measuring makes of it: one table, each
// row with its source and status.
#pragma once

#include <span>
#include <string_view>

#include "base/law.h"

namespace kerfdraft::doubt {

enum class Shape {
  Share,   ///< normal, `spread` as a share of the value: 0.08 is 8 %
  Factor,  ///< lognormal, `spread` a factor: 1.6 means from 1/1.6 to 1.6 times at one standard deviation
};

/// What a person can do to make an input surer.
enum class Measure {
  Nothing,
  HosePressure,        ///< static pressure at both ends of the hose, and the flow
  HoodStatic,          ///< static pressure in the port's duct, three bores behind the hood, and the flow
  BodyGaps,            ///< free area of the gaps of a machine's body
  FilterGauge,         ///< pressure across the filter
  SeparatorPressure,   ///< pressure across the separator
  InletStaticAndFlow,  ///< static pressure and flow at the collector's inlet
  Bore,                ///< the true inside, with a calliper or by the outside and the wall
  GateTravel,          ///< open the gate all the way, or measure across it
  Joints,              ///< everything shut: flow at the collector's inlet
  Branches,            ///< static pressure in the branch and in the main beside it
  Elbows,              ///< static pressure before and behind the fittings
  RoomPressure,        ///< pressure of the room against outdoors
};

/// One row. The spread is one standard deviation, and all pieces of a kind share one factor.
struct Prior {
  std::string_view key;   ///< never changes: "hose"
  std::string_view what;  ///< "hose friction"
  Shape shape = Shape::Share;
  double spread = 0;
  std::string_view known_as;  ///< "common practice, factor 1.6"
  base::SourceStatus status = base::SourceStatus::Ours;
  std::string_view source;  ///< key in docs/references.bib, or where the figure is explained
  Measure measure = Measure::Nothing;
  std::string_view then;  ///< key of the row that holds once measured; empty: none

  /// One standard deviation of ln(factor): the share itself, or ln of the factor.
  double sigma() const;
  /// The factor at `z` standard deviations. A share never takes a value below a twentieth.
  double factorAt(double z) const;
};

/// All rows, in a fixed order.
std::span<const Prior> priors();

/// The row of a key; a key that is not in the table is a bug.
const Prior& prior(std::string_view key);

}  // namespace kerfdraft::doubt
