// From the options to the sub-command that they belong to.
#include "cli/program.h"

#include "cli/options.h"

namespace kerfdraft::cli {
namespace {

struct Runner {
  std::ostream& out;
  std::ostream& err;

  int operator()(const Answer& answer) const {
    (answer.is_error ? err : out) << answer.text;
    return answer.code;
  }
  int operator()(const CatalogueOptions& options) const { return runCatalogue(options, out, err); }
  int operator()(const CompletionOptions& options) const { return runCompletion(options, out, err); }
};

}  // namespace

int runProgram(int argc, const char* const* argv, const std::string& date, std::ostream& out,
               std::ostream& err) {
  return std::visit(Runner{out, err}, parseArguments(argc, argv, date));
}

}  // namespace kerfdraft::cli
