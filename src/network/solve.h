// The solver's doors: compile once, then solve any situation, fast or with everything shown.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "network/network.h"
#include "network/solution.h"

namespace kerfdraft::network {

/// Refused: a piece with an impossible number or a roughness over 5 % of its bore, an opening without area.
base::Result<std::shared_ptr<const Network>> compileNetwork(std::shared_ptr<const pieces::Pieces> pieces);

/// What a fast solve says; the numbers are in the workspace.
struct Report {
  Outcome outcome = Outcome::NotConverged;
  int iterations = 0;
  double mass_residual_kg_s = 0;    ///< worst node
  double pressure_residual_pa = 0;  ///< worst law
  double worst_allowed = 0;         ///< worst residual over what is allowed; solved means ≤ 1
  std::int32_t place = -1;          ///< node, where there is no solution
  bool usable() const { return outcome == Outcome::Solved || outcome == Outcome::Still; }
};

enum class Start {
  Cold,  ///< from nothing
  Warm,  ///< from what the workspace holds; gives the same answer
};

class Network;
struct WorkspaceData;

/// All memory of one thread's solves. A solve in a prepared workspace allocates nothing while one fan runs.
class Workspace {
 public:
  explicit Workspace(const Network& network);
  ~Workspace();
  Workspace(Workspace&&) noexcept;
  Workspace& operator=(Workspace&&) noexcept;

  /// Mass flow at the start of each run, in the drawn direction [kg/s].
  std::span<const double> runFlow() const;
  /// Mass flow at the end of each run: with what leaked in on the way.
  std::span<const double> runEndFlow() const;
  std::span<const double> fanFlow() const;
  std::span<const double> openingFlow() const;
  /// By node: total at joints, bodies and rooms, p_in at junctions [Pa] relative to outdoors.
  std::span<const double> nodePressure() const;

  WorkspaceData& data() { return *data_; }
  const WorkspaceData& data() const { return *data_; }

 private:
  std::unique_ptr<WorkspaceData> data_;
};

/// Flows and pressures of one situation. Never throws for a network made by compileNetwork.
///
/// Complete Newton on the flows and one pressure per node. With two or more fans running, or a fan whose
/// curve rises somewhere, it also starts from the fixed places of model.md section 6 and chooses by its rule,
/// so that a warm start changes nothing. Accuracy: mass within 1e-9 of the largest flow, laws within 1e-6 Pa
/// + 1e-9 (tests/network/solve_test.cpp, WarmEqualsCold).
Report solve(const Network& network, const Situation& situation, Workspace& workspace, Start start) noexcept;

/// The same with the dust load counted: that of the clean-air solution, then constant (model.md section 2).
/// What solveFully() shows, without showing it. Allocates where something is thrown in.
Report solveLoaded(const Network& network, const Situation& situation, Workspace& workspace, Start start);

/// The same with every piece, port, fan and opening shown, dust load counted, and other solutions listed.
Solution solveFully(const Network& network, const Situation& situation);

/// What one set of gates gives, while gate sets are streamed.
struct GateSetResult {
  std::uint64_t open = 0;  ///< bit i: gate i of the list is open
  Outcome outcome = Outcome::NotConverged;
  std::span<const double> run_flow_kg_s;
  std::span<const double> fan_flow_kg_s;
  std::span<const double> node_pa;
};

struct GateSetOptions {
  std::vector<std::size_t> gates;  ///< which gates are opened and shut, at most 40; empty: all
  unsigned threads = 0;            ///< 0: all cores
  const base::StopFlag* stop = nullptr;
  base::Progress progress;  ///< may be empty
};

/// Every set of gates open or shut, walked in Gray order in fixed blocks, so that results and their order do
/// not depend on the number of threads. `each` is called in order, from one thread at a time. Returns how
/// many sets were delivered. Refused: more than 40 gates (over 10^12 sets).
base::Result<std::uint64_t> solveGateSets(const Network& network, const Situation& situation,
                                          const GateSetOptions& options,
                                          const std::function<void(const GateSetResult&)>& each);

}  // namespace kerfdraft::network
