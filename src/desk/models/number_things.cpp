// By the ids in the keys of pieces.
#include "desk/models/number_things.h"

#include <algorithm>

namespace kerfdraft::desk {

namespace {

using judge::Element;

void add(std::vector<base::Id>& out, base::Id id) {
  if (id.valid() && std::find(out.begin(), out.end(), id) == out.end()) {
    out.push_back(id);
  }
}

void add(std::vector<base::Id>& out, const pieces::PieceKey& key) {
  add(out, key.a);
  add(out, key.b);
}

}  // namespace

std::vector<base::Id> thingsOfNumber(const pieces::Pieces& drawing, const judge::NumberKey& key) {
  std::vector<base::Id> out;
  switch (key.element) {
    case Element::Node:
      add(out, drawing.nodes[key.index].key);
      break;
    case Element::Run:
      // Its own key names what stands at its ends, which may be another's.
      for (const pieces::Piece& piece : drawing.runs[key.index].pieces) {
        add(out, piece.key);
      }
      add(out, drawing.runs[key.index].key);
      break;
    case Element::Piece:
      add(out, drawing.runs[key.index].pieces[key.piece].key);
      break;
    case Element::Port:
      add(out, drawing.ports[key.index].ref.port);
      add(out, drawing.ports[key.index].ref.machine);
      break;
    case Element::Fan:
      add(out, drawing.fans[key.index].id);
      break;
    case Element::Opening:
      add(out, drawing.openings[key.index].id);
      add(out, drawing.openings[key.index].key);
      break;
    case Element::Air:
      break;
  }
  return out;
}

Belongings::Belongings(const shop::Project& project) {
  for (const shop::Room& room : project.rooms) {
    for (const shop::Opening& opening : room.openings) {
      holder_[opening.id] = room.id;
    }
  }
  for (const shop::Machine& machine : project.machines) {
    for (const shop::Port& port : machine.ports) {
      holder_[port.id] = machine.id;
    }
    if (machine.blower) {
      holder_[machine.blower->id] = machine.id;
    }
  }
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Corner& corner : duct.corners) {
      holder_[corner.id] = duct.id;
    }
    for (const shop::Gate& gate : duct.gates) {
      holder_[gate.id] = duct.id;
    }
    for (const shop::Access& tap : duct.taps) {
      holder_[tap.id] = duct.id;
    }
    for (const shop::Access& cleanout : duct.cleanouts) {
      holder_[cleanout.id] = duct.id;
    }
  }
  for (const shop::Collector& unit : project.collectors) {
    for (const shop::Filter& filter : unit.filters) {
      holder_[filter.id] = unit.id;
    }
    for (const shop::Separator& separator : unit.separators) {
      holder_[separator.id] = unit.id;
    }
  }
}

bool Belongings::anyOf(const std::vector<base::Id>& ids, const std::set<base::Id>& things) const {
  return std::any_of(ids.begin(), ids.end(), [&](base::Id id) {
    const auto holder = holder_.find(id);
    return things.contains(id) || (holder != holder_.end() && things.contains(holder->second));
  });
}

}  // namespace kerfdraft::desk
