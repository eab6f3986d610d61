// Residuals of every law and balance at a point, and their Jacobian.
#include <algorithm>
#include <array>
#include <cmath>

#include "network/factors.h"
#include "network/march.h"
#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

constexpr double kPressureAllowed_pa = 1e-6;  // model.md section 7
constexpr double kPressureAllowed = 1e-9;
constexpr double kMassAllowed = 1e-9;
constexpr double kStillFlow = 1e-6;  // of Q_last, where nothing flows

/// Slope that a law without loss, or at rest, is given in the Jacobian (never in the residual), as pressure
/// [Pa] per flow scale: small against any real duct, and enough for the pivot.
constexpr double kLeastSlope_pa = 1e-3;

class Evaluator {
 public:
  Evaluator(const Network& net, const physics::DuctAir& air, WorkspaceData& w)
      : net_(net), air_(air), w_(w), least_slope_(kLeastSlope_pa / net.flow_scale_kg_s) {}

  Miss run() {
    std::fill(w_.values.begin(), w_.values.end(), 0.0);
    std::fill(w_.rhs.begin(), w_.rhs.end(), 0.0);
    for (std::size_t n = 0; n < w_.node_pa.size(); ++n) {
      const int unknown = net_.unknown_of_node[n];
      w_.node_pa[n] = unknown >= 0 ? w_.x[static_cast<std::size_t>(unknown)] : net_.known_pa[n];
      rhs(unknown, -net_.pieces->nodes[n].inflow_kg_s);
    }
    for (const int item : net_.order) {
      if (item < 0) {
        junction(static_cast<std::size_t>(-1 - item));
      } else {
        const auto r = static_cast<std::size_t>(item);
        w_.closed_at[r] == kOpen ? passRun(r) : shutRun(r);
      }
    }
    for (std::size_t r = 0; r < net_.runs.size(); ++r) {
      if (w_.closed_at[r] == kOpen) {
        writeRun(r);
      }
    }
    for (std::size_t f = 0; f < net_.fans.size(); ++f) {
      fan(f);
    }
    for (std::size_t o = 0; o < net_.openings.size(); ++o) {
      opening(o);
    }
    balances();
    miss_.mass_scale = std::max(miss_.mass_scale, kStillFlow * net_.flow_scale_kg_s);
    miss_.worst_allowed =
        std::max(worst_pressure_, std::max(miss_.mass_kg_s, leak_moved_) / (kMassAllowed * miss_.mass_scale));
    return miss_;
  }

 private:
  double pressure(int node) const { return w_.node_pa[static_cast<std::size_t>(node)]; }
  void rhs(int row, double negative_residual_part) {
    if (row >= 0) {
      w_.rhs[static_cast<std::size_t>(row)] += negative_residual_part;
    }
  }
  void value(int address, double v) {
    if (address >= 0) {
      w_.values[static_cast<std::size_t>(address)] += v;
    }
  }
  int row(int node) const { return net_.unknown_of_node[static_cast<std::size_t>(node)]; }

  /// Residual of a law: pressure in minus loss minus pressure out; the scale is the largest term in it.
  void law(std::size_t unknown, double residual_pa, double scale_pa) {
    w_.rhs[unknown] = -residual_pa;
    const double size = std::abs(residual_pa);
    miss_.pressure_pa = std::max(miss_.pressure_pa, size);
    worst_pressure_ = std::max(worst_pressure_, size / (kPressureAllowed_pa + kPressureAllowed * scale_pa));
    if (!(size < 1e300)) {
      worst_pressure_ = 1e300;
    }
  }

