// kerfdraft completion: prints the script that lets a shell complete the command line.
#pragma once

#include <ostream>

#include "cli/common.h"

namespace kerfdraft::cli {

struct CompletionOptions {
  Common common;
};

int runCompletion(const CompletionOptions& options, std::ostream& out, std::ostream& err);

}  // namespace kerfdraft::cli
