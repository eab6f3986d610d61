// Edits of ducts, their corners and what hangs on them.
#include <fmt/format.h>

#include "shop/edit_parts.h"

namespace kerfdraft::shop {
namespace {

using base::Result;

/// Index of a corner; the last index + 1 where it is not there.
std::size_t indexOf(const Duct& duct, Id corner) {
  return static_cast<std::size_t>(std::find_if(duct.corners.begin(), duct.corners.end(),
                                               [&](const Corner& c) { return c.id == corner; }) -
                                  duct.corners.begin());
}

Given<base::Length> further(const Given<base::Length>& distance, double by_m) {
  return *Given<base::Length>::parse(fmt::format("{:.3f} mm", std::max(0.0, distance.si() + by_m) * 1e3),
                                     distance.standing(), distance.source());
}

/// Things at `from` that lie beyond `beyond_m` hang on corner `to`, `by_m` further along.
template <class Hung>
void hangOver(std::vector<Hung>& things, Id from, double beyond_m, Id to, double by_m) {
  for (Hung& each : things) {
    if (each.corner == from && each.distance.si() > beyond_m) {
      each.corner = to;
      each.distance = further(each.distance, by_m);
    }
  }
}

template <class Hung>
Result<void> putOnDuct(Project& project, Id duct, std::vector<Hung> Duct::*list, const Hung& thing) {
  // The thing may come from another duct: it hangs on one at a time.
  for (Duct& each : project.ducts) {
    if (each.id != duct) {
      std::erase_if(each.*list, [&](const Hung& there) { return there.id == thing.id; });
    }
  }
  Duct* on = find(project.ducts, duct);
  if (on == nullptr) {
    return notThere("duct", duct);
  }
  put(on->*list, thing);
  return {};
}

/// The point of a joint; nothing where the end is free or its hold is not there.
struct PlaceOf {
  Project& project;

