// kerfdraft completion: prints the script that lets a shell complete the command line.
#pragma once

#include <ostream>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct CompletionOptions {
  Common common;
};

int runCompletion(const CompletionOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, CompletionOptions& options);

}  // namespace kerfdraft::cli
