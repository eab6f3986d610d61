// Machines and collectors put on the floor: from a kind, from one's own shelf, as a copy. Without Qt.
#pragma once

#include <set>
#include <string_view>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "desk/models/change.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// The next free "T1", "T2" …
std::string freeMachineLabel(const shop::Project& project);
std::string freeCollectorLabel(const shop::Project& project);

/// A machine as if it stood elsewhere, turned by so much more: its ports go along. Ids stay.
shop::Machine machineAt(shop::Machine machine, const shop::Point& at, double turned_more_rad);

/// Every id of a machine or collector made new.
shop::Machine withNewIds(shop::Machine machine, base::IdSource& ids);
shop::Collector withNewIds(shop::Collector collector, base::IdSource& ids);

/// Puts it there under a free label, in the room that lies under it; ids are made new. What it says of an
/// electric circuit of another project is forgotten.
base::Result<Change> placeMachine(const shop::Project& project, const shop::Machine& machine,
                                  const shop::PlanPoint& at, double turned_more_rad, base::IdSource& ids);
/// `at` is its inlet, `inlet_height_m` above the floor. Without an outlet duct its air returns to the room.
base::Result<Change> placeCollector(const shop::Project& project, const shop::Collector& collector,
                                    const shop::PlanPoint& at, double inlet_height_m, base::IdSource& ids);

/// Copies of machines and collectors, so far beside; ducts are not copied. Refused: nothing of these among
/// them. `made` gets the ids of the copies.
base::Result<Change> copyThings(const shop::Project& project, const std::set<base::Id>& things,
                                std::int64_t x_um, std::int64_t y_um, base::IdSource& ids,
                                std::set<base::Id>* made = nullptr);

/// Machines turned about their middles. Refused: no machine among them.
base::Result<Change> turnThings(const shop::Project& project, const std::set<base::Id>& things,
                                double angle_rad);

enum class Align { West, East, North, South, AcrossEvenly, AlongEvenly };
/// Machines and collectors put in line by their middles, or apart evenly between the outermost. Refused:
/// fewer than two, or than three for evenly.
base::Result<Change> alignThings(const shop::Project& project, const std::set<base::Id>& things, Align how);

}  // namespace kerfdraft::desk
