// How sure a line's flow is: each uncertain input is moved by its own spread, both ways, and what that does
// to the flow is added up as squares. Spreads are those of model section 9, written in docs/theory/bands.md.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "cli/line_project.h"

namespace kerfdraft::cli {

/// One uncertain input.
struct Spread {
  std::string what;      ///< "hose friction"
  std::string known_as;  ///< "common practice, factor 1.6"
  std::string how;       ///< "measure …": what would make it sure
  double effect = 0;     ///< on ln(flow) at one standard deviation, as a magnitude
};

struct LineBand {
  double flow_m3_s = 0;
  double sigma = 0;             ///< standard deviation of ln(flow)
  std::vector<Spread> spreads;  ///< those with an effect, the largest first

  /// Flow at so many standard deviations above (or below) the middle.
  double at(double deviations) const;
  /// Probability of at least this flow, if ln(flow) is normal.
  double chanceOf(double flow_m3_s) const;
};

/// "yes", "likely", "unlikely", "no": above 95, above 66, above 5 %, else.
std::string_view chanceInWords(double chance);

/// The band around `flow_m3_s`, the flow that the untouched request gives.
base::Result<LineBand> lineBand(const LineRequest& request, const catalogue::Catalogue& catalogue,
                                double flow_m3_s);

}  // namespace kerfdraft::cli
