// From flows and pressures to everything that is shown.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "network/march.h"
#include "network/piece_terms.h"
#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

class Expander {
 public:
  Expander(const Network& net, const Situation& situation, const WorkspaceData& w)
      : net_(net), situation_(situation), w_(w), from_(*net.pieces), air_(net.air) {}

  void fill(Solution& s) const {
    s.node_pa.assign(w_.node_pa.begin(), w_.node_pa.end());
    for (std::size_t r = 0; r < net_.runs.size(); ++r) {
      s.runs.push_back(run(r));
    }
    for (std::size_t f = 0; f < net_.fans.size(); ++f) {
      s.fans.push_back(fan(f));
    }
    for (std::size_t o = 0; o < net_.openings.size(); ++o) {
      s.openings.push_back(opening(o));
    }
    for (const pieces::PortPlace& port : from_.ports) {
      s.ports.push_back(portResult(port, s.runs[port.run]));
    }
  }

 private:
  double pressure(int node) const { return w_.node_pa[static_cast<std::size_t>(node)]; }

  double totalAt(const RunEnd& end) const {
    const double p = pressure(end.node);
    if (end.junction < 0) {
      return p;
    }
    return p + w_.rise[static_cast<std::size_t>(end.junction) * physics::kMaxLegs +
                       static_cast<std::size_t>(end.leg)];
  }

  double leakAt(double coefficient, double bore_m, double total_pa, double flow, double room_pa) const {
    const double flux = flow / physics::roundArea(bore_m);
    const physics::DensityAt at = physics::densityFromTotal(air_, total_pa, flux);
    const double static_pa = total_pa - 0.5 * flux * flux / at.rho;
    return physics::leakFlow(w_.leak_factor * coefficient, room_pa - static_pa).flow_m3_s *
           air_.room_density_kg_m3;
  }

  double staticAt(double bore_m, double total_pa, double flow) const {
    if (!(bore_m > 0)) {
      return total_pa;
    }
    const double flux = flow / physics::roundArea(bore_m);
    const physics::DensityAt at = physics::densityFromTotal(air_, total_pa, flux);
    return total_pa - 0.5 * flux * flux / at.rho;
  }

  RunResult run(std::size_t r) const {
    const pieces::Run& source = from_.runs[r];
    const CompiledRun& compiled = net_.runs[r];
    RunResult result;
    const bool shut = w_.closed_at[r] != kOpen;
    result.flow_start_kg_s = w_.x[r];
    result.flow_end_kg_s = w_.flow_end[r];
    result.total_start_pa = totalAt(compiled.from);
    result.total_end_pa = totalAt(compiled.to);
    result.solids_ratio = shut ? 0 : w_.solids[r];
    if (shut) {
      shutPieces(r, result);
    } else {
      openPieces(r, result);
    }
    result.static_start_pa = staticAt(source.start_bore_m, result.total_start_pa, result.flow_start_kg_s);
    result.static_end_pa = staticAt(source.end_bore_m, result.total_end_pa, result.flow_end_kg_s);
    for (std::size_t i = 0; i < source.pieces.size(); ++i) {
      if (source.pieces[i].length_m > 0) {
        const double speed = std::abs(result.pieces[i].speed_m_s);
        result.slowest_m_s = result.slowest_m_s > 0 ? std::min(result.slowest_m_s, speed) : speed;
      }
    }
    return result;
  }

