// The states of use and how the air stands in each, as rows of text. Without Qt.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/units.h"
#include "desk/solved.h"

namespace kerfdraft::desk {

/// What a state gives a machine or one of its ports.
struct StateCell {
  std::string text;  ///< "572 likely", "−" where shut; "572 (was 540) likely" beside a kept result
  std::string tip;   ///< need and band in words; empty where shut
  std::string why;   ///< key of the number; empty where there is none
  bool open = false;
  bool good = true;  ///< open and served, or nothing is asked
};

struct StateRow {
  std::string name;
  std::string filter;
  std::string verdict;  ///< "served", "short", "no solution"; "short (was served)" beside a kept result
  std::string worst;    ///< the open port farthest from what it needs: "T2 chip hood 285 of 400 cfm"
  std::string slowest;  ///< of the runs with chips, against what these need: "D1 2260 of 3500 fpm (was 2310)"
  std::string slowest_why;
  std::string changed;  ///< every change against a kept result, a line each; empty without one
  bool good = false;
  bool tried = false;
  bool unused = false;
  bool declared = true;          ///< false for the state that is taken where a project has none
  std::vector<StateCell> cells;  ///< by portColumns(); empty without a solution
};

/// A column for each port that has a need of its own, and for each machine whose ports share one.
struct PortColumn {
  std::string name;   ///< "T1 base"
  std::string unit;   ///< "cfm"
  shop::PortRef ref;  ///< the port is not valid for a whole machine
};
std::vector<PortColumn> portColumns(const Solved& solved, base::UnitSystem units);

/// One for each state, in their order; none where nothing is solved. Beside a kept result, what a state of
/// the same id had there.
std::vector<StateRow> stateRows(const Solved& solved, base::UnitSystem units, const Solved* kept = nullptr);

}  // namespace kerfdraft::desk
