// What a rule may look at: results, gathered once. Rules never compute air themselves.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "judge/assessment.h"
#include "judge/bands.h"
#include "judge/finding.h"
#include "judge/margins.h"
#include "judge/sheet.h"
#include "judge/transport.h"

namespace kerfdraft::judge {

/// What an open port would get if its machine alone were open in this state.
struct AloneFlow {
  std::size_t state = 0;
  std::size_t port = 0;
  double flow_m3_s = 0;
};

/// A state solved again at both ends of a filter's life; nothing where that has no solution.
struct FilterLife {
  std::optional<network::Solution> clean;
  std::optional<network::Solution> due;
};

/// Values and references; lives no longer than the assessment and catalogue that it was gathered from.
struct Evidence {
  const Assessment& assessment;
  const catalogue::Catalogue& catalogue;
  std::vector<StateMargins> margins;  ///< by state
  std::vector<StateBands> bands;      ///< by state; empty where none were computed
  /// By state, then by Pieces::ports: the calculation sheet of each open port; nothing where shut or
  /// unsolved.
  std::vector<std::vector<std::optional<Sheet>>> sheets;
  std::vector<AloneFlow>
      alone;  ///< of every open port in declared states where more than one machine is open
  std::optional<StateResult> freest;  ///< every gate open, every fan on: where motors are loaded most
  /// By state; both without a value where the state has no solution or the drawing no filter.
  std::vector<FilterLife> filter_life;
  /// By state, then by run: indices into needs.needs() of the chips that travel there.
  std::vector<std::vector<std::vector<std::size_t>>> chips;
  TransportNeeds needs;

  const shop::Project& project() const { return *assessment.project; }
  const pieces::Pieces& pieces() const { return *assessment.pieces; }
  const StateResult& state(std::size_t index) const { return assessment.states[index]; }
  bool solved(std::size_t state) const { return assessment.states[state].solution.solved(); }

  /// Factors on a prediction at two standard deviations; 1 and 1 where no band is known.
  Band speedBand(std::size_t state, std::size_t run) const;
  Band flowBand(std::size_t state, std::size_t port) const;
  Band fanBand(std::size_t state, std::size_t fan) const;

  /// The flow of a port when its machine alone is open; nothing where the state has one machine only.
  std::optional<double> aloneFlow(std::size_t state, std::size_t port) const;

  /// Runs on the way of a port's air to its fan, in order (from its sheet); empty where it has none.
  std::vector<std::size_t> path(std::size_t state, std::size_t port) const;

  // Ways back from results to what was drawn. Null where a key is not of that thing.
  const shop::Machine* machine(base::Id id) const;
  const shop::Duct* duct(base::Id id) const;
  const shop::Collector* collector(base::Id id) const;
  const shop::Room* room(base::Id id) const;
  /// The duct whose corner this is.
  const shop::Duct* ductOfCorner(base::Id corner) const;
  /// Ducts from whose corners a run's pieces come, in the order of the air.
  std::vector<const shop::Duct*> ductsOfRun(std::size_t run) const;
  /// "T2 planer": label and name as printed.
  std::string machineName(base::Id id) const;
};

/// Gathers it. `bands` by state, or empty. Errors: those of margins() and of TransportNeeds::of().
base::Result<Evidence> gatherEvidence(const Assessment& assessment, const catalogue::Catalogue& catalogue,
                                      std::vector<StateBands> bands);

}  // namespace kerfdraft::judge
