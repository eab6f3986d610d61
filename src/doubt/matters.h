// Which inputs the verdict hangs on, and what to measure to know them better.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "doubt/chances.h"
#include "doubt/propagate.h"

namespace kerfdraft::doubt {

/// One input, by its share in the doubt.
struct Matter {
  std::string key;               ///< of the input, the same in every state
  const Prior* prior = nullptr;  ///< how it is known now, and what measuring makes of it
  std::string label;             ///< "hose friction"
  double share = 0;              ///< of the variance, 0 … 1
  std::size_t state = 0;         ///< of the flow for which it counts most; what follows is about that flow
  std::string port;              ///< "T2 chip hood"
  double deviation_now = 0;      ///< relative standard deviation of that flow
  double deviation_then = 0;     ///< the same once this input alone is measured; as now where it can't be
  std::string place;  ///< the piece that counts most there: "D3: hose"; empty where it is everywhere
};

/// A flow in a state.
struct FlowPlace {
  std::size_t state = 0;
  bool machine = false;  ///< index of StateChances::machines, else of ports
  std::size_t index = 0;
};

/// The flow on which the verdict hangs most: of those that are neither surely reached nor surely missed the
/// least likely, else the least likely of all; where nothing is asked, the most doubtful open port. Nothing
/// where no state has an open port.
std::optional<FlowPlace> worstFlow(std::span<const StateChances> chances);

/// At most `most` inputs, the greatest share first. With `at` the shares are those in that flow's variance;
/// without, they are means over all open flows that ask for something, each weighted by how open its verdict
/// is, 4 p (1 − p) + 0.02.
std::vector<Matter> whatMatters(const judge::Assessment& assessment, std::span<const StateDoubt> doubts,
                                std::span<const StateChances> chances, std::optional<FlowPlace> at = {},
                                std::size_t most = 5);

/// "62 % of the doubt: hose friction, common practice, factor 1.6. Measure … (first at D3: hose): then T2
/// chip hood is known to 9 % instead of 16 %." Percentages are of one standard deviation.
std::string sentence(const Matter& matter);

/// What to do: "Measure the static pressure at both ends of the hose, and the flow". Empty for
/// Measure::Nothing.
std::string_view howTo(Measure measure);

}  // namespace kerfdraft::doubt
