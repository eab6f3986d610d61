// kerfdraft new: a starter project that solves at once: a room, machines along the walls, a main with a drop
// and gate for each, one collector, each machine alone as a state.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct NewOptions {
  Common common;
  std::string path;
  std::string name;
  std::string room;                   ///< "22 ft x 24 ft x 9 ft"
  std::vector<std::string> machines;  ///< kinds of the catalogue
  std::string collector;              ///< key of the catalogue's test_fans
  std::string main;                   ///< bore of the main; found from the machines where empty
  std::string who;                    ///< home, one-person, employer, school
  std::string country;
  std::uint64_t seed = 0;  ///< of the ids; zero: from the system
  bool force = false;      ///< over a file that is there
};

int runNew(const NewOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, NewOptions& options);

}  // namespace kerfdraft::cli
