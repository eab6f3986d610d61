// Lines that a dragged machine falls into: edges and middles of other machines, inlets, walls. Without Qt.
#pragma once

#include <optional>
#include <vector>

#include "base/id.h"
#include "desk/models/snap.h"
#include "shop/project.h"

namespace kerfdraft::desk {

struct Aligned {
  std::optional<std::int64_t> x_um{};  ///< of the machine's middle, where something is in line east-west
  std::optional<std::int64_t> y_um{};  ///< where something is in line north-south
  std::vector<Guide> guides{};         ///< from what it is in line with to the machine
  std::string says{};                  ///< "edge in line with T2, against the wall"
};

/// Where a machine's middle goes for being in line, when the hand holds it at `wanted`: for each direction
/// the nearest line within `reach_m`, for itself. Edges go to edges and walls, middles to middles and inlets.
/// Of a machine that stands askew the upright rectangle round it counts; walls askew do not count.
Aligned alignDragged(const shop::Project& project, base::Id machine, shop::PlanPoint wanted, double reach_m);

}  // namespace kerfdraft::desk
