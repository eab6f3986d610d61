// From spreads to factors.
#include "doubt/bands.h"

#include <algorithm>

#include "doubt/chances.h"

namespace kerfdraft::doubt {

judge::Band bandOf(const Spread& spread) {
  if (spread.value == 0 || !(spread.sigma > 0)) {
    return {};
  }
  const double one = spread.at(-kBandDeviations) / spread.value;
  const double other = spread.at(kBandDeviations) / spread.value;
  return {std::min(one, other), std::max(one, other)};
}

std::vector<judge::StateBands> bandsOf(std::span<const StateDoubt> doubts) {
  std::vector<judge::StateBands> out;
  for (const StateDoubt& doubt : doubts) {
    judge::StateBands& state = out.emplace_back();
    for (const Spread& spread : doubt.speeds) {
      state.run_speed.push_back(bandOf(spread));
    }
    for (const Spread& spread : doubt.ports) {
      state.port_flow.push_back(bandOf(spread));
    }
    for (const Spread& spread : doubt.fans) {
      state.fan_flow.push_back(bandOf(spread));
    }
  }
  return out;
}

std::vector<judge::StateBands> assessBands(const judge::Assessment& assessment,
                                           const catalogue::Catalogue& /*catalogue*/) {
  return bandsOf(assessDoubt(assessment));
}

}  // namespace kerfdraft::doubt
