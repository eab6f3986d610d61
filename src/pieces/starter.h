// The starter shop of `kerfdraft new` as a project: machines of the catalogue along the walls, ducts drawn to
// them.
// All its figures are the catalogue's or assumed, and say so.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

struct StarterRequest {
  std::string name;
  base::UnitSystem units = base::UnitSystem::Us;
  shop::Who who = shop::Who::Home;
  std::string country;
  double width_m = 0;  ///< along x, the collector's wall
  double depth_m = 0;  ///< along y
  double height_m = 0;
  std::vector<std::string> machines;  ///< kinds
  std::string fan;                    ///< key of test_fans
  std::optional<base::Given<base::Length>> main;
};

struct StarterRoom {
  double width_m = 0;
  double depth_m = 0;
  double height_m = 0;
};
/// The least room in which a collector and one machine fit.
StarterRoom leastStarterRoom(base::UnitSystem units);

/// Refused: an unknown kind or fan, no machine, a room along whose walls they do not fit with room
/// to work before each, or lower than a machine's duct.
base::Result<shop::Project> starterProject(const StarterRequest& request,
                                           const catalogue::Catalogue& catalogue, base::IdSource& ids);

}  // namespace kerfdraft::pieces
