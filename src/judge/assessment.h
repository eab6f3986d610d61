// A project put together, solved in every state of use: what margins, sheets and explanations are read from.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "network/network.h"
#include "network/solution.h"
#include "network/solve.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::judge {

/// One state of use and how the air stands in it.
struct StateResult {
  base::Id id;  ///< not valid for the state that is taken where a project declares none
  std::string name;
  bool declared = true;
  network::Situation situation;
  network::Solution solution;
};

/// Values only, cheap to copy: the big parts are shared and never change.
struct Assessment {
  std::shared_ptr<const shop::Project> project;
  std::shared_ptr<const pieces::Pieces> pieces;
  std::shared_ptr<const network::Network> network;
  std::vector<StateResult> states;  ///< in the project's order
};

/// Builds, compiles and solves every state. A project without states is solved once with every gate open and
/// each moved hose at its first place; that state is marked as not declared. A state without a solution is a
/// value in it, not an error. Errors: those of buildPieces(), compileNetwork() and situationOf().
base::Result<Assessment> assess(const shop::Project& project, const catalogue::Catalogue& catalogue);

/// The same with one state solved (index in `states`) and the others left without a solution: for trying what
/// a change brings. Refused beside: a state that is not there.
base::Result<Assessment> assessOne(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                   std::size_t state);

}  // namespace kerfdraft::judge
