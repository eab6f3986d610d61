// Plan geometry in metres; heights only decide between equals.
#include "desk/models/places.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace kerfdraft::desk {
namespace {

constexpr double kUpright_m = 0.005;

double metres(std::int64_t um) {
  return static_cast<double>(um) * 1e-6;
}

template <class T>
const T* byId(const std::vector<T>& things, base::Id id) {
  const auto at = std::find_if(things.begin(), things.end(), [id](const T& each) { return each.id == id; });
  return at == things.end() ? nullptr : &*at;
}

shop::Point between(const shop::Point& a, const shop::Point& b, double share) {
  const auto part = [share](std::int64_t from, std::int64_t to) {
    return from + std::llround(static_cast<double>(to - from) * share);
  };
  return {part(a.x_um, b.x_um), part(a.y_um, b.y_um), part(a.z_um, b.z_um)};
}

std::optional<Thing> onDuct(const shop::Duct& duct, base::Id id) {
  if (duct.id == id) {
    return Thing{ThingKind::Duct, id, {}};
  }
  if (byId(duct.corners, id) != nullptr) {
    return Thing{ThingKind::Corner, id, duct.id};
  }
  if (byId(duct.gates, id) != nullptr) {
    return Thing{ThingKind::Gate, id, duct.id};
  }
  if (byId(duct.taps, id) != nullptr) {
    return Thing{ThingKind::Tap, id, duct.id};
  }
  if (byId(duct.cleanouts, id) != nullptr) {
    return Thing{ThingKind::Cleanout, id, duct.id};
  }
  return std::nullopt;
}

}  // namespace

const shop::Leg* legInForce(const shop::Duct& duct, std::size_t leg) {
  const shop::Leg* in_force = nullptr;
  for (std::size_t k = 0; k <= leg && k < duct.corners.size(); ++k) {
    if (duct.corners[k].leg) {
      in_force = &*duct.corners[k].leg;
    }
  }
  return in_force;
}

double boreOfLeg(const shop::Duct& duct, std::size_t leg) {
  const shop::Leg* in_force = legInForce(duct, leg);
  return in_force == nullptr ? 0 : in_force->bore.si();
}

std::vector<LegPlace> legsNear(const shop::Project& project, shop::PlanPoint at, double reach_m) {
  std::vector<LegPlace> out;
  const double px = metres(at.x_um);
  const double py = metres(at.y_um);
  for (const shop::Duct& duct : project.ducts) {
    for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
      const shop::Point& a = duct.corners[k].at;
      const shop::Point& b = duct.corners[k + 1].at;
      const double dx = metres(b.x_um - a.x_um);
      const double dy = metres(b.y_um - a.y_um);
      const double plan_m = std::hypot(dx, dy);
      LegPlace place;
      place.upright = plan_m < kUpright_m;
      const double share =
          place.upright
              ? 0.5
              : std::clamp(((px - metres(a.x_um)) * dx + (py - metres(a.y_um)) * dy) / (plan_m * plan_m), 0.0,
                           1.0);
      place.at = between(a, b, share);
      place.beside_m = std::hypot(px - metres(place.at.x_um), py - metres(place.at.y_um));
      place.bore_m = boreOfLeg(duct, k);
      if (place.beside_m > place.bore_m / 2 + reach_m) {
        continue;
      }
      place.duct = duct.id;
      place.corner = duct.corners[k].id;
      place.leg = k;
      place.length_m = shop::distance(a, b);
      place.along_m = place.length_m * share;
      out.push_back(place);
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const LegPlace& a, const LegPlace& b) {
    constexpr double kAlike_m = 1e-3;
    return std::abs(a.beside_m - b.beside_m) > kAlike_m ? a.beside_m < b.beside_m : a.at.z_um > b.at.z_um;
  });
  return out;
}

const shop::Duct* ductOf(const shop::Project& project, base::Id duct) {
  return byId(project.ducts, duct);
}

const shop::Machine* machineOf(const shop::Project& project, base::Id machine) {
  return byId(project.machines, machine);
}

const shop::Port* portOf(const shop::Project& project, const shop::PortRef& ref) {
  const shop::Machine* machine = machineOf(project, ref.machine);
  return machine == nullptr ? nullptr : byId(machine->ports, ref.port);
}

const shop::Collector* collectorOf(const shop::Project& project, base::Id collector) {
  return byId(project.collectors, collector);
}

