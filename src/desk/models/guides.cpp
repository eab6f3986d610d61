// Each direction is looked at for itself, so that a machine can stand against a wall and in line with
// another.
#include "desk/models/guides.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "desk/models/extent.h"
#include "desk/models/places.h"

namespace kerfdraft::desk {
namespace {

constexpr double kSame_m = 1e-5;

/// A box seen along one direction: `low` to `high` across the guide, `from` to `to` along it [m].
struct Side {
  double low = 0;
  double high = 0;
  double from = 0;
  double to = 0;
  double middle() const { return (low + high) / 2; }
};

Side seen(const drawing::Box& box, bool across_x) {
  return across_x ? Side{box.left, box.right, box.top, box.bottom}
                  : Side{box.top, box.bottom, box.left, box.right};
}

/// A place to be in line with, seen along one direction.
struct Mark {
  double at = 0;    ///< across the guide
  double from = 0;  ///< along the guide, for drawing it
  double to = 0;
  bool middle = false;  ///< for the machine's middle; else for its edges
  std::string says;
};

std::vector<Mark> marksOf(const shop::Project& project, base::Id dragged, const Side& self, bool across_x,
                          double reach_m) {
  std::vector<Mark> out;
  for (const shop::Machine& machine : project.machines) {
    if (machine.id == dragged) {
      continue;
    }
    const Side side = seen(footprintOf(machine), across_x);
    out.push_back({side.middle(), side.from, side.to, true, "middle in line with " + machine.label});
    out.push_back({side.low, side.from, side.to, false, "edge in line with " + machine.label});
    out.push_back({side.high, side.from, side.to, false, "edge in line with " + machine.label});
  }
  for (const shop::Collector& collector : project.collectors) {
    const double x = static_cast<double>(collector.at.x_um) * 1e-6;
    const double y = static_cast<double>(collector.at.y_um) * 1e-6;
    const double along = across_x ? y : x;
    out.push_back({across_x ? x : y, along, along, true, "in line with the inlet of " + collector.label});
  }
  for (const shop::Room& room : project.rooms) {
    for (std::size_t i = 0; i < room.outline.size(); ++i) {
      drawing::Box wall;
      for (const shop::PlanPoint& p : {room.outline[i], room.outline[(i + 1) % room.outline.size()]}) {
        wall.add(drawing::At{static_cast<double>(p.x_um) * 1e-6, static_cast<double>(p.y_um) * 1e-6});
      }
      const Side side = seen(wall, across_x);
      // A wall counts where the machine stands beside it, not in the room next door.
      if (side.high - side.low < kSame_m && side.from < self.to + reach_m && side.to > self.from - reach_m) {
        out.push_back({side.low, side.from, side.to, false, "against the wall"});
      }
    }
  }
  return out;
}

struct Found {
  double shift = 0;
  const Mark* mark = nullptr;
};

Found nearest(const std::vector<Mark>& marks, const Side& self, double reach_m) {
  Found best;
  double best_m = reach_m;
  for (const Mark& mark : marks) {
    const std::array<double, 2> own =
        mark.middle ? std::array{self.middle(), self.middle()} : std::array{self.low, self.high};
    for (const double at : own) {
      const double shift = mark.at - at;
      // Strictly nearer: of equals the first stands, machines before walls.
      if (std::abs(shift) < best_m - (best.mark == nullptr ? 0 : kSame_m)) {
        best_m = std::abs(shift);
        best = {shift, &mark};
      }
    }
  }
  return best;
}

shop::PlanPoint plan(double across, double along, bool across_x) {
  const auto um = [](double m) { return static_cast<std::int64_t>(std::llround(m * 1e6)); };
  return across_x ? shop::PlanPoint{um(across), um(along)} : shop::PlanPoint{um(along), um(across)};
}

}  // namespace

Aligned alignDragged(const shop::Project& project, base::Id machine, shop::PlanPoint wanted, double reach_m) {
  Aligned out;
  const shop::Machine* there = machineOf(project, machine);
  if (there == nullptr) {
    return out;
  }
  shop::Machine held = *there;
  held.at.x_um = wanted.x_um;
  held.at.y_um = wanted.y_um;
  const std::array<bool, 2> directions{true, false};
  std::array<std::vector<Mark>, 2> marks;
  std::array<Found, 2> found;
  for (const std::size_t k : {0U, 1U}) {
    const Side self = seen(footprintOf(held), directions.at(k));
    marks.at(k) = marksOf(project, machine, self, directions.at(k), reach_m);
    found.at(k) = nearest(marks.at(k), self, reach_m);
  }
  if (found[0].mark != nullptr) {
    held.at.x_um = wanted.x_um + std::llround(found[0].shift * 1e6);
    out.x_um = held.at.x_um;
  }
  if (found[1].mark != nullptr) {
    held.at.y_um = wanted.y_um + std::llround(found[1].shift * 1e6);
    out.y_um = held.at.y_um;
  }
  // Guides are drawn to where the machine now is, and every mark that it meets there is shown.
  for (const std::size_t k : {0U, 1U}) {
    const bool across_x = directions.at(k);
    if (found.at(k).mark == nullptr) {
      continue;
    }
    out.says += (out.says.empty() ? "" : ", ") + found.at(k).mark->says;
    const Side self = seen(footprintOf(held), across_x);
    for (const Mark& mark : marks.at(k)) {
      const bool meets =
          mark.middle ? std::abs(mark.at - self.middle()) < kSame_m
                      : std::abs(mark.at - self.low) < kSame_m || std::abs(mark.at - self.high) < kSame_m;
      if (meets) {
        out.guides.push_back({plan(mark.at, std::min(mark.from, self.from), across_x),
                              plan(mark.at, std::max(mark.to, self.to), across_x)});
      }
    }
  }
  return out;
}

}  // namespace kerfdraft::desk
