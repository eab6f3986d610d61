// What holds things together when one of them moves or goes.
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <set>

#include "shop/edit_parts.h"

namespace kerfdraft::shop {
namespace {

struct Shift {
  std::int64_t x_um = 0;
  std::int64_t y_um = 0;
  std::int64_t z_um = 0;
  bool none() const { return x_um == 0 && y_um == 0 && z_um == 0; }
};

Shift between(const Point& from, const Point& to) {
  return {to.x_um - from.x_um, to.y_um - from.y_um, to.z_um - from.z_um};
}

Point moved(const Point& point, const Shift& by) {
  return {point.x_um + by.x_um, point.y_um + by.y_um, point.z_um + by.z_um};
}

/// The length as a text with a unit; its standing stays that of what it was worked out from.
Given<base::Length> lengthLike(double m, const Given<base::Length>& like) {
  return *Given<base::Length>::parse(fmt::format("{:.3f} mm", m * 1e3), like.standing(), like.source());
}

template <class Hung>
void keepShare(std::vector<Hung>& things, Id corner, double share, double length_m) {
  for (Hung& each : things) {
    if (each.corner == corner) {
      each.distance = lengthLike(std::min(each.distance.si() * share, length_m), each.distance);
    }
  }
}

/// Where joints are: ports and inlets by id, corners by id.
struct Places {
  explicit Places(const Project& project) {
    for (const Machine& machine : project.machines) {
      for (const Port& port : machine.ports) {
        at.emplace(port.id, port.at);
      }
    }
    for (const Collector& collector : project.collectors) {
      at.emplace(collector.id, collector.at);
    }
    for (const Duct& duct : project.ducts) {
      for (std::size_t k = 1; k + 1 < duct.corners.size(); ++k) {
        inner.emplace(duct.corners[k].id, std::pair(duct.id, duct.corners[k].at));
      }
    }
  }
  std::map<Id, Point> at;
  std::map<Id, std::pair<Id, Point>> inner;  ///< corners at which a branch may enter, with their duct
};

class Mender {
 public:
  Mender(Project& project, const Project& before) : project_(project), before_(before), now_(project) {}

  void ends() {
    for (Duct& duct : project_.ducts) {
      if (duct.corners.size() < 2) {
        continue;  // said by the invariants
      }
      end(duct, true);
      end(duct, false);
    }
    // A main's inner corner may have moved with its end, so what is joined to corners comes last.
    now_ = Places(project_);
    for (Duct& duct : project_.ducts) {
      for (const bool start : {true, false}) {
        onCorner(duct, start);
      }
    }
  }

 private:
  static DuctEnd& endOf(Duct& duct, bool start) { return start ? duct.from : duct.to; }

  void end(Duct& duct, bool start) {
    DuctEnd& joined = endOf(duct, start);
    if (const auto* port = std::get_if<PortRef>(&joined)) {
      follow(duct, start, port->port);
    } else if (auto* places = std::get_if<MovedEnd>(&joined)) {
      std::erase_if(places->places, [&](const PortRef& each) { return !now_.at.contains(each.port); });
      if (places->places.empty()) {
        joined = OpenEnd{};
      }
    } else if (const auto* inlet = std::get_if<CollectorInlet>(&joined)) {
      follow(duct, start, inlet->collector);
    } else if (const auto* outlet = std::get_if<CollectorOutlet>(&joined)) {
      if (!now_.at.contains(outlet->collector)) {
        joined = OpenEnd{};
      }
    } else if (auto* air = std::get_if<FreeAir>(&joined)) {
      if (air->room.valid() && find(project_.rooms, air->room) == nullptr) {
        air->room = {};
      }
    }
  }

  void follow(Duct& duct, bool start, Id hold) {
    const auto now = now_.at.find(hold);
    if (now == now_.at.end()) {
      endOf(duct, start) = OpenEnd{};
      return;
    }
    const auto was = before_.at.find(hold);
    const Shift by = was == before_.at.end() ? Shift{} : between(was->second, now->second);
    if (by.none()) {
      return;
    }
    const std::size_t last = duct.corners.size() - 1;
    const std::size_t self = start ? 0 : last;
    const std::size_t next = start ? 1 : last - 1;
    const Point old = duct.corners[self].at;
    const Point beside = duct.corners[next].at;
    if (last > 1 && old.x_um == beside.x_um && old.y_um == beside.y_um && (by.x_um != 0 || by.y_um != 0)) {
      moveCorner(duct, next, moved(beside, {by.x_um, by.y_um, 0}));
    }
    moveCorner(duct, self, moved(old, by));
  }

  void onCorner(Duct& duct, bool start) {
    const auto* joined = std::get_if<OnCorner>(&endOf(duct, start));
    if (joined == nullptr) {
      return;
    }
    const auto corner = now_.inner.find(joined->corner);
    if (corner == now_.inner.end() || corner->second.first != joined->duct) {
      endOf(duct, start) = OpenEnd{};
      return;
    }
    if (duct.corners.size() >= 2) {
      moveCorner(duct, start ? 0 : duct.corners.size() - 1, corner->second.second);
    }
  }

  Project& project_;
  Places before_;
  Places now_;
};

void forgetInStates(Project& project) {
  std::set<Id> gates;
  std::set<Id> swings;
  std::set<Id> fans;
  for (const Room& room : project.rooms) {
    for (const Opening& opening : room.openings) {
      swings.insert(opening.id);
    }
  }
  for (const Machine& machine : project.machines) {
    if (machine.blower) {
      fans.insert(machine.blower->id);
    }
  }
  for (const Collector& collector : project.collectors) {
    fans.insert(collector.id);
  }
  std::map<Id, const MovedEnd*> hoses;
  for (const Duct& duct : project.ducts) {
    if (const auto* end = std::get_if<MovedEnd>(&duct.from)) {
      hoses.emplace(duct.id, end);
    }
    for (const Gate& gate : duct.gates) {
      gates.insert(gate.id);
    }
  }
  for (State& state : project.states) {
    std::erase_if(state.gates, [&](const GateSetting& each) { return !gates.contains(each.gate); });
    std::erase_if(state.off, [&](Id each) { return !fans.contains(each); });
    std::erase_if(state.swung, [&](Id each) { return !swings.contains(each); });
    std::erase_if(state.hoses, [&](const HosePlace& each) {
      const auto hose = hoses.find(each.duct);
      return hose == hoses.end() || std::find(hose->second->places.begin(), hose->second->places.end(),
                                              each.place) == hose->second->places.end();
    });
  }
}

}  // namespace

void moveCorner(Duct& duct, std::size_t corner, const Point& to) {
  if (duct.corners[corner].at == to) {
    return;
  }
  std::vector<double> before;
  for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
    before.push_back(distance(duct.corners[k].at, duct.corners[k + 1].at));
  }
  duct.corners[corner].at = to;
  for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
    const double length_m = distance(duct.corners[k].at, duct.corners[k + 1].at);
    if (length_m != before[k] && before[k] > 0) {
      keepShare(duct.gates, duct.corners[k].id, length_m / before[k], length_m);
      keepShare(duct.taps, duct.corners[k].id, length_m / before[k], length_m);
      keepShare(duct.cleanouts, duct.corners[k].id, length_m / before[k], length_m);
    }
  }
}

void mendJoints(Project& project, const Project& before) {
  Mender(project, before).ends();
  forgetInStates(project);
}

}  // namespace kerfdraft::shop
