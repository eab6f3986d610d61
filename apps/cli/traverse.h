// kerfdraft traverse: where to hold the tube in a duct, or, with readings, what they make.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/instrument_options.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct TraverseOptions {
  Common common;     ///< --units: default those of the bore as typed
  DuctOptions duct;  ///< bore, or width and height; required
  std::string rule;  ///< log-linear (default of round ducts), log-tchebycheff (of rectangular), equal-area
  int points = 0;    ///< on a diameter, or on each line of a rectangle; 0: by the size, or the readings
  int lines = 0;     ///< diameters, or lines across the width; 0: 2, or by the size, or the readings
  std::string upstream;    ///< straight duct before the plane, "3 ft"
  std::string downstream;  ///< and after
  std::string stub;        ///< from where the marks are seen to the inner wall, "1/2 in"; default 0
  int fraction = 16;       ///< marks to 1/16 in; 1, 2, 4, 8, 16, 32 or 64
  std::vector<std::string>
      readings;               ///< none: the plan only. One text per line of points, in the order of the
                              ///< marks, unit last: "0.62 0.80 - 0.97 0.83 0.60 in w.g."; "-": not read
  std::string readings_file;  ///< the same as rows of a CSV file, with --reading-unit
  std::string reading_unit;   ///< for readings without one, "in w.g.", "Pa", "fpm"
  std::string legs;           ///< U-tube: both or one; "": said as unclear
  InstrumentOptions instrument;
  AirOptions air;
  std::string claimed;  ///< a speed or flow somebody made of it, to be compared
  bool steps = false;   ///< every formula with its inputs
  bool json = false;
};

/// 0, or 2 for bad input (nothing is then written to `out`).
/// JSON of a plan: {"kind": "traverse", "format": 1, "plan": {"rule", "diameter_m", "least_from_wall_m",
/// "integration_bias", "lines": [{"name", "across_m", "marks": [{"fraction", "from_wall_m", "on_tube_m",
/// "moved"}]}], "straight_rules": [{"key", "upstream", "downstream", "applies", "met", "source"}],
/// "point_rules":
/// [{"rule", "needed", "met", "source"}], "notices"}}; with readings also "result" as in measured_text.h,
/// with "speeds_m_s" per line (null: not read) and "scatter_relative".
int runTraverse(const TraverseOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, TraverseOptions& options);

}  // namespace kerfdraft::cli
