// The air along one run, stretch by stretch, with the derivatives of its end by its start. Inside the room
// only.
#pragma once

#include <cmath>

#include "network/workspace.h"
#include "physics/friction.h"
#include "physics/leak.h"

namespace kerfdraft::network {

/// What a stretch takes: S = Σ weight (f |Re|) m + k m|m|/(2A²) + R m, and its slope.
struct LossWeight {
  double s = 0;
  double slope = 0;
};

[[gnu::always_inline]] inline LossWeight lossWeight(const WorkspaceData& w, std::size_t index, double flow) {
  const Stretch& stretch = w.stretches[index];
  double k = flow >= 0 ? w.k_forward[index] : w.k_reverse[index];
  if (stretch.gate >= 0) {
    k += w.gate_k[static_cast<std::size_t>(stretch.gate)];
  }
  const double quadratic = k * stretch.inverse_2a2 * std::abs(flow);
  double per_flow = quadratic + w.linear[index];
  double slope = 2 * quadratic + w.linear[index];
  const double re = std::abs(flow) * stretch.re_per_kg_s;
  for (std::size_t f = stretch.friction_begin; f < stretch.friction_end; ++f) {
    const physics::FrictionTerm term = physics::frictionTimesRe(re, w.roughness[f]);
    per_flow += w.friction[f] * term.f_re;
    slope += w.friction[f] * (term.f_re + term.slope * re);
  }
  return {per_flow * flow, slope};
}

/// Leak at a station: static pressure there from the total and the flow in the bore of the leak. `rho` is the
/// density in that bore where it is known, else zero.
inline void addLeak(const physics::DuctAir& air, double coefficient, double inverse_area, double rho,
                    double room_pa, MarchEnd& end) {
  const double flux = end.flow * inverse_area;
  if (!(rho > 0)) {
    rho = physics::densityFromTotal(air, end.total, flux).rho;
  }
  const double per_rho = 1 / rho;
  const double static_pa = end.total - 0.5 * flux * flux * per_rho;
  // d(static) = dP − G/ρ dG (the density's own change is of second order and left out of the slope only).
  const double static_by_flow = end.total_by_flow - flux * inverse_area * per_rho * end.flow_by_flow;
  const double static_by_total = end.total_by_total - flux * inverse_area * per_rho * end.flow_by_total;
  const physics::LeakFlow leak = physics::leakFlow(coefficient, room_pa - static_pa);
  const double slope = -leak.slope_m3_s_pa * air.room_density_kg_m3;
  end.flow += leak.flow_m3_s * air.room_density_kg_m3;
  end.flow_by_flow += slope * static_by_flow;
  end.flow_by_total += slope * static_by_total;
}

/// One stretch without its leak.
[[gnu::always_inline]] inline void passStretch(const physics::DuctAir& air, const WorkspaceData& w,
                                               std::size_t index, MarchEnd& end) {
  const Stretch& stretch = w.stretches[index];
  const LossWeight loss = lossWeight(w, index, end.flow);
  if (!air.local) {
    const double specific = 1 / air.room_density_kg_m3;
    end.rho = air.room_density_kg_m3;
    end.total -= loss.s * specific;
    end.total_by_flow -= loss.slope * specific * end.flow_by_flow;
    end.total_by_total -= loss.slope * specific * end.flow_by_total;
    return;
  }
  const double flux = end.flow * stretch.inverse_area;
  const physics::DensityAt in = physics::densityFromTotal(air, end.total, flux);
  const physics::DensityAfter out = physics::densityAfter(air, in.rho, flux, loss.s);
  end.rho = out.rho;
  double d_loss_d_flow = 0;   // at constant total pressure before it
  double d_loss_d_total = 0;  // at constant flow
  double loss_pa = 0;
  if (in.choked || out.choked) {
    // No such flow exists: a steep straight law lets Newton walk back.
    end.choked = true;
    loss_pa = loss.s / in.rho;
    d_loss_d_flow = loss.slope / in.rho;
  } else {
    const double a = air.stiffness();
    const double g2 = 0.5 * flux * flux;
    const double per1 = 1 / in.rho;
    const double per2 = 1 / out.rho;
    loss_pa = (in.rho - out.rho) * (a - g2 * per1 * per2);
    const double by_rho1 = a - g2 * per1 * per1;
    const double by_rho2 = -a + g2 * per2 * per2;
    const double by_flux = flux * (per1 - per2);
    const double rho1_by_flow = in.d_flux * stretch.inverse_area;
    const double rho2_by_flow =
        out.d_rho1 * rho1_by_flow + out.d_flux * stretch.inverse_area + out.d_loss_weight * loss.slope;
    d_loss_d_flow = by_rho1 * rho1_by_flow + by_rho2 * rho2_by_flow + by_flux * stretch.inverse_area;
    d_loss_d_total = (by_rho1 + by_rho2 * out.d_rho1) * in.d_total;
  }
  const double by_flow = end.total_by_flow;
  const double by_total = end.total_by_total;
  end.total -= loss_pa;
  end.total_by_flow = by_flow - d_loss_d_total * by_flow - d_loss_d_flow * end.flow_by_flow;
  end.total_by_total = by_total - d_loss_d_total * by_total - d_loss_d_flow * end.flow_by_total;
}

/// The whole run from its start.
inline MarchEnd march(const Network& net, const physics::DuctAir& air, const WorkspaceData& w, std::size_t r,
                      double start_flow, double start_total, double room_pa) {
  const CompiledRun& run = net.runs[r];
  MarchEnd end;
  end.flow = start_flow;
  end.total = start_total;
  if (run.leak_before > 0) {
    addLeak(air, w.leak_factor * run.leak_before, w.leak_before_area[r], 0, room_pa, end);
  }
  for (std::size_t s = run.stretch_begin; s < run.stretch_end; ++s) {
    passStretch(air, w, s, end);
    const Stretch& stretch = w.stretches[s];
    if (stretch.leak_after > 0) {
      addLeak(air, w.leak_factor * stretch.leak_after, stretch.leak_inverse_area,
              stretch.leak_in_own_bore ? end.rho : 0, room_pa, end);
    }
  }
  return end;
}

}  // namespace kerfdraft::network