  void junction(std::size_t j) {
    const CompiledJunction& junction = net_.junctions[j];
    const physics::JunctionGeometry& geometry = w_.junctions[j];
    const std::size_t n = geometry.legs;
    std::array<double, physics::kMaxLegs> inflow{};
    for (std::size_t i = 0; i < n; ++i) {
      const std::size_t r = junction.run[i];
      inflow[i] = junction.at_end[i] != 0 ? w_.x[r] + w_.leak[r] : -w_.x[r];
    }
    const double rho = air_.local
                           ? std::max(0.05 * air_.room_density_kg_m3,
                                      (pressure(junction.node) + air_.barometric_pa) / air_.stiffness())
                           : air_.room_density_kg_m3;
    double* rise = &w_.rise[j * physics::kMaxLegs];
    double* slope = &w_.rise_slope[j * physics::kMaxLegs * physics::kMaxLegs];
    physics::junctionEnds(geometry, std::span(inflow.data(), n), rho, rise, slope);
    if (w_.any_junction_extra) {
      for (std::size_t i = 0; i < n; ++i) {
        const JunctionExtra extra =
            junctionExtra(w_.junction_extra[j][i], geometry.area_m2[i], inflow[i], rho);
        rise[i] += extra.rise_pa;
        slope[i * n + i] += extra.slope_pa_s_kg;
      }
    }
    // Columns are flows in the drawn direction: a start's inflow is its flow with the sign turned.
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t c = 0; c < n; ++c) {
        slope[i * n + c] *= junction.at_end[c] != 0 ? w_.leak_slope[junction.run[c]] : -1;
      }
    }
  }

  struct End {
    double total = 0;
    double by_node = 1;
    const double* slopes = nullptr;
  };

  End endOf(const RunEnd& end) const {
    const double p = pressure(end.node);
    if (end.junction < 0) {
      return {p, 1, nullptr};
    }
    const auto j = static_cast<std::size_t>(end.junction);
    const auto leg = static_cast<std::size_t>(end.leg);
    const double rise = w_.rise[j * physics::kMaxLegs + leg];
    const std::size_t n = net_.junctions[j].geometry.legs;
    const double by_node = air_.local ? 1 - rise / std::max(1.0, p + air_.barometric_pa) : 1;
    return {p + rise, by_node, &w_.rise_slope[j * physics::kMaxLegs * physics::kMaxLegs + leg * n]};
  }

  /// The air through an open run, from what its start gives.
  void passRun(std::size_t r) {
    const CompiledRun& run = net_.runs[r];
    const double flow = w_.x[r];
    const MarchEnd end = march(net_, air_, w_, r, flow, endOf(run.from).total, pressure(run.room));
    miss_.choked = miss_.choked || end.choked;
    const double gained = end.flow - flow;
    if (run.after_its_junction) {
      leak_moved_ = std::max(leak_moved_, std::abs(gained - w_.leak[r]));
    }
    w_.leak[r] = gained;
    w_.leak_slope[r] = end.flow_by_flow;
    w_.flow_end[r] = end.flow;
    w_.ends[r] = end;
  }

  /// Its law and its share in the balances, once every junction is known.
  void writeRun(std::size_t r) {
    const CompiledRun& run = net_.runs[r];
    const End from = endOf(run.from);
    const End to = endOf(run.to);
    const double flow = w_.x[r];
    const MarchEnd& end = w_.ends[r];
    law(r, end.total - to.total, std::max(std::abs(from.total - end.total), std::abs(to.total)));

    double self = end.total_by_flow;
    if (!(self < -least_slope_)) {
      self = std::min(self, 0.0) - least_slope_;
    }
    value(run.law_self, self);
    value(run.law_from, end.total_by_total * from.by_node);
    value(run.law_to, -to.by_node);
    for (std::size_t c = 0; c < run.from.leg_addresses.size(); ++c) {
      value(run.from.leg_addresses[c], end.total_by_total * from.slopes[c]);
    }
    for (std::size_t c = 0; c < run.to.leg_addresses.size(); ++c) {
      value(run.to.leg_addresses[c], -to.slopes[c]);
    }
    rhs(row(run.from.node), flow);
    rhs(row(run.to.node), -end.flow);
    value(run.from_flow, -1);
    value(run.to_flow, end.flow_by_flow);
    value(run.to_from, end.flow_by_total);
    noteFlow(flow);
  }

  /// Nothing passes; the two dead ends leak by the pressure of their own node.
  void shutRun(std::size_t r) {
    const CompiledRun& run = net_.runs[r];
    double before = 0;
    double before_slope = 0;
    double after = 0;
    double after_slope = 0;
    const double room = pressure(run.room);
    const auto leak = [&](double coefficient, bool upstream) {
      if (coefficient > 0) {
        const physics::LeakFlow l = physics::leakFlow(
            w_.leak_factor * coefficient, room - pressure(upstream ? run.from.node : run.to.node));
        (upstream ? before : after) += l.flow_m3_s * air_.room_density_kg_m3;
        (upstream ? before_slope : after_slope) -= l.slope_m3_s_pa * air_.room_density_kg_m3;
      }
    };
    leak(run.leak_before, w_.closed_at[r] >= 0);
    for (std::size_t s = run.stretch_begin; s < run.stretch_end; ++s) {
      leak(net_.stretches[s].leak_after, static_cast<int>(s) < w_.closed_at[r]);
    }
    w_.rhs[r] = -(w_.x[r] + before);
    value(run.law_self, 1);
    value(run.law_from, before_slope);
    w_.leak[r] = after + before;
    w_.leak_slope[r] = 1;
    w_.flow_end[r] = after;
    miss_.mass_kg_s = std::max(miss_.mass_kg_s, std::abs(w_.x[r] + before));
    rhs(row(run.from.node), w_.x[r]);
    value(run.from_flow, -1);
    rhs(row(run.to.node), -after);
    value(run.to_to, after_slope);
  }

  void link(const CompiledLink& l, std::size_t unknown) {
    const double flow = w_.x[unknown];
    rhs(row(l.from), flow);
    rhs(row(l.to), -flow);
    value(l.from_flow, -1);
    value(l.to_flow, 1);
    noteFlow(flow);
  }

  void shutLink(const CompiledLink& l, std::size_t unknown) {
    w_.rhs[unknown] = -w_.x[unknown];
    value(l.law_self, 1);
    link(l, unknown);
  }

  /// d(rise)/d(inlet density) at constant volume flow.
  static double riseByDensity(const physics::FanRating& rating, double q, double rho, double rise_pa) {
    double vp_per_rho = 0;
    if (rating.section_m2 > 0 && q > 0) {
      vp_per_rho = 0.5 * q * q / (rating.section_m2 * rating.section_m2);
    }
    if (rating.basis == physics::RatingBasis::StaticAtInlet) {
      return -vp_per_rho;
    }
    return physics::ratedAtInlet(rating.basis) ? 0.0 : rise_pa / rho;
  }

  void fan(std::size_t f) {
    const pieces::Fan& fan = net_.pieces->fans[f];
    const CompiledLink& l = net_.fans[f];
    const std::size_t unknown = net_.fanUnknown(f);
    const double flow = w_.x[unknown];
    if (w_.holding && w_.fan_on[f] != 0) {
      w_.rhs[unknown] = w_.held_fan[f] - flow;
      value(l.law_self, 1);
      link(l, unknown);
      return;
    }
    const double from = pressure(l.from);
    const double to = pressure(l.to);
    if (w_.fan_on[f] == 0) {
      if (fan.non_return || !(fan.stopped_bore_m > 0)) {
        shutLink(l, unknown);
        return;
      }
      const double area = physics::roundArea(fan.stopped_bore_m);
      const double c = fan.stopped_k / (2 * air_.room_density_kg_m3 * area * area);
      law(unknown, from - c * flow * std::abs(flow) - to, std::max(std::abs(from), std::abs(to)));
      value(l.law_self, -2 * c * std::abs(flow) - least_slope_);
    } else {
      const double flux = fan.inlet_bore_m > 0 ? flow / physics::roundArea(fan.inlet_bore_m) : 0;
      const physics::DensityAt at = physics::densityFromTotal(air_, from, flux);
      miss_.choked = miss_.choked || at.choked;
      const double q = flow / at.rho;
      const physics::CurveValue rise =
          fanRiseTimes(*fan.rating, w_.fan_factor[f], q, air_.room_density_kg_m3, at.rho);
      law(unknown, from + rise.p_pa - to, std::abs(rise.p_pa));
      const double by_rho = riseByDensity(*fan.rating, q, at.rho, rise.p_pa) - rise.dp_d_q * q / at.rho;
      const double rho_by_flow = fan.inlet_bore_m > 0 ? at.d_flux / physics::roundArea(fan.inlet_bore_m) : 0;
      value(l.law_self, rise.dp_d_q / at.rho + by_rho * rho_by_flow);
      value(l.law_from, by_rho * at.d_total);
    }
    value(l.law_from, 1);
    value(l.law_to, -1);
    link(l, unknown);
  }

  void opening(std::size_t o) {
    const CompiledLink& l = net_.openings[o];
    const std::size_t unknown = net_.openingUnknown(o);
    if (w_.opening_open[o] == 0) {
      shutLink(l, unknown);
      return;
    }
    const double flow = w_.x[unknown];
    const double c = w_.opening_k[o];
    const double from = pressure(l.from);
    const double to = pressure(l.to);
    law(unknown, from - c * flow * std::abs(flow) - to, std::max(std::abs(from), std::abs(to)));
    value(l.law_self, -2 * c * std::abs(flow) - least_slope_);
    value(l.law_from, 1);
    value(l.law_to, -1);
    link(l, unknown);
  }

  /// The balances' residuals are already in rhs; leaks also take air from the room around.
  void balances() {
    for (std::size_t r = 0; r < net_.runs.size(); ++r) {
      const int room = row(net_.runs[r].room);
      if (room >= 0) {
        rhs(room, w_.leak[r]);
      }
    }
    for (std::size_t n = 0; n < w_.node_pa.size(); ++n) {
      const int unknown = net_.unknown_of_node[n];
      if (unknown < 0) {
        continue;
      }
      if (w_.pinned[n] != 0) {
        // Floating: nothing drives it and nothing passes. Its pressure is set to zero and its balance left
        // out.
        w_.rhs[static_cast<std::size_t>(unknown)] = -w_.node_pa[n];
        clearRow(n);
        value(net_.balance_self[n], 1);
        continue;
      }
      miss_.mass_kg_s = std::max(miss_.mass_kg_s, std::abs(w_.rhs[static_cast<std::size_t>(unknown)]));
    }
  }

  void clearRow(std::size_t node) {
    const int target = net_.unknown_of_node[node];
    const std::vector<int>& rows = net_.elimination.rows();
    for (std::size_t a = 0; a < rows.size(); ++a) {
      if (rows[a] == target) {
        w_.values[a] = 0;
      }
    }
  }

  void noteFlow(double flow) { miss_.mass_scale = std::max(miss_.mass_scale, std::abs(flow)); }

  const Network& net_;
  const physics::DuctAir& air_;
  WorkspaceData& w_;
  double least_slope_;
  double worst_pressure_ = 0;
  double leak_moved_ = 0;
  Miss miss_;
};

}  // namespace

Miss evaluate(const Network& network, const physics::DuctAir& air, WorkspaceData& w) {
  return Evaluator(network, air, w).run();
}

}  // namespace kerfdraft::network
