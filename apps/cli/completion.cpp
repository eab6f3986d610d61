// The words come from the parser itself (options.cpp), so the script cannot lag behind it.
#include "cli/completion.h"

#include "cli/exit_codes.h"
#include "cli/options.h"

namespace kerfdraft::cli {

int runCompletion(const CompletionOptions& options, std::ostream& out, std::ostream& err) {
  return deliver(bashCompletion(), options.common, kAllServed, out, err);
}

void declareOptions(OptionList& list, CompletionOptions& o) {
  list.output(o.common);
  list.footer(
      "Examples:\n"
      "  kerfdraft completion -o ~/.local/share/bash-completion/completions/kerfdraft");
}

}  // namespace kerfdraft::cli
