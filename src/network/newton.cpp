// Complete Newton on flows and pressures: from one uniform start, undamped unless it diverges.
#include <algorithm>
#include <cmath>

#include "network/workspace.h"

namespace kerfdraft::network {
namespace {

constexpr double kGuessPressure_pa = 1500;
constexpr double kGuessSpeed_m_s = 20;
constexpr int kUndamped = 16;  // ordinary shops need at most 13 (model.md section 7)
constexpr double kFirmly =
    0.05;  // a point is taken when this share of the allowance is left, so that warm equals cold

bool finite(const std::vector<double>& v) {
  return std::all_of(v.begin(), v.end(), [](double d) { return std::isfinite(d); });
}

}  // namespace

void firstGuess(const Network& net, WorkspaceData& w) {
  const double rho = net.air.room_density_kg_m3;
  std::fill(w.x.begin(), w.x.end(), 0.0);
  std::fill(w.leak.begin(), w.leak.end(), 0.0);
  std::fill(w.leak_slope.begin(), w.leak_slope.end(), 1.0);
  for (std::size_t r = 0; r < net.runs.size(); ++r) {
    const CompiledRun& run = net.runs[r];
    if (w.closed_at[r] != kOpen) {
      continue;
    }
    double conductance = run.start_conductance;
    double gates = 0;
    for (const std::size_t g : run.gates) {
      gates += w.gate_k[g] * net.stretches[net.gate_stretch[g]].inverse_2a2;
    }
    if (gates > 0) {
      conductance = 1 / std::sqrt(1 / (conductance * conductance) + gates);
    }
    w.x[r] = std::min(conductance * std::sqrt(rho * kGuessPressure_pa),
                      rho * kGuessSpeed_m_s * run.start_limit_area);
  }
  for (std::size_t f = 0; f < net.fans.size(); ++f) {
    if (w.fan_on[f] != 0) {
      const physics::FanRating& rating = *net.pieces->fans[f].rating;
      w.x[net.fanUnknown(f)] = 0.6 * rho * rating.speed_ratio * rating.curve.lastFlow();
    }
  }
  for (std::size_t o = 0; o < net.openings.size(); ++o) {
    w.x[net.openingUnknown(o)] = w.opening_open[o] != 0 ? rho * net.pieces->openings[o].area_m2 : 0;
  }
}

bool linearStep(const Network& net, WorkspaceData& w) {
  std::copy(w.values.begin(), w.values.end(), w.keep_values.begin());
  std::copy(w.rhs.begin(), w.rhs.end(), w.keep_rhs.begin());
  if (net.elimination.solve(w.values.data(), w.rhs.data())) {
    return true;
  }
  return linearStepPivoting(net, w);
}

Report newton(const Network& net, const physics::DuctAir& air, WorkspaceData& w, int most) {
  Report report;
  double best = 1e300;
  int worse = 0;
  double damping = 1;
  for (int iteration = 0; iteration < most; ++iteration) {
    const Miss miss = evaluate(net, air, w);
    report.iterations = iteration;
    report.mass_residual_kg_s = miss.mass_kg_s;
    report.pressure_residual_pa = miss.pressure_pa;
    report.worst_allowed = miss.worst_allowed;
    if (miss.worst_allowed <= kFirmly && !miss.choked) {
      report.outcome = Outcome::Solved;
      return report;
    }
    // A residual that no longer shrinks is rounding: good enough if it is allowed at all.
    if (miss.worst_allowed <= 1 && !miss.choked && miss.worst_allowed > 0.5 * best) {
      report.outcome = Outcome::Solved;
      return report;
    }
    if (iteration >= kUndamped) {
      worse = miss.worst_allowed > best ? worse + 1 : 0;
      damping = iteration < 2 * kUndamped ? 0.7 : iteration < 4 * kUndamped ? 0.5 : 0.25;
      damping = worse > 4 ? 0.5 * damping : damping;
    }
    best = std::min(best, miss.worst_allowed);
    if (!linearStep(net, w) || !finite(w.rhs)) {
      report.outcome = Outcome::NotConverged;
      return report;
    }
    for (std::size_t i = 0; i < w.x.size(); ++i) {
      w.x[i] += damping * w.rhs[i];
    }
  }
  report.outcome = Outcome::NotConverged;
  return report;
}

}  // namespace kerfdraft::network
