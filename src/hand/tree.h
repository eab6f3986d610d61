// The part of a drawing through which air flows when some ports are open, as the pencil method needs it: a
// tree that gathers to one fan and one way out. What is not such a tree is refused with the reason.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "base/result.h"
#include "pieces/pieces.h"

namespace kerfdraft::hand {

/// Air that a run takes in at its start: a port's run (pieces::PortPlace::run) or an open pipe end.
struct DesignFlow {
  std::size_t run = 0;
  double flow_m3_s = 0;  ///< at room density
};

/// Open runs in the order of the air, each after all that feed it.
struct Tree {
  std::vector<std::size_t> suction;    ///< up to the fan's inlet
  std::size_t fan = 0;                 ///< index in Pieces::fans
  std::vector<std::size_t> discharge;  ///< from the fan's outlet to free air, in series
  std::vector<double> flow_m3_s;       ///< by Pieces::runs; zero where shut
};

/// Finds the tree. Refused, naming the element: no flow at all, a flow that is not above zero or not finite,
/// a run that is named twice, closed, or does not begin at a machine or in free air; a machine with its own
/// blower; a place where air can go two ways (ring main, also where it is drawn one way, several outlets, two
/// collectors); a booster; a moved hose at two places; air that finds no fan or no way out.
base::Result<Tree> openTree(const pieces::Pieces& drawing, std::span<const DesignFlow> flows);

}  // namespace kerfdraft::hand
