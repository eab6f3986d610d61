// Two arms cannot meet head on: each turns into a short trunk away from the wall, the second one at 45
// degrees.
#include "pieces/starter_layout.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>

#include "base/result.h"

namespace kerfdraft::pieces {
namespace {

// All ours, in steps.
constexpr double kMainFromWall = 1;
constexpr double kPortFromWall = 2;
constexpr double kMachineDepth = 2;
constexpr double kPlaceWidth = 6;
constexpr double kLeastPlaceWidth = 4;
/// A branch enters so far downstream of its port: over the same distance to the main, 45 degrees.
constexpr double kEntryDownstream = 1;
/// Between the turn of the main in a corner of the room and the port behind it.
constexpr double kPortBehindTurn = 4;
constexpr double kCollectorHalf = 2.5;
constexpr double kCollectorZone = 8;
// The trunk: how far the bends lie from its middle, and its places from the wall.
constexpr double kMainBend = 2;
constexpr double kSecondBend = 4;
constexpr double kTrunkBegins = 3;
constexpr double kTrunkJoined = 5;
constexpr double kTrunkEnds = 6;
constexpr double kFirstPort = 6;
constexpr double kSearchStep = 0.5;
constexpr double kDoorClear = 0.5;

struct Zone {
  double x0 = 0;
  double y0 = 0;
  double x1 = 0;
  double y1 = 0;
};

bool overlap(const Zone& a, const Zone& b) {
  constexpr double kTouch = 1e-9;
  return a.x0 < b.x1 - kTouch && b.x0 < a.x1 - kTouch && a.y0 < b.y1 - kTouch && b.y0 < a.y1 - kTouch;
}

/// One wall as the arm runs along it, away from the collector.
struct Wall {
  Spot from;
  Spot along;
  Spot inward;
  double length = 0;
  double turned_deg = 0;

  Spot at(double t, double from_wall) const {
    return {from.x + along.x * t + inward.x * from_wall, from.y + along.y * t + inward.y * from_wall};
  }
  Zone zone(double t0, double t1, double deep) const {
    const Spot a = at(t0, 0);
    const Spot b = at(t1, deep);
    return {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
  }
};

struct Manner {
  bool corner = false;  ///< the collector in a corner: one arm along all walls
  double place_width = kPlaceWidth;
  double to_work = kRoomToWork;
};

/// Walks along the walls of one arm from place to place.
class Walk {
 public:
  explicit Walk(std::vector<Wall> walls, double first) : walls_(std::move(walls)), t_(first) {}

  /// Moves on to the next place that is free.
  void seek(const std::vector<Zone>& taken, const Manner& manner) {
    const double half = manner.place_width / 2;
    for (; wall_ < walls_.size(); walked_ += walls_[wall_].length, ++wall_, t_ = kPortBehindTurn) {
      for (; t_ + half <= walls_[wall_].length; t_ += kSearchStep) {
        const Zone zone = placeZone(manner);
        if (std::none_of(taken.begin(), taken.end(), [&](const Zone& z) { return overlap(z, zone); })) {
          return;
        }
      }
    }
  }
  bool ended() const { return wall_ >= walls_.size(); }
  double walked() const { return walked_ + t_; }
  Zone placeZone(const Manner& manner) const {
    const double half = manner.place_width / 2;
    return walls_[wall_].zone(t_ - half, t_ + half, kPortFromWall + kMachineDepth + manner.to_work);
  }
  Stand stand() const {
    const Wall& wall = walls_[wall_];
    return {wall.at(t_, kPortFromWall), wall.inward, wall.at(t_ - kEntryDownstream, kMainFromWall),
            wall.turned_deg};
  }
  /// Takes the place; turns of the main in the room's corners come before it.
  void take(std::size_t machine) {
    for (; turned_ < wall_; ++turned_) {
      corners_.push_back({walls_[turned_].at(walls_[turned_].length - kMainFromWall, kMainFromWall), {}});
    }
    corners_.push_back({stand().entry, machine});
  }
  /// From the farthest machine to the collector.
  Arm arm() const { return {corners_.rbegin(), corners_.rend()}; }

