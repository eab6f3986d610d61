// kerfdraft accept: what a person lives with, written into the project with the reason; or taken back.
#pragma once

#include <cstddef>
#include <ostream>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/option_list.h"
#include "judge/verdict.h"

namespace kerfdraft::cli {

struct AcceptOptions {
  Common common;  ///< the date stands with the acceptance
  std::string project;
  int number = 0;      ///< of a finding in kerfdraft check; with undo of an accepted lot there
  std::string rule;    ///< in place of a number: key of a rule, as in check --json …
  std::string about;   ///< … of this piece only …
  std::string state;   ///< … in this state only, by its name
  std::string reason;  ///< why; needed to accept
  bool undo = false;
};

/// Findings that were accepted for one reason: they are listed, and taken back, together.
struct AcceptedLot {
  std::string reason;
  std::vector<std::size_t> findings;  ///< index in Verdict::findings, the leads of groups first
};

/// In the order of Verdict::lived_with.
std::vector<AcceptedLot> acceptedLots(const judge::Verdict& verdict);

/// Exit codes: 0 saved, 2 bad input, and then the project is as it was.
int runAccept(const AcceptOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, AcceptOptions& options);

}  // namespace kerfdraft::cli
