// From flows and pressures to everything that is shown.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "network/shown.h"
#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

/// Flows at the ends of runs and total pressures at junctions name each other; repeating settles them to the
/// last bit, so that an explanation can repeat every number.
constexpr int kMostRounds = 50;

class Expander {
 public:
  Expander(const Network& net, const Situation& situation, const WorkspaceData& w)
      : net_(net), situation_(situation), w_(w), from_(*net.pieces), air_(net.air) {}

  void fill(Solution& s) const {
    s.node_pa.assign(w_.node_pa.begin(), w_.node_pa.end());
    runs(s);
    for (std::size_t f = 0; f < net_.fans.size(); ++f) {
      s.fans.push_back(shownFan(air_, from_.fans[f], w_.fan_on[f] != 0, w_.x[net_.fanUnknown(f)],
                                pressure(net_.fans[f].from), pressure(net_.fans[f].to),
                                1e-9 * net_.flow_scale_kg_s, base::Silent{}, w_.fan_factor[f]));
    }
    for (std::size_t o = 0; o < net_.openings.size(); ++o) {
      s.openings.push_back(shownOpening(air_, from_.openings[o], w_.x[net_.openingUnknown(o)],
                                        pressure(net_.openings[o].from), pressure(net_.openings[o].to)));
    }
    for (const pieces::PortPlace& port : from_.ports) {
      const std::vector<pieces::Piece>& list = from_.runs[port.run].pieces;
      const bool entry = !list.empty() && list.front().key.role == pieces::Role::Entry;
      s.ports.push_back(shownPort(air_, s.runs[port.run], entry,
                                  port.bore_m * boreFactor(situation_, port.run),
                                  pressure(net_.runs[port.run].room)));
    }
  }

 private:
  double pressure(int node) const { return w_.node_pa[static_cast<std::size_t>(node)]; }

  void runs(Solution& s) const {
    std::vector<double> flow_end(w_.flow_end.begin(), w_.flow_end.end());
    for (int round = 0; round < kMostRounds; ++round) {
      s.runs.clear();
      bool settled = true;
      for (std::size_t r = 0; r < net_.runs.size(); ++r) {
        s.runs.push_back(run(r, flow_end));
      }
      for (std::size_t r = 0; r < net_.runs.size(); ++r) {
        settled = settled && s.runs[r].flow_end_kg_s == flow_end[r];
        flow_end[r] = s.runs[r].flow_end_kg_s;
      }
      if (settled) {
        return;
      }
    }
  }

  double totalAt(const RunEnd& end, const std::vector<double>& flow_end) const {
    const double p = pressure(end.node);
    if (end.junction < 0) {
      return p;
    }
    const auto j = static_cast<std::size_t>(end.junction);
    const auto mine = static_cast<std::size_t>(end.leg);
    const CompiledJunction& junction = net_.junctions[j];
    const physics::JunctionGeometry& geometry = w_.junctions[j];
    std::array<double, physics::kMaxLegs> inflow{};
    for (std::size_t leg = 0; leg < geometry.legs; ++leg) {
      const std::size_t r = junction.run[leg];
      inflow[leg] = junction.at_end[leg] != 0 ? flow_end[r] : -w_.x[r];
    }
    const double total_pa =
        shownJunctionEnd(air_, geometry, std::span(inflow.data(), geometry.legs), p, mine);
    if (!w_.any_junction_extra) {
      return total_pa;
    }
    return total_pa + junctionExtra(w_.junction_extra[j][mine], geometry.area_m2[mine], inflow[mine],
                                    junctionDensity(air_, p))
                          .rise_pa;
  }

  RunResult run(std::size_t r, const std::vector<double>& flow_end) const {
    const CompiledRun& compiled = net_.runs[r];
    RunEnds ends;
    ends.flow_start_kg_s = w_.x[r];
    ends.total_start_pa = totalAt(compiled.from, flow_end);
    ends.total_end_pa = totalAt(compiled.to, flow_end);
    ends.room_pa = pressure(compiled.room);
    if (w_.closed_at[r] != kOpen) {
      return shownShutRun(from_, r, shownClosedAt(from_, situation_, r), ends, w_.flow_end[r]);
    }
    ends.solids_kg_s = w_.solids_carried[r];
    ends.clean_air_kg_s = w_.solids_air[r];
    return shownRun(from_, situation_, r, ends);
  }

  const Network& net_;
  const Situation& situation_;
  const WorkspaceData& w_;
  const pieces::Pieces& from_;
  physics::DuctAir air_;
};

std::string whyNot(Outcome outcome, const std::string& place, const Report& report) {
  switch (outcome) {
    case Outcome::Solved:
      return {};
    case Outcome::Still:
      return "nothing drives the air: no fan runs in this state";
    case Outcome::NoFan:
      return "the drawing has no fan: no collector, booster or machine blower";
    case Outcome::NoFreeAir:
      return fmt::format("the fan at {} has no way to free air: everything that joins it is closed", place);
    case Outcome::NoRoomAir:
      return fmt::format(
          "air is taken out of {}, and it has no opening through which air could come back: give it a door, "
          "a grille or "
          "crack leakage",
          place);
    case Outcome::NotConverged:
      return fmt::format(
          "no solution was found in {} iterations; the worst law is off by {:.3g} Pa and the worst balance "
          "by {:.3g} kg/s",
          report.iterations, report.pressure_residual_pa, report.mass_residual_kg_s);
  }
  return {};
}

}  // namespace

Solution expand(const Network& net, const Situation& situation, const WorkspaceData& w,
                const Report& report) {
  Solution s;
  s.outcome = report.outcome;
  s.residuals.iterations = report.iterations;
  s.residuals.mass_kg_s = report.mass_residual_kg_s;
  s.residuals.pressure_pa = report.pressure_residual_pa;
  s.residuals.worst_allowed = report.worst_allowed;
  for (const double flow : std::span(w.x).first(net.flowCount())) {
    s.residuals.mass_scale_kg_s = std::max(s.residuals.mass_scale_kg_s, std::abs(flow));
  }
  if (report.place >= 0) {
    s.place = net.pieces->nodes[static_cast<std::size_t>(report.place)].label;
  }
  s.why = whyNot(report.outcome, s.place, report);
  if (report.usable()) {
    Expander(net, situation, w).fill(s);
  }
  return s;
}

}  // namespace kerfdraft::network
