// kerfdraft line: the flow of one machine with its band, from a typed list of pieces. No drawing, no file.
#pragma once

#include <ostream>
#include <string>

#include "cli/common.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct LineOptions {
  Common common;
  std::string pieces;  ///< the language of line_words.h
  std::string fan;     ///< points of a curve, or a key of the catalogue's test_fans
  std::string label;   ///< free-air flow and greatest suction
  std::string basis;  ///< what was measured: static-at-inlet (default), total-at-inlet, fan-static, fan-total
  std::string test_bore;    ///< inlet pipe of the test
  std::string fitted;       ///< unknown (default), nothing, bag, filter, cyclone, cyclone-and-filter
  std::string inlet;        ///< bore of the collector's inlet, the last bore where empty
  std::string motor;        ///< power on the plate
  std::string wheel;        ///< diameter
  std::string speed;        ///< of the motor
  std::string filter;       ///< clean, seasoned (default), due
  std::string temperature;  ///< 70 °F (21 °C) where empty
  std::string altitude;
  std::string need;    ///< air that the machine should get
  bool sheet = false;  ///< the calculation sheet too
  std::string save;    ///< the small shop as a project file
};

/// Exit codes: 0, 1 where the needed air is not reached, 2 bad input, 3 no solution.
int runLine(const LineOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, LineOptions& options);

}  // namespace kerfdraft::cli