 private:
  std::vector<Wall> walls_;
  std::size_t wall_ = 0;
  std::size_t turned_ = 0;
  double t_ = 0;
  double walked_ = 0;
  Arm corners_;
};

std::vector<Wall> wallsOf(double width, double depth, double middle, bool east, bool corner) {
  if (!corner && !east) {
    return {{{middle, 0}, {-1, 0}, {0, 1}, middle, 0},
            {{0, 0}, {0, 1}, {1, 0}, depth, 270},
            {{0, depth}, {1, 0}, {0, -1}, middle, 180}};
  }
  std::vector<Wall> walls = {{{middle, 0}, {1, 0}, {0, 1}, width - middle, 0},
                             {{width, 0}, {0, 1}, {-1, 0}, depth, 90},
                             {{width, depth}, {-1, 0}, {0, -1}, corner ? width : width - middle, 180}};
  if (corner) {
    walls.push_back({{0, depth}, {0, -1}, {1, 0}, depth, 270});
  }
  return walls;
}

StarterFit tryManner(double width, double depth, std::size_t machines, const Manner& manner) {
  StarterLayout out;
  const double middle = manner.corner ? kCollectorHalf : std::floor(width) / 2;
  out.door_middle = std::max(width / 2, manner.corner ? 2 * kCollectorHalf + kDoorHalf + kDoorClear : 0.0);
  out.inlet = {middle, kTrunkEnds};
  std::vector<Zone> taken = {{middle - kCollectorHalf, 0, middle + kCollectorHalf, kCollectorZone},
                             {out.door_middle - kDoorHalf - kDoorClear, depth - manner.to_work,
                              out.door_middle + kDoorHalf + kDoorClear, depth}};
  std::vector<Walk> walks;
  walks.emplace_back(wallsOf(width, depth, middle, true, manner.corner),
                     manner.corner ? kCollectorHalf + manner.place_width / 2 : kFirstPort);
  if (!manner.corner && middle > kSecondBend) {
    walks.emplace_back(wallsOf(width, depth, middle, false, false), kFirstPort);
  }
  std::size_t far = 0;  // the walk on which the farthest machine stands
  while (out.stands.size() < machines) {
    std::optional<std::size_t> nearest;
    for (std::size_t w = 0; w < walks.size(); ++w) {
      walks[w].seek(taken, manner);
      if (!walks[w].ended() && (!nearest || walks[w].walked() < walks[*nearest].walked())) {
        nearest = w;
      }
    }
    if (!nearest) {
      return {std::nullopt, out.stands.size()};
    }
    walks[*nearest].take(out.stands.size());
    taken.push_back(walks[*nearest].placeZone(manner));
    out.stands.push_back(walks[*nearest].stand());
    far = *nearest;
  }
  const double side = far == 0 ? 1 : -1;
  out.main = walks[far].arm();
  out.main.push_back({{middle + side * kMainBend, kMainFromWall}, {}});
  out.main.push_back({{middle, kTrunkBegins}, {}});
  if (walks.size() > 1) {
    out.second = walks[1 - far].arm();
    if (!out.second.empty()) {
      out.second.push_back({{middle - side * kSecondBend, kMainFromWall}, {}});
      out.joins = Spot{middle, kTrunkJoined};
      out.main.push_back({*out.joins, {}});
    }
  }
  out.main.push_back({out.inlet, {}});
  const std::size_t count = out.stands.size();
  return {std::move(out), count};
}

}  // namespace

StarterFit layOutStarter(double width, double depth, std::size_t machines) {
  base::check(machines > 0, "a starter without machines is laid out");
  StarterFit best;
  if (width < kLeastWidth || depth < kLeastDepth) {
    return best;
  }
  const Manner loose{};
  const Manner close{false, kLeastPlaceWidth, kLeastRoomToWork};
  for (const Manner& manner : {loose, Manner{true, loose.place_width, loose.to_work}, close,
                               Manner{true, close.place_width, close.to_work}}) {
    StarterFit fit = tryManner(width, depth, machines, manner);
    if (fit.layout) {
      return fit;
    }
    best.most = std::max(best.most, fit.most);
  }
  return best;
}

}  // namespace kerfdraft::pieces