  void openPieces(std::size_t r, RunResult& result) const {
    const pieces::Run& source = from_.runs[r];
    const double room = pressure(net_.runs[r].room);
    const int accelerating = acceleratingPiece(source);
    double total = result.total_start_pa;
    double flow = result.flow_start_kg_s;
    std::size_t next_leak = 0;
    const auto leaks = [&](int after) {
      double gained = 0;
      double coefficient = 0;
      double bore = 0;
      for (; next_leak < source.leaks.size() && source.leaks[next_leak].after == after; ++next_leak) {
        coefficient += source.leaks[next_leak].coefficient;
        bore = source.leaks[next_leak].bore_m;
      }
      if (coefficient > 0) {
        gained = leakAt(coefficient, bore, total, flow, room);
      }
      flow += gained;
    };
    leaks(-1);
    for (std::size_t i = 0; i < source.pieces.size(); ++i) {
      const pieces::Piece& piece = source.pieces[i];
      const PieceTerms terms =
          pieceTerms(from_, situation_, r, i, flow, result.solids_ratio, accelerating == static_cast<int>(i));
      const physics::PieceFlow air =
          physics::pieceFlow(air_, piece.bore_m, total, flow, terms.coefficient, terms.linear_pa_s_m3);
      PieceResult p;
      p.flow_kg_s = flow;
      p.density_kg_m3 = air.mean_density;
      p.speed_m_s = flow / (air.mean_density * physics::roundArea(piece.bore_m));
      p.velocity_pressure_pa = air.velocity_pressure_pa;
      p.reynolds = terms.reynolds;
      p.friction_factor = terms.friction_factor;
      p.coefficient = terms.coefficient;
      p.loss_pa = air.loss_pa;
      p.total_in_pa = total;
      p.total_out_pa = air.total_out_pa;
      p.static_in_pa = air.static_in_pa;
      p.static_out_pa = air.static_out_pa;
      result.pieces.push_back(p);
      total = air.total_out_pa;
      leaks(static_cast<int>(i));
    }
  }

  /// Still air: the pressure of the node on its side of the closed place.
  void shutPieces(std::size_t r, RunResult& result) const {
    const CompiledRun& compiled = net_.runs[r];
    for (std::size_t i = 0; i < from_.runs[r].pieces.size(); ++i) {
      const auto stretch = static_cast<int>(net_.shares[compiled.share_begin + i].stretch);
      const bool upstream = stretch < w_.closed_at[r];
      const double before = upstream ? result.total_start_pa : result.total_end_pa;
      PieceResult p;
      p.density_kg_m3 = physics::densityFromTotal(air_, before, 0).rho;
      p.total_in_pa = p.static_in_pa = before;
      p.total_out_pa = p.static_out_pa = before;
      if (stretch == w_.closed_at[r]) {
        p.total_in_pa = p.static_in_pa = result.total_start_pa;
        p.loss_pa = p.total_in_pa - p.total_out_pa;
      }
      result.pieces.push_back(p);
    }
  }

  FanResult fan(std::size_t f) const {
    const pieces::Fan& source = from_.fans[f];
    FanResult result;
    result.running = w_.fan_on[f] != 0;
    result.flow_kg_s = w_.x[net_.fanUnknown(f)];
    result.inlet_total_pa = pressure(net_.fans[f].from);
    result.outlet_total_pa = pressure(net_.fans[f].to);
    result.rise_pa = result.outlet_total_pa - result.inlet_total_pa;
    const double flux =
        source.inlet_bore_m > 0 ? result.flow_kg_s / physics::roundArea(source.inlet_bore_m) : 0;
    const double rho = physics::densityFromTotal(air_, result.inlet_total_pa, flux).rho;
    result.inlet_flow_m3_s = result.flow_kg_s / rho;
    result.backward = result.running && result.flow_kg_s < -1e-9 * net_.flow_scale_kg_s;
    if (result.running) {
      const physics::CurveValue curve =
          physics::fanRise(*source.rating, result.inlet_flow_m3_s, air_.room_density_kg_m3, rho);
      result.rise_pa = curve.p_pa;
      result.beyond_data = curve.beyond_data;
      result.rising_part = curve.rising;
    }
    return result;
  }

  OpeningResult opening(std::size_t o) const {
    OpeningResult result;
    result.flow_kg_s = w_.x[net_.openingUnknown(o)];
    result.speed_m_s = result.flow_kg_s / (air_.room_density_kg_m3 * from_.openings[o].area_m2);
    result.drop_pa = pressure(net_.openings[o].from) - pressure(net_.openings[o].to);
    return result;
  }

  PortResult portResult(const pieces::PortPlace& port, const RunResult& run) const {
    PortResult result;
    result.flow_m3_s = run.flow_start_kg_s / air_.room_density_kg_m3;
    if (run.pieces.empty()) {
      return result;
    }
    const PieceResult& first = run.pieces.front();
    const bool entry = from_.runs[port.run].pieces.front().key.role == pieces::Role::Entry;
    result.speed_m_s = first.flow_kg_s / (first.density_kg_m3 * physics::roundArea(port.bore_m));
    result.hood_static_pa =
        (entry ? first.static_out_pa : first.static_in_pa) - pressure(net_.runs[port.run].room);
    return result;
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
