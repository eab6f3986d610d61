// kerfdraft catalogue: lists the tables of the program, shows one or one row of it, and searches them all.
#pragma once

#include <ostream>
#include <string>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct CatalogueOptions {
  Common common;
  std::string table;   ///< all tables are listed where empty
  std::string key;     ///< one row
  std::string search;  ///< words
  bool csv = false;
};

int runCatalogue(const CatalogueOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, CatalogueOptions& options);

}  // namespace kerfdraft::cli
