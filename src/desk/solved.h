// What the window shows of a shop: everything solved and judged, as one value that never changes. Without Qt.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "doubt/chances.h"
#include "judge/assessment.h"
#include "judge/bands.h"
#include "judge/margins.h"
#include "judge/verdict.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// The states of the project stand first, in its order; a state that is only tried stands last.
struct Solved {
  std::uint64_t serial = 0;  ///< of the request that it answers
  std::shared_ptr<const shop::Project> project;
  std::optional<base::Error> problem;  ///< why nothing could be solved; then all below is empty
  std::shared_ptr<const judge::Assessment> assessment;
  std::vector<judge::StateMargins> margins;       ///< by state
  std::vector<judge::StateBands> bands;           ///< by state; empty until they are there
  std::vector<doubt::StateChances> chances;       ///< by state; empty until they are there
  std::shared_ptr<const judge::Verdict> verdict;  ///< nothing until it is there
  bool tried = false;                             ///< the last state is a trial

  std::size_t states() const { return assessment ? assessment->states.size() : 0; }
};

/// Solves every state and a trial where there is one. No bands, no verdict: this is what an edit waits for.
Solved solveShop(std::shared_ptr<const shop::Project> project, const std::optional<shop::State>& trial,
                 const catalogue::Catalogue& catalogue);

/// Adds bands, chances and verdict.
void judgeSolved(Solved& solved, const catalogue::Catalogue& catalogue);

}  // namespace kerfdraft::desk
