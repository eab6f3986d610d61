// Walks each duct from corner to corner and makes its runs.
#include "pieces/runs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>
#include <variant>

#include "catalogue/ducts.h"
#include "pieces/corner_fittings.h"
#include "pieces/entries.h"
#include "pieces/legs.h"
#include "pieces/outlets.h"
#include "pieces/rooms.h"
#include "pieces/units.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

void append(std::vector<DraftPiece>& to, std::vector<DraftPiece> from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

double turnBetween(const std::array<double, 3>& inward, const std::array<double, 3>& out) {
  // From one leg's end toward the other's: the turn is pi less the angle between the outward directions.
  const double cx = inward[1] * out[2] - inward[2] * out[1];
  const double cy = inward[2] * out[0] - inward[0] * out[2];
  const double cz = inward[0] * out[1] - inward[1] * out[0];
  const double dot = inward[0] * out[0] + inward[1] * out[1] + inward[2] * out[2];
  return std::atan2(std::hypot(cx, cy, cz), -dot);
}

/// The leg of a two-leg meeting that carries its elbow and reducer: the first that arrives, else the first.
std::size_t carrier(const Meeting& meeting) {
  return meeting.legs[0].arrives || !meeting.legs[1].arrives ? 0 : 1;
}

class DuctWalk {
 public:
  DuctWalk(Draft& draft, const Drawing& drawing, std::size_t index)
      : draft_(draft), drawing_(drawing), index_(index), duct_(drawing.ducts[index]) {}

  Result<std::vector<std::size_t>> walk() {
    std::vector<std::size_t> run_of_leg(duct_.legs.size(), kNowhere);
    std::size_t first = 0;
    while (first < duct_.legs.size()) {
      std::size_t last = first + 1;  // corner at which the run ends
      while (last < duct_.legs.size() && duct_.meeting[last] == kNowhere) {
        ++last;
      }
      auto run = makeRun(first, last);
      if (!run) {
        return Failure(run.error());
      }
      std::fill(run_of_leg.begin() + static_cast<std::ptrdiff_t>(first),
                run_of_leg.begin() + static_cast<std::ptrdiff_t>(last), *run);
      first = last;
    }
    return run_of_leg;
  }

 private:
  const shop::Duct& shopDuct() const { return *duct_.duct; }
  Id cornerId(std::size_t corner) const { return shopDuct().corners[corner].id; }

  Result<std::size_t> makeRun(std::size_t first, std::size_t last) {
    Run run;
    run.key = {Role::Run, cornerId(first), cornerId(last)};
    run.start_bore_m = duct_.legs[first].bore_m;
    run.end_bore_m = duct_.legs[last - 1].bore_m;
    const shop::Point& a = shopDuct().corners[first].at;
    const shop::Point& b = shopDuct().corners[first + 1].at;
    run.room = roomAround(draft_, {(a.x_um + b.x_um) / 2, (a.y_um + b.y_um) / 2, (a.z_um + b.z_um) / 2});
    std::vector<DraftPiece> pieces;
    if (auto begun = begin(run, pieces, first); !begun) {
      return Failure(begun.error());
    }
    for (std::size_t leg = first; leg < last; ++leg) {
      auto stretch = legPieces(draft_, duct_, leg);
      if (!stretch) {
        return Failure(stretch.error());
      }
      append(pieces, std::move(*stretch));
      if (leg + 1 < last) {
        CornerBetween corner = between(leg + 1);
        auto fittings = cornerPieces(draft_, corner);
        if (!fittings) {
          return Failure(fittings.error());
        }
        append(pieces, std::move(*fittings));
      }
    }
    if (auto ended = finish(run, pieces, last); !ended) {
      return Failure(ended.error());
    }
    run.label = fmt::format("{}: {} to {}", shopDuct().label, draft_.out.nodes[run.from].label,
                            draft_.out.nodes[run.to].label);
    const bool at_port = first == 0 && std::holds_alternative<shop::PortRef>(shopDuct().from);
    if (at_port) {
      addPort(std::get<shop::PortRef>(shopDuct().from), draft_.out.runs.size());
      run.label = fmt::format("{}: {} to {}", shopDuct().label, draft_.out.ports.back().label,
                              draft_.out.nodes[run.to].label);
    }
    return draft_.addRun(std::move(run), std::move(pieces));
  }

  /// An inner corner of this duct.
  CornerBetween between(std::size_t corner) const {
    const shop::Duct& duct = shopDuct();
    CornerBetween out;
    out.id = cornerId(corner);
    out.place = cornerPlace(draft_, duct_, corner);
    out.corner = &duct.corners[corner];
    out.duct = &duct;
    out.before = &duct_.legs[corner - 1];
    out.after = &duct_.legs[corner];
    out.turn_rad =
        shop::turn(duct.corners[corner - 1].at, duct.corners[corner].at, duct.corners[corner + 1].at);
    return out;
  }

  /// The elbow and reducer where two ducts meet end to end, if this leg carries them.
  Result<std::vector<DraftPiece>> meetingPieces(const Meeting& meeting, std::size_t leg, bool arrives) {
    const std::size_t mine =
        meeting.legs[0].duct == index_ && meeting.legs[0].leg == leg && meeting.legs[0].arrives == arrives
            ? 0
            : 1;
    if (meeting.legs.size() != 2 || meeting.inlet_of || meeting.outlet_of || carrier(meeting) != mine) {
      return std::vector<DraftPiece>();
    }
    const MeetingLeg& other = meeting.legs[1 - mine];
    const DrawnDuct& other_duct = drawing_.ducts[other.duct];
    const DrawnDuct& root = drawing_.ducts[meeting.root_duct];
    CornerBetween corner;
    corner.corner = &root.duct->corners[meeting.root_corner];
    corner.id = corner.corner->id;
    corner.place = cornerPlace(draft_, root, meeting.root_corner);
    corner.duct = root.duct;
    const DrawnLeg* here = &duct_.legs[leg];
    const DrawnLeg* there = &other_duct.legs[other.leg];
    corner.before = arrives ? here : there;
    corner.after = arrives ? there : here;
    corner.turn_rad =
        turnBetween(outward(duct_, leg, arrives), outward(other_duct, other.leg, other.arrives));
    return cornerPieces(draft_, corner);
  }

  Result<void> begin(Run& run, std::vector<DraftPiece>& pieces, std::size_t first) {
    const std::size_t at = duct_.meeting[first];
    const DrawnLeg& leg = duct_.legs[first];
    if (at != kNowhere) {
      const Meeting& meeting = drawing_.meetings[at];
      run.from = meeting.node;
      auto fittings = meetingPieces(meeting, first, false);
      if (!fittings) {
        return Failure(fittings.error());
      }
      append(pieces, std::move(*fittings));
      if (meeting.outlet_of && meeting.legs.size() == 1) {
        append(pieces, unitOutletPieces(draft_, *meeting.outlet_of, leg));
      }
      if (first == 0) {
        addSaddle(pieces, shopDuct().from, meeting, 0, leg.bore_m);
      }
      return {};
    }
    base::check(first == 0, "a run began inside a duct where nothing meets");
    const shop::DuctEnd& end = shopDuct().from;
    if (const auto* port = std::get_if<shop::PortRef>(&end)) {
      const MachineNodes& nodes = draft_.machine_nodes[draft_.machine(port->machine)];
      run.from = nodes.ports;
      return addEntry(pieces, *port, {}, leg);
    }
    if (const auto* moved = std::get_if<shop::MovedEnd>(&end)) {
      return beginMoved(run, *moved, leg);
    }
    if (const auto* free = std::get_if<shop::FreeAir>(&end)) {
      run.from = draft_.roomNode(free->room);
      auto entry = freeEntry(draft_, *free, shopDuct().id, shopDuct().label, leg.bore_m);
      if (!entry) {
        return Failure(entry.error());
      }
      pieces.push_back(std::move(*entry));
      return {};
    }
    base::check(std::holds_alternative<shop::OpenEnd>(end), "a joined duct end has no meeting");
    run.from = dead(0);
    run.closed = true;
    return {};
  }

  Result<void> finish(Run& run, std::vector<DraftPiece>& pieces, std::size_t last) {
    const std::size_t at = duct_.meeting[last];
    const DrawnLeg& leg = duct_.legs[last - 1];
    if (at != kNowhere) {
      const Meeting& meeting = drawing_.meetings[at];
      run.to = meeting.node;
      auto fittings = meetingPieces(meeting, last - 1, true);
      if (!fittings) {
        return Failure(fittings.error());
      }
      append(pieces, std::move(*fittings));
      if (meeting.inlet_of && meeting.legs.size() == 1) {
        append(pieces, unitInletPieces(draft_, *meeting.inlet_of, leg));
      }
      if (last == duct_.legs.size()) {
        addSaddle(pieces, shopDuct().to, meeting, last, leg.bore_m);
      }
      return {};
    }
    base::check(last == duct_.legs.size(), "a run ended inside a duct where nothing meets");
    const shop::DuctEnd& end = shopDuct().to;
    if (std::holds_alternative<shop::PortRef>(end) || std::holds_alternative<shop::MovedEnd>(end)) {
      return fail(
          ErrorCode::Unsupported,
          "a duct is drawn in the direction of the air, from a port toward the collector; this one ends "
          "at a machine's port",
          shopDuct().label);
    }
    if (const auto* free = std::get_if<shop::FreeAir>(&end)) {
      run.to = draft_.roomNode(free->room);
      auto outlet = freeOutlet(draft_, *free, shopDuct().id, shopDuct().label, leg.bore_m);
      if (!outlet) {
        return Failure(outlet.error());
      }
      pieces.push_back(std::move(*outlet));
      return {};
    }
    base::check(std::holds_alternative<shop::OpenEnd>(end), "a joined duct end has no meeting");
    run.to = dead(last);
    return {};
  }

  std::size_t dead(std::size_t corner) {
    return draft_.addNode(NodeKind::Dead, {Role::Run, shopDuct().id, cornerId(corner)},
                          fmt::format("{} ({})", shopDuct().label, corner == 0 ? "open start" : "open end"));
  }

  void addSaddle(std::vector<DraftPiece>& pieces, const shop::DuctEnd& end, const Meeting& meeting,
                 std::size_t corner, double bore_m) {
    const auto* on = std::get_if<shop::OnCorner>(&end);
    if (on == nullptr || !on->saddle || meeting.legs.size() < 3) {
      return;
    }
    DraftPiece out;
    out.piece.key = {Role::Saddle, cornerId(corner), {}};
    out.piece.label = fmt::format("{}: hand-cut saddle", shopDuct().label);
    out.piece.group = Group::Junction;
    out.piece.bore_m = bore_m;
    const auto row = catalogue::fitting(draft_.catalogue, "saddle");
    base::check(row.has_value(), "the catalogue has no saddle");
    out.piece.k_forward = out.piece.k_reverse = row->k;
    out.piece.source = sourceOf(row->origin, "K on the branch's velocity pressure");
    pieces.push_back(std::move(out));
  }

  Result<void> addEntry(std::vector<DraftPiece>& pieces, const shop::PortRef& ref, Id moved,
                        const DrawnLeg& leg) {
    auto entry = portEntry(draft_, ref, moved);
    if (!entry) {
      return Failure(entry.error());
    }
    const double port_bore_m = entry->piece.bore_m;
    const shop::Machine& machine = draft_.project.machines[draft_.machine(ref.machine)];
    const std::string label = portLabel(machine, draft_.port(ref));
    pieces.push_back(std::move(*entry));
    if (auto reducer = reducerPiece(draft_, {Role::Reducer, ref.port, moved}, label, port_bore_m, leg.bore_m,
                                    leg.leg->taper)) {
      pieces.push_back(std::move(*reducer));
    }
    return {};
  }

  void addPort(const shop::PortRef& ref, std::size_t run) {
    const std::size_t index = draft_.machine(ref.machine);
    const shop::Port& port = draft_.port(ref);
    PortPlace place;
    place.ref = ref;
    place.label = portLabel(draft_.project.machines[index], port);
    place.run = run;
    place.bore_m = port.bore.si();
    place.body_node = draft_.machine_nodes[index].body;
    draft_.out.ports.push_back(std::move(place));
  }

  Result<void> beginMoved(Run& run, const shop::MovedEnd& end, const DrawnLeg& leg) {
    const Id id = shopDuct().id;
    run.from =
        draft_.addNode(NodeKind::Joint, {Role::Hose, id, {}}, fmt::format("{}: moved end", shopDuct().label));
    MovedHose moved;
    moved.duct = id;
    moved.label = named(shopDuct().label, shopDuct().name);
    for (const shop::PortRef& ref : end.places) {
      Run entry;
      entry.key = {Role::Run, ref.port, id};
      entry.from = draft_.machine_nodes[draft_.machine(ref.machine)].ports;
      entry.to = run.from;
      entry.room = run.room;
      std::vector<DraftPiece> pieces;
      if (auto added = addEntry(pieces, ref, id, leg); !added) {
        return added;
      }
      entry.start_bore_m = pieces.front().piece.bore_m;
      entry.end_bore_m = leg.bore_m;
      addPort(ref, draft_.out.runs.size());
      entry.label = fmt::format("{} on {}", shopDuct().label, draft_.out.ports.back().label);
      moved.places.push_back({ref, draft_.addRun(std::move(entry), std::move(pieces))});
    }
    draft_.out.moved.push_back(std::move(moved));
    return {};
  }

  Draft& draft_;
  const Drawing& drawing_;
  std::size_t index_;
  const DrawnDuct& duct_;
};

/// A port takes one duct.
Result<void> checkPorts(const Draft& draft) {
  std::vector<shop::PortRef> taken;
  for (const shop::Duct& duct : draft.project.ducts) {
    if (const auto* port = std::get_if<shop::PortRef>(&duct.from)) {
      if (std::find(taken.begin(), taken.end(), *port) != taken.end()) {
        return fail(
            ErrorCode::Conflict,
            fmt::format("another duct already starts at {}; a second one must join at a corner",
                        portLabel(draft.project.machines[draft.machine(port->machine)], draft.port(*port))),
            duct.label);
      }
      taken.push_back(*port);
    }
  }
  return {};
}

}  // namespace

Result<RunsOfLegs> addDuctRuns(Draft& draft, const Drawing& drawing) {
  if (auto checked = checkPorts(draft); !checked) {
    return Failure(checked.error());
  }
  RunsOfLegs out;
  for (std::size_t d = 0; d < drawing.ducts.size(); ++d) {
    auto runs = DuctWalk(draft, drawing, d).walk();
    if (!runs) {
      return Failure(runs.error());
    }
    out.run.push_back(std::move(*runs));
  }
  return out;
}

}  // namespace kerfdraft::pieces
