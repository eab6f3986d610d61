// A situation turned into coefficients: once per situation, so that an iteration only multiplies.
#include <algorithm>
#include <cmath>

#include "network/factors.h"
#include "network/workspace.h"
#include "physics/conveying.h"
#include "physics/gate.h"

namespace kerfdraft::network {

using pieces::Group;

WorkspaceData::WorkspaceData(const Network& net) {
  const std::size_t runs = net.runs.size();
  const std::size_t nodes = net.pieces->nodes.size();
  stretches = net.stretches;
  for (const FrictionPart& part : net.frictions) {
    roughness.push_back(part.relative_roughness);
  }
  for (const CompiledRun& run : net.runs) {
    leak_before_area.push_back(run.leak_before_inverse_area);
  }
  for (const CompiledJunction& junction : net.junctions) {
    junctions.push_back(junction.geometry);
  }
  fan_factor.resize(net.fans.size(), 1);
  junction_extra.resize(net.junctions.size());
  k_forward.resize(net.stretches.size());
  k_reverse.resize(net.stretches.size());
  linear.resize(net.stretches.size());
  friction.resize(net.frictions.size());
  gate_k.resize(net.gate_stretch.size());
  gate_bare_k.resize(net.gate_stretch.size());
  gate_travel.resize(net.gate_stretch.size(), -1);
  gate_tight.resize(net.gate_stretch.size());
  hose_shut.resize(runs);
  closed_at.resize(runs, kOpen);
  fan_on.resize(net.fans.size());
  opening_open.resize(net.openings.size());
  opening_k.resize(net.openings.size());
  pinned.resize(nodes);
  solids.resize(runs);
  solids_carried.resize(runs);
  solids_air.resize(runs);
  x.resize(net.unknownCount());
  leak.resize(runs);
  leak_slope.resize(runs, 1);
  node_pa.resize(nodes);
  values.resize(net.elimination.valueCount());
  rhs.resize(net.unknownCount());
  keep_values.resize(values.size());
  keep_rhs.resize(rhs.size());
  rise.resize(net.junctions.size() * physics::kMaxLegs);
  rise_slope.resize(net.junctions.size() * physics::kMaxLegs * physics::kMaxLegs);
  flow_end.resize(runs);
  ends.resize(runs);
  best_x.resize(x.size());
  held_fan.resize(net.fans.size());
}

namespace {

double factorOf(const Situation& situation, Group group) {
  return situation.group_factor[static_cast<std::size_t>(group)];
}

double runFactor(const Situation& situation, std::size_t run) {
  return situation.run_factor.empty() ? 1.0 : situation.run_factor[run];
}

/// Bores other than the drawn ones. Areas, roughness and what a stretch weighs follow; coefficients stay.
void prepareBores(const Network& net, const Situation& situation, WorkspaceData& w) {
  if (situation.bore_factor.empty() && !w.other_bores) {
    return;
  }
  w.other_bores = !situation.bore_factor.empty();
  for (std::size_t r = 0; r < net.runs.size(); ++r) {
    const CompiledRun& run = net.runs[r];
    const double bore = boreFactor(situation, r);
    const double area = bore * bore;
    w.leak_before_area[r] = run.leak_before_inverse_area / area;
    for (std::size_t s = run.stretch_begin; s < run.stretch_end; ++s) {
      const Stretch& drawn = net.stretches[s];
      Stretch& now = w.stretches[s];
      now.area_m2 = drawn.area_m2 * area;
      now.inverse_area = drawn.inverse_area / area;
      now.inverse_2a2 = drawn.inverse_2a2 / (area * area);
      now.re_per_kg_s = drawn.re_per_kg_s / bore;
      now.leak_inverse_area = drawn.leak_inverse_area / area;
      for (std::size_t f = drawn.friction_begin; f < drawn.friction_end; ++f) {
        w.roughness[f] = net.frictions[f].relative_roughness / bore;
      }
    }
  }
  for (std::size_t j = 0; j < net.junctions.size(); ++j) {
    const CompiledJunction& junction = net.junctions[j];
    w.junctions[j].area_m2 = junction.geometry.area_m2;
    for (std::size_t leg = 0; leg < junction.geometry.legs; ++leg) {
      scaleLeg(w.junctions[j], leg, boreFactor(situation, junction.run[leg]));
    }
  }
}

}  // namespace

void prepareGate(const Network& net, const Situation& situation, std::size_t g, WorkspaceData& w) {
  const pieces::GatePlace& place = net.pieces->gates[g];
  const double travel = situation.gate_travel[g];
  if (travel != w.gate_travel[g]) {
    const physics::GateLoss loss = physics::gate(travel, place.leak_fraction);
    w.gate_travel[g] = travel;
    w.gate_tight[g] = loss.closed ? 1 : 0;
    w.gate_bare_k[g] = loss.closed ? 0 : loss.k;
  }
  const std::size_t run = net.gate_run[g];
  w.gate_k[g] = factorOf(situation, Group::Gate) * runFactor(situation, run) *
                runGroupFactor(situation, run, Group::Gate) * w.gate_bare_k[g];
}

void prepare(const Network& net, const Situation& situation, WorkspaceData& w) {
  prepareBores(net, situation, w);
  for (std::size_t g = 0; g < w.gate_k.size(); ++g) {
    prepareGate(net, situation, g, w);
  }
  std::fill(w.k_forward.begin(), w.k_forward.end(), 0.0);
  std::fill(w.k_reverse.begin(), w.k_reverse.end(), 0.0);
  std::fill(w.linear.begin(), w.linear.end(), 0.0);
  const auto filter = static_cast<std::size_t>(situation.filter);
  for (std::size_t r = 0; r < net.runs.size(); ++r) {
    const CompiledRun& run = net.runs[r];
    const double own = runFactor(situation, r);
    for (std::size_t p = run.share_begin; p < run.share_end; ++p) {
      const PieceShare& share = net.shares[p];
      const double f = own * factorOf(situation, share.group) * runGroupFactor(situation, r, share.group);
      w.k_forward[share.stretch] += f * share.k_forward;
      w.k_reverse[share.stretch] += f * share.k_reverse;
      w.linear[share.stretch] +=
          f * (share.filter >= 0
                   ? net.pieces->filters[static_cast<std::size_t>(share.filter)].linear_pa_s_m3[filter]
                   : share.linear);
    }
    const double mu = w.solids[r];
    // S of a friction part goes as L/D / (A^2 Re per flow): the inverse fourth power of the bore.
    const double bore = boreFactor(situation, r);
    const double lengthwise = own / (bore * bore * bore * bore);
    for (std::size_t s = run.stretch_begin; s < run.stretch_end; ++s) {
      const Stretch& stretch = net.stretches[s];
      for (std::size_t f = stretch.friction_begin; f < stretch.friction_end; ++f) {
        const Group group = net.frictions[f].group;
        w.friction[f] = net.frictions[f].weight * lengthwise * factorOf(situation, group) *
                        runGroupFactor(situation, r, group) * physics::dustFrictionFactor(mu);
      }
      if (stretch.first_duct != 0) {
        w.k_forward[s] += 2 * physics::kDustAccelerationShare * mu;
      }
    }
  }
  const double rho = net.air.room_density_kg_m3;
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    w.fan_on[f] = situation.fan_on[f];
    w.fan_factor[f] = fanFactor(situation, f);
  }
  w.any_junction_extra = !situation.junction_extra.empty();
  if (w.any_junction_extra) {
    std::copy(situation.junction_extra.begin(), situation.junction_extra.end(), w.junction_extra.begin());
  }
  for (std::size_t o = 0; o < net.openings.size(); ++o) {
    const pieces::Opening& opening = net.pieces->openings[o];
    const double effective = opening.discharge * opening.area_m2;
    w.opening_open[o] = situation.opening_open[o];
    w.opening_k[o] =
        factorOf(situation, Group::Opening) * openingFactor(situation, o) / (2 * rho * effective * effective);
  }
  std::fill(w.hose_shut.begin(), w.hose_shut.end(), char{0});
  for (std::size_t h = 0; h < net.pieces->moved.size(); ++h) {
    const pieces::MovedHose& hose = net.pieces->moved[h];
    for (std::size_t p = 0; p < hose.places.size(); ++p) {
      w.hose_shut[hose.places[p].run] = situation.hose_place[h] == static_cast<int>(p) ? 0 : 1;
    }
  }
  w.leak_factor = factorOf(situation, Group::Leakage);
}

}  // namespace kerfdraft::network
