// The result of a traverse: speeds at its points averaged to the mean of the section, with what the scatter,
// the rule and the straight run leave uncertain.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "field/claim.h"
#include "field/traverse_plan.h"

namespace kerfdraft::field {

struct Traverse {
  PlanRequest request;  ///< points and lines are taken from the readings where they are 0
  Instrument instrument;
  Legs legs = Legs::Summed;
  /// One line of readings per diameter (or per line of a rectangle), in the order of the marks from the near
  /// wall; nothing where a point could not be read. Negative: the flow turns back there, or the hoses are
  /// swapped.
  std::vector<std::vector<std::optional<double>>> lines;
  AirOfDay air;
  Claim claim;
};

struct TraverseResult {
  TraversePlan plan;
  Measured measured;
  std::vector<std::vector<std::optional<double>>> speeds_m_s;  ///< as the lines; 0 for a negative reading
  double scatter_relative = 0;  ///< standard deviation of the speeds about their ring or row-and-column means
};

/// The evaluation model that a traverse leads to: samples with weights, factors, notices about points.
struct TraverseModel {
  TraversePlan plan;
  MeasurementModel model;
  std::vector<std::vector<std::optional<std::size_t>>> sample_at;  ///< index of each point's sample
  double scatter_relative = 0;
  std::vector<Notice> notices;
};

/// Missing points: their weight goes to the points of the same ring (round) or to the neighbours
/// (rectangular); refused where those are missing too or where over a quarter is missing. Negative points
/// count as speed 0, from memory of Amca203; where all are negative the hoses are swapped and magnitudes are
/// taken. Both are said.
base::Result<TraverseModel> traverseModel(const Traverse& traverse, std::string_view where = {});

base::Result<TraverseResult> measureTraverse(const Traverse& traverse, std::string_view where = {});

}  // namespace kerfdraft::field
