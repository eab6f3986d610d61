// Ports and corners are parts of their machine or duct: they widen an extent, but are no steps of a walk.
#include "desk/models/extent.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

namespace kerfdraft::desk {
namespace {

double metres(std::int64_t um) {
  return static_cast<double>(um) * 1e-6;
}

void add(drawing::Box& box, std::int64_t x_um, std::int64_t y_um) {
  box.add(drawing::At{metres(x_um), metres(y_um)});
}

void addAll(drawing::Box& box, const std::vector<shop::PlanPoint>& points) {
  for (const shop::PlanPoint& p : points) {
    add(box, p.x_um, p.y_um);
  }
}

void addMachine(drawing::Box& box, const shop::Machine& machine) {
  box.add(footprintOf(machine));
  for (const shop::Port& port : machine.ports) {
    add(box, port.at.x_um, port.at.y_um);
  }
}

void addDuct(drawing::Box& box, const shop::Duct& duct) {
  for (const shop::Corner& corner : duct.corners) {
    add(box, corner.at.x_um, corner.at.y_um);
  }
}

template <class T>
const T* byId(const std::vector<T>& things, base::Id id) {
  const auto at = std::find_if(things.begin(), things.end(), [id](const T& each) { return each.id == id; });
  return at == things.end() ? nullptr : &*at;
}

const shop::Room* roomOf(const shop::Project& project, base::Id id) {
  return byId(project.rooms, id);
}

void addThing(drawing::Box& box, const shop::Project& project, const Thing& thing) {
  switch (thing.kind) {
    case ThingKind::Room:
      if (const shop::Room* room = roomOf(project, thing.id)) {
        addAll(box, room->outline);
      }
      return;
    case ThingKind::Opening:
      if (const shop::Room* room = roomOf(project, thing.parent)) {
        if (const auto* opening = byId(room->openings, thing.id)) {
          addAll(box, {opening->from, opening->to});
        }
      }
      return;
    case ThingKind::Obstacle:
      if (const shop::Room* room = roomOf(project, thing.parent)) {
        if (const auto* obstacle = byId(room->obstacles, thing.id)) {
          addAll(box, obstacle->outline);
        }
      }
      return;
    case ThingKind::Machine:
      if (const shop::Machine* machine = machineOf(project, thing.id)) {
        addMachine(box, *machine);
      }
      return;
    case ThingKind::Duct:
      if (const shop::Duct* duct = ductOf(project, thing.id)) {
        addDuct(box, *duct);
      }
      return;
    default:
      if (const auto at = placeOf(project, thing)) {
        add(box, at->x_um, at->y_um);
      }
      return;
  }
}

/// The place so far along the leg that begins at a corner; on a leg that is shorter, its end.
std::optional<shop::PlanPoint> alongLeg(const shop::Duct& duct, base::Id corner, double along_m) {
  const auto leg = cornerIndex(duct, corner);
  if (!leg || *leg + 1 >= duct.corners.size()) {
    return std::nullopt;
  }
  const shop::Point& a = duct.corners[*leg].at;
  const shop::Point& b = duct.corners[*leg + 1].at;
  const double whole_m = shop::distance(a, b);
  const double share = whole_m > 0 ? std::clamp(along_m / whole_m, 0.0, 1.0) : 0.0;
  return shop::PlanPoint{a.x_um + std::llround(static_cast<double>(b.x_um - a.x_um) * share),
                         a.y_um + std::llround(static_cast<double>(b.y_um - a.y_um) * share)};
}

template <class T>
std::optional<shop::PlanPoint> hungAt(const shop::Duct& duct, const std::vector<T>& list, base::Id id) {
  const T* hung = byId(list, id);
  return hung == nullptr ? std::nullopt : alongLeg(duct, hung->corner, hung->distance.si());
}

shop::PlanPoint northWest(const std::vector<shop::PlanPoint>& outline) {
  shop::PlanPoint out = outline.front();
  for (const shop::PlanPoint& p : outline) {
    out = {std::min(out.x_um, p.x_um), std::max(out.y_um, p.y_um)};
  }
  return out;
}

std::optional<shop::PlanPoint> placeInRoom(const shop::Project& project, const Thing& thing) {
  const shop::Room* room = roomOf(project, thing.kind == ThingKind::Room ? thing.id : thing.parent);
  if (room == nullptr || room->outline.empty()) {
    return std::nullopt;
  }
  if (thing.kind == ThingKind::Room) {
    return northWest(room->outline);
  }
  if (const auto* opening = byId(room->openings, thing.id)) {
    return shop::PlanPoint{(opening->from.x_um + opening->to.x_um) / 2,
                           (opening->from.y_um + opening->to.y_um) / 2};
  }
  const auto* obstacle = byId(room->obstacles, thing.id);
  return obstacle == nullptr || obstacle->outline.empty() ? std::nullopt
                                                          : std::optional(northWest(obstacle->outline));
}

/// A step of the walk with its place.
struct Step {
  Thing thing;
  shop::PlanPoint at;
};

std::vector<Step> steps(const shop::Project& project) {
  std::vector<Step> out;
  const auto put = [&](const Thing& thing) {
    if (const auto at = placeOf(project, thing)) {
      out.push_back({thing, *at});
    }
  };
  for (const shop::Room& room : project.rooms) {
    put({ThingKind::Room, room.id, {}});
    for (const shop::Opening& opening : room.openings) {
      put({ThingKind::Opening, opening.id, room.id});
    }
    for (const shop::Obstacle& obstacle : room.obstacles) {
      put({ThingKind::Obstacle, obstacle.id, room.id});
    }
  }
  for (const shop::Machine& machine : project.machines) {
    put({ThingKind::Machine, machine.id, {}});
  }
  for (const shop::Collector& collector : project.collectors) {
    put({ThingKind::Collector, collector.id, {}});
  }
  for (const shop::Duct& duct : project.ducts) {
    put({ThingKind::Duct, duct.id, {}});
    for (const shop::Gate& gate : duct.gates) {
      put({ThingKind::Gate, gate.id, duct.id});
    }
    for (const shop::Access& tap : duct.taps) {
      put({ThingKind::Tap, tap.id, duct.id});
    }
    for (const shop::Access& cleanout : duct.cleanouts) {
      put({ThingKind::Cleanout, cleanout.id, duct.id});
    }
  }
  return out;
}

}  // namespace

drawing::Box footprintOf(const shop::Machine& machine) {
  const double c = std::abs(std::cos(machine.turned.si()));
  const double s = std::abs(std::sin(machine.turned.si()));
  const double half_x = (machine.width.si() * c + machine.depth.si() * s) / 2;
  const double half_y = (machine.width.si() * s + machine.depth.si() * c) / 2;
  const double x = metres(machine.at.x_um);
  const double y = metres(machine.at.y_um);
  drawing::Box box;
  box.add(drawing::At{x - half_x, y - half_y});
  box.add(drawing::At{x + half_x, y + half_y});
  return box;
}

drawing::Box extentOf(const shop::Project& project, const std::set<base::Id>& ids) {
  drawing::Box box;
  for (const base::Id id : ids) {
    if (const auto thing = thingOf(project, id)) {
      addThing(box, project, *thing);
    }
  }
  return box;
}

drawing::Box extentOf(const shop::Project& project) {
  drawing::Box box;
  for (const shop::Room& room : project.rooms) {
    addAll(box, room.outline);
  }
  for (const shop::Machine& machine : project.machines) {
    addMachine(box, machine);
  }
  for (const shop::Duct& duct : project.ducts) {
    addDuct(box, duct);
  }
  for (const shop::Collector& collector : project.collectors) {
    add(box, collector.at.x_um, collector.at.y_um);
  }
  return box;
}

std::optional<shop::PlanPoint> placeOf(const shop::Project& project, const Thing& thing) {
  const auto plan = [](const shop::Point& p) { return std::optional(shop::PlanPoint{p.x_um, p.y_um}); };
  switch (thing.kind) {
    case ThingKind::Room:
    case ThingKind::Opening:
    case ThingKind::Obstacle:
      return placeInRoom(project, thing);
    case ThingKind::Machine: {
      const shop::Machine* machine = machineOf(project, thing.id);
      return machine == nullptr ? std::nullopt : plan(machine->at);
    }
    case ThingKind::Port: {
      const shop::Port* port = portOf(project, {thing.parent, thing.id});
      return port == nullptr ? std::nullopt : plan(port->at);
    }
    case ThingKind::Collector: {
      const shop::Collector* collector = collectorOf(project, thing.id);
      return collector == nullptr ? std::nullopt : plan(collector->at);
    }
    case ThingKind::Duct: {
      const shop::Duct* duct = ductOf(project, thing.id);
      return duct == nullptr || duct->corners.empty() ? std::nullopt : plan(duct->corners.front().at);
    }
    default:
      break;
  }
  const shop::Duct* duct = ductOf(project, thing.parent);
  if (duct == nullptr) {
    return std::nullopt;
  }
  switch (thing.kind) {
    case ThingKind::Gate:
      return hungAt(*duct, duct->gates, thing.id);
    case ThingKind::Tap:
      return hungAt(*duct, duct->taps, thing.id);
    case ThingKind::Cleanout:
      return hungAt(*duct, duct->cleanouts, thing.id);
    default: {
      const auto at = cornerIndex(*duct, thing.id);
      return at ? plan(duct->corners[*at].at) : std::nullopt;
    }
  }
}

std::vector<Thing> readingOrder(const shop::Project& project) {
  std::vector<Step> all = steps(project);
  std::stable_sort(all.begin(), all.end(),
                   [](const Step& a, const Step& b) { return a.at.y_um > b.at.y_um; });
  // What stands less than this below the first of a row is still in it: hands do not place things in line.
  constexpr std::int64_t kRow_um = 600'000;
  std::vector<Thing> out;
  out.reserve(all.size());
  for (auto row = all.begin(); row != all.end();) {
    const auto end = std::find_if(
        row, all.end(), [top = row->at.y_um](const Step& each) { return each.at.y_um < top - kRow_um; });
    std::stable_sort(row, end, [](const Step& a, const Step& b) { return a.at.x_um < b.at.x_um; });
    std::transform(row, end, std::back_inserter(out), [](const Step& each) { return each.thing; });
    row = end;
  }
  return out;
}

std::optional<Thing> nextInOrder(const shop::Project& project, const std::set<base::Id>& picked,
                                 bool forward) {
  std::vector<Thing> order = readingOrder(project);
  if (!forward) {
    std::reverse(order.begin(), order.end());
  }
  // A picked corner or port counts as its duct or machine; of several the one that comes last decides.
  std::set<base::Id> from;
  for (const base::Id id : picked) {
    if (const auto thing = thingOf(project, id)) {
      const bool part = thing->kind == ThingKind::Corner || thing->kind == ThingKind::Port;
      from.insert(part ? thing->parent : id);
    }
  }
  const auto last = std::find_if(order.rbegin(), order.rend(),
                                 [&from](const Thing& each) { return from.contains(each.id); });
  const auto next = last == order.rend() ? order.begin() : last.base();
  return next == order.end() ? std::nullopt : std::optional(*next);
}

}  // namespace kerfdraft::desk
