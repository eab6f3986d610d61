// Straight duct before and after a plane of measurement: which published rule it meets, and what it costs in
// uncertainty where it meets none.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "base/law.h"

namespace kerfdraft::field {

/// One published rule, in diameters of straight duct.
struct StraightRule {
  std::string_view key;
  double upstream = 0;         ///< between the last disturbance and the plane
  double downstream = 0;       ///< between the plane and the next disturbance
  double smallest_bore_m = 0;  ///< the rule is not for smaller ducts
  std::string_view text;
  std::string_view source;
  base::SourceStatus status = base::SourceStatus::FromMemory;
};

/// All rules, the strictest first.
std::span<const StraightRule> straightRules();

struct StraightVerdict {
  const StraightRule* rule = nullptr;
  bool applies = true;  ///< false for a duct smaller than the rule is made for
  bool met = false;
};

/// Verdict of each rule for the diameters that are there. `bore_m`: the bore, or 2ab/(a + b) of a rectangle.
std::vector<StraightVerdict> judgeStraight(double upstream_diameters, double downstream_diameters,
                                           double bore_m);

/// Standard uncertainty of the mean speed, relative, for the profile that a short straight run leaves: 0.5 %
/// at 20/5 diameters, 1 % at 8/2, 2 % at 7.5 alone, 3 % at 2/0.5, 6 % below; 3 % where nothing is known.
/// Ours: the published rules only say met or not met.
double straightStandard(std::optional<double> upstream_diameters, std::optional<double> downstream_diameters);

}  // namespace kerfdraft::field
