// Rooms as nodes, with what joins them to the outdoors and to each other. Private to this room.
#pragma once

#include "pieces/draft.h"

namespace kerfdraft::pieces {

/// Crack area assumed of a room that lists none, as a sharp opening per area of its walls: 5 cm2 a m2, which
/// is an effective leakage area of 3 cm2 a m2 (ours; ordinary walls reach from 1 to 10).
inline constexpr double kCrackShare = 5e-4;
/// Heights taken where an opening has only its width.
inline constexpr double kDoorHeight_m = 2.0;
inline constexpr double kWindowHeight_m = 1.0;

/// The nodes of all rooms, their openings and exhausts. nodes[0], outdoors, is made here.
base::Result<void> addRooms(Draft& draft);

/// Fixes the pressure of rooms that nothing can change: no opening, and no unit takes air out of them.
void settleRooms(Draft& draft);

/// Node of the room whose outline holds the point; outdoors where none does.
std::size_t roomAround(const Draft& draft, const shop::Point& at);

}  // namespace kerfdraft::pieces
