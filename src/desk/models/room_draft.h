// Rooms, obstacles and openings while they are drawn: what is typed, and the edits that they become. Without
// Qt.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "desk/models/change.h"
#include "shop/project.h"

namespace kerfdraft::desk {

/// What is typed while an outline is drawn.
struct OutlineTyped {
  enum class What {
    Length,  ///< from the last point toward the pointer
    Size,    ///< width to the east and depth to the north, from the last point or the origin
    Height,  ///< of the room's ceiling, or of the obstacle's top
    Bottom   ///< of the obstacle
  } what = What::Length;
  double a_m = 0;
  double b_m = 0;    ///< Size: the depth
  std::string text;  ///< Height and Bottom as typed
};

/// "3.2 m", "20 ft x 24 ft", "6 x 8 m" (the unit of the last holds for both), "height 9 ft", "bottom 2 m".
/// Refused with a sentence: anything else, a length not above zero or above 200 m.
base::Result<OutlineTyped> parseOutlineTyped(std::string_view text);

/// A rectangle between two opposite corners, anticlockwise from its south-west.
std::vector<shop::PlanPoint> rectangle(const shop::PlanPoint& a, const shop::PlanPoint& b);

/// A new room of this outline. Machines, collectors and outdoor discharges that lie in it stay as they are
/// in the first edit and are put into it by the ones that follow.
base::Result<Change> newRoom(const shop::Project& project, std::vector<shop::PlanPoint> outline,
                             const base::Given<base::Length>& height, base::IdSource& ids);

/// A new body to be avoided, in the room under its first point. Refused where that is in no room.
base::Result<Change> newObstacle(const shop::Project& project, std::vector<shop::PlanPoint> outline,
                                 const base::Given<base::Length>& bottom,
                                 const base::Given<base::Length>& top, base::IdSource& ids);

/// The room that holds a place, edges included; null where none does.
const shop::Room* roomAt(const shop::Project& project, const shop::PlanPoint& at);

/// The usual height of rooms: 8 ft or 2.4 m; assumed.
base::Given<base::Length> usualRoomHeight(base::UnitSystem units);

// ---------------------------------------------------------------------------------------------- openings

/// How the next opening is made.
struct OpeningHabits {
  shop::OpeningKind kind = shop::OpeningKind::Door;
  base::Given<base::Length> width;
  bool usually_open = false;
  std::optional<base::Given<base::Area>> area{};        ///< free area; grilles and cracks need one
  std::optional<base::Given<base::VolumeFlow>> flow{};  ///< exhausts need one
};

OpeningHabits usualOpening(base::UnitSystem units);

/// "door", "window", "grille", "crack", "exhaust", "open", "shut", "wide 0.9 m" or a bare length,
/// "area 0.05 m2", "flow 200 cfm". Refused with a sentence: anything else.
base::Result<OpeningHabits> openingTyped(OpeningHabits habits, std::string_view text);

/// Where an opening of this width would lie on a wall near a place: whole on one wall, as near as it goes.
struct OnWall {
  base::Id room;
  shop::PlanPoint from;
  shop::PlanPoint to;
  double beside_m = 0;     ///< the place's distance from the wall
  base::Id beyond;         ///< the room on the other side, where one shares this wall
  double from_corner_m{};  ///< of the opening's begin, along the wall
};
std::optional<OnWall> onWall(const shop::Project& project, const shop::PlanPoint& at, double width_m,
                             double reach_m);

/// Refused: no wall within reach, a wall shorter than the opening, a grille or crack without a free area, an
/// exhaust without a flow.
base::Result<Change> newOpening(const shop::Project& project, const shop::PlanPoint& at,
                                const OpeningHabits& habits, double reach_m, base::IdSource& ids);

/// "door", "window", "grille", "crack", "exhaust fan".
std::string_view wordOf(shop::OpeningKind kind);

}  // namespace kerfdraft::desk
