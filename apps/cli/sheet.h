// kerfdraft sheet: the calculation sheet along a path, piece by piece, by the model or by the trade's hand
// method.
#pragma once

#include <ostream>
#include <string>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct SheetOptions {
  Common common;
  std::string project;
  std::string state;  ///< by name; where empty, the one in which some port is shortest of air
  std::string port;   ///< as portByName() takes it; where empty, the worst open port of that state
  bool hand = false;
  bool power_law = false;  ///< hand: friction by the trade's power law
  bool by_gates = false;   ///< hand: branches are balanced by gates, not by design
  bool sources = false;    ///< formula and source of every coefficient
  bool csv = false;
};

/// Exit codes: 0, 2 for bad input, 3 where the state has no solution.
int runSheet(const SheetOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, SheetOptions& options);

}  // namespace kerfdraft::cli
