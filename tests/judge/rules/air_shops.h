// Helpers for the tests of the rules about air and pressure.
#pragma once

#include <algorithm>
#include <numbers>
#include <string>
#include <string_view>
#include <vector>

#include "judge/rule_stage.h"

namespace kerfdraft::tests {

inline double roundArea(double bore_m) {
  return std::numbers::pi * bore_m * bore_m / 4;
}

/// A flow as a person enters it, fine enough to stand on either side of a limit.
inline base::Given<base::VolumeFlow> flowOf(double flow_m3_s) {
  return support::given<base::VolumeFlow>(std::to_string(flow_m3_s * 3600) + " m3/h");
}

/// What a port gets in a state of a project.
inline double flowAt(const shop::Project& project, std::size_t state, std::size_t port) {
  return solved(project).states[state].solution.ports[port].flow_m3_s;
}

/// Bands of all states in which every port's flow has this one.
inline std::vector<judge::StateBands> portBands(const shop::Project& project, judge::Band band) {
  const judge::Assessment assessment = solved(project);
  std::vector<judge::StateBands> bands(assessment.states.size());
  for (judge::StateBands& state : bands) {
    state.port_flow.assign(assessment.pieces->ports.size(), band);
  }
  return bands;
}

inline const judge::Remedy* remedyOf(const judge::Finding& finding, std::string_view kind) {
  const auto at = std::find_if(finding.remedies.begin(), finding.remedies.end(),
                               [&](const judge::Remedy& remedy) { return remedy.kind == kind; });
  return at == finding.remedies.end() ? nullptr : &*at;
}

}  // namespace kerfdraft::tests
