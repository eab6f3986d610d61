// What each open machine gets in each state, with its band, its chances and the slowest air on its way: the
// one list from which every paper makes its tables.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "doubt/spread.h"
#include "drawing/grade.h"
#include "papers/paper_input.h"

namespace kerfdraft::papers {

/// A port, or a machine whose ports share one requirement, open in a state.
struct Got {
  std::size_t state = 0;
  const judge::FlowMargin* margin = nullptr;
  const doubt::FlowChance* chance = nullptr;  ///< null where the state has no band
  const judge::RunMargin* slowest = nullptr;  ///< worst run on its way; null where no chips travel there
  const doubt::RunChance* slowest_chance = nullptr;  ///< of that run
  std::string name;                                  ///< "T2 planer"

  std::optional<double> low() const;  ///< of the flow, at two standard deviations
  std::optional<double> high() const;
};

/// In the order of the drawing; empty where the state has no solution or nothing is open.
std::vector<Got> gotIn(const PaperInput& input, std::size_t state);

/// Air got over the target, or over the floor where there is no target; very large where nothing is asked.
double shareOf(const Got& got);

/// A chance as a reader sees it.
struct InWords {
  std::string text;  ///< "yes", "likely", "unlikely", "no"; "-" where nothing is asked
  std::optional<drawing::Grade> grade;
};
InWords chipsTaken(const Got& got);    ///< enough air at the port for the chips
InWords dustTaken(const Got& got);     ///< the target, fine dust too
InWords chipsCarried(const Got& got);  ///< fast enough all the way

/// The port or the run, whichever is less sure: "met", "not met" or "cannot conclude" for an intended
/// performance.
std::string conclusion(const Got& got);

/// False for a state that is only kept to look at.
bool used(const judge::Assessment& assessment, std::size_t state);

/// States in which somebody works and air moves: those that tables show. Every one in which air moves where
/// nobody works in any.
std::vector<std::size_t> movingStates(const PaperInput& input);
/// The same without those whose filter is not as usual (seasoned), as long as others remain.
std::vector<std::size_t> usualStates(const PaperInput& input);

/// The state that a paper shows in full: that of the gravest finding with a state, else of the port that is
/// shortest of air, else the first.
std::size_t shownState(const PaperInput& input);

/// The path that a paper shows in full: in that state, of the gravest finding's port, else of the one that is
/// shortest of air. Nothing where no port is open there.
std::optional<std::size_t> shownPort(const PaperInput& input);

/// "D1" of "D1: elbow to junction": enough where a table has no room.
std::string shortLabel(const std::string& label);

/// Labels of the gates that are open in a state: "G2 and G5"; "G2 (half)" where only part of the way.
std::string openGates(const PaperInput& input, std::size_t state);

/// "a, b and c".
std::string listed(const std::vector<std::string>& words);

}  // namespace kerfdraft::papers
