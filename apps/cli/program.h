// The program without its main: arguments in, text and exit code out.
#pragma once

#include <ostream>
#include <string>

namespace kerfdraft::cli {

/// Runs one command line. `date` is the day of the results where no --date is given. An InternalError leaves
/// it.
int runProgram(int argc, const char* const* argv, const std::string& date, std::ostream& out,
               std::ostream& err);

}  // namespace kerfdraft::cli
