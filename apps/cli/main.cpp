// Entry of the command line. Bugs end here with a sentence and exit code 70; everything else is a result.
#include <unistd.h>

#include <cstdlib>
#include <exception>
#include <iostream>

#include "base/result.h"
#include "cli/common.h"
#include "cli/exit_codes.h"
#include "cli/program.h"

int main(int argc, char** argv) {
  namespace cli = kerfdraft::cli;
  try {
    // Tests pin the day; a person has the clock.
    const char* pinned = std::getenv("KERFDRAFT_DATE");
    const cli::Surroundings surroundings{pinned != nullptr ? pinned : cli::today(),
                                         ::isatty(STDERR_FILENO) == 1};
    return cli::runProgram(argc, argv, surroundings, std::cout, std::cerr);
  } catch (const kerfdraft::base::InternalError& bug) {
    std::cerr << "kerfdraft: this is a bug of the program, not of your input: " << bug.what() << '\n';
  } catch (const std::exception& problem) {
    std::cerr << "kerfdraft: stopped by the system or by a bug of the program: " << problem.what() << '\n';
  }
  return cli::kBug;
}
