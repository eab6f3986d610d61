// kerfdraft check: the verdict on a shop: what is wrong, what to do, and what every open machine gets.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/option_list.h"
#include "judge/rule.h"

namespace kerfdraft::cli {

struct CheckOptions {
  Common common;
  std::string project;
  judge::Reader reader = judge::Reader::Adviser;
  std::vector<std::string>
      states;        ///< of the table, by name; all that are used where empty. Findings are of these
  bool all = false;  ///< every finding in full
  bool json = false;
};

/// Exit codes: 0 every open port and machine reaches its floor, 1 one does not, 2 bad input, 3 a state
/// without a solution.
int runCheck(const CheckOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, CheckOptions& options);

/// --reader, the same for every command that has one.
void declareReader(OptionList& list, judge::Reader& reader, const std::string& help);

}  // namespace kerfdraft::cli
