// Where the hand means to be: ports, inlets, ducts, useful angles, walls, a grid; with a sentence that says
// so. Without Qt.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "shop/project.h"

namespace kerfdraft::desk {

enum class SnapTo { Nothing, Port, Inlet, OpenEnd, Corner, Duct, Line, Grid };

struct SnapRequest {
  shop::PlanPoint pointer;
  double reach_m = 0.1;                   ///< how near counts, on the floor
  std::optional<shop::PlanPoint> from;    ///< the place before; angles are counted from it
  std::optional<double> direction_rad{};  ///< of the leg before
  base::UnitSystem units = base::UnitSystem::Metric;
  double wall_gap_m = 0.1;  ///< how far from a wall a middle line hangs
  bool things = true;       ///< ports, inlets and ducts count
  bool lines = true;        ///< angles, walls and what lies in line count
  bool grid = true;
  std::size_t turn = 0;  ///< which of several things at one place: Tab counts on
  base::Id leave_out;    ///< a duct that does not count
};

/// A line to show: why the place is where it is.
struct Guide {
  shop::PlanPoint a;
  shop::PlanPoint b;
};

struct Snapped {
  shop::PlanPoint at;
  SnapTo to = SnapTo::Nothing;
  std::optional<std::int64_t> z_um{};  ///< of the thing there
  shop::PortRef port{};                ///< Port
  base::Id collector{};                ///< Inlet
  base::Id duct{};                     ///< OpenEnd, Corner, Duct
  base::Id corner{};                   ///< OpenEnd, Corner; Duct: at which the leg begins
  bool start = false;                  ///< OpenEnd: where the duct's air begins
  std::size_t choices = 1;             ///< things at this place; Tab goes on to the next
  std::string says{};
  std::vector<Guide> guides{};
};

Snapped snap(const shop::Project& project, const SnapRequest& request);

/// Step of the grid at this reach [m]: an eighth of an inch to a yard, or 1 mm to 1 m.
double gridStep(double reach_m, base::UnitSystem units);

}  // namespace kerfdraft::desk
