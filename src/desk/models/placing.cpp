// Ports are places of the shop, so they turn and move with their machine here as they do in
// shop::MoveMachine.
#include "desk/models/placing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "desk/models/room_draft.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Result;

template <class List>
std::string freeLabelOf(const List& things, std::string_view prefix) {
  std::set<std::string> taken;
  for (const auto& thing : things) {
    taken.insert(thing.label);
  }
  for (std::size_t n = 1;; ++n) {
    std::string label = fmt::format("{}{}", prefix, n);
    if (!taken.contains(label)) {
      return label;
    }
  }
}

base::Given<base::Angle> angleAsTyped(double rad) {
  double degrees = std::fmod(rad * 180 / std::numbers::pi, 360);
  if (degrees < -1e-6) {
    degrees += 360;
  }
  return *base::Given<base::Angle>::parse(fmt::format("{:.6g} deg", std::abs(degrees) < 1e-6 ? 0 : degrees));
}

/// Things that stand on the floor and can be put in line.
struct Standing {
  base::Id id;
  shop::Point at;
  bool collector = false;
};

std::vector<Standing> standing(const shop::Project& project, const std::set<base::Id>& things) {
  std::vector<Standing> out;
  out.reserve(things.size());
  for (const shop::Machine& machine : project.machines) {
    if (things.contains(machine.id)) {
      out.push_back({machine.id, machine.at, false});
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    if (things.contains(collector.id)) {
      out.push_back({collector.id, collector.at, true});
    }
  }
  return out;
}

shop::Edit moved(const shop::Project& project, const Standing& thing, const shop::Point& to) {
  if (thing.collector) {
    return shop::MoveCollector{thing.id, to};
  }
  return shop::MoveMachine{thing.id, to, machineOf(project, thing.id)->turned};
}

}  // namespace

std::string freeMachineLabel(const shop::Project& project) {
  return freeLabelOf(project.machines, "T");
}

std::string freeCollectorLabel(const shop::Project& project) {
  return freeLabelOf(project.collectors, "C");
}

shop::Machine machineAt(shop::Machine machine, const shop::Point& at, double turned_more_rad) {
  const double c = std::cos(turned_more_rad);
  const double s = std::sin(turned_more_rad);
  for (shop::Port& port : machine.ports) {
    const double x = static_cast<double>(port.at.x_um - machine.at.x_um);
    const double y = static_cast<double>(port.at.y_um - machine.at.y_um);
    port.at.x_um = at.x_um + std::llround(c * x - s * y);
    port.at.y_um = at.y_um + std::llround(s * x + c * y);
    port.at.z_um += at.z_um - machine.at.z_um;
  }
  machine.at = at;
  if (turned_more_rad != 0) {
    machine.turned = angleAsTyped(machine.turned.si() + turned_more_rad);
  }
  return machine;
}

shop::Machine withNewIds(shop::Machine machine, base::IdSource& ids) {
  machine.id = ids.next();
  for (shop::Port& port : machine.ports) {
    port.id = ids.next();
  }
  if (machine.blower) {
    machine.blower->id = ids.next();
  }
  return machine;
}

shop::Collector withNewIds(shop::Collector collector, base::IdSource& ids) {
  collector.id = ids.next();
  for (shop::Separator& separator : collector.separators) {
    separator.id = ids.next();
  }
  for (shop::Filter& filter : collector.filters) {
    filter.id = ids.next();
  }
  return collector;
}

Result<Change> placeMachine(const shop::Project& project, const shop::Machine& machine,
                            const shop::PlanPoint& at, double turned_more_rad, base::IdSource& ids) {
  shop::Machine placed = machineAt(withNewIds(machine, ids), {at.x_um, at.y_um, 0}, turned_more_rad);
  placed.label = freeMachineLabel(project);
  const shop::Room* room = roomAt(project, at);
  placed.room = room != nullptr ? room->id : base::Id();
  const bool known = std::any_of(project.circuits.begin(), project.circuits.end(),
                                 [&](const shop::Circuit& c) { return c.id == placed.circuit; });
  if (!known) {
    placed.circuit = {};
  }
  return Change{fmt::format("Put in {} {}", placed.label, placed.name), {shop::PutMachine{placed}}};
}

