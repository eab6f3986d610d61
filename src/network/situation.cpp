// A state of use as a situation.
#include <fmt/format.h>

#include <algorithm>

#include "network/network.h"

namespace kerfdraft::network {
namespace {

template <class Items, class Match>
std::size_t indexOf(const Items& items, Match match) {
  return static_cast<std::size_t>(std::find_if(items.begin(), items.end(), match) - items.begin());
}

base::Failure unknownId(const shop::State& state, const char* what, base::Id id) {
  return base::fail(base::ErrorCode::Reference,
                    fmt::format("names the {} {}, which is not in the drawing", what, id.text()),
                    fmt::format("state \"{}\"", state.name));
}

}  // namespace

Situation restingSituation(const pieces::Pieces& pieces) {
  Situation s;
  s.gate_travel.assign(pieces.gates.size(), 0.0);
  s.hose_place.assign(pieces.moved.size(), -1);
  s.fan_on.assign(pieces.fans.size(), 1);
  for (const pieces::Opening& o : pieces.openings) {
    s.opening_open.push_back(o.usually_open ? 1 : 0);
  }
  s.group_factor.fill(1.0);
  s.run_factor.assign(pieces.runs.size(), 1.0);
  s.solids_kg_s.assign(pieces.ports.size(), 0.0);
  return s;
}

base::Result<Situation> situationOf(const pieces::Pieces& pieces, const shop::Project& project,
                                    const shop::State& state) {
  Situation s = restingSituation(pieces);
  s.filter = state.filter;
  for (const shop::GateSetting& g : state.gates) {
    const std::size_t at = indexOf(pieces.gates, [&](const pieces::GatePlace& p) { return p.id == g.gate; });
    if (at == pieces.gates.size()) {
      return unknownId(state, "gate", g.gate);
    }
    s.gate_travel[at] = g.travel.si();
  }
  for (const shop::HosePlace& h : state.hoses) {
    const std::size_t at =
        indexOf(pieces.moved, [&](const pieces::MovedHose& m) { return m.duct == h.duct; });
    if (at == pieces.moved.size()) {
      return unknownId(state, "moved hose", h.duct);
    }
    const auto& places = pieces.moved[at].places;
    const std::size_t place =
        indexOf(places, [&](const pieces::MovedHose::Place& p) { return p.ref == h.place; });
    if (place == places.size()) {
      return unknownId(state, "hose place at port", h.place.port);
    }
    s.hose_place[at] = static_cast<int>(place);
  }
  for (const base::Id off : state.off) {
    const std::size_t at = indexOf(pieces.fans, [&](const pieces::Fan& f) { return f.id == off; });
    if (at == pieces.fans.size()) {
      return unknownId(state, "collector or blower", off);
    }
    s.fan_on[at] = 0;
  }
  for (const base::Id swung : state.swung) {
    const std::size_t at = indexOf(pieces.openings, [&](const pieces::Opening& o) { return o.id == swung; });
    if (at == pieces.openings.size()) {
      return unknownId(state, "door or window", swung);
    }
    s.opening_open[at] = pieces.openings[at].usually_open ? 0 : 1;
  }
  // What a machine throws is shared by its ports in proportion to their bores' areas.
  for (const shop::Machine& machine : project.machines) {
    if (!machine.waste) {
      continue;
    }
    double area = 0;
    for (const shop::Port& port : machine.ports) {
      area += port.bore.si() * port.bore.si();
    }
    for (std::size_t p = 0; p < pieces.ports.size(); ++p) {
      if (pieces.ports[p].ref.machine == machine.id && area > 0) {
        s.solids_kg_s[p] = machine.waste->si() * pieces.ports[p].bore_m * pieces.ports[p].bore_m / area;
      }
    }
  }
  return s;
}

}  // namespace kerfdraft::network
