// Small gestures as edits; what they may not do is refused before anything changes.
#include "desk/models/change.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/models/room_draft.h"

#include "desk/models/gate_states.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::Id;
using base::Result;

constexpr double kStraight_rad = 0.01;

base::Given<base::Length> lengthOf(double m) {
  return *base::Given<base::Length>::parse(fmt::format("{:.1f} mm", m * 1e3));
}

shop::Point shifted(const shop::Point& p, std::int64_t x_um, std::int64_t y_um) {
  return {p.x_um + x_um, p.y_um + y_um, p.z_um};
}

template <class T>
const T* byId(const std::vector<T>& things, Id id) {
  const auto at = std::find_if(things.begin(), things.end(), [id](const T& each) { return each.id == id; });
  return at == things.end() ? nullptr : &*at;
}

/// Branches that enter at a corner.
std::size_t branchesAt(const shop::Project& project, Id corner) {
  std::size_t n = 0;
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::DuctEnd* end : {&duct.from, &duct.to}) {
      const auto* on = std::get_if<shop::OnCorner>(end);
      n += on != nullptr && on->corner == corner ? 1U : 0U;
    }
  }
  return n;
}

Result<Change> gone() {
  return base::fail(ErrorCode::Reference, "this thing is gone");
}

/// The edit that puts a hung thing at a place on its duct.
template <class T>
Result<Change> slid(const T* there, const shop::Duct& duct, const LegPlace& place, const std::string& words,
                    auto&& edit) {
  if (there == nullptr) {
    return gone();
  }
  T moved = *there;
  moved.corner = place.corner;
  moved.distance = lengthOf(place.along_m);
  return Change{words, {edit(duct.id, moved)}};
}

/// The room that lies under a place; not valid outdoors.
Id roomIdAt(const shop::Project& project, const shop::Point& at) {
  const shop::Room* room = roomAt(project, {at.x_um, at.y_um});
  return room != nullptr ? room->id : Id();
}

}  // namespace

bool canMove(const shop::Project& project, const Thing& thing) {
  return moveThing(project, thing, 0, 0).has_value();
}

Result<Change> moveThing(const shop::Project& before, const Thing& thing, std::int64_t x_um,
                         std::int64_t y_um) {
  Change change;
  change.words = "Move " + nameOf(before, thing);
  if (thing.kind == ThingKind::Machine) {
    const shop::Machine* machine = machineOf(before, thing.id);
    if (machine == nullptr) {
      return gone();
    }
    const shop::Point to = shifted(machine->at, x_um, y_um);
    const base::Id room = roomIdAt(before, to);
    if (room != machine->room) {
      shop::Machine inside = *machine;
      inside.room = room;
      change.edits.emplace_back(shop::PutMachine{inside});
    }
    change.edits.emplace_back(shop::MoveMachine{machine->id, to, machine->turned});
    return change;
  }
  if (thing.kind == ThingKind::Collector) {
    const shop::Collector* collector = collectorOf(before, thing.id);
    if (collector == nullptr) {
      return gone();
    }
    const shop::Point to = shifted(collector->at, x_um, y_um);
    const base::Id room = roomIdAt(before, to);
    if (room != collector->room) {
      shop::Collector inside = *collector;
      inside.room = room;
      // What blew into the room around it goes on doing so.
      if (collector->discharge.room == collector->room) {
        inside.discharge.room = room;
      }
      change.edits.emplace_back(shop::PutCollector{inside});
    }
    change.edits.emplace_back(shop::MoveCollector{collector->id, to});
    return change;
  }
  if (thing.kind != ThingKind::Corner) {
    return base::fail(ErrorCode::Unsupported,
                      fmt::format("{} is not moved by dragging", nameOf(before, thing)));
  }
  const shop::Duct* duct = ductOf(before, thing.parent);
  const auto at = duct == nullptr ? std::nullopt : cornerIndex(*duct, thing.id);
  if (!at) {
    return gone();
  }
  const bool first = *at == 0;
  const bool last = *at + 1 == duct->corners.size();
  if (first || last) {
    const shop::DuctEnd& end = first ? duct->from : duct->to;
    if (const auto* on = std::get_if<shop::OnCorner>(&end)) {
      return moveThing(before, {ThingKind::Corner, on->corner, on->duct}, x_um, y_um);
    }
    if (std::holds_alternative<shop::PortRef>(end) || std::holds_alternative<shop::CollectorInlet>(end)) {
      return base::fail(ErrorCode::Conflict,
                        fmt::format("this end of {} is joined; move the machine or collector, or take the "
                                    "duct away",
                                    duct->label));
    }
  }
  const shop::Point& here = duct->corners[*at].at;
  change.edits.emplace_back(shop::MoveCorner{duct->id, thing.id, shifted(here, x_um, y_um)});
  // A riser stays upright: its other corner goes along, where that is free to.
  for (const std::size_t other : {*at - 1, *at + 1}) {
    if (other >= duct->corners.size()) {
      continue;
    }
    const shop::Corner& beside = duct->corners[other];
    const bool inner = other > 0 && other + 1 < duct->corners.size();
    if (inner && beside.at.x_um == here.x_um && beside.at.y_um == here.y_um) {
      change.edits.emplace_back(shop::MoveCorner{duct->id, beside.id, shifted(beside.at, x_um, y_um)});
    }
  }
  return change;
}

