// Bands of predictions as plain data: rules and papers take them from whoever computed them.
#pragma once

#include <vector>

namespace kerfdraft::judge {

/// Spread of a prediction, as factors on it at about two standard deviations. Comes from room `doubt`; where
/// nothing is known of a number, 1.
struct Band {
  double low = 1;
  double high = 1;
};

/// Bands of one state; empty vectors where none were computed.
struct StateBands {
  std::vector<Band> run_speed;  ///< by Pieces::runs
  std::vector<Band> port_flow;  ///< by Pieces::ports
  std::vector<Band> fan_flow;   ///< by Pieces::fans
};

}  // namespace kerfdraft::judge