std::optional<std::size_t> cornerIndex(const shop::Duct& duct, base::Id corner) {
  const shop::Corner* there = byId(duct.corners, corner);
  return there == nullptr ? std::nullopt
                          : std::optional(static_cast<std::size_t>(there - duct.corners.data()));
}

std::optional<Thing> thingOf(const shop::Project& project, base::Id id) {
  for (const shop::Room& room : project.rooms) {
    if (room.id == id) {
      return Thing{ThingKind::Room, id, {}};
    }
    if (byId(room.openings, id) != nullptr) {
      return Thing{ThingKind::Opening, id, room.id};
    }
    if (byId(room.obstacles, id) != nullptr) {
      return Thing{ThingKind::Obstacle, id, room.id};
    }
  }
  for (const shop::Machine& machine : project.machines) {
    if (machine.id == id || (machine.blower && machine.blower->id == id)) {
      return Thing{ThingKind::Machine, machine.id, {}};
    }
    if (byId(machine.ports, id) != nullptr) {
      return Thing{ThingKind::Port, id, machine.id};
    }
  }
  for (const shop::Duct& duct : project.ducts) {
    if (const auto thing = onDuct(duct, id)) {
      return thing;
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    if (collector.id == id || byId(collector.separators, id) != nullptr ||
        byId(collector.filters, id) != nullptr) {
      return Thing{ThingKind::Collector, collector.id, {}};
    }
  }
  return std::nullopt;
}

std::optional<Thing> thingOf(const shop::Project& project, std::string_view element) {
  const std::size_t colon = element.find(':');
  if (colon == std::string_view::npos) {
    const auto id = base::Id::parse(element);
    return id ? thingOf(project, *id) : std::nullopt;
  }
  const std::string_view role = element.substr(0, colon);
  const bool stretch = role == "straight" || role == "hose" || role == "run";
  std::string_view rest = element.substr(colon + 1);
  std::optional<Thing> found;
  while (!rest.empty() && !found) {
    const std::size_t next = rest.find(':');
    if (const auto id = base::Id::parse(rest.substr(0, next))) {
      found = thingOf(project, *id);
    }
    rest = next == std::string_view::npos ? std::string_view{} : rest.substr(next + 1);
  }
  if (found && stretch && found->parent.valid() && found->kind != ThingKind::Port) {
    return Thing{ThingKind::Duct, found->parent, {}};
  }
  return found;
}

std::string nameOf(const shop::Project& project, const Thing& thing) {
  const auto label_in = [&thing](const auto& list) {
    const auto* each = byId(list, thing.id);
    return each == nullptr ? std::string() : each->label;
  };
  switch (thing.kind) {
    case ThingKind::Room:
      return "room " + label_in(project.rooms);
    case ThingKind::Machine:
      return "machine " + label_in(project.machines);
    case ThingKind::Collector:
      return "collector " + label_in(project.collectors);
    case ThingKind::Duct:
      return "duct " + label_in(project.ducts);
    case ThingKind::Port: {
      const shop::Machine* machine = machineOf(project, thing.parent);
      return machine == nullptr ? "port"
                                : fmt::format("port {} of {}", label_in(machine->ports), machine->label);
    }
    case ThingKind::Opening:
    case ThingKind::Obstacle: {
      const shop::Room* room = byId(project.rooms, thing.parent);
      return room == nullptr                    ? "opening"
             : thing.kind == ThingKind::Opening ? "opening " + label_in(room->openings)
                                                : "obstacle " + label_in(room->obstacles);
    }
    default:
      break;
  }
  const shop::Duct* duct = ductOf(project, thing.parent);
  if (duct == nullptr) {
    return "part of a duct";
  }
  switch (thing.kind) {
    case ThingKind::Gate:
      return "gate " + label_in(duct->gates);
    case ThingKind::Tap:
      return "tap " + label_in(duct->taps);
    case ThingKind::Cleanout:
      return "cleanout " + label_in(duct->cleanouts);
    default:
      return "corner of duct " + duct->label;
  }
}

std::string freeLabel(const shop::Project& project, std::string_view prefix) {
  std::set<std::string> taken;
  for (const shop::Duct& duct : project.ducts) {
    taken.insert(duct.label);
    const auto each = [&taken](const auto& list) {
      for (const auto& thing : list) {
        taken.insert(thing.label);
      }
    };
    each(duct.gates);
    each(duct.taps);
    each(duct.cleanouts);
  }
  for (std::size_t n = 1;; ++n) {
    std::string label = fmt::format("{}{}", prefix, n);
    if (!taken.contains(label)) {
      return label;
    }
  }
}

}  // namespace kerfdraft::desk