Result<Change> moveThings(const shop::Project& before, const std::set<Id>& ids, std::int64_t x_um,
                          std::int64_t y_um) {
  Change all;
  std::size_t moved = 0;
  Result<Change> refused = base::fail(ErrorCode::Reference, "nothing is picked");
  for (const Id id : ids) {
    const auto thing = thingOf(before, id);
    if (!thing) {
      continue;
    }
    Result<Change> one = moveThing(before, *thing, x_um, y_um);
    if (!one) {
      refused = std::move(one);
      continue;
    }
    ++moved;
    all.words = moved == 1 ? one->words : fmt::format("Move {} things", moved);
    all.edits.insert(all.edits.end(), one->edits.begin(), one->edits.end());
  }
  return moved == 0 ? refused : Result<Change>(std::move(all));
}

Result<Change> slideThing(const shop::Project& project, const Thing& thing, shop::PlanPoint to) {
  const shop::Duct* duct = ductOf(project, thing.parent);
  if (duct == nullptr) {
    return gone();
  }
  constexpr double kAnywhere_m = 1e3;
  std::optional<LegPlace> best;
  for (const LegPlace& place : legsNear(project, to, kAnywhere_m)) {
    if (place.duct == duct->id && !place.upright) {
      best = place;
      break;
    }
  }
  if (!best) {
    return base::fail(ErrorCode::Conflict,
                      fmt::format("duct {} is upright; type the distance instead", duct->label));
  }
  const std::string words = "Move " + nameOf(project, thing);
  switch (thing.kind) {
    case ThingKind::Gate:
      return slid(byId(duct->gates, thing.id), *duct, *best, words, [](Id on, const shop::Gate& gate) {
        return shop::Edit(shop::PutGate{on, gate});
      });
    case ThingKind::Tap:
      return slid(byId(duct->taps, thing.id), *duct, *best, words, [](Id on, const shop::Access& tap) {
        return shop::Edit(shop::PutTap{on, tap});
      });
    case ThingKind::Cleanout:
      return slid(byId(duct->cleanouts, thing.id), *duct, *best, words, [](Id on, const shop::Access& door) {
        return shop::Edit(shop::PutCleanout{on, door});
      });
    default:
      return base::fail(ErrorCode::Unsupported, "only gates, taps and cleanouts slide along a duct");
  }
}

