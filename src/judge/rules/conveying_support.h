// What the rules about chips on their way share: straight duct and hose with their air, whose chips pass,
// which sizes are sold. Private to judge/rules.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "judge/evidence.h"
#include "judge/rule.h"

namespace kerfdraft::judge {

/// A straight duct or hose between corners and gates, with its air in one state.
struct Stretch {
  std::size_t run = 0;
  std::size_t piece = 0;
  const shop::Duct* duct = nullptr;
  std::size_t corner = 0;  ///< index of the duct's corner where its leg begins
  const shop::Leg* leg = nullptr;
  double bore_m = 0;
  double length_m = 0;
  double speed_m_s = 0;  ///< without sign
  double flow_m3_s = 0;  ///< actual, without sign
};

/// Those of a run, in the drawn direction; without air where the state has no solution.
std::vector<Stretch> stretchesOf(const Evidence& evidence, std::size_t state, std::size_t run);

/// A finding about a whole duct: its key is that of a run with the duct's id alone.
Finding aboutDuct(const shop::Duct& duct);

/// Open ports whose air passes a run in a state.
std::vector<std::size_t> portsThrough(const Evidence& evidence, std::size_t state, std::size_t run);

/// Names of the machines of these ports, each once; from the fourth on they are "others".
std::vector<std::string> machinesOf(const Evidence& evidence, const std::vector<std::size_t>& ports);

/// "dry shavings": a material of transport_rules inside a sentence.
std::string chipsName(const Evidence& evidence, const std::string& material);

/// What the speeds of a run are held against, with the authority that the project chose or the working rule.
Limit speedLimit(const Evidence& evidence, const RunMargin& margin, double value_m_s);

/// The greatest or least size sold for this kind of duct that `fits`; nothing where none does.
enum class Pick { Greatest, Least };
std::optional<double> boreOf(const Evidence& evidence, const Stretch& stretch, Pick pick,
                             const std::function<bool(double bore_m)>& fits);

double boreArea(double bore_m);

/// A branch as it comes into a main.
struct BranchEntry {
  std::size_t run = 0;               ///< of the branch
  const shop::Duct* duct = nullptr;  ///< of the branch
  std::size_t main_run = 0;          ///< behind the entry
  const shop::Duct* main = nullptr;
  double rise = 0;  ///< sine of the angle at which the branch comes up into the main; negative from above
  double main_rise = 0;  ///< the same of the main behind the entry
};

/// Branches that turn into a main, in the order of the junctions; straight-on inlets and rings are none.
std::vector<BranchEntry> branchEntries(const Evidence& evidence);

/// Below this sine a duct counts as level: 20 degrees (ours).
inline constexpr double kLevelSine = 0.342;

/// Rise of a stretch along the drawn air, as a sine; hose by the corners between which it hangs.
double riseOf(const Stretch& stretch);

}  // namespace kerfdraft::judge
