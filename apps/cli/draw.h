// kerfdraft draw: the plan, an isometric sketch, or a chart, as one SVG file.
#pragma once

#include <ostream>
#include <string>

#include "cli/common.h"

namespace kerfdraft::cli {

enum class DrawWhat {
  Plan,       ///< "plan": the shop to scale, with the air of a state
  Isometric,  ///< "isometric": the ducts in space, to hang them by
  Fan,        ///< "fan": the collector's curve, system curves and operating points
  Pressure,   ///< "pressure": total and static pressure along a path
  Speed,      ///< "speed": the air's speed in every run against what the chips need
};

struct DrawOptions {
  Common common;        ///< --units, --date, -o
  std::string project;  ///< positional, required: project file of the shop
  DrawWhat what =
      DrawWhat::Plan;  ///< --what WORD: plan (taken where not given), isometric, fan, pressure, speed
  std::string state;  ///< --state NAME: by its name; the one where a port is shortest of air where not given.
                      ///< A fan chart shows all states where not given
  std::string
      port;         ///< --port NAME: start of the path for "pressure"; the worst of the state where not given
  std::string fan;  ///< --collector NAME: for "fan", label or name; the first one where not given
  std::string paper;  ///< --paper NAME: letter, tabloid, a4, a3, a2, a1, each also with "-upright" behind it;
                      ///< the smallest that leaves labels room where not given. For plan and isometric
  bool plain = false;  ///< --plain: the plan without results
};

/// Exit codes: 0, 2 bad input, 3 a state without a solution (what does not depend on one is drawn all the
/// same).
int runDraw(const DrawOptions& options, std::ostream& out, std::ostream& err);

}  // namespace kerfdraft::cli