Result<Change> removeThings(const shop::Project& project, const std::set<Id>& ids) {
  Change change;
  std::vector<Thing> things;
  for (const Id id : ids) {
    if (const auto thing = thingOf(project, id)) {
      things.push_back(*thing);
    }
  }
  if (things.empty()) {
    return base::fail(ErrorCode::Reference, "nothing is picked");
  }
  for (const Thing& thing : things) {
    switch (thing.kind) {
      case ThingKind::Machine:
        change.edits.emplace_back(shop::RemoveMachine{thing.id});
        break;
      case ThingKind::Collector:
        change.edits.emplace_back(shop::RemoveCollector{thing.id});
        break;
      case ThingKind::Gate:
      case ThingKind::Tap:
      case ThingKind::Cleanout:
        if (!ids.contains(thing.parent)) {
          change.edits.emplace_back(shop::RemoveFromDuct{thing.id});
        }
        break;
      case ThingKind::Corner:
        if (!ids.contains(thing.parent)) {
          change.edits.emplace_back(shop::RemoveCorner{thing.parent, thing.id});
        }
        break;
      case ThingKind::Room:
        change.edits.emplace_back(shop::RemoveRoom{thing.id});
        break;
      case ThingKind::Port: {
        const shop::Machine* machine = machineOf(project, thing.parent);
        if (machine != nullptr && !ids.contains(thing.parent)) {
          shop::Machine without = *machine;
          std::erase_if(without.ports, [&](const shop::Port& port) { return ids.contains(port.id); });
          change.edits.emplace_back(shop::PutMachine{without});
        }
        break;
      }
      case ThingKind::Opening:
      case ThingKind::Obstacle: {
        const shop::Room* room = byId(project.rooms, thing.parent);
        if (room != nullptr && !ids.contains(thing.parent)) {
          shop::Room without = *room;
          std::erase_if(without.openings, [&](const shop::Opening& o) { return ids.contains(o.id); });
          std::erase_if(without.obstacles, [&](const shop::Obstacle& o) { return ids.contains(o.id); });
          change.edits.emplace_back(shop::PutRoom{without});
        }
        break;
      }
      case ThingKind::Duct: {
        change.edits.emplace_back(shop::RemoveDuct{thing.id});
        // The main heals: its straight corner is no corner without the branch.
        const shop::Duct* duct = ductOf(project, thing.id);
        const auto* on = std::get_if<shop::OnCorner>(&duct->to);
        const shop::Duct* main =
            on == nullptr || ids.contains(on->duct) ? nullptr : ductOf(project, on->duct);
        const auto at = main == nullptr ? std::nullopt : cornerIndex(*main, on->corner);
        if (at && *at > 0 && *at + 1 < main->corners.size() && !ids.contains(on->corner) &&
            branchesAt(project, on->corner) == 1 && !main->corners[*at].leg && !main->corners[*at].loss &&
            shop::turn(main->corners[*at - 1].at, main->corners[*at].at, main->corners[*at + 1].at) <
                kStraight_rad) {
          change.edits.emplace_back(shop::RemoveCorner{main->id, on->corner});
        }
        break;
      }
    }
  }
  change.words = things.size() == 1 ? "Remove " + nameOf(project, things.front())
                                    : fmt::format("Remove {} things", things.size());
  return change;
}

Result<Change> insertCorner(const shop::Project& project, shop::PlanPoint at, double reach_m,
                            base::IdSource& ids) {
  for (const LegPlace& place : legsNear(project, at, reach_m)) {
    if (place.upright) {
      continue;
    }
    constexpr double kLeast_m = 0.02;
    if (place.along_m < kLeast_m || place.length_m - place.along_m < kLeast_m) {
      return base::fail(ErrorCode::Range, "a corner is there already");
    }
    return Change{"Put a corner into duct " + ductOf(project, place.duct)->label,
                  {shop::InsertCorner{place.duct, place.corner, ids.next(), place.at}}};
  }
  return base::fail(ErrorCode::Reference, "no duct lies here");
}

std::optional<LegPlace> hangingPlace(const shop::Project& project, shop::PlanPoint at, double reach_m,
                                     std::size_t turn) {
  std::vector<LegPlace> places = legsNear(project, at, reach_m);
  // On the circle of a riser the upright leg is meant, not the level one that begins there.
  std::stable_partition(places.begin(), places.end(), [](const LegPlace& each) {
    return each.upright && each.beside_m <= each.bore_m / 2;
  });
  return places.empty() ? std::nullopt : std::optional(places[turn % places.size()]);
}

