// What the window shows of a shop: everything solved and judged, as one value that never changes. Without Qt.
#pragma once

#include <cstdint>
#include <functional>
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
  /// The only state that is solved so far, where the others are still to come.
  std::optional<std::size_t> only{};

  std::size_t states() const { return assessment ? assessment->states.size() : 0; }
  /// Whether the numbers of a state may be read from it.
  bool has(std::size_t state) const { return state < states() && (!only || *only == state); }
};

/// The first of three steps, and what the hand waits for: of all states only the one that is looked at. A
/// trial is always looked at; an index past the states stands for the last.
Solved solveShown(std::shared_ptr<const shop::Project> project, const std::optional<shop::State>& trial,
                  std::size_t shown, const catalogue::Catalogue& catalogue);

/// The second step: the states that are still to come. Asks before each whether it is still wanted; false
/// where it is not, and then nothing is changed.
bool solveOthers(Solved& solved, const catalogue::Catalogue& catalogue, const std::function<bool()>& wanted);

/// The third step: bands, chances and verdict. Nothing is done while states are still to come.
void judgeSolved(Solved& solved, const catalogue::Catalogue& catalogue);

/// Solves every state and a trial where there is one: the first two steps in one.
Solved solveShop(std::shared_ptr<const shop::Project> project, const std::optional<shop::State>& trial,
                 const catalogue::Catalogue& catalogue);

}  // namespace kerfdraft::desk
