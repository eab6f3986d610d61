// How much of the floor things take, and where each is for the eye: for fitting them into sight and for
// walking from one to the next. Without Qt.
#pragma once

#include <optional>
#include <set>
#include <vector>

#include "base/id.h"
#include "desk/models/places.h"
#include "drawing/geometry.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// The upright rectangle round a machine's footprint [m], y to the north.
drawing::Box footprintOf(const shop::Machine& machine);

/// The upright rectangle round things on the plan [m], y to the north; empty where none of them is there.
drawing::Box extentOf(const shop::Project& project, const std::set<base::Id>& ids);
/// That of everything.
drawing::Box extentOf(const shop::Project& project);

/// Where a thing is named on the plan: a machine's middle, a duct's first corner, a room's north-west corner,
/// a gate's place on its duct. Nothing where the thing is gone.
std::optional<shop::PlanPoint> placeOf(const shop::Project& project, const Thing& thing);

/// Rooms, openings, obstacles, machines, collectors, ducts and what hangs on them as a page is read: row by
/// row from the north, in a row from the west.
std::vector<Thing> readingOrder(const shop::Project& project);

/// The next thing in reading order after what is picked, or the one before; from nothing the first or the
/// last. Nothing at the end of the order.
std::optional<Thing> nextInOrder(const shop::Project& project, const std::set<base::Id>& picked,
                                 bool forward);

}  // namespace kerfdraft::desk
