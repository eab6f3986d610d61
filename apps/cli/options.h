// The command line as values: one struct of options for each sub-command, or the text that --help, --version
// or a mistake prints. Nothing runs here, and no other file knows the parser.
#pragma once

#include <string>
#include <variant>

#include "cli/accept.h"
#include "cli/catalogue.h"
#include "cli/check.h"
#include "cli/completion.h"
#include "cli/draw.h"
#include "cli/explain.h"
#include "cli/line.h"
#include "cli/new.h"
#include "cli/reading.h"
#include "cli/report.h"
#include "cli/sheet.h"
#include "cli/solve.h"
#include "cli/traverse.h"

namespace kerfdraft::cli {

/// Help, the version, or what was wrong with the arguments.
struct Answer {
  std::string text;
  int code = 0;
  bool is_error = false;
};

/// What a run is told beside its arguments, so that tests can pin it.
struct Surroundings {
  std::string date;       ///< of the results where no --date is given
  bool terminal = false;  ///< a person watches the error stream: long work shows how far it is
};

using Command = std::variant<Answer, CheckOptions, AcceptOptions, ReportOptions, SolveOptions, SheetOptions,
                             ExplainOptions, DrawOptions, LineOptions, ReadingOptions, TraverseOptions,
                             NewOptions, CatalogueOptions, CompletionOptions>;

/// `surroundings` are what the arguments do not say.
Command parseArguments(int argc, const char* const* argv, const Surroundings& surroundings);

/// The script that lets bash complete sub-commands and options.
std::string bashCompletion();

}  // namespace kerfdraft::cli
