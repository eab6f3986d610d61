// Which gates a port needs is found once; then a set is a comparison of bits.
#include "cli/gate_set_tally.h"

#include <bit>

namespace kerfdraft::cli {
namespace {

network::Situation withGates(network::Situation situation, std::uint64_t set) {
  for (std::size_t g = 0; g < situation.gate_travel.size(); ++g) {
    situation.gate_travel[g] = g < 64 && ((set >> g) & 1U) != 0 ? 1U : 0U;
  }
  return situation;
}

std::optional<double> si(const std::optional<base::Given<base::VolumeFlow>>& given) {
  return given ? std::optional(given->si()) : std::nullopt;
}

/// Ports with a figure of their own, or whose machine has none; then the machines that have one.
std::vector<AskedTally> askedIn(const judge::Assessment& assessment) {
  const std::vector<pieces::PortPlace>& places = assessment.pieces->ports;
  std::vector<AskedTally> ports;
  std::vector<AskedTally> machines;
  for (const shop::Machine& machine : assessment.project->machines) {
    AskedTally whole;
    whole.label = machine.label.empty() ? machine.name : machine.label + ' ' + machine.name;
    whole.floor_m3_s = si(machine.floor);
    whole.target_m3_s = si(machine.target);
    const bool shared = whole.floor_m3_s || whole.target_m3_s;
    for (std::size_t p = 0; p < places.size(); ++p) {
      for (const shop::Port& port : machine.ports) {
        if (places[p].ref.machine != machine.id || places[p].ref.port != port.id) {
          continue;
        }
        whole.ports.push_back(p);
        if (port.floor || port.target || !shared) {
          AskedTally one;
          one.label = places[p].label;
          one.ports = {p};
          one.floor_m3_s = si(port.floor);
          one.target_m3_s = si(port.target);
          ports.push_back(std::move(one));
        }
      }
    }
    if (shared && !whole.ports.empty()) {
      machines.push_back(std::move(whole));
    }
  }
  ports.insert(ports.end(), machines.begin(), machines.end());
  return ports;
}

}  // namespace

GateSetTally::GateSetTally(const judge::Assessment& assessment, const network::Situation& situation)
    : pieces_(*assessment.pieces),
      situation_(situation),
      asked_(askedIn(assessment)),
      counts_(assessment.pieces->gates.size() + 1) {
  const std::size_t gates = pieces_.gates.size();
  const std::uint64_t all = gates >= 64 ? ~std::uint64_t{0} : (std::uint64_t{1} << gates) - 1;
  for (std::size_t p = 0; p < pieces_.ports.size(); ++p) {
    never_.push_back(judge::isOpen(pieces_, withGates(situation_, all), p) ? 0 : 1);
    std::uint64_t needed = 0;
    for (std::size_t g = 0; g < gates && never_.back() == 0; ++g) {
      const std::uint64_t without = all & ~(std::uint64_t{1} << g);
      needed |= judge::isOpen(pieces_, withGates(situation_, without), p) ? 0 : std::uint64_t{1} << g;
    }
    // Opening more gates never shuts a port, so where the needed ones suffice they decide alone.
    const bool enough = judge::isOpen(pieces_, withGates(situation_, needed), p);
    needs_.push_back(enough ? std::optional(needed) : std::nullopt);
  }
}

bool GateSetTally::open(std::size_t port, std::uint64_t set) const {
  if (never_[port] != 0) {
    return false;
  }
  return needs_[port] ? (set & *needs_[port]) == *needs_[port]
                      : judge::isOpen(pieces_, withGates(situation_, set), port);
}

double GateSetTally::flow(std::size_t port, const network::GateSetResult& set) const {
  return set.run_flow_kg_s[pieces_.ports[port].run] / pieces_.air.density_kg_m3;
}

bool GateSetTally::take(const network::GateSetResult& set) {
  CountTally& count = counts_[static_cast<std::size_t>(std::popcount(set.open))];
  ++count.sets;
  if (set.outcome != network::Outcome::Solved && set.outcome != network::Outcome::Still) {
    ++count.unsolved;
    return false;
  }
  bool served = true;
  for (AskedTally& asked : asked_) {
    Extreme here{0, set.open};
    bool any = false;
    for (const std::size_t p : asked.ports) {
      if (open(p, set.open)) {
        any = true;
        here.flow_m3_s += flow(p, set);
      }
    }
    if (!any) {
      continue;
    }
    ++asked.open;
    const bool floor_met = !asked.floor_m3_s || here.flow_m3_s >= *asked.floor_m3_s;
    served = served && floor_met;
    asked.floor_met += floor_met ? 1U : 0U;
    asked.target_met +=
        asked.target_m3_s && here.flow_m3_s >= judge::kTargetShare * *asked.target_m3_s ? 1U : 0U;
    if (!asked.least || here.flow_m3_s < asked.least->flow_m3_s) {
      asked.least = here;
    }
    if (!asked.most || here.flow_m3_s > asked.most->flow_m3_s) {
      asked.most = here;
    }
  }
  count.served += served ? 1U : 0U;
  return served;
}

}  // namespace kerfdraft::cli