Result<Change> placeCollector(const shop::Project& project, const shop::Collector& collector,
                              const shop::PlanPoint& at, double inlet_height_m, base::IdSource& ids) {
  shop::Collector placed = withNewIds(collector, ids);
  placed.at = {at.x_um, at.y_um, std::llround(inlet_height_m * 1e6)};
  placed.label = freeCollectorLabel(project);
  const shop::Room* room = roomAt(project, at);
  placed.room = room != nullptr ? room->id : base::Id();
  placed.discharge.room = placed.room;
  const bool known = std::any_of(project.circuits.begin(), project.circuits.end(),
                                 [&](const shop::Circuit& c) { return c.id == placed.circuit; });
  if (!known) {
    placed.circuit = {};
  }
  return Change{fmt::format("Put in {} {}", placed.label, placed.name), {shop::PutCollector{placed}}};
}

Result<Change> copyThings(const shop::Project& project, const std::set<base::Id>& things, std::int64_t x_um,
                          std::int64_t y_um, base::IdSource& ids, std::set<base::Id>* made) {
  Change change;
  shop::Project with = project;  // so that labels of several copies differ
  for (const shop::Machine& machine : project.machines) {
    if (things.contains(machine.id)) {
      const auto one = placeMachine(with, machine, {machine.at.x_um + x_um, machine.at.y_um + y_um}, 0, ids);
      const shop::Machine& copy = std::get<shop::PutMachine>(one->edits.front()).machine;
      with.machines.push_back(copy);
      change.edits.push_back(one->edits.front());
      if (made != nullptr) {
        made->insert(copy.id);
      }
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    if (things.contains(collector.id)) {
      const auto one = placeCollector(with, collector, {collector.at.x_um + x_um, collector.at.y_um + y_um},
                                      static_cast<double>(collector.at.z_um) * 1e-6, ids);
      shop::Collector copy = std::get<shop::PutCollector>(one->edits.front()).collector;
      copy.discharge = collector.discharge;  // a copy blows where the first does
      with.collectors.push_back(copy);
      change.edits.emplace_back(shop::PutCollector{copy});
      if (made != nullptr) {
        made->insert(copy.id);
      }
    }
  }
  if (change.edits.empty()) {
    return fail(ErrorCode::Unsupported, "only machines and collectors are copied; pick one first");
  }
  change.words = fmt::format("Copy {}", change.edits.size() == 1 ? "one thing" : "several things");
  return change;
}

Result<Change> turnThings(const shop::Project& project, const std::set<base::Id>& things, double angle_rad) {
  Change change;
  for (const shop::Machine& machine : project.machines) {
    if (things.contains(machine.id)) {
      change.edits.emplace_back(
          shop::MoveMachine{machine.id, machine.at, angleAsTyped(machine.turned.si() + angle_rad)});
      change.words = "Turn " + machine.label;
    }
  }
  if (change.edits.empty()) {
    return fail(ErrorCode::Unsupported, "only machines are turned; pick one first");
  }
  if (change.edits.size() > 1) {
    change.words = fmt::format("Turn {} machines", change.edits.size());
  }
  return change;
}

Result<Change> alignThings(const shop::Project& project, const std::set<base::Id>& things, Align how) {
  std::vector<Standing> all = standing(project, things);
  const bool evenly = how == Align::AcrossEvenly || how == Align::AlongEvenly;
  if (all.size() < (evenly ? 3U : 2U)) {
    return fail(ErrorCode::Unsupported, evenly ? "pick three or more machines to put them apart evenly"
                                               : "pick two or more machines to put them in line");
  }
  const bool along_x = how == Align::West || how == Align::East || how == Align::AcrossEvenly;
  const auto coordinate = [along_x](Standing& thing) -> std::int64_t& {
    return along_x ? thing.at.x_um : thing.at.y_um;
  };
  std::stable_sort(all.begin(), all.end(),
                   [&](Standing a, Standing b) { return coordinate(a) < coordinate(b); });
  const std::int64_t least = coordinate(all.front());
  const std::int64_t most = coordinate(all.back());
  Change change;
  change.words = evenly ? "Put apart evenly" : "Put in line";
  for (std::size_t k = 0; k < all.size(); ++k) {
    Standing thing = all[k];
    coordinate(thing) = how == Align::West || how == Align::South ? least
                        : how == Align::East || how == Align::North
                            ? most
                            : least + (most - least) * static_cast<std::int64_t>(k) /
                                          static_cast<std::int64_t>(all.size() - 1);
    if (thing.at != all[k].at) {
      change.edits.push_back(moved(project, thing, thing.at));
    }
  }
  if (change.edits.empty()) {
    return fail(ErrorCode::Unsupported, "they stand so already");
  }
  return change;
}

}  // namespace kerfdraft::desk
