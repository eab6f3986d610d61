// The program without its main: arguments in, text and exit code out.
#pragma once

#include <ostream>

#include "cli/options.h"

namespace kerfdraft::cli {

/// Runs one command line. An InternalError leaves it.
int runProgram(int argc, const char* const* argv, const Surroundings& surroundings, std::ostream& out,
               std::ostream& err);

}  // namespace kerfdraft::cli