Result<Change> hang(const shop::Project& project, Hung what, shop::PlanPoint at, double reach_m,
                    std::size_t turn, base::IdSource& ids) {
  const auto place = hangingPlace(project, at, reach_m, turn);
  const std::string name = what == Hung::Gate ? "gate" : what == Hung::Tap ? "tap" : "cleanout";
  if (!place) {
    return base::fail(ErrorCode::Reference, fmt::format("no duct lies here; click on one to put a {}", name));
  }
  const shop::Duct& duct = *ductOf(project, place->duct);
  const shop::Leg* leg = legInForce(duct, place->leg);
  if (what != Hung::Gate && leg != nullptr && leg->hose) {
    return base::fail(ErrorCode::Conflict,
                      fmt::format("this stretch of {} is hose; a {} wants pipe", duct.label, name));
  }
  if (place->length_m < place->bore_m / 2) {
    return base::fail(ErrorCode::Range,
                      fmt::format("this stretch of {} is too short for a {}", duct.label, name));
  }
  const double rim_m = std::min(place->bore_m / 2, place->length_m / 2);
  const auto distance = lengthOf(std::clamp(place->along_m, rim_m, place->length_m - rim_m));
  if (what == Hung::Gate) {
    shop::Gate gate;
    gate.id = ids.next();
    gate.label = freeLabel(project, "G");
    gate.corner = place->corner;
    gate.distance = distance;
    Change change{"Put gate " + gate.label, {shop::PutGate{duct.id, gate}}};
    // A gate not listed in a state is shut there: the air that went here before goes on.
    const std::vector<shop::Edit> open = openWhereAirWent(project, duct, place->leg, gate.id);
    change.edits.insert(change.edits.end(), open.begin(), open.end());
    return change;
  }
  shop::Access access;
  access.id = ids.next();
  access.label = freeLabel(project, what == Hung::Tap ? "TP" : "CO");
  access.corner = place->corner;
  access.distance = distance;
  const std::string words = fmt::format("Put {} {}", name, access.label);
  if (what == Hung::Tap) {
    return Change{words, {shop::PutTap{duct.id, access}}};
  }
  return Change{words, {shop::PutCleanout{duct.id, access}}};
}

Result<Change> toggleHosePlace(const shop::Project& project, Id id, const shop::PortRef& port) {
  const shop::Duct* duct = ductOf(project, id);
  if (duct == nullptr || portOf(project, port) == nullptr) {
    return gone();
  }
  for (const shop::Duct& other : project.ducts) {
    const auto* there = std::get_if<shop::PortRef>(&other.from);
    if (other.id != id && there != nullptr && *there == port) {
      return base::fail(
          ErrorCode::Conflict,
          fmt::format("this port has duct {} for good; a moved hose cannot come here too", other.label));
    }
  }
  shop::MovedEnd moved;
  if (const auto* there = std::get_if<shop::MovedEnd>(&duct->from)) {
    moved = *there;
  } else if (const auto* fixed = std::get_if<shop::PortRef>(&duct->from)) {
    if (*fixed != port) {
      moved.places.push_back(*fixed);
    }
  } else if (!std::holds_alternative<shop::OpenEnd>(duct->from)) {
    return base::fail(
        ErrorCode::Conflict,
        fmt::format("duct {} does not start at a port or openly; no hose can be moved there", duct->label));
  }
  const auto at = std::find(moved.places.begin(), moved.places.end(), port);
  const bool added = at == moved.places.end();
  if (added) {
    moved.places.push_back(port);
  } else {
    moved.places.erase(at);
  }
  Change change;
  change.words = fmt::format("{} {}", added ? "Let the hose reach" : "Keep the hose away from",
                             nameOf(project, {ThingKind::Port, port.port, port.machine}));
  if (added && !duct->corners.front().leg->hose) {
    shop::Duct whole = *duct;
    const shop::Leg rigid = *whole.corners.front().leg;
    whole.corners.front().leg->hose = shop::Hose{};
    if (whole.corners.size() > 2 && !whole.corners[1].leg) {
      whole.corners[1].leg = rigid;
    }
    change.edits.emplace_back(shop::PutDuct{whole});
  }
  change.edits.emplace_back(
      shop::JoinEnd{id, true, moved.places.empty() ? shop::DuctEnd(shop::OpenEnd{}) : shop::DuctEnd(moved)});
  return change;
}

}  // namespace kerfdraft::desk
