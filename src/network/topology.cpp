// What a situation shuts, what floats, and whether there is a solution at all.
#include <algorithm>
#include <vector>

#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

int rootOf(std::vector<int>& parent, int n) {
  while (parent[static_cast<std::size_t>(n)] != n) {
    parent[static_cast<std::size_t>(n)] =
        parent[static_cast<std::size_t>(parent[static_cast<std::size_t>(n)])];
    n = parent[static_cast<std::size_t>(n)];
  }
  return n;
}

void join(std::vector<int>& parent, int a, int b) {
  const int ra = rootOf(parent, a);
  const int rb = rootOf(parent, b);
  parent[static_cast<std::size_t>(std::max(ra, rb))] = std::min(ra, rb);
}

int closedAt(const Network& net, const WorkspaceData& w, std::size_t r) {
  if (net.pieces->runs[r].closed || w.hose_shut[r] != 0) {
    return -1;
  }
  for (const std::size_t g : net.runs[r].gates) {
    if (w.gate_tight[g] != 0) {
      return static_cast<int>(net.gate_stretch[g]);
    }
  }
  return kOpen;
}

bool hasLeak(const Network& net, const CompiledRun& run) {
  if (run.leak_before > 0) {
    return true;
  }
  for (std::size_t s = run.stretch_begin; s < run.stretch_end; ++s) {
    if (net.stretches[s].leak_after > 0) {
      return true;
    }
  }
  return false;
}

}  // namespace

Report prepareTopology(const Network& net, WorkspaceData& w) {
  Report report;
  report.outcome = Outcome::Solved;
  const pieces::Pieces& from = *net.pieces;
  const std::size_t nodes = from.nodes.size();
  // One more element stands for all known pressures and for free air reached through leaks.
  const int free_air = static_cast<int>(nodes);
  std::vector<int>& parent = w.parent;
  parent.resize(nodes + 1);
  for (std::size_t n = 0; n <= nodes; ++n) {
    parent[n] = static_cast<int>(n);
  }
  for (std::size_t n = 0; n < nodes; ++n) {
    if (net.unknown_of_node[n] < 0) {
      join(parent, static_cast<int>(n), free_air);
    }
  }
  for (std::size_t r = 0; r < net.runs.size(); ++r) {
    const CompiledRun& run = net.runs[r];
    w.closed_at[r] = closedAt(net, w, r);
    if (w.closed_at[r] == kOpen) {
      join(parent, run.from.node, run.to.node);
    }
    if (hasLeak(net, run)) {
      // Leaks come from the room; a floating pressure is settled by them.
      if (w.closed_at[r] == kOpen || w.closed_at[r] >= 0) {
        join(parent, run.from.node, run.room);
      }
      join(parent, run.to.node, run.room);
    }
  }
  bool any_fan = false;
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    any_fan = any_fan || w.fan_on[f] != 0;
    if (w.fan_on[f] != 0 || (!from.fans[f].non_return && from.fans[f].stopped_bore_m > 0)) {
      join(parent, net.fans[f].from, net.fans[f].to);
    }
  }
  for (std::size_t o = 0; o < net.openings.size(); ++o) {
    if (w.opening_open[o] != 0) {
      join(parent, net.openings[o].from, net.openings[o].to);
    }
  }
  if (net.fans.empty()) {
    const bool driven = std::any_of(from.nodes.begin(), from.nodes.end(), [](const pieces::Node& n) {
      return n.inflow_kg_s != 0 || (n.fixed && n.fixed_pa != 0);
    });
    if (!driven) {
      report.outcome = Outcome::NoFan;
      return report;
    }
  }
  const int air = rootOf(parent, free_air);
  w.has_pin.assign(nodes + 1, 0);
  for (std::size_t n = 0; n < nodes; ++n) {
    const int root = rootOf(parent, static_cast<int>(n));
    w.pinned[n] = 0;
    if (root != air && w.has_pin[static_cast<std::size_t>(root)] == 0) {
      w.has_pin[static_cast<std::size_t>(root)] = 1;
      w.pinned[n] = 1;
    }
  }
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    if (w.fan_on[f] != 0 && rootOf(parent, net.fans[f].from) != air) {
      report.outcome = Outcome::NoFreeAir;
      report.place = net.fans[f].from;
      return report;
    }
  }
  // A room that a unit empties outdoors needs an opening of its own: without one it is reached only through
  // ducts.
  std::vector<int>& breath = w.breath;
  breath.resize(nodes + 1);
  for (std::size_t n = 0; n <= nodes; ++n) {
    breath[n] = net.unknown_of_node.size() > n && net.unknown_of_node[n] < 0 ? free_air : static_cast<int>(n);
  }
  for (std::size_t o = 0; o < net.openings.size(); ++o) {
    if (w.opening_open[o] != 0) {
      join(breath, net.openings[o].from, net.openings[o].to);
    }
  }
  const int outside = rootOf(breath, free_air);
  for (std::size_t n = 0; n < nodes && any_fan; ++n) {
    if (from.nodes[n].kind == pieces::NodeKind::Room && net.unknown_of_node[n] >= 0 &&
        rootOf(breath, static_cast<int>(n)) != outside) {
      report.outcome = Outcome::NoRoomAir;
      report.place = static_cast<int>(n);
      return report;
    }
  }
  if (!any_fan && !net.fans.empty()) {
    report.outcome = Outcome::Still;
  }
  return report;
}

}  // namespace kerfdraft::network
