// Linear propagation: what each input's spread does to every flow and speed of a state.
#pragma once

#include <cstddef>
#include <vector>

#include "doubt/inputs.h"
#include "doubt/spread.h"
#include "judge/assessment.h"
#include "network/sensitivity.h"

namespace kerfdraft::doubt {

/// Spreads of one state. Effects are in the order of `inputs`.
struct StateDoubt {
  std::size_t state = 0;
  bool defined = false;  ///< false: not solved, nothing moves, or flows jump here; then all lists are empty
  std::vector<Input> inputs;
  std::vector<Spread> ports;      ///< flow at room density [m3/s], by Pieces::ports
  std::vector<Spread> runs;       ///< flow at its start, at room density [m3/s], by Pieces::runs
  std::vector<Spread> speeds;     ///< slowest air in the ducts of each run [m/s], by Pieces::runs
  std::vector<Spread> fans;       ///< actual flow at the inlet [m3/s], by Pieces::fans
  std::vector<Spread> fan_rises;  ///< rise of total pressure [Pa], by Pieces::fans
  std::vector<Spread> openings;   ///< speed through it [m/s], by Pieces::openings
};

/// To first order in every input: effect = d(number)/d ln(factor) × standard deviation of ln(factor); inputs
/// are independent, so variances add (Gum2008, 5.1.2). Where it holds and where not is measured against
/// sampling in tests/doubt/sampling_test.cpp. `solver` must be of the assessment's network.
StateDoubt propagate(const judge::Assessment& assessment, std::size_t state,
                     network::SensitivitySolver& solver);

/// Every state, in their order, on `threads` threads (0: all cores); the numbers do not depend on how many.
std::vector<StateDoubt> assessDoubt(const judge::Assessment& assessment, unsigned threads = 0);

}  // namespace kerfdraft::doubt
