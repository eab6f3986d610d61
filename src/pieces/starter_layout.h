// Where the machines, the collector and the door of a starter shop stand, and which way its main goes. Plain
// places in steps of a foot or of 0.3 m, origin in the room's corner. Private to this room.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace kerfdraft::pieces {

struct Spot {
  double x = 0;
  double y = 0;
};

/// A machine with its back to a wall.
struct Stand {
  Spot port;              ///< in the middle of its back
  Spot inward;            ///< unit vector from the wall into the room
  Spot entry;             ///< where its branch enters the main, downstream of the port
  double turned_deg = 0;  ///< anticlockwise; at 0 its back is to the south
};

/// A corner of the main. With a machine it is that one's entry.
struct MainCorner {
  Spot at;
  std::optional<std::size_t> machine;
};

/// What runs along the walls to the collector: from the farthest machine's entry to the end of the wall run.
using Arm = std::vector<MainCorner>;

struct StarterLayout {
  std::vector<Stand> stands;  ///< in the order of the machines, the nearest to the collector first
  Arm main;                   ///< ends above the inlet
  Arm second;                 ///< enters the main at `joins`; empty where all machines stand on one arm
  std::optional<Spot> joins;
  Spot inlet;
  double door_middle = 0;  ///< along x, in the wall opposite the collector
};

/// Half of the doorway [steps].
inline constexpr double kDoorHalf = 1.5;
/// Least room in which one machine and the collector stand [steps].
inline constexpr double kLeastWidth = 9;
inline constexpr double kLeastDepth = 8;
/// Room to work before a machine, and the least of it where the room is small [steps].
inline constexpr double kRoomToWork = 3;
inline constexpr double kLeastRoomToWork = 2;

struct StarterFit {
  std::optional<StarterLayout> layout;  ///< nothing where they do not all fit
  std::size_t most = 0;                 ///< how many fit
};

/// Lays machines of one size along the walls on both sides of a collector in the middle of one, the nearest
/// places first; along all walls from a corner, and closer, where that is not enough.
StarterFit layOutStarter(double width, double depth, std::size_t machines);

}  // namespace kerfdraft::pieces
