// The three forms in which solved states are printed. All read the same assessment and margins; none
// computes.
#pragma once

#include <string>
#include <vector>

#include "cli/shown.h"
#include "judge/assessment.h"
#include "judge/bands.h"
#include "judge/margins.h"

namespace kerfdraft::cli {

/// What a writer is given.
struct Solved {
  const judge::Assessment& assessment;
  const std::vector<judge::StateMargins>& margins;  ///< by state
  const std::vector<judge::StateBands>& bands;      ///< by state
  std::vector<std::size_t> states;                  ///< which are printed, in this order
  std::vector<std::string> cautions;                ///< said below the text
  std::string date;
  Shown shown;
  bool full = false;     ///< shut ports and still runs too
  bool summary = false;  ///< one paragraph a state, no tables
};

std::string solvedText(const Solved& solved);
/// The table that stands first: every state with what its open ports get and how its chips travel.
std::string summaryTable(const Solved& solved);
std::string solvedCsv(const Solved& solved);
/// docs/schema/solve-1.schema.json; SI units whatever the units of the text.
std::string solvedJson(const Solved& solved);

/// The first line of every result: the day, that it is predicted, the filter, the shop.
std::string headLine(const judge::Assessment& assessment, const std::vector<std::size_t>& states,
                     const std::string& date);

/// How chips travel in a run, by its slowest place. Likely settle is said only where the upper end of the
/// prediction is too slow as well.
enum class Carried { Yes, BelowMinimum, MaySettle, LikelySettle };
Carried carriedIn(const judge::RunMargin& margin, const judge::StateBands& bands);
std::string_view toText(Carried carried);

/// "T4 Band saw": the label and name of a machine of the project.
std::string machineName(const shop::Project& project, base::Id machine);

/// Suction where the air enters a fan [Pa, negative], in the bore there.
double fanInletStatic(const judge::Assessment& assessment, const network::Solution& solution,
                      std::size_t fan);

/// What is to be said of a fan: "beyond its curve's data", …; empty where nothing is.
std::string fanRemark(const pieces::Fan& fan, const network::FanResult& result);

}  // namespace kerfdraft::cli
