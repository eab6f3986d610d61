// The command line as values: one struct of options for each sub-command, or the text that --help, --version
// or a mistake prints. Nothing runs here, and no other file knows the parser.
#pragma once

#include <string>
#include <variant>

#include "cli/catalogue.h"
#include "cli/completion.h"

namespace kerfdraft::cli {

/// Help, the version, or what was wrong with the arguments.
struct Answer {
  std::string text;
  int code = 0;
  bool is_error = false;
};

using Command = std::variant<Answer, CatalogueOptions, CompletionOptions>;

/// `date` is the day of the results where no --date is given.
Command parseArguments(int argc, const char* const* argv, const std::string& date);

/// The script that lets bash complete sub-commands and options.
std::string bashCompletion();

}  // namespace kerfdraft::cli
