// What stands where on the plan: legs of ducts near a place, and the thing that an element of the picture
// means. Without Qt.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "shop/project.h"

namespace kerfdraft::desk {

/// A place on a leg of a duct.
struct LegPlace {
  base::Id duct;
  base::Id corner;      ///< at which the leg begins
  std::size_t leg = 0;  ///< its index
  double along_m = 0;   ///< from that corner
  double length_m = 0;  ///< of the leg
  double bore_m = 0;
  double beside_m = 0;  ///< on the plan, from the leg's middle line
  shop::Point at;
  bool upright = false;  ///< on the plan the leg is a point; the place is its middle
};

/// Legs within `reach_m` of their rim, the nearest first; of equals the higher.
std::vector<LegPlace> legsNear(const shop::Project& project, shop::PlanPoint at, double reach_m);

/// Bore of the leg that begins at a corner, inherited where it is not given there [m].
double boreOfLeg(const shop::Duct& duct, std::size_t leg);
/// The leg that is in force there.
const shop::Leg* legInForce(const shop::Duct& duct, std::size_t leg);

const shop::Duct* ductOf(const shop::Project& project, base::Id duct);
const shop::Machine* machineOf(const shop::Project& project, base::Id machine);
const shop::Port* portOf(const shop::Project& project, const shop::PortRef& ref);
const shop::Collector* collectorOf(const shop::Project& project, base::Id collector);
std::optional<std::size_t> cornerIndex(const shop::Duct& duct, base::Id corner);

enum class ThingKind { Room, Opening, Obstacle, Machine, Port, Duct, Corner, Gate, Tap, Cleanout, Collector };

struct Thing {
  ThingKind kind = ThingKind::Machine;
  base::Id id;
  base::Id parent;  ///< machine of a port, duct of a corner or gate, room of an opening
  bool operator==(const Thing&) const = default;
};

/// The thing that has this id; nothing where none has.
std::optional<Thing> thingOf(const shop::Project& project, base::Id id);

/// The thing that an element of the picture means: its id, or the text of the key of a piece. The stretch of
/// a duct means the duct, a fitting at a corner means that corner.
std::optional<Thing> thingOf(const shop::Project& project, std::string_view element);

/// "duct D2", "port P1 of T1": how sentences name a thing.
std::string nameOf(const shop::Project& project, const Thing& thing);

/// The first of "D1", "D2" … that nothing of this kind is called. `prefix` is D, G, TP or CO.
std::string freeLabel(const shop::Project& project, std::string_view prefix);

}  // namespace kerfdraft::desk
