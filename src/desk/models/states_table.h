// The states of use and how the air stands in each, as rows of text. Without Qt.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/units.h"
#include "desk/solved.h"

namespace kerfdraft::desk {

struct StateRow {
  std::string name;
  std::string filter;
  std::string verdict;  ///< "served", "short: T2 chip hood", "no solution"
  std::string worst;    ///< the open port farthest from what it needs: "T2 chip hood 285 of 400 cfm"
  std::string slowest;  ///< of the runs with chips, against what these need: "D1 2260 of 3500 fpm"
  bool good = false;
  bool tried = false;
  bool unused = false;
};

/// One for each state, in their order; none where nothing is solved.
std::vector<StateRow> stateRows(const Solved& solved, base::UnitSystem units);

}  // namespace kerfdraft::desk
