// kerfdraft solve --gate-sets: every set of gates open or shut, streamed from the solver and summed up.
#pragma once

#include <ostream>

#include "cli/solve.h"
#include "judge/assessment.h"

namespace kerfdraft::cli {

/// Solves every set of gates; the rest of the situation is that of the one state named in the options, or
/// rest. Ctrl-C ends the walk, and what was seen is summed up and says so.
int runGateSets(const SolveOptions& options, const judge::Assessment& assessment, std::ostream& out,
                std::ostream& err);

}  // namespace kerfdraft::cli
