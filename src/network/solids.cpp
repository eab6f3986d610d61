// Solids per air of each run, from the flows at the point: thrown in at the ports, mixed at junctions by
// mass, split with the air, ending at the first separator.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "network/workspace.h"
#include "physics/conveying.h"

namespace kerfdraft::network {

void updateSolids(const Network& net, const Situation& situation, WorkspaceData& w) {
  const std::size_t runs = net.runs.size();
  const pieces::Pieces& from = *net.pieces;
  std::vector<double> thrown(runs, 0);
  for (std::size_t p = 0; p < from.ports.size() && p < situation.solids_kg_s.size(); ++p) {
    const std::size_t r = from.ports[p].run;
    // Behind a shut gate the machine does not cut into this port.
    const bool shut = w.closed_at[r] != kOpen ||
                      std::any_of(net.runs[r].gates.begin(), net.runs[r].gates.end(),
                                  [&](std::size_t g) { return !(situation.gate_travel[g] > 0); });
    thrown[r] += shut ? 0 : situation.solids_kg_s[p];
  }
  // Solids entering each node, passed on with the air; as many sweeps as a chain could be long settle any
  // tree, and ring mains whose air circulates settle to the same fixed point or stay at the cap.
  std::vector<double> carried(runs, 0);
  std::vector<double> at_node(from.nodes.size(), 0);
  std::vector<double> air_out(from.nodes.size(), 0);
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    const double flow = w.x[net.fanUnknown(f)];
    air_out[static_cast<std::size_t>(flow >= 0 ? net.fans[f].from : net.fans[f].to)] += std::abs(flow);
  }
  for (std::size_t r = 0; r < runs; ++r) {
    const bool forward = w.x[r] >= 0;
    const int start = forward ? net.runs[r].from.node : net.runs[r].to.node;
    air_out[static_cast<std::size_t>(start)] += std::abs(forward ? w.x[r] : w.flow_end[r]);
  }
  for (std::size_t sweep = 0; sweep < runs + 1; ++sweep) {
    std::fill(at_node.begin(), at_node.end(), 0.0);
    for (std::size_t r = 0; r < runs; ++r) {
      const bool separated =
          std::any_of(from.runs[r].pieces.begin(), from.runs[r].pieces.end(),
                      [](const pieces::Piece& p) { return p.key.role == pieces::Role::Separator; });
      const int end = w.x[r] >= 0 ? net.runs[r].to.node : net.runs[r].from.node;
      at_node[static_cast<std::size_t>(end)] += separated ? 0 : carried[r];
    }
    double moved = 0;
    for (std::size_t r = 0; r < runs; ++r) {
      const bool forward = w.x[r] >= 0;
      const auto start = static_cast<std::size_t>(forward ? net.runs[r].from.node : net.runs[r].to.node);
      const pieces::NodeKind kind = from.nodes[start].kind;
      const bool mixing = kind == pieces::NodeKind::Junction || kind == pieces::NodeKind::Joint;
      const double air = std::abs(forward ? w.x[r] : w.flow_end[r]);
      const double share = mixing && air_out[start] > 0 ? air / air_out[start] : 0;
      const double now =
          net.runs[r].takes_solids ? thrown[r] * (forward ? 1 : 0) + share * at_node[start] : 0;
      moved = std::max(moved, std::abs(now - carried[r]));
      carried[r] = now;
    }
    if (!(moved > 1e-15)) {
      break;
    }
  }
  // Air that does not move carries nothing, however much a machine throws at it.
  const double least_kg_s = 1e-6 * net.flow_scale_kg_s;
  for (std::size_t r = 0; r < runs; ++r) {
    const bool forward = w.x[r] >= 0;
    const double air_kg_s = std::abs(forward ? w.x[r] : w.flow_end[r]);
    w.solids_carried[r] = air_kg_s > least_kg_s ? carried[r] : 0;
    w.solids_air[r] = air_kg_s;
    w.solids[r] = physics::solidsRatio(w.solids_carried[r], w.solids_air[r]);
  }
}

}  // namespace kerfdraft::network
