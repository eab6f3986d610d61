// kerfdraft explain: how one number came about: the laws that made it with their inputs and sources, and
// where each input comes from. Without a key it lists the numbers that there are.
#pragma once

#include <ostream>
#include <string>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct ExplainOptions {
  Common common;
  std::string project;
  std::string key;     ///< "state/0/port/3/flow"; a list of keys where empty
  std::string state;   ///< of the list, by name; the first where empty
  std::string search;  ///< of the list: words of the number's name
  int deeper = 0;      ///< inputs that are numbers themselves are explained so many levels down
};

int runExplain(const ExplainOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, ExplainOptions& options);

}  // namespace kerfdraft::cli