  std::optional<Point> operator()(const PortRef& end) const {
    Machine* machine = find(project.machines, end.machine);
    Port* port = machine == nullptr ? nullptr : find(machine->ports, end.port);
    return port == nullptr ? std::nullopt : std::optional(port->at);
  }
  std::optional<Point> operator()(const CollectorInlet& end) const {
    Collector* collector = find(project.collectors, end.collector);
    return collector == nullptr ? std::nullopt : std::optional(collector->at);
  }
  std::optional<Point> operator()(const OnCorner& end) const {
    Duct* duct = find(project.ducts, end.duct);
    Corner* corner = duct == nullptr ? nullptr : find(duct->corners, end.corner);
    return corner == nullptr ? std::nullopt : std::optional(corner->at);
  }
  template <class Other>
  std::optional<Point> operator()(const Other& /*end*/) const {
    return std::nullopt;
  }
};

}  // namespace

Result<void> make(Project& project, const PutDuct& edit) {
  const Project before = project;
  put(project.ducts, edit.duct);
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const RemoveDuct& edit) {
  const Project before = project;
  const auto at = whereIs(project.ducts, edit.duct);
  if (at == project.ducts.end()) {
    return notThere("duct", edit.duct);
  }
  project.ducts.erase(at);
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const MoveCorner& edit) {
  Duct* duct = find(project.ducts, edit.duct);
  if (duct == nullptr) {
    return notThere("duct", edit.duct);
  }
  const std::size_t at = indexOf(*duct, edit.corner);
  if (at == duct->corners.size()) {
    return notThere(fmt::format("corner of duct {}", duct->label), edit.corner);
  }
  const Project before = project;
  moveCorner(*duct, at, edit.to);
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const InsertCorner& edit) {
  Duct* duct = find(project.ducts, edit.duct);
  if (duct == nullptr) {
    return notThere("duct", edit.duct);
  }
  const std::size_t after = indexOf(*duct, edit.after);
  if (after + 1 >= duct->corners.size()) {
    return notThere(fmt::format("leg of duct {} that begins at the corner that", duct->label), edit.after);
  }
  const double first_m = distance(duct->corners[after].at, edit.at);
  duct->corners.insert(duct->corners.begin() + static_cast<std::ptrdiff_t>(after) + 1,
                       Corner{edit.id, edit.at, {}, {}, {}});
  const auto over = [&](auto& things) { hangOver(things, edit.after, first_m, edit.id, -first_m); };
  over(duct->gates);
  over(duct->taps);
  over(duct->cleanouts);
  return {};
}

Result<void> make(Project& project, const RemoveCorner& edit) {
  Duct* duct = find(project.ducts, edit.duct);
  if (duct == nullptr) {
    return notThere("duct", edit.duct);
  }
  const std::size_t at = indexOf(*duct, edit.corner);
  if (at == 0 || at + 1 >= duct->corners.size()) {
    return base::fail(
        base::ErrorCode::Conflict,
        fmt::format("an end of duct {} is no corner that can go alone; remove the duct", duct->label),
        "edit");
  }
  for (const Duct& other : project.ducts) {
    for (const DuctEnd* end : {&other.from, &other.to}) {
      const auto* joined = std::get_if<OnCorner>(end);
      if (joined != nullptr && joined->corner == edit.corner) {
        return base::fail(base::ErrorCode::Conflict,
                          fmt::format("duct {} enters at this corner of duct {}; part them first",
                                      other.label, duct->label),
                          "edit");
      }
    }
  }
  const Corner& before = duct->corners[at - 1];
  const double first_m = distance(before.at, duct->corners[at].at);
  const double whole_m = distance(before.at, duct->corners[at + 1].at);
  const double both_m = first_m + distance(duct->corners[at].at, duct->corners[at + 1].at);
  const double share = both_m > 0 ? whole_m / both_m : 1;
  const Id keep = before.id;
  const auto over = [&](auto& things) {
    hangOver(things, edit.corner, -1, keep, first_m);
    for (auto& each : things) {
      if (each.corner == keep) {
        each.distance = further(each.distance, each.distance.si() * (share - 1));
      }
    }
  };
  over(duct->gates);
  over(duct->taps);
  over(duct->cleanouts);
  duct->corners.erase(duct->corners.begin() + static_cast<std::ptrdiff_t>(at));
  return {};
}

Result<void> make(Project& project, const JoinEnd& edit) {
  Duct* duct = find(project.ducts, edit.duct);
  if (duct == nullptr || duct->corners.empty()) {
    return notThere("duct", edit.duct);
  }
  const Project before = project;
  (edit.start ? duct->from : duct->to) = edit.end;
  if (const std::optional<Point> place = std::visit(PlaceOf{project}, edit.end)) {
    moveCorner(*duct, edit.start ? 0 : duct->corners.size() - 1, *place);
  }
  mendJoints(project, before);
  return {};
}

Result<void> make(Project& project, const PutGate& edit) {
  return putOnDuct(project, edit.duct, &Duct::gates, edit.gate);
}

Result<void> make(Project& project, const PutTap& edit) {
  return putOnDuct(project, edit.duct, &Duct::taps, edit.tap);
}

Result<void> make(Project& project, const PutCleanout& edit) {
  return putOnDuct(project, edit.duct, &Duct::cleanouts, edit.cleanout);
}

Result<void> make(Project& project, const RemoveFromDuct& edit) {
  const Project before = project;
  std::size_t gone = 0;
  for (Duct& duct : project.ducts) {
    const auto drop = [&](auto& things) {
      gone += std::erase_if(things, [&](const auto& each) { return each.id == edit.id; });
    };
    drop(duct.gates);
    drop(duct.taps);
    drop(duct.cleanouts);
  }
  if (gone == 0) {
    return notThere("gate, tap or cleanout", edit.id);
  }
  mendJoints(project, before);
  return {};
}

}  // namespace kerfdraft::shop
