// Looks at every open port of every state once.
#include "papers/worst_path.h"

namespace kerfdraft::papers {
namespace {

/// Air got over air asked for; a port that asks nothing counts as served.
double share(const judge::FlowMargin& margin) {
  const std::optional<double> asked = margin.target_m3_s ? margin.target_m3_s : margin.floor_m3_s;
  return asked && *asked > 0 ? margin.flow_m3_s / *asked : 1e9 + margin.flow_m3_s;
}

}  // namespace

std::optional<WorstPath> worstPath(const judge::Assessment& assessment,
                                   const std::vector<judge::StateMargins>& margins,
                                   std::optional<std::size_t> only_state,
                                   std::optional<std::size_t> only_port) {
  std::optional<WorstPath> worst;
  double least = 0;
  const auto look = [&](const judge::StateMargins& state, const judge::FlowMargin& port, double share_of) {
    const bool meant = !only_port || *port.port == *only_port;
    if (port.open && meant && (!worst || share_of < least)) {
      worst = WorstPath{state.state, *port.port};
      least = share_of;
    }
  };
  for (const judge::StateMargins& state : margins) {
    // Where no air moves nothing is short of it: such a state is taken only by its name.
    const bool still = assessment.states[state.state].solution.outcome == network::Outcome::Still;
    if (only_state ? state.state != *only_state : still) {
      continue;
    }
    for (const judge::FlowMargin& port : state.ports) {
      look(state, port, share(port));
      for (const judge::FlowMargin& machine : state.machines) {
        if (machine.ref.machine == port.ref.machine) {
          look(state, port, share(machine));
        }
      }
    }
  }
  return worst;
}

}  // namespace kerfdraft::papers
