// kerfdraft reading: one reading of an instrument to pressure, speed and flow, with its uncertainty and the
// classic mistakes.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "cli/common.h"
#include "cli/instrument_options.h"
#include "cli/option_list.h"

namespace kerfdraft::cli {

struct ReadingOptions {
  Common common;  ///< --units: default those of the bore or reading as typed
  std::vector<std::string>
      readings;  ///< one or more readings of the same thing, "1.6 in", "310 Pa", "4200 fpm"
  std::vector<std::string> other_leg;  ///< with --legs each: the other leg's movement, one per reading
  std::string
      legs;  ///< U-tube: both (difference of levels), one (one leg's movement), each; "": said as unclear
  std::string place;               ///< mean, centre; "": taken as the mean and said
  bool mean_of_pressures = false;  ///< the reading is itself a mean of pressures
  InstrumentOptions instrument;
  DuctOptions duct;     ///< none: speed only
  AirOptions air;       ///< none: standard air, and said
  std::string claimed;  ///< a speed or flow somebody made of it, to be compared
  bool steps = false;   ///< every formula with its inputs
  bool json = false;
};

/// 0, or 2 for bad input (nothing is then written to `out`).
/// Example: {readings: {"1.6 in"}, legs: "both", place: "mean", duct.bore: "4 in"} prints 442 cfm, 5066 fpm.
int runReading(const ReadingOptions& options, std::ostream& out, std::ostream& err);
void declareOptions(OptionList& list, ReadingOptions& options);

}  // namespace kerfdraft::cli
