// The network: pieces compiled once into numbers that all threads share, the situation in which it is asked,
// the memory of one thread, and the solver.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "base/result.h"
#include "network/solution.h"
#include "physics/junction.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::network {

class Network;  // immutable; made by compileNetwork

/// One number for each leg of a junction.
using LegExtra = std::array<double, physics::kMaxLegs>;

/// All that may vary without compiling again.
struct Situation {
  std::vector<double> gate_travel;  ///< by Pieces::gates, 0 shut … 1 open
  std::vector<int> hose_place;      ///< by Pieces::moved: index of its place, −1 closed
  std::vector<char> fan_on;         ///< by Pieces::fans
  std::vector<char> opening_open;   ///< by Pieces::openings
  shop::FilterState filter = shop::FilterState::Seasoned;
  std::array<double, pieces::kGroups>
      group_factor{};  ///< on the losses (Leakage: on the leak) of a group; all 1 (Junction: of saddles)
  std::vector<double> run_factor;   ///< on friction and coefficients of each run; all 1 (a fault is a factor)
  std::vector<double> solids_kg_s;  ///< by Pieces::ports: what the machine throws into each
  /// By run: on the losses of one group in it, beside `group_factor`; empty: all 1 (not Leakage, Opening).
  std::vector<std::array<double, pieces::kGroups>> run_group_factor;
  std::vector<double> bore_factor;     ///< by run: on every bore in it, coefficients kept; empty: all 1
  std::vector<double> fan_factor;      ///< by Pieces::fans: on the pressure of its curve; empty: all 1
  std::vector<double> opening_factor;  ///< by Pieces::openings: on their losses; empty: all 1
  /// By Pieces::junctions, then by leg: further velocity pressures of that leg that its air loses there, in
  /// or out; empty: none.
  std::vector<LegExtra> junction_extra;
};

/// The situation in which every gate is shut, every fan on, every opening as usual, filter seasoned.
Situation restingSituation(const pieces::Pieces& pieces);

/// The situation of a state of use. Refused: ids that are not in the drawing.
base::Result<Situation> situationOf(const pieces::Pieces& pieces, const shop::Project& project,
                                    const shop::State& state);

}  // namespace kerfdraft::network
