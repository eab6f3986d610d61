// What dragging, deleting, nudging and one click on a duct mean as edits. Without Qt.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "desk/models/places.h"
#include "shop/edit.h"

namespace kerfdraft::desk {

struct Change {
  std::string words;  ///< "Move machine T1"
  std::vector<shop::Edit> edits;
};

/// A thing moved on the plan by so much from where it is in `before`. Machines take their ports along and
/// what is joined to them; a branch's end moves the corner of its main. Refused: an end at a port or inlet,
/// and things that do not move so.
base::Result<Change> moveThing(const shop::Project& before, const Thing& thing, std::int64_t x_um,
                               std::int64_t y_um);
bool canMove(const shop::Project& project, const Thing& thing);
/// Several things moved by the same; those that do not move so stay. Refused as moveThing() where none moves.
base::Result<Change> moveThings(const shop::Project& before, const std::set<base::Id>& ids, std::int64_t x_um,
                                std::int64_t y_um);

/// A gate, tap or cleanout put where its duct comes nearest to a place. On a riser it stays where it is.
base::Result<Change> slideThing(const shop::Project& project, const Thing& thing, shop::PlanPoint to);

/// All these gone as one step. A branch that goes takes the corner of its entry along where the main is
/// straight there. Refused: an end of a duct, a corner with a branch.
base::Result<Change> removeThings(const shop::Project& project, const std::set<base::Id>& ids);

/// A corner put into the leg that lies at a place.
base::Result<Change> insertCorner(const shop::Project& project, shop::PlanPoint at, double reach_m,
                                  base::IdSource& ids);

/// What one click hangs on a duct.
enum class Hung { Gate, Tap, Cleanout };

/// Refused: no duct there, a stretch too short, a tap or cleanout in hose.
base::Result<Change> hang(const shop::Project& project, Hung what, shop::PlanPoint at, double reach_m,
                          std::size_t turn, base::IdSource& ids);
/// The place on a duct that hang() means; nothing where there is none.
std::optional<LegPlace> hangingPlace(const shop::Project& project, shop::PlanPoint at, double reach_m,
                                     std::size_t turn);

/// A port made one of the places of a duct's moved hose, or no longer one. The duct's first leg becomes hose.
/// A fixed start at a port becomes the hose's first place. Refused: a duct that starts elsewhere, a port
/// that has its own duct.
base::Result<Change> toggleHosePlace(const shop::Project& project, base::Id duct, const shop::PortRef& port);

}  // namespace kerfdraft::desk
