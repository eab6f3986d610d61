// The memory of one thread, and the coefficients of the situation at hand. Inside the room only.
#pragma once

#include <vector>

#include "network/compiled.h"
#include "network/solve.h"

namespace kerfdraft::network {

/// Where a run is shut: no air passes behind this piece (−1: at its start); kOpen where nothing is shut.
inline constexpr int kOpen = -2;

/// End of a run as a function of its start (flow m, total pressure P).
struct MarchEnd {
  double total = 0;
  double flow = 0;
  double total_by_flow = 0;
  double total_by_total = 1;
  double flow_by_flow = 1;
  double flow_by_total = 0;
  double rho = 0;  ///< in the bore just left
  bool choked = false;
};

struct WorkspaceData {
  explicit WorkspaceData(const Network& network);

  // The situation, as coefficients (prepare.cpp).
  std::vector<Stretch> stretches;        // the network's, at the bores of the situation
  std::vector<double> roughness;         // relative, by FrictionPart
  std::vector<double> leak_before_area;  // inverse, by run
  std::vector<physics::JunctionGeometry> junctions;
  bool other_bores = false;
  std::vector<double> fan_factor;
  std::vector<LegExtra> junction_extra;
  bool any_junction_extra = false;
  std::vector<double> k_forward;  // by stretch, gates left out
  std::vector<double> k_reverse;
  std::vector<double> linear;
  std::vector<double> friction;     // by FrictionPart
  std::vector<double> gate_k;       // by gate, with its factors; 0 for a tight one
  std::vector<double> gate_bare_k;  // at gate_travel, without factors
  std::vector<double> gate_travel;
  std::vector<char> gate_tight;
  std::vector<char> hose_shut;  // by run: a moved hose that is elsewhere
  std::vector<int> closed_at;   // by run
  std::vector<char> fan_on;
  std::vector<char> opening_open;
  std::vector<double> opening_k;  // 1/(2 ρ (Cd A)²)
  double leak_factor = 1;
  std::vector<char> pinned;  // by node: floating, so its pressure is set to zero
  bool several_starts = false;
  std::vector<double> solids;          // μ by run
  std::vector<double> solids_carried;  // kg/s by run, and the clean air they were counted with
  std::vector<double> solids_air;

  // The point.
  std::vector<double> x;           // flows, then pressures
  std::vector<double> leak;        // by run: flow gained from start to end
  std::vector<double> leak_slope;  // d(end flow)/d(start flow)
  std::vector<double> node_pa;     // by node

  // One evaluation.
  std::vector<double> values;
  std::vector<double> rhs;
  std::vector<double> keep_values;  // for the second factorization
  std::vector<double> keep_rhs;
  std::vector<double> rise;        // by junction × leg
  std::vector<double> rise_slope;  // by junction × leg × leg
  std::vector<double> flow_end;    // by run
  std::vector<MarchEnd> ends;      // by run
  std::vector<double> best_x;
  std::vector<double> held_fan;  // flow to hold a fan at; used while `holding`
  bool holding = false;

  // Scratch of prepareTopology().
  std::vector<int> parent;
  std::vector<int> breath;
  std::vector<char> has_pin;
};

/// Coefficients of a situation into the workspace, all of them. Sizes are those of restingSituation().
void prepare(const Network& network, const Situation& situation, WorkspaceData& w);

/// The same for one gate that moved.
void prepareGate(const Network& network, const Situation& situation, std::size_t gate, WorkspaceData& w);

/// Which runs are shut, which nodes float, and whether there is a solution at all.
Report prepareTopology(const Network& network, WorkspaceData& w);

/// How far an evaluation is from solved.
struct Miss {
  double mass_kg_s = 0;
  double mass_scale = 0;
  double pressure_pa = 0;
  double worst_allowed = 0;
  bool choked = false;
};

/// Residuals (negated, in rhs) and, where `matrix`, the Jacobian at w.x. `air` may differ from the network's
/// in its mode: a hard local case begins with one density.
Miss evaluate(const Network& network, const physics::DuctAir& air, WorkspaceData& w);

/// Solves the linear system of the last evaluation into w.rhs: by the fixed order, or by KLU where that loses
/// digits.
bool linearStep(const Network& network, WorkspaceData& w);
bool linearStepPivoting(const Network& network, WorkspaceData& w);

/// Where the flow of a run that is at the point is guessed to lie.
void firstGuess(const Network& network, WorkspaceData& w);

/// Newton from w.x; `most` iterations.
Report newton(const Network& network, const physics::DuctAir& air, WorkspaceData& w, int most);

/// True where all eigenvalues of Nᵀ (dR/dQ) N have positive real part, N the null space of the incidence
/// matrix (model.md section 6), at w.x.
bool isStable(const Network& network, WorkspaceData& w);

/// Solves from the fixed starts and returns the distinct points found, best first by the rule of model.md
/// section 6.
struct Found {
  std::vector<double> x;
  std::vector<double> leak;
  Report report;
  bool stable = true;
  bool all_forward = true;
  double fan_flow = 0;
};
std::vector<Found> solveFromFixedStarts(const Network& network, WorkspaceData& w);

/// Everything shown, from a converged workspace.
Solution expand(const Network& network, const Situation& situation, const WorkspaceData& w,
                const Report& report);

/// μ of every run from the flows at the point (model.md section 2).
void updateSolids(const Network& network, const Situation& situation, WorkspaceData& w);

}  // namespace kerfdraft::network
