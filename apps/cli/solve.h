// kerfdraft solve: every state of a shop, each gate alone, or every set of gates.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

enum class Format { Text, Csv, Json };

struct SolveOptions {
  Common common;
  std::string project;
  std::vector<std::string> states;  ///< by name; all where empty
  bool each_gate = false;
  bool gate_sets = false;
  bool full = false;     ///< shut ports and runs too
  bool summary = false;  ///< only the first table
  Format format = Format::Text;
  unsigned threads = 0;   ///< 0: all cores
  bool progress = false;  ///< of long walks, on the error stream
};

/// Exit codes: 0 every open port and machine reaches its floor, 1 one does not, 2 bad input, 3 a state
/// without a solution.
int runSolve(const SolveOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, SolveOptions& options);

}  // namespace kerfdraft::cli
