// kerfdraft draw: the plan, an isometric sketch, or a chart, as one SVG file.
#pragma once

#include <ostream>
#include <string>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

enum class DrawWhat {
  Plan,       ///< "plan": the shop to scale, with the air of a state
  Isometric,  ///< "isometric": the ducts in space, to hang them by
  Fan,        ///< "fan": the collector's curve, system curves and operating points
  Pressure,   ///< "pressure": total and static pressure along a path
  Speed,      ///< "speed": the air's speed in every run against what the chips need
};

struct DrawOptions {
  Common common;
  std::string project;
  DrawWhat what = DrawWhat::Plan;
  std::string state;   ///< by name; the one where a port is shortest of air, for a fan chart all, where empty
  std::string port;    ///< start of the path for Pressure; the worst of the state where empty
  std::string fan;     ///< for Fan: label or name; the first one where empty
  std::string paper;   ///< "a3", "letter-upright"; the smallest that leaves labels room where empty
  bool plain = false;  ///< the plan without results
};

/// Exit codes: 0, 2 bad input, 3 a state without a solution (what does not depend on one is drawn all the
/// same).
int runDraw(const DrawOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, DrawOptions& options);

}  // namespace kerfdraft::cli
