// Rooms: nodes, cracks, doors, exhausts.
#include "pieces/rooms.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "physics/opening.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

double wallArea(const shop::Room& room) {
  double perimeter_m = 0;
  const std::size_t n = room.outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const shop::PlanPoint& a = room.outline[i];
    const shop::PlanPoint& b = room.outline[(i + 1) % n];
    perimeter_m +=
        std::hypot(static_cast<double>(b.x_um - a.x_um), static_cast<double>(b.y_um - a.y_um)) * 1e-6;
  }
  return perimeter_m * room.height.si();
}

/// Free area of a door, window or grille; assumed from its width where not entered.
Result<double> openingArea(Draft& draft, const shop::Room& room, const shop::Opening& opening) {
  const std::string where = named(room.label, opening.label);
  if (opening.area) {
    if (!(opening.area->si() >= 0) || !std::isfinite(opening.area->si())) {
      return fail(ErrorCode::Range,
                  fmt::format("the area of an opening must not be negative, not {}", opening.area->text()),
                  where);
    }
    return opening.area->si();
  }
  const bool door = opening.kind == shop::OpeningKind::Door;
  if (!door && opening.kind != shop::OpeningKind::Window) {
    return fail(ErrorCode::Conflict, "this opening needs its free area", where);
  }
  const double width_m = std::hypot(static_cast<double>(opening.to.x_um - opening.from.x_um),
                                    static_cast<double>(opening.to.y_um - opening.from.y_um)) *
                         1e-6;
  const double height_m = door ? kDoorHeight_m : kWindowHeight_m;
  draft.note({Role::Opening, opening.id, {}},
             fmt::format("{}: assumed {} high, since its free area is not given", where,
                         draft.say(Kind::Length, height_m)));
  return width_m * height_m;
}

void addOpening(Draft& draft, PieceKey key, std::string label, std::size_t outer, std::size_t inner,
                double area_m2, bool usually_open, Id id) {
  Opening opening;
  opening.key = key;
  opening.label = std::move(label);
  opening.from = outer;
  opening.to = inner;
  opening.area_m2 = area_m2;
  opening.discharge = physics::kDischarge;
  opening.usually_open = usually_open;
  opening.id = id;
  draft.out.openings.push_back(std::move(opening));
}

Result<void> addRoom(Draft& draft, const shop::Room& room) {
  const std::size_t node = draft.room_node.at(room.id);
  bool crack_listed = false;
  for (const shop::Opening& opening : room.openings) {
    const std::string label = named(room.label, opening.label);
    const PieceKey key{Role::Opening, opening.id, {}};
    const std::size_t outer = draft.roomNode(opening.leads_to);
    crack_listed = crack_listed || opening.kind == shop::OpeningKind::Crack;
    if (opening.kind == shop::OpeningKind::Exhaust) {
      if (!opening.flow || !std::isfinite(opening.flow->si())) {
        return fail(ErrorCode::Conflict, "an exhaust needs the flow that it takes out of the room", label);
      }
      const double flow_kg_s = opening.flow->si() * draft.out.air.density_kg_m3;
      draft.out.nodes[node].inflow_kg_s -= flow_kg_s;
      if (outer != 0) {
        draft.out.nodes[outer].inflow_kg_s += flow_kg_s;
      }
      continue;
    }
    const auto area_m2 = openingArea(draft, room, opening);
    if (!area_m2) {
      return Failure(area_m2.error());
    }
    if (*area_m2 > 0) {
      const bool always =
          opening.kind == shop::OpeningKind::Crack || opening.kind == shop::OpeningKind::Grille;
      addOpening(draft, key, label, outer, node, *area_m2, always || opening.usually_open, opening.id);
    }
  }
  if (!crack_listed && draft.project.setting.leakage) {
    const double area_m2 = kCrackShare * wallArea(room);
    if (area_m2 > 0) {
      const PieceKey key{Role::Opening, room.id, {}};
      addOpening(draft, key, named(room.label, "cracks"), 0, node, area_m2, true, {});
      draft.note(key, fmt::format("{}: assumed cracks of {} to the outdoors (5 cm² for each m² of wall); "
                                  "between a fifth and twice that is ordinary",
                                  room.label, draft.say(Kind::Area, area_m2)));
    }
  }
  return {};
}

bool holds(const shop::Room& room, const shop::Point& at) {
  bool inside = false;
  const std::size_t n = room.outline.size();
  for (std::size_t i = 0, j = n - 1; i < n; j = i++) {
    const shop::PlanPoint& a = room.outline[i];
    const shop::PlanPoint& b = room.outline[j];
    if ((a.y_um > at.y_um) != (b.y_um > at.y_um)) {
      const double cut = static_cast<double>(a.x_um) + static_cast<double>(at.y_um - a.y_um) /
                                                           static_cast<double>(b.y_um - a.y_um) *
                                                           static_cast<double>(b.x_um - a.x_um);
      inside = inside != (static_cast<double>(at.x_um) < cut);
    }
  }
  return inside;
}

}  // namespace

Result<void> addRooms(Draft& draft) {
  draft.addNode(NodeKind::Outdoors, {Role::Room, {}, {}}, "outdoors");
  for (const shop::Room& room : draft.project.rooms) {
    draft.room_node[room.id] = draft.addNode(NodeKind::Room, {Role::Room, room.id, {}}, room.label);
  }
  for (const shop::Room& room : draft.project.rooms) {
    if (auto added = addRoom(draft, room); !added) {
      return added;
    }
  }
  return {};
}

void settleRooms(Draft& draft) {
  Pieces& out = draft.out;
  std::vector<char> free(out.nodes.size(), 0);
  for (const Opening& opening : out.openings) {
    // A machine's body opens to its room, which is no way out of the room.
    if (out.nodes[opening.to].kind == NodeKind::Room) {
      free[opening.from] = free[opening.to] = 1;
    }
  }
  // Everywhere else that the network touches: if a room is the only one, what it gives comes back to it.
  std::vector<char> touched(out.nodes.size(), 0);
  for (const Run& run : out.runs) {
    touched[run.from] = touched[run.to] = 1;
    if (!run.leaks.empty()) {
      touched[run.room] = 1;
    }
  }
  for (const Fan& fan : out.fans) {
    touched[fan.from] = touched[fan.to] = 1;
  }
  for (const Opening& opening : out.openings) {
    touched[opening.from] = out.nodes[opening.to].kind == NodeKind::Body ? char{1} : touched[opening.from];
  }
  std::size_t places = 0;
  for (std::size_t i = 0; i < out.nodes.size(); ++i) {
    const NodeKind kind = out.nodes[i].kind;
    places += touched[i] != 0 && (kind == NodeKind::Room || kind == NodeKind::Outdoors) ? 1U : 0U;
  }
  for (std::size_t i = 0; i < out.nodes.size(); ++i) {
    Node& node = out.nodes[i];
    const bool still_room = node.kind == NodeKind::Room && free[i] == 0 && node.inflow_kg_s == 0 &&
                            (touched[i] == 0 || places == 1);
    node.fixed = node.kind == NodeKind::Outdoors || still_room;
  }
}

std::size_t roomAround(const Draft& draft, const shop::Point& at) {
  for (const shop::Room& room : draft.project.rooms) {
    if (holds(room, at)) {
      return draft.room_node.at(room.id);
    }
  }
  return 0;
}

}  // namespace kerfdraft::pieces
