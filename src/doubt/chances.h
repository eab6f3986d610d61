// The chance that each port and machine gets what it asks, and that each run carries its chips.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "doubt/propagate.h"
#include "doubt/spread.h"
#include "judge/assessment.h"
#include "judge/margins.h"

namespace kerfdraft::doubt {

/// A port, or a machine whose ports share one requirement.
struct FlowChance {
  shop::PortRef ref;                ///< the port is not valid for a whole machine
  std::optional<std::size_t> port;  ///< index in Pieces::ports, for a port
  std::string label;
  bool open = false;
  Spread flow;  ///< at room density [m3/s]
  std::optional<double> floor_m3_s;
  std::optional<double> target_m3_s;
  std::optional<double> reaches_floor;   ///< probability; only where open
  std::optional<double> reaches_target;  ///< of judge::kTargetShare of the target, which counts as met

  /// What the verdict hangs on: the floor, else the target. Nothing where shut or nothing is asked.
  std::optional<double> verdict() const { return reaches_floor ? reaches_floor : reaches_target; }
};

/// A run in which chips travel.
struct RunChance {
  std::size_t run = 0;
  std::string label;
  Spread speed;            ///< slowest air in its ducts [m/s]
  double minimum_m_s = 0;  ///< what the trade asks for these chips
  double fast_enough = 0;  ///< probability
  bool fails = false;      ///< even the upper end at two standard deviations is below the minimum
};

struct StateChances {
  std::size_t state = 0;
  bool defined = false;              ///< as in StateDoubt; then the lists are empty
  std::vector<FlowChance> ports;     ///< by Pieces::ports
  std::vector<FlowChance> machines;  ///< those with a requirement for the whole machine
  std::vector<RunChance> runs;       ///< only those where chips travel in this state
};

/// How many standard deviations a band has on each side.
inline constexpr double kBandDeviations = 2;

/// Chances of every state, in their order. `doubts` is that of assessDoubt(). Errors: those of
/// judge::margins().
base::Result<std::vector<StateChances>> chances(const judge::Assessment& assessment,
                                                const catalogue::Catalogue& catalogue,
                                                std::span<const StateDoubt> doubts);

}  // namespace kerfdraft::doubt
