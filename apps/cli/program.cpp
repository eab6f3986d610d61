// From the options to the sub-command that they belong to.
#include "cli/program.h"

namespace kerfdraft::cli {
namespace {

struct Runner {
  std::ostream& out;
  std::ostream& err;

  int operator()(const Answer& answer) const {
    (answer.is_error ? err : out) << answer.text;
    return answer.code;
  }
  int operator()(const CheckOptions& options) const { return runCheck(options, out, err); }
  int operator()(const AcceptOptions& options) const { return runAccept(options, out, err); }
  int operator()(const ReportOptions& options) const { return runReport(options, out, err); }
  int operator()(const SolveOptions& options) const { return runSolve(options, out, err); }
  int operator()(const SheetOptions& options) const { return runSheet(options, out, err); }
  int operator()(const ExplainOptions& options) const { return runExplain(options, out, err); }
  int operator()(const DrawOptions& options) const { return runDraw(options, out, err); }
  int operator()(const LineOptions& options) const { return runLine(options, out, err); }
  int operator()(const ReadingOptions& options) const { return runReading(options, out, err); }
  int operator()(const TraverseOptions& options) const { return runTraverse(options, out, err); }
  int operator()(const NewOptions& options) const { return runNew(options, out, err); }
  int operator()(const CatalogueOptions& options) const { return runCatalogue(options, out, err); }
  int operator()(const CompletionOptions& options) const { return runCompletion(options, out, err); }
};

}  // namespace

int runProgram(int argc, const char* const* argv, const Surroundings& surroundings, std::ostream& out,
               std::ostream& err) {
  return std::visit(Runner{out, err}, parseArguments(argc, argv, surroundings));
}

}  // namespace kerfdraft::cli
